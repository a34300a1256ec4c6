//! `quillet tools`: every tool a pen is made with, and what of it is to be had.

use crate::lists::ListArgs;
use quillet_export::report::ToolReport;
use quillet_pen::Planned;
use std::process::ExitCode;

/// Lists; as [`ListArgs::list`] ends.
pub(crate) fn run(args: &ListArgs) -> ExitCode {
    let each = |planned: &[Planned<'_>], units| {
        let each = planned.iter().map(|it| ToolReport::of(it, units));
        each.collect()
    };
    args.list(each, ToolReport::text)
}
