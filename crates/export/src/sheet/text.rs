//! The sheet as plain text.

use super::content::{Content, Line, PartSheet, Table, Want};
use crate::draw::wrapped_by;
use crate::mark::MARK;
use std::fmt::{Result, Write as _};

/// The width of a page, in letters.
const WIDTH: usize = 92;

/// Writes a sheet as plain text; tables keep their columns, boxes are `[ ]`.
pub fn text(content: &Content) -> String {
    let mut out = String::new();
    // Writing to memory does not fail.
    page(&mut out, content).ok();
    out
}

fn page(out: &mut String, c: &Content) -> Result {
    writeln!(
        out,
        "{}\n{}\n({MARK})",
        c.title,
        "=".repeat(c.title.chars().count())
    )?;
    if let Some(warning) = &c.warning {
        paragraph(out, "!! ", warning)?;
    }
    if let Some(note) = &c.note {
        paragraph(out, "", note)?;
    }
    table(out, &c.measures)?;
    lines(
        out,
        "Contacts and clearances",
        c.callouts.iter().map(String::as_str),
    )?;
    let wants: Vec<String> = c.wants.iter().map(Want::line).collect();
    lines(out, "What is wanted", wants.iter().map(String::as_str))?;
    heading(out, "Tools")?;
    paragraph(out, "", &c.tools_note)?;
    table(out, &c.tools)?;
    heading(out, "Blanks")?;
    table(out, &c.cuts)?;
    paragraph(out, "", &c.cuts_note)?;
    if !c.mandrels.rows.is_empty() {
        heading(out, "Mandrels and plugs")?;
        table(out, &c.mandrels)?;
    }
    lines(out, "Cautions", c.cautions.iter().map(String::as_str))?;
    for it in &c.parts {
        part(out, c, it)?;
    }
    let accepted: Vec<String> = c
        .accepted
        .iter()
        .map(|it| format!("{}: {}. Because: {}", it.rule, it.message, it.because))
        .collect();
    lines(
        out,
        "Accepted by the maker",
        accepted.iter().map(String::as_str),
    )?;
    let boxed: Vec<String> = c.finishing.iter().map(|it| format!("[ ] {it}")).collect();
    lines(out, "At the end", boxed.iter().map(String::as_str))
}

fn part(out: &mut String, c: &Content, part: &PartSheet) -> Result {
    heading(out, &part.name)?;
    if c.warning.is_some() {
        paragraph(out, "!! ", "This design has errors: do not cut.")?;
    }
    paragraph(out, "", &part.facts.join(", "))?;
    if let Some(note) = &part.note {
        paragraph(out, "", note)?;
    }
    writeln!(out)?;
    for it in &part.route {
        line(out, it)?;
    }
    writeln!(out, "\nCalipers, from the {}", part.datum)?;
    table(out, &part.calipers)
}

fn line(out: &mut String, line: &Line) -> Result {
    if let Some(hold) = &line.hold {
        paragraph(out, "      -- ", hold)?;
    }
    let gate = if line.gate { "** " } else { "" };
    paragraph(
        out,
        &format!("[ ] {:>2}  ", line.number),
        &format!("{gate}{}", line.what),
    )?;
    if !line.how.is_empty() {
        paragraph(out, "        ", &line.how.join("; "))?;
    }
    for note in &line.notes {
        paragraph(out, "        ! ", note)?;
    }
    for check in &line.checks {
        paragraph(
            out,
            "        ",
            &format!("{}: {}   as made ________", check.what, check.limits),
        )?;
    }
    Ok(())
}

fn heading(out: &mut String, words: &str) -> Result {
    writeln!(out, "\n{words}\n{}", "-".repeat(words.chars().count()))
}

fn lines<'a>(out: &mut String, title: &str, lines: impl Iterator<Item = &'a str>) -> Result {
    let lines: Vec<&str> = lines.collect();
    if lines.is_empty() {
        return Ok(());
    }
    heading(out, title)?;
    lines.iter().try_for_each(|line| paragraph(out, "", line))
}

/// Words in lines, the first begun by `first` and the others set in as far.
fn paragraph(out: &mut String, first: &str, words: &str) -> Result {
    let indent = first.chars().count();
    let fits = |line: &str| line.chars().count() + indent <= WIDTH;
    for (at, line) in wrapped_by(words, fits).iter().enumerate() {
        let start = if at == 0 {
            first.to_owned()
        } else {
            " ".repeat(indent)
        };
        writeln!(out, "{start}{line}")?;
    }
    Ok(())
}

fn table(out: &mut String, table: &Table) -> Result {
    let rows = || std::iter::once(&table.head).chain(&table.rows);
    let widths: Vec<usize> = (0..table.head.len())
        .map(|at| rows().map(|row| row[at].chars().count()).max().unwrap_or(0))
        .collect();
    for row in rows() {
        let cells = row
            .iter()
            .zip(&widths)
            .map(|(cell, width)| format!("{cell:width$}"));
        writeln!(out, "  {}", cells.collect::<Vec<_>>().join("  ").trim_end())?;
    }
    Ok(())
}
