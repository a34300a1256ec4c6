//! The plans a command is about.

use crate::choice::PenChoice;
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

/// The plans of the pens meant; one of all parts where the file has no pen.
///
/// # Errors
///
/// A sentence that names the pens there are, or says that nothing is cut.
pub(crate) fn plans<'d>(design: &'d Design, pen: &PenChoice) -> Result<Vec<Planned<'d>>, String> {
    let bench = |named| design.bench(named).map(AsRef::as_ref);
    let pens = pen.pens(design)?;
    let of_pens = pens.iter().map(|pen| {
        let bench = bench(pen.bench.as_ref());
        let title = pen
            .title
            .as_ref()
            .map_or(&pen.name.text, |title| &title.text);
        Planned {
            title: title.to_string(),
            plan: plan_pen(pen, bench),
            bench,
        }
    });
    let mut plans: Vec<Planned> = of_pens.collect();
    if pens.is_empty() {
        let root = design.root().map(|file| file.id);
        let own = |part: &&Arc<Part>| !part.bought && Some(part.span.file) == root;
        let parts: Vec<Arc<Part>> = design.parts.iter().filter(own).cloned().collect();
        let bench = bench(parts.iter().find_map(|part| part.bench.as_ref()));
        let names: Vec<&str> = parts.iter().map(|part| &*part.name.text).collect();
        if !parts.is_empty() {
            let (title, plan) = (names.join(", "), plan_parts(&parts, bench));
            plans.push(Planned { title, plan, bench });
        }
    }
    match plans.is_empty() {
        true => Err("there is no part in this file that is cut".into()),
        false => Ok(plans),
    }
}
