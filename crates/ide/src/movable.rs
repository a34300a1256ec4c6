//! The numbers that can be moved from an editor.

use quillet_model::{Design, SourceFile};
use quillet_room::Numbers;

/// Those of the file asked for; none of another, nor of a design that could not all be resolved.
pub(crate) fn numbers(design: &Design, file: &SourceFile) -> Option<Numbers> {
    let sound = design.root()?.id == file.id && design.findings.is_empty();
    sound.then(|| Numbers::of(design).in_file(file.id))
}
