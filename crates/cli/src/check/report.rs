//! What was found, drawn for people.

use super::Whole;
use crate::say::{harmless, harmless_in_place};
use ariadne::{Cache, Color, Config, IndexType, Label, Report, ReportKind, Source};
use quillet_check::assumed::Assumed;
use quillet_syntax::{FileId, Finding, Severity, Span};
use std::collections::BTreeMap;
use std::fmt;
use std::ops::Range;
use std::sync::Arc;

/// Every finding with its places underlined, then how many there are.
pub(super) fn text(whole: &Whole, colours: bool) -> String {
    let mut out = Vec::new();
    let mut sources = Sources {
        whole,
        read: BTreeMap::new(),
        unknown: Source::from(Arc::from("")),
    };
    for finding in &whole.findings {
        match in_long_line(whole, finding) {
            Some(place) => out.extend(plain(finding, &place).bytes()),
            // Writing to memory does not fail.
            None => {
                report(finding, colours).write(&mut sources, &mut out).ok();
            }
        }
        out.push(b'\n');
    }
    let drawn = String::from_utf8_lossy(&out).into_owned();
    let drawn = if colours {
        drawn
    } else {
        without_colour(&drawn)
    };
    drawn + &assumed(whole) + &summary(whole)
}

/// What nobody wrote and is worked out, a line each.
fn assumed(whole: &Whole) -> String {
    match whole.assumed.as_deref() {
        None => String::new(),
        Some([]) => "nothing is assumed: every tap drill and tenon is written\n\n".to_owned(),
        Some(all) => {
            let line = |it: &Assumed| format!("  {}{}\n", at(whole, it.span), it.says);
            let lines: String = all.iter().map(line).collect();
            format!("assumed, since nobody wrote it:\n{lines}\n")
        }
    }
}

/// `heron.quillet:12: `
fn at(whole: &Whole, span: Span) -> String {
    let Some(file) = whole.file(span.file) else {
        return String::new();
    };
    let line = file.text[..span.range().start].matches('\n').count() + 1;
    format!("{}:{line}: ", file.path.display())
}

/// Longer lines are no help to look at, bytes.
const LONGEST_LINE: usize = 2_000;

/// Where a finding stands, if one of its places is in a line too long to be drawn.
fn in_long_line(whole: &Whole, finding: &Finding) -> Option<String> {
    let spans = std::iter::once(finding.span).chain(finding.labels.iter().map(|it| it.span));
    let is_long = |span: Span| {
        let Some(file) = whole.file(span.file) else {
            return false;
        };
        let (before, after) = file.text.split_at(span.range().start.min(file.text.len()));
        let start = before
            .rfind(['\n', '\r'])
            .map_or(before.len(), |at| before.len() - at);
        let end = after.find(['\n', '\r']).unwrap_or(after.len());
        start + end > LONGEST_LINE || span.range().len() > LONGEST_LINE
    };
    if !spans.into_iter().any(is_long) {
        return None;
    }
    let file = whole.file(finding.span.file)?;
    let upto = &file.text[..finding.span.range().start];
    let line = upto.matches('\n').count() + 1;
    let column = upto.chars().rev().take_while(|it| *it != '\n').count() + 1;
    Some(harmless(&format!(
        "{}:{line}:{column}",
        file.path.display()
    )))
}

/// A finding in words alone.
fn plain(finding: &Finding, place: &str) -> String {
    let short = |text: &str| harmless(&text.chars().take(LONGEST_LINE).collect::<String>());
    let mut out = format!(
        "[{}] {}: {}\n   at {place}, in a line too long to show\n",
        finding.rule,
        finding.severity.word(),
        short(&finding.message)
    );
    if let Some(hint) = finding.help() {
        out += &format!("   Help: {}\n", short(hint));
    }
    out
}

type Place = (FileId, Range<usize>);

fn report(finding: &Finding, colours: bool) -> Report<'static, Place> {
    let colour = match finding.severity {
        Severity::Error => Color::Red,
        Severity::Warning => Color::Yellow,
        Severity::Note => Color::Cyan,
    };
    let config = Config::new()
        .with_index_type(IndexType::Byte)
        .with_color(colours);
    let home = finding.span.file;
    // Places of one file are drawn together as long as they go down the page.
    let label = |span: Span, text: &str, colour: Color| {
        let down = i32::try_from(span.start).unwrap_or(i32::MAX);
        let order = if span.file == home { down } else { i32::MAX };
        Label::new(place(span))
            .with_message(harmless(text))
            .with_color(colour)
            .with_order(order)
    };
    let mut report = Report::build(
        ReportKind::Custom(finding.severity.word(), colour),
        place(finding.span),
    )
    .with_config(config)
    .with_code(finding.rule)
    .with_message(harmless(&finding.message))
    .with_label(label(finding.span, "here", colour));
    for other in &finding.labels {
        report = report.with_label(label(other.span, &other.text, Color::Blue));
    }
    if let Some(hint) = finding.help() {
        report = report.with_help(harmless(hint));
    }
    report.finish()
}

fn place(span: Span) -> Place {
    (span.file, span.range())
}

/// ariadne colours the name of a kind of one's own whatever its settings say.
fn without_colour(drawn: &str) -> String {
    let mut pieces = drawn.split("\u{1b}[");
    let plain = pieces.next().unwrap_or_default().to_owned();
    pieces.fold(plain, |plain, piece| {
        plain + piece.split_once('m').map_or(piece, |(_, rest)| rest)
    })
}

/// `2 files checked: 1 error, 3 warnings, no notes.`
fn summary(whole: &Whole) -> String {
    let counted = |count: usize, word: &str| match count {
        1 => format!("1 {word}"),
        _ => format!("{count} {word}s"),
    };
    let found: Vec<String> = [Severity::Error, Severity::Warning, Severity::Note]
        .into_iter()
        .map(|severity| (whole.count_of(severity), severity.word()))
        .filter(|(count, _)| *count > 0)
        .map(|(count, word)| counted(count, word))
        .collect();
    if whole.count == 0 {
        return "nothing checked\n".to_owned();
    }
    let files = counted(whole.count, "file");
    match found.as_slice() {
        [] => format!("{files} checked, nothing found\n"),
        _ => format!("{files} checked: {}\n", found.join(", ")),
    }
}

/// The files' texts, their lines found once.
struct Sources<'a> {
    whole: &'a Whole,
    read: BTreeMap<FileId, Source<Arc<str>>>,
    unknown: Source<Arc<str>>,
}

impl Cache<FileId> for Sources<'_> {
    type Storage = Arc<str>;

    fn fetch(&mut self, id: &FileId) -> Result<&Source<Arc<str>>, impl fmt::Debug> {
        let Some(file) = self.whole.file(*id) else {
            return Ok::<_, fmt::Error>(&self.unknown);
        };
        Ok(self
            .read
            .entry(*id)
            .or_insert_with(|| Source::from(Arc::<str>::from(harmless_in_place(&file.text)))))
    }

    fn display<'b>(&self, id: &'b FileId) -> Option<impl fmt::Display + 'b> {
        self.whole
            .file(*id)
            .map(|file| harmless(&file.path.to_string_lossy()))
    }
}
