//! `quillet tools`: every tool a pen is made with, and what of it is to be had.

use crate::lists::Args;
use quillet_export::report::ToolReport;
use std::process::ExitCode;

/// Lists; as [`Args::list`] ends.
pub(crate) fn run(args: &Args) -> ExitCode {
    args.list(ToolReport::of, ToolReport::text)
}
