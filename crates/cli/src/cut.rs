//! `quillet cut`: what to saw off which stock.

use crate::lists::Args;
use crate::plans::Planned;
use quillet_export::report::CutReport;
use quillet_plan::CutList;
use std::process::ExitCode;

/// Lists; as [`Args::list`] ends.
pub(crate) fn run(args: &Args) -> ExitCode {
    let of = |it: &Planned<'_>, _| CutReport::of(&it.title, &CutList::of(&it.plan, it.bench));
    args.list(of, CutReport::text)
}
