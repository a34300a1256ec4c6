//! The plans a command is about.

use crate::choice::PenChoice;
use crate::warn::LeftOut;
use quillet_model::{Bench, Design, Part};
use quillet_plan::{Plan, plan_parts, plan_pen};
use std::sync::Arc;

/// A plan with what it is of.
pub(crate) struct Planned<'d> {
    /// The pen's title, or the parts' names.
    pub(crate) title: String,
    /// The plan.
    pub(crate) plan: Plan,
    /// The bench it is made at.
    pub(crate) bench: Option<&'d Bench>,
}

/// The plans of the pens meant; one of all parts where the file has no pen. Parts that cannot be
/// made as they stand are left out.
///
/// # Errors
///
/// A sentence that names the pens there are, or says that nothing is cut.
pub(crate) fn plans<'d>(
    design: &'d Design,
    pen: &PenChoice,
    left_out: &mut LeftOut,
) -> Result<Vec<Planned<'d>>, String> {
    let bench = |named| design.bench(named).map(AsRef::as_ref);
    let pens = pen.pens(design)?;
    let mut known = |part: &Part| left_out.is_known(part, part.lacks_making());
    let of_pens = pens.iter().map(|pen| {
        for part in &pen.parts {
            known(part);
        }
        let bench = bench(pen.bench.as_ref());
        let title = pen.title_or_name();
        Planned {
            title: title.to_string(),
            plan: plan_pen(pen, bench),
            bench,
        }
    });
    let mut plans: Vec<Planned> = of_pens.collect();
    if pens.is_empty() {
        let root = design.root().map(|file| file.id);
        let own = |part: &&Arc<Part>| !part.is_bought() && Some(part.span.file) == root;
        let parts = design.parts.iter().filter(own);
        let parts: Vec<Arc<Part>> = parts.filter(|part| known(part)).cloned().collect();
        let bench = bench(parts.iter().find_map(|part| part.bench.as_ref()));
        let names: Vec<&str> = parts.iter().map(|part| &*part.name.text).collect();
        if !parts.is_empty() {
            let (title, plan) = (names.join(", "), plan_parts(&parts, bench));
            plans.push(Planned { title, plan, bench });
        }
    }
    match plans.is_empty() && left_out.is_empty() {
        true => Err("there is no part in this file that is cut".into()),
        false => Ok(plans),
    }
}
