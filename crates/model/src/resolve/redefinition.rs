//! A name that is given to a second item.

use crate::DefinitionKind;
use quillet_syntax::Span;

/// A second definition of a name.
pub(super) struct Redefinition {
    /// Where the name stands.
    pub(super) at: Span,
    pub(super) kind: DefinitionKind,
}
