//! A relief behind an outside thread, so that it comes home to its shoulder.

use super::Proposal;
use crate::edits;
use crate::shape;
use quillet_model::{CutId, Design, Part};
use quillet_syntax::ast::Side;
use quillet_syntax::{Size, text};

/// A relief from the end of an outside thread to the shoulder behind it, a little below the
/// thread's root; none where one is there, or nothing stands behind.
pub(crate) fn relieved(design: &Design, part: &Part, thread: CutId) -> Option<Proposal> {
    let threaded = shape::threads(part, Side::Outside).find(|it| it.index == thread)?;
    let (cut, form) = (threaded.feature, &threaded.thread.thread);
    let shoulder = shape::shoulder_behind(part, cut.end, cut.to, form.major())
        .or_else(|| shape::tenon_under(part, &threaded).map(|tenon| tenon.to))?;
    let long = shoulder - cut.to;
    let dia = design.units_at(part.span).down(form.root_diameter());
    if part.is_bought() || !long.is_positive() {
        return None;
    }
    let statement = text!(
        "relief {} for {} at {}",
        Size::Written(dia),
        Size::Written(long),
        Size::Written(cut.to)
    );
    let edit = edits::before(design, cut.span, statement.clone());
    Some((text!("add {}", statement), vec![edit]))
}
