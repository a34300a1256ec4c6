//! A number that is out of all range: its unit another, its decimal point a place further left, or
//! a whole number.

use super::Proposal;
use quillet_model::Design;
use quillet_syntax::{Edit, Finding, Span, text};

/// What may have been meant by a number that a finding points at: it without its unit; a tenth of
/// it; of one with decimals the whole numbers beside it.
pub(crate) fn slipped(design: &Design, finding: &Finding) -> Vec<Proposal> {
    let numbers = numbers_in(design, finding.span);
    // Which of several slipped is a guess, and none is needed where a cure is known.
    if numbers.len() > 1 && !finding.fixes.is_empty() {
        return Vec::new();
    }
    numbers
        .into_iter()
        .flat_map(|(span, number)| unitless(design, span, number).chain(meant(span, number)))
        .collect()
}

/// The number without the unit that stands behind it.
fn unitless(design: &Design, number: Span, written: &str) -> impl Iterator<Item = Proposal> {
    let end = number.range().end;
    let file = design.file(number.file);
    let behind = file
        .and_then(|file| file.text.get(end..))
        .unwrap_or_default();
    let unit = ["in", "mm"].into_iter().find(|unit| {
        let after = behind.strip_prefix(unit);
        after.is_some_and(|after| !after.starts_with(|c: char| c.is_alphanumeric() || c == '-'))
    });
    let proposal = unit.map(|unit| {
        let span = Span::new(number.file, end, end + unit.len());
        let title = text!("write {} for {}{}", written, written, unit);
        (title, vec![Edit::new(span, "")])
    });
    proposal.into_iter()
}

fn meant(span: Span, number: &str) -> Vec<Proposal> {
    let Ok(value) = number.parse::<f64>() else {
        return Vec::new();
    };
    let tenth = (value / 10.0 * 1e6).round() / 1e6;
    let meant = match number.contains('.') {
        true => vec![tenth, value.floor(), value.ceil()],
        false => vec![tenth],
    };
    let written = |value: f64| {
        let words = value.to_string();
        let edit = Edit::new(span, words.as_str());
        (text!("write {} for {}", words, number), vec![edit])
    };
    meant.into_iter().map(written).collect()
}

/// The numbers within a span, without their units.
fn numbers_in(design: &Design, within: Span) -> Vec<(Span, &str)> {
    let reported = design.text(within);
    let is_number = |c: char| c.is_ascii_digit() || c == '.';
    let runs = reported
        .split(|c: char| !is_number(c))
        .filter(|run| run.starts_with(|c: char| c.is_ascii_digit()));
    let placed = |number: &'_ str| {
        let start = within.start as usize + (number.as_ptr() as usize - reported.as_ptr() as usize);
        Span::new(within.file, start, start + number.len())
    };
    runs.map(|number| (placed(number), number)).collect()
}
