//! `quillet cut`: what to saw off which stock.

use crate::lists::ListArgs;
use quillet_export::report::CutReport;
use std::process::ExitCode;

/// Lists; as [`ListArgs::list`] ends.
pub(crate) fn run(args: &ListArgs) -> ExitCode {
    args.list(|planned, _| CutReport::of(planned), CutReport::text)
}
