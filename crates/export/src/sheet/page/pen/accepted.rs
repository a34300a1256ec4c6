//! What was accepted, in one column of the first page or in both.

use super::super::canvas::{BODY, STRONG};
use crate::sheet::content::Content;
use std::ops::Range;

/// From line to line, mm.
pub(super) const LEADING: f64 = 4.3;

/// What is wrong with the pen, before the first, and some of what was accepted, in lines no wider than said.
pub(super) fn lines(c: &Content, which: Range<usize>, width: f64) -> Vec<String> {
    let warning = c.warning.iter().filter(|_| which.start == 0);
    let warning = warning.flat_map(|it| STRONG.lines(it, width));
    let each = c.accepted.iter().take(which.end).skip(which.start);
    let each = each.flat_map(|it| {
        let caption = format!("Accepted: {} – “{}”.", it.message, it.because);
        BODY.lines(&caption, width)
    });
    warning.chain(each).collect()
}
