//! The sheet as plain text.

mod row;

use super::content::{Content, PartSheet};
use super::holdings::HoldingRows;
use super::page::DO_NOT_CUT;
use crate::draw::wrapped_by;
use crate::mark::MARK;
use row::{row, ticked};
use std::fmt::{Result, Write as _};

/// The width of a page, in letters.
const WIDTH: usize = 92;

/// Where a figure is written.
const BLANK: &str = "________";

/// Writes a sheet as plain text, in the order of its pages; tables keep their columns, boxes are `[ ]`.
pub fn text(content: &Content) -> String {
    let mut out = String::new();
    // Writing to memory does not fail.
    page(&mut out, content).ok();
    out
}

fn page(out: &mut String, c: &Content) -> Result {
    let rule = "=".repeat(c.title.chars().count());
    writeln!(out, "{}\n{rule}\n({MARK})", c.title)?;
    writeln!(out, "{}, design {}", c.file, c.design_mark)?;
    if let Some(made) = &c.made {
        paragraph(out, "", &made.words())?;
    }
    if let Some(warning) = &c.warning {
        paragraph(out, "!! ", warning)?;
    }
    if let Some(note) = &c.note {
        paragraph(out, "", note)?;
    }
    writeln!(out)?;
    let measures = std::iter::once(&c.measures.head).chain(&c.measures.rows);
    table(out, &measures.cloned().collect::<Vec<_>>())?;
    lines(
        out,
        "What was asked",
        c.wants.iter().map(|want| {
            let mark = if want.is_met() { "met" } else { &want.verdict };
            format!(
                "{}: {} ({mark})",
                want.asks,
                want.comes_to.as_deref().unwrap_or("not known")
            )
        }),
    )?;
    heading(out, "Parts")?;
    let rows: Vec<Vec<String>> = c
        .listed
        .iter()
        .map(|it| {
            vec![
                match it.number {
                    0 => String::new(),
                    number => number.to_string(),
                },
                it.name.clone(),
                it.stock.clone(),
                it.mass.clone(),
            ]
        })
        .collect();
    table(out, &rows)?;
    lines(
        out,
        "Accepted",
        c.accepted
            .iter()
            .map(|it| format!("{}: {} – “{}”", it.rule, it.message, it.because)),
    )?;
    before(out, c)?;
    for it in &c.parts {
        part(out, c, it)?;
    }
    last(out, c)
}

fn before(out: &mut String, c: &Content) -> Result {
    lines(out, "Safety", c.cautions.iter().cloned())?;
    heading(out, "Saw")?;
    for saw in &c.saws {
        writeln!(out, "{}", saw.stock)?;
        for piece in &saw.pieces {
            writeln!(
                out,
                "  {} {} to {} ({} long)",
                ticked(piece.done),
                piece.name,
                piece.length,
                piece.net
            )?;
        }
    }
    for note in &c.saw_notes {
        paragraph(out, "", note)?;
    }
    heading(out, "Lay out")?;
    for (group, names) in &c.lay_out {
        let boxed: Vec<String> = names.iter().map(|it| format!("[ ] {it}")).collect();
        paragraph(out, &format!("{group:14}"), &boxed.join("   "))?;
    }
    lines(
        out,
        "Not on the bench's list",
        c.lacking.iter().map(|it| format!("{}: {}", it.0, it.1)),
    )?;
    if !c.turning.is_empty() {
        heading(out, "Turn the mandrels")?;
    }
    for it in &c.turning {
        let sizes: Vec<&str> = it
            .sizes
            .iter()
            .map(String::as_str)
            .filter(|it| !it.is_empty())
            .collect();
        paragraph(
            out,
            &format!("{}  ", it.letter),
            &format!("{}: {}", it.serves, sizes.join(", ")),
        )?;
        for step in &it.steps {
            paragraph(out, "   [ ] ", step)?;
        }
    }
    Ok(())
}

fn part(out: &mut String, c: &Content, part: &PartSheet) -> Result {
    heading(out, &part.title)?;
    if c.warning.is_some() {
        paragraph(out, "!! ", DO_NOT_CUT)?;
    }
    paragraph(out, "", &part.facts.join(", "))?;
    if let Some(note) = &part.note {
        paragraph(out, "", note)?;
    }
    for it in &part.holdings {
        holding(out, it, &c.speeds)?;
    }
    let Some(strip) = &part.strip else {
        return Ok(());
    };
    writeln!(out, "\nCalipers, from the {}; {}", strip.from, strip.leave)?;
    let mut rows = vec![
        ["at", "rough to", "finished", "as made"]
            .map(str::to_owned)
            .to_vec(),
    ];
    rows.extend(strip.columns.iter().map(|it| {
        vec![
            it.at.clone(),
            it.rough.clone(),
            it.finished.clone(),
            it.as_made.clone().unwrap_or(BLANK.to_owned()),
        ]
    }));
    table(out, &rows)
}

fn holding(out: &mut String, holding: &HoldingRows, speeds: &str) -> Result {
    writeln!(out)?;
    paragraph(out, "-- ", &format!("{}: {}", holding.title, holding.grip))?;
    holding.rows.iter().try_for_each(|it| row(out, it, speeds))
}

fn last(out: &mut String, c: &Content) -> Result {
    let touching = c.contacts.iter().filter(|it| it.touches);
    lines(
        out,
        "Must touch, all round",
        touching.map(|it| format!("[ ] {}  {}", it.letter, it.between)),
    )?;
    let clear = c.contacts.iter().filter_map(|it| {
        let (drawn, worst) = it.left.as_ref()?;
        Some(format!(
            "{}  {}: {drawn}, at worst {worst}",
            it.letter, it.between
        ))
    });
    lines(out, "Must not touch", clear)?;
    lines(
        out,
        "In this order",
        c.finishing.iter().map(|it| format!("[ ] {it}")),
    )?;
    for (index, (words, count)) in c.order.iter().enumerate() {
        paragraph(
            out,
            &format!("[ ] {}  ", index + 1),
            &format!("{words}: {count}"),
        )?;
    }
    lines(
        out,
        "Test",
        c.tests.iter().map(|it| {
            let time = it
                .time
                .as_ref()
                .map_or(String::new(), |it| format!(", {it}"));
            format!("[ ] {}{time}: {}", it.what, it.wanted)
        }),
    )
}

fn heading(out: &mut String, words: &str) -> Result {
    writeln!(out, "\n{words}\n{}", "-".repeat(words.chars().count()))
}

fn lines(out: &mut String, title: &str, lines: impl Iterator<Item = String>) -> Result {
    let lines: Vec<String> = lines.collect();
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

fn table(out: &mut String, rows: &[Vec<String>]) -> Result {
    let count = rows.iter().map(Vec::len).max().unwrap_or(0);
    let width = |at: usize| {
        let cells = rows.iter().filter_map(|row| row.get(at));
        cells.map(|it| it.chars().count()).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..count).map(width).collect();
    for row in rows {
        let cells = row
            .iter()
            .zip(&widths)
            .map(|(cell, width)| format!("{cell:width$}"));
        writeln!(out, "  {}", cells.collect::<Vec<_>>().join("  ").trim_end())?;
    }
    Ok(())
}
