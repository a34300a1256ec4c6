//! What has been resolved so far, by name; looked up only, never walked.

use crate::{BlankDef, DefinitionId, Material, Part, ThreadDef};
use quillet_syntax::Span;
use std::collections::{HashMap, HashSet};
use std::sync::Arc;

/// Resolved items by name, and definitions by where their name stands.
#[derive(Default)]
pub(super) struct ResolvedItems {
    pub(super) threads: HashMap<Arc<str>, Arc<ThreadDef>>,
    pub(super) materials: HashMap<Arc<str>, Arc<Material>>,
    pub(super) blanks: HashMap<Arc<str>, Arc<BlankDef>>,
    pub(super) parts: HashMap<Arc<str>, KnownPart>,
    /// Faces and local `let`s.
    pub(super) definitions: HashMap<Span, DefinitionId>,
}

/// A part as the files' own `let`s give it, and the names that its sums look up: a pen whose
/// `let`s are none of them sees the same part.
pub(super) struct KnownPart {
    pub(super) part: Arc<Part>,
    pub(super) names: HashSet<Arc<str>>,
}
