//! Formatting: a whole file, a stretch of it, or the line just ended.

use quillet_model::SourceFile;
use quillet_syntax::{Edit, Span, format_edits};

/// The edits that bring a file into its canonical form.
pub fn format(file: &SourceFile) -> Vec<Edit> {
    format_edits(file.id, &file.text)
}

/// Those of them that lie within some whole lines.
pub fn format_range(file: &SourceFile, within: Span) -> Vec<Edit> {
    format_ranges(file, &[within])
}

/// What of [`format()`] lies in the lines of some spans, each edit once.
pub fn format_ranges(file: &SourceFile, within: &[Span]) -> Vec<Edit> {
    let lines = within.iter().map(|it| whole_lines(&file.text, *it));
    let lines: Vec<Span> = lines.collect();
    let mut edits = format(file);
    edits.retain(|edit| lines.iter().any(|lines| lines.contains(edit.span)));
    edits
}

/// What is put right when a line or block is ended at `offset`: the lines of the statement that
/// was ended, and the indent of the line the cursor is on.
pub fn format_on_type(file: &SourceFile, offset: usize) -> Vec<Edit> {
    let text = &file.text[..offset.min(file.text.len())];
    let ended = text.trim_end().len();
    let mut edits = format_range(file, Span::new(file.id, ended, ended));
    // What is under the cursor is still being typed.
    edits.retain(|edit| !edit.span.touches(offset));
    edits.extend(indent(file, offset));
    edits
}

/// The indent that a new line at `offset` is given: two blanks a block that is open there.
fn indent(file: &SourceFile, offset: usize) -> Option<Edit> {
    use quillet_syntax::TokenKind;
    let text = &file.text;
    let line = text[..offset].rfind(['\n', '\r'])? + 1;
    let (before, after) = (&text[line..offset], &text[offset..]);
    if !before.trim().is_empty() {
        return None;
    }
    let blanks = after.len() - after.trim_start_matches([' ', '\t']).len();
    let closes = after[blanks..].starts_with('}');
    let tokens = file
        .parsed
        .tokens
        .iter()
        .take_while(|token| (token.span.end as usize) <= line);
    let depth = tokens.fold(0_usize, |depth, token| match token.kind {
        TokenKind::Open => depth + 1,
        TokenKind::Close => depth.saturating_sub(1),
        _ => depth,
    });
    let wanted = "  ".repeat(depth.saturating_sub(usize::from(closes)));
    let span = Span::new(file.id, line, offset + blanks);
    (text[span.range()] != wanted).then_some(Edit::new(span, wanted))
}

fn whole_lines(text: &str, within: Span) -> Span {
    let ends = ['\n', '\r'];
    let range = within.range();
    let start = text[..range.start].rfind(ends).map_or(0, |at| at + 1);
    let end = text[range.end..]
        .find(ends)
        .map_or(text.len(), |at| range.end + at);
    Span::new(within.file, start, end)
}
