//! `--baseline`: what was found before, in a revision or in a file that `check` wrote.

use super::{CheckArgs, look_at_all};
use crate::at::At;
use crate::rooted::Rooted;
use quillet_compare::Baseline;
use quillet_export::report::baseline_of_sarif;
use std::path::Path;

/// What was found before. A path that is there wins over a revision of that name.
///
/// # Errors
///
/// A sentence that says why it cannot be had.
pub(super) fn baseline(
    wanted: &str,
    args: &CheckArgs,
    rooted: &Rooted,
) -> Result<Baseline, String> {
    let path = Path::new(wanted);
    if path.exists() || path.extension().is_some_and(|it| it == "sarif") {
        let text = quillet_ide::text_at(path).map_err(|error| format!("{wanted}: {error}"))?;
        return baseline_of_sarif(&text).map_err(|why| format!("{wanted}: {why}"));
    }
    // A file that was not there then had nothing found in it.
    let mut whole = look_at_all(args, &At::revision_named(wanted))?.whole;
    whole.put_in_order();
    Ok(whole.baseline(&|file| rooted.name(file)))
}
