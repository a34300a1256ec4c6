//! `quillet cut`: what to saw off which stock.

use crate::lists::Args;
use quillet_export::report::CutReport;
use std::process::ExitCode;

/// Lists; as [`Args::list`] ends.
pub(crate) fn run(args: &Args) -> ExitCode {
    args.list(|planned, _| CutReport::of(planned), CutReport::text)
}
