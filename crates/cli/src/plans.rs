//! The plans a command is about.

use crate::batch::Counted;
use crate::warn::OmissionWarnings;
use quillet_model::{Design, Part};
use quillet_pen::Planned;
use std::sync::Arc;

/// The plans of the pens meant; one of all parts where the file has no pen. Parts that cannot be
/// made as they stand are left out.
///
/// # Errors
///
/// A sentence that says that nothing is cut.
pub(crate) fn plans<'d>(
    design: &'d Design,
    pens: &[Counted<'d>],
    left_out: &mut OmissionWarnings,
) -> Result<Vec<Planned<'d>>, String> {
    let mut known = |part: &Part| left_out.is_known(part, part.lacks_making());
    let of_pens = pens.iter().map(|(pen, count)| {
        for part in &pen.parts {
            known(part);
        }
        Planned::of_pen(design, pen).times(*count)
    });
    let mut plans: Vec<Planned> = of_pens.collect();
    if pens.is_empty() {
        let root = design.root().map(|file| file.id);
        let own = |part: &&Arc<Part>| !part.is_bought() && Some(part.span.file) == root;
        let parts = design.parts.iter().filter(own);
        let parts: Vec<Arc<Part>> = parts.filter(|part| known(part)).cloned().collect();
        if !parts.is_empty() {
            plans.push(Planned::of_parts(design, &parts));
        }
    }
    match plans.is_empty() && left_out.is_empty() {
        true => Err("there is no part in this file that is cut".into()),
        false => Ok(plans),
    }
}
