//! What was found, drawn for people.

use crate::terminal::{harmless, harmless_in_place};
use ariadne::{Cache, Color, Config, IndexType, Label, Report, ReportKind, Source};
use quillet_export::report::Checked;
use quillet_model::SourceFile;
use quillet_syntax::{FileId, Finding, Severity, Span};
use std::collections::BTreeMap;
use std::fmt;
use std::ops::Range;
use std::sync::Arc;

/// Every finding with its places underlined, then how many there are.
pub(super) fn text(whole: &Checked, colours: bool) -> String {
    let mut out = Vec::new();
    let mut sources = Sources {
        whole,
        read: BTreeMap::new(),
        unknown: Source::from(Arc::from("")),
    };
    let mut reached = Reached::default();
    for finding in whole.findings() {
        match in_long_line(whole, finding, &mut reached) {
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
    drawn + &whole.rest()
}

/// Longer lines are no help to look at, bytes.
const LONGEST_LINE: usize = 2_000;

/// Where a finding stands, if one of its places is in a line too long to be drawn.
fn in_long_line(whole: &Checked, finding: &Finding, reached: &mut Reached) -> Option<String> {
    let spans = std::iter::once(finding.span).chain(finding.labels.iter().map(|it| it.span));
    let is_long = |span: Span| {
        let Some(file) = whole.file(span.file) else {
            return false;
        };
        let (before, after) = file.text.split_at(span.range().start.min(file.text.len()));
        // No further than it takes to know.
        let before = &before.as_bytes()[before.len().saturating_sub(LONGEST_LINE + 1)..];
        let after = &after.as_bytes()[..after.len().min(LONGEST_LINE + 1)];
        let is_end = |byte: &u8| matches!(byte, b'\n' | b'\r');
        let start = before.iter().rev().position(is_end).unwrap_or(before.len());
        let end = after.iter().position(is_end).unwrap_or(after.len());
        start + end > LONGEST_LINE || span.range().len() > LONGEST_LINE
    };
    if !spans.into_iter().any(is_long) {
        return None;
    }
    let file = whole.file(finding.span.file)?;
    let (line, column) = reached.place(file, finding.span.range().start);
    Some(harmless(&format!(
        "{}:{line}:{column}",
        file.path.display()
    )))
}

/// How far a file's lines were counted. Findings come in order, so that counting goes on from
/// there and a line of a million statements is counted once.
#[derive(Default)]
struct Reached {
    file: Option<FileId>,
    offset: usize,
    line: usize,
    column: usize,
}

impl Reached {
    /// Line and column of an offset, both from 1.
    fn place(&mut self, file: &SourceFile, offset: usize) -> (usize, usize) {
        if self.file != Some(file.id) || offset < self.offset {
            *self = Reached {
                file: Some(file.id),
                ..Reached::default()
            };
        }
        for letter in file.text[self.offset..offset].chars() {
            match letter {
                '\n' => (self.line, self.column) = (self.line + 1, 0),
                _ => self.column += 1,
            }
        }
        self.offset = offset;
        (self.line + 1, self.column + 1)
    }
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

/// A file, or a part of it that is drawn by itself: all lines between the first and the last
/// place of one drawing are looked at.
type Sight = (FileId, usize);

type SourcePlace = (Sight, Range<usize>);

/// Places further apart than this are drawn each by themselves, bytes.
const FAR: usize = 20_000;

fn report(finding: &Finding, colours: bool) -> Report<'static, SourcePlace> {
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
        Label::new(place(span, finding.span))
            .with_message(harmless(text))
            .with_color(colour)
            .with_order(order)
    };
    let mut report = Report::build(
        ReportKind::Custom(finding.severity.word(), colour),
        place(finding.span, finding.span),
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
    let more = finding.fixes.iter().map(|fix| &fix.title);
    let more = more.filter(|title| Some(*title) != finding.help());
    let cures: Vec<&str> = more.map(|title| &**title).collect();
    if !cures.is_empty() {
        report = report.with_note(harmless(&tried(&cures)));
    }
    report.finish()
}

/// The cures that hold, in words.
fn tried(cures: &[&str]) -> String {
    format!("tried, and cures it: {}", cures.join("; or "))
}

fn place(span: Span, home: Span) -> SourcePlace {
    let apart = span.start.abs_diff(home.start) as usize;
    let sight = match span.file == home.file && apart > FAR {
        true => 1 + span.range().start / FAR,
        false => 0,
    };
    ((span.file, sight), span.range())
}

/// ariadne colours the name of a kind of one's own whatever its settings say.
fn without_colour(drawn: &str) -> String {
    let mut pieces = drawn.split("\u{1b}[");
    let plain = pieces.next().unwrap_or_default().to_owned();
    pieces.fold(plain, |plain, piece| {
        plain + piece.split_once('m').map_or(piece, |(_, rest)| rest)
    })
}

/// The files' texts, their lines found once.
struct Sources<'a> {
    whole: &'a Checked,
    read: BTreeMap<FileId, Source<Arc<str>>>,
    unknown: Source<Arc<str>>,
}

impl Cache<Sight> for Sources<'_> {
    type Storage = Arc<str>;

    fn fetch(&mut self, (id, _): &Sight) -> Result<&Source<Arc<str>>, impl fmt::Debug> {
        let Some(file) = self.whole.file(*id) else {
            return Ok::<_, fmt::Error>(&self.unknown);
        };
        Ok(self
            .read
            .entry(*id)
            .or_insert_with(|| Source::from(Arc::<str>::from(harmless_in_place(&file.text)))))
    }

    fn display<'b>(&self, (id, _): &'b Sight) -> Option<impl fmt::Display + 'b> {
        self.whole
            .file(*id)
            .map(|file| harmless(&file.path.to_string_lossy()))
    }
}
