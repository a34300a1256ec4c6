//! A row of a holding in plain text.

use super::super::row::HoldingRow;
use super::{BLANK, paragraph};
use std::fmt::{Result, Write as _};

pub(super) fn row(out: &mut String, row: &HoldingRow, speeds: &str) -> Result {
    let number = row.number.map_or(String::new(), |it| it.to_string());
    let head = format!("{} {number:>2}  ", ticked(row.done));
    if row.stop {
        let home = if row.reach.is_empty() {
            String::new()
        } else {
            format!(": {}", row.reach)
        };
        let turns = row.dia.as_ref().map_or("", |_| "   turns ________");
        return paragraph(
            out,
            &head,
            &format!("** {} try {}{home}{turns}", row.verb, row.size),
        );
    }
    let mut caption = vec![
        format!("{} {} {}", row.verb, row.size, row.reach)
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" "),
    ];
    caption.extend(row.how.iter().cloned());
    caption.push(match row.speed.as_str() {
        "" => String::new(),
        "hand" => "by hand, spindle locked, power off".into(),
        speed if speeds == "rev/min" => format!("{speed} rev/min"),
        speed => speed.to_owned(),
    });
    caption.retain(|it| !it.is_empty());
    paragraph(out, &head, &caption.join("; "))?;
    let dia = ("⌀", &row.dia, &row.dia_as_made);
    let length = ("length", &row.length, &row.length_as_made);
    for (what, limits, as_made) in [dia, length] {
        let as_made = as_made.as_deref().unwrap_or(BLANK);
        match limits {
            // No caliper reads it: it says what is tried.
            Some(tried) if tried.starts_with(what) && as_made == BLANK => {
                writeln!(out, "        {tried}")?
            }
            Some(tried) if tried.starts_with(what) => {
                writeln!(out, "        {tried}   as made {as_made}")?
            }
            Some(limits) => writeln!(out, "        {what} {limits}   as made {as_made}")?,
            None => {}
        }
    }
    Ok(())
}

/// A box.
pub(super) fn ticked(done: bool) -> &'static str {
    if done { "[x]" } else { "[ ]" }
}
