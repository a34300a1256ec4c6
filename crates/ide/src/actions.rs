//! What can be done to the text at a place, one kind a file.

mod accept;
mod assumed;
mod convert;
mod create;
mod extract;
mod fixes;
mod name_face;
mod nearest;
mod thread;

use crate::{Analysis, Cursor, Snapshot};
use quillet_syntax::{Edit, Finding, Span};

/// Something that can be done to the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Action {
    /// What it does, in the imperative.
    pub title: String,
    /// What it is.
    pub kind: ActionKind,
    /// The replacements, applied together; they may lie in several files.
    pub edits: Vec<Edit>,
    /// The finding it cures: an index into the analysis's findings.
    pub cures: Option<usize>,
    /// Whether it is the one thing to do.
    pub preferred: bool,
}

/// What an action is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ActionKind {
    /// It cures a finding.
    Fix,
    /// It puts right every slip of a file that cannot change the pen.
    Mend,
    /// It says the same in another way.
    Rewrite,
    /// It gives a number a name.
    Extract,
}

/// What can be done within a span of the file an analysis was asked for.
///
/// None where `called_off` said so in the meantime.
pub fn actions(
    snapshot: &Snapshot,
    analysis: &Analysis,
    within: Span,
    called_off: &dyn Fn() -> bool,
) -> Option<Vec<Action>> {
    let findings = analysis.findings(called_off)?;
    let cursor = Cursor::at(analysis, within.start as usize)?;
    let within = with_its_line(cursor, findings, within);
    let here = |(index, finding): (usize, &Finding)| concerns(finding, within).then_some(index);
    let concerned = findings.iter().enumerate().filter_map(here);
    let mut cures = Vec::new();
    for index in concerned {
        cures.push((index, analysis.cures(index, snapshot, called_off)?));
    }
    let mut actions = fixes::fixes(&cures);
    actions.extend(nearest::moved(cursor, findings, within, called_off));
    actions.extend(create::missing(cursor, findings, within));
    actions.extend(thread::cut(cursor, findings, within));
    actions.extend(accept::accept(cursor, findings, within));
    actions.extend(convert::convert(cursor));
    actions.extend(assumed::written_out(cursor));
    actions.extend(extract::extract(cursor));
    actions.extend(name_face::named(cursor));
    actions.extend(align(cursor));
    actions.extend(fixes::mend(analysis.mended(snapshot, called_off)?));
    (!called_off()).then_some(actions)
}

/// Puts the stations or cuts of the block at the cursor in columns.
fn align(cursor: Cursor<'_>) -> Option<Action> {
    use quillet_syntax::visit::{Node, path_at};
    let nodes = path_at(&cursor.file.parsed.tree, cursor.offset);
    let line = nodes.iter().find_map(|node| match node {
        Node::Line(line) => Some(line),
        _ => None,
    })?;
    let what = match line.kind {
        quillet_syntax::ast::LineKind::Outside(_) => "stations",
        quillet_syntax::ast::LineKind::From { .. } => "cuts",
        _ => return None,
    };
    let edits = crate::format_range(cursor.file, line.span);
    (!edits.is_empty()).then(|| Action {
        title: format!("align these {what}"),
        kind: ActionKind::Rewrite,
        edits,
        cures: None,
        preferred: false,
    })
}

impl Action {
    fn rewrite(title: String, edits: Vec<Edit>) -> Self {
        Self {
            title,
            kind: ActionKind::Rewrite,
            edits,
            cures: None,
            preferred: false,
        }
    }
}

/// A place at which nothing is found, grown to its line: there is something to do on it.
fn with_its_line(cursor: Cursor<'_>, findings: &[Finding], within: Span) -> Span {
    if !within.is_empty() || findings.iter().any(|it| concerns(it, within)) {
        return within;
    }
    let text = &cursor.file.text;
    let ends = ['\n', '\r'];
    let start = text[..cursor.offset].rfind(ends).map_or(0, |at| at + 1);
    let end = text[cursor.offset..]
        .find(ends)
        .map_or(text.len(), |at| cursor.offset + at);
    Span::new(within.file, start, end)
}

/// Whether a finding is one to act on within a span.
fn concerns(finding: &Finding, within: Span) -> bool {
    let span = finding.span;
    span.file == within.file && span.start <= within.end && within.start <= span.end
}

/// Adds lines at the end of a block, which ends with its brace; none where the brace is missing.
fn as_last_lines(text: &str, block: Span, lines: &[String]) -> Option<Edit> {
    let close = (block.end as usize)
        .checked_sub(1)
        .filter(|at| text[*at..].starts_with('}'))?;
    let line = line_end(text);
    let start = text[..close].trim_end().len();
    let indent = format!("{line}{}  ", indent_of(text, close));
    let written: String = lines
        .iter()
        .map(|written| format!("{indent}{written}"))
        .collect();
    // A block on one line is opened.
    let own_line = text[start..close].contains(['\n', '\r']);
    let text = match own_line {
        true => written,
        false => format!("{written}{line}{}", indent_of(text, close)),
    };
    Some(Edit::new(Span::new(block.file, start, start), text))
}

/// The blanks at the start of the line at an offset.
fn indent_of(text: &str, offset: usize) -> &str {
    let line = text[..offset].rfind(['\n', '\r']).map_or(0, |at| at + 1);
    let rest = &text[line..];
    &rest[..rest.len() - rest.trim_start_matches([' ', '\t']).len()]
}

/// The line end that a text uses.
fn line_end(text: &str) -> &'static str {
    match text.contains("\r\n") {
        true => "\r\n",
        false => "\n",
    }
}
