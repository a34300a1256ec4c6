//! `quillet cut`: what to saw off which stock.

use crate::lists::ListArgs;
use quillet_export::report::CutReport;
use quillet_pen::Planned;
use std::process::ExitCode;

/// Lists; as [`ListArgs::list`] ends.
pub(crate) fn run(args: &ListArgs) -> ExitCode {
    let together = args.is_batch();
    let lists = |planned: &[Planned<'_>], _| match together {
        true => vec![CutReport::of(planned)],
        false => planned.chunks(1).map(CutReport::of).collect(),
    };
    args.list(lists, CutReport::text)
}
