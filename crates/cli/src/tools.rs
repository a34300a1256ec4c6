//! `quillet tools`: every tool a pen is made with, and what of it is to be had.

use crate::lists::ListArgs;
use quillet_export::report::ToolReport;
use std::process::ExitCode;

/// Lists; as [`ListArgs::list`] ends.
pub(crate) fn run(args: &ListArgs) -> ExitCode {
    args.list(ToolReport::of, ToolReport::text)
}
