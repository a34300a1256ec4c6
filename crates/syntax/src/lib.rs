//! Text to tokens, a spanned tree and findings; the formatter; the line index.
//!
//! Every input yields a tree: what cannot be read becomes a `Bad` node and a
//! `syntax` finding, and everything undamaged around it is kept. Nothing here
//! reads files, knows what a unit measures, or draws.

pub mod ast;
mod finding;
mod span;

pub use finding::{Edit, Finding, Fix, Label, Severity};
pub use span::{FileId, Span, Spanned};
