//! What differs, for a merge request.

use super::{Compared, words};
use quillet_compare::PenChange;

/// No longer than this, bytes: what is longer, forges cut off.
pub(super) const MOST: usize = 60_000;

/// A headline, a table a pen, findings as lists, steps folded away.
pub(super) fn text(it: &Compared) -> String {
    let comparison = it.comparison;
    let mut out = format!(
        "## {}\n\n{} compared with {}\n",
        it.headline(),
        code(&it.old),
        code(&it.new)
    );
    let mut pieces: Vec<String> = Vec::new();
    for file in &comparison.files {
        let mut piece = String::new();
        for (item, lines) in words::written(&file.changes) {
            let each = lines
                .iter()
                .map(|line| format!("- {}: {}\n", code(&item), escaped(line)));
            piece.extend(each);
        }
        piece.extend(
            file.reported()
                .map(|it| format!("- {}\n", escaped(&words::finding(it, None)))),
        );
        if !piece.is_empty() {
            pieces.push(format!("\n**{}**\n\n{piece}", escaped(&file.name)));
        }
    }
    let shown = |pen: &&PenChange| !words::is_plain(pen);
    let pens: Vec<&PenChange> = comparison.pens.iter().filter(shown).collect();
    let others = comparison.pens.len() - pens.len();
    pieces.extend(pens.into_iter().map(pen));
    let room = MOST - out.len().min(MOST) - 200;
    let (mut length, mut left) = (0, 0);
    for piece in pieces {
        length += piece.len();
        match length <= room {
            true => out += &piece,
            false => left += 1,
        }
    }
    if left > 0 {
        out += &format!("\nand {left} more: see the page (`quillet compare --format html`)\n");
    }
    if others > 0 {
        out += match others == comparison.pens.len() {
            true => "\nEvery pen: the same.\n",
            false => "\nEvery other pen: the same.\n",
        };
    }
    out
}

fn pen(pen: &PenChange) -> String {
    let mut out = format!("\n### {}: {}\n", escaped(&pen.name), words::state(pen));
    let effects = words::effects(pen);
    if !effects.is_empty() {
        out += "\n| | |\n|---|---|\n";
        for (label, lines) in effects {
            let lines: Vec<String> = lines.iter().map(|it| escaped(it)).collect();
            out += &format!("| {} | {} |\n", escaped(&label), lines.join("<br>"));
        }
    }
    let findings = pen.reported().map(|it| words::finding(it, Some(&pen.name)));
    let findings: Vec<String> = findings.collect();
    if !findings.is_empty() {
        out += "\n";
        findings
            .iter()
            .for_each(|it| out += &format!("- {}\n", escaped(it)));
    }
    if !pen.steps.is_empty() {
        let count = pen.steps.len();
        let word = if count == 1 { "line" } else { "lines" };
        out += &format!("\n<details><summary>{count} {word} of the sheet</summary>\n\n");
        pen.steps
            .iter()
            .for_each(|it| out += &format!("- {}\n", escaped(&words::step(it))));
        out += "\n</details>\n";
    }
    out
}

/// Words that mean themselves, whatever stands in them.
fn escaped(text: &str) -> String {
    let mut out = String::new();
    for letter in text.chars() {
        match letter {
            '<' => out += "&lt;",
            '>' => out += "&gt;",
            '&' => out += "&amp;",
            '\\' | '`' | '*' | '_' | '|' | '[' | ']' | '#' | '~' | '!' | '@' => {
                out.push('\\');
                out.push(letter);
            }
            '\n' | '\r' => out.push(' '),
            letter => out.push(letter),
        }
    }
    out.replace("-&gt;", "→")
}

fn code(text: &str) -> String {
    format!("`{}`", text.replace('`', "'").replace('\n', " "))
}
