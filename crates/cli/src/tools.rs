//! `quillet tools`: every tool a pen is made with, and what of it is to be had.

use crate::lists::Args;
use crate::plans::Planned;
use quillet_export::report::ToolReport;
use std::process::ExitCode;

/// Lists; as [`Args::list`] ends.
pub(crate) fn run(args: &Args) -> ExitCode {
    let of = |it: &Planned<'_>, units| ToolReport::of(&it.title, &it.plan, it.bench, units);
    args.list(of, ToolReport::text)
}
