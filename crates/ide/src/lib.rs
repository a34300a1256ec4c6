//! One file a question an editor asks; plain data in, plain data out.
//!
//! A [`Workspace`] holds the texts; a [`Snapshot`] of it never changes, and every
//! question is asked of one, mostly through the [`Analysis`] of a file and a [`Cursor`]
//! in it. Places are spans of bytes: what an editor counts is no business of this
//! crate, nor is when to work or on which thread.

mod actions;
mod analysis;
mod beside;
mod compared;
mod completion;
mod cursor;
mod disk;
mod documentation_key;
mod facts;
mod file_cache;
mod folding;
mod formatting;
mod forms;
mod hierarchy;
mod highlighting;
mod hover;
mod inlay;
mod lens;
mod links;
mod movable;
mod names;
mod past;
mod preview;
mod room_hints;
pub mod rules;
mod selection;
mod settings;
mod sheet;
mod shelves;
mod signature;
mod sizes;
mod snapshot;
mod spread;
mod statement;
mod symbols;
mod text;
mod uses;
mod value;
mod workspace;

pub use actions::{Action, ActionKind, actions};
pub use analysis::Analysis;
pub use beside::files_beside;
pub use compared::{ComparedPages, compared, lenses_since};
pub use completion::{Choice, ChoiceKind, Completion, about, complete};
pub use cursor::Cursor;
pub use disk::{files_in, is_design};
pub use documentation_key::DocumentationKey;
pub use folding::{Fold, FoldKind, folds};
pub use formatting::{format, format_on_type, format_range, format_ranges};
pub use forms::stop_of;
pub use hierarchy::{Relation, item, used_by, uses};
pub use highlighting::{ClassifiedToken, SemanticTokenKind, colours};
pub use hover::{Hover, hover, hover_until};
pub use inlay::{Inlay, inlays};
pub use lens::{Lens, LensTarget, lenses};
pub use links::{Link, links};
pub use names::{
    NameLocation, definition, highlights, linked, references, renamable, rename, type_definition,
};
pub use past::{Namer, Past};
pub use preview::{Picture, Preview, preview, preview_of};
pub use room_hints::room_hints;
pub use selection::selections;
pub use settings::{HintKinds, Settings, Units};
pub use signature::{Signature, signature};
pub use snapshot::Snapshot;
pub use spread::spread;
pub use symbols::{Symbol, SymbolKind, WorkspaceSymbol, find, symbols};
pub use text::{text_at, text_of};
pub use uses::{PathEdit, renamed, users};
pub use workspace::Workspace;
