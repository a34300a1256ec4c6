//! The plans a command is about.

use crate::choice::PenChoice;
use quillet_model::{Bench, Design};
use quillet_plan::{Plan, plan_part, plan_pen};

/// A plan with what it is of.
pub(crate) struct Planned<'d> {
    /// The pen's title, or the part's name.
    pub(crate) title: String,
    /// The plan.
    pub(crate) plan: Plan,
    /// The bench it is made at.
    pub(crate) bench: Option<&'d Bench>,
}

/// The plans of the pens meant; of every part by itself where the file has no pen.
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
    let root = design.root().map(|file| file.id);
    let alone = design
        .parts
        .iter()
        .filter(|part| pens.is_empty() && !part.bought && Some(part.span.file) == root);
    let of_parts = alone.map(|part| {
        let bench = bench(part.bench.as_ref());
        Planned {
            title: part.name.text.to_string(),
            plan: plan_part(part, bench),
            bench,
        }
    });
    let plans: Vec<Planned> = of_pens.chain(of_parts).collect();
    match plans.is_empty() {
        true => Err("there is no part in this file that is cut".into()),
        false => Ok(plans),
    }
}
