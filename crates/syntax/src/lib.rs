//! Text to tokens, a spanned tree and findings; the formatter; the line index.
//!
//! Every input yields a tree: what cannot be read becomes a `Bad` node and a
//! `syntax` finding, and everything undamaged around it is kept. Nothing here
//! reads files, works out what is written, or draws.

pub mod ast;
mod conflict;
pub mod exact;
mod finding;
mod finding_log;
mod format;
pub mod grammar;
mod layout;
mod line_index;
mod number;
mod parse;
mod span;
mod suggest;
mod token;
pub mod visit;

pub use finding::{
    Edit, Finding, Fix, Label, RuleId, Severity, Size, SizedText, ToText, edited, moved,
};
pub use format::{format, format_edits, loosened};
pub use line_index::{Encoding, LineIndex, Position};
pub use parse::{Expected, Parsed, Thing, expected, parse};
pub use span::{FileId, Span, Spanned};
pub use suggest::nearest;
pub use token::{Token, TokenKind, lex};
