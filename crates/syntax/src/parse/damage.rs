//! Findings for tokens that are damaged wherever they stand.

use crate::finding_log::{FindingLog, error};
use crate::suggest::nearest;
use crate::token::{Token, TokenKind};
use crate::{Finding, Span};

/// Says what is wrong with each damaged token; neighbouring unknown characters are one.
pub(super) fn damage(text: &str, tokens: &[Token]) -> FindingLog {
    let mut log = FindingLog::default();
    if !tokens.iter().any(|it| it.kind.is_damaged()) {
        return log;
    }
    let is_same = |one: &Token, next: &Token| {
        one.kind == TokenKind::Unknown && next.kind == TokenKind::Unknown
    };
    // Whether the line's rest was to be a comment.
    let mut of_comment = false;
    for run in tokens.chunk_by(is_same) {
        let (kind, span) = (run[0].kind, run[0].span.to(run[run.len() - 1].span));
        of_comment &= kind != TokenKind::Newline;
        if kind.is_damaged() && !of_comment {
            of_comment = &text[span.range()] == "—";
            log.push(|| {
                let line = text[..span.range().start].rsplit(['\n', '\r']).next();
                finding(kind, span, &text[span.range()], line.unwrap_or(""))
            });
        }
    }
    log
}

/// `before` is what stands before it on its line.
fn finding(kind: TokenKind, span: Span, text: &str, before: &str) -> Finding {
    match kind {
        TokenKind::BadNumber => bad_number(span, text),
        TokenKind::BadName => bad_name(span, text),
        TokenKind::BadString if !text.starts_with('"') => {
            let within = text.trim_matches(['“', '”', '„']);
            error(span, "a text stands in straight quotes, not in curly ones")
                .hint(format!("write \"{within}\""))
                .fix("write straight quotes", span, format!("\"{within}\""))
                .mending()
        }
        TokenKind::BadString => error(span, "the closing quote is missing")
            .hint("a text ends on the line it begins on")
            .fix("close it", span.after(), "\""),
        _ => unknown(span, text, before),
    }
}

fn bad_number(span: Span, text: &str) -> Finding {
    const UNITS: [&str; 5] = ["mm", "in", "g", "ml", "deg"];
    let digits = text
        .find(|c: char| !c.is_ascii_digit() && c != '.')
        .unwrap_or(text.len());
    let (number, unit) = text.split_at(digits);
    if unit.starts_with('x') {
        return error(span, format!("{text} is no number"))
            .hint("a metric thread begins with M, as M13x0.8");
    }
    // The letters that look like digits.
    if unit.chars().all(|c| matches!(c, 'O' | 'o' | 'l' | 'I')) {
        let digits = text.replace(['O', 'o'], "0").replace(['l', 'I'], "1");
        return error(
            span,
            format!("{text} has a letter in it that looks like a digit"),
        )
        .hint(format!("write {digits}"))
        .fix(format!("write {digits}"), span, digits);
    }
    let finding = error(span, format!("{unit} is no unit"))
        .hint("mm, in, g, ml or deg may touch a number; other words stand after a blank");
    let known = match unit {
        "cc" => Some("ml"),
        "inch" | "inches" => Some("in"),
        "gram" | "grams" => Some("g"),
        "degrees" | "degree" => Some("deg"),
        _ => nearest(unit, UNITS),
    };
    if unit == "cm" {
        return match number.parse::<f64>() {
            Ok(cm) => {
                let mm = format!("{}mm", (cm * 1e7).round() / 1e6);
                finding.fix(format!("write {mm}"), span, mm).mending()
            }
            Err(_) => finding,
        };
    }
    match known {
        Some(known) => finding
            .fix(format!("write {known}"), span, format!("{number}{known}"))
            .mending(),
        None => finding,
    }
}

fn bad_name(span: Span, text: &str) -> Finding {
    if text.starts_with('M') && text[1..].starts_with(|c: char| c.is_ascii_digit()) {
        let finding = error(span, format!("{text} is no thread"));
        return match text.split_once(['X', '×']) {
            Some((dia, pitch)) => {
                let small = format!("{dia}x{pitch}");
                finding
                    .hint("between diameter and pitch stands a small x, as in M13x0.8")
                    .fix(format!("write {small}"), span, small)
                    .mending()
            }
            None => finding.hint("a thread is written like M13x0.8, M13xPh2.4P0.8 or 7/16-28UNEF"),
        };
    }
    let name = text.to_ascii_lowercase().replace('_', "-");
    let name = name.trim_matches('-');
    let finding = error(span, format!("{text} is no name"))
        .hint("names and words are lower-case, with hyphens between their parts");
    let legal = name.starts_with(|c: char| c.is_ascii_lowercase()) && !name.contains("--");
    match legal {
        true => finding.fix(format!("write {name}"), span, name).mending(),
        false => finding,
    }
}

/// Characters that come from elsewhere, with what is written here.
const FOREIGN: &[(&str, &str)] = &[
    ("±", "+-"),
    ("≤", "<="),
    ("≥", ">="),
    ("−", "-"),
    ("–", "-"),
    ("—", "--"),
    ("×", "*"),
    ("÷", "/"),
    ("°", "deg"),
    ("“", "\""),
    ("”", "\""),
    ("„", "\""),
    ("\u{a0}", " "),
    ("\u{202f}", " "),
    ("\u{feff}", ""),
    ("⌀", ""),
    ("ø", ""),
    ("Ø", ""),
];

fn unknown(span: Span, text: &str, before: &str) -> Finding {
    let before = before.trim_start();
    if before.is_empty() && text.starts_with('#') {
        return error(span, "# begins no comment")
            .hint("a comment begins with --")
            .fix("write --", span, "--")
            .mending();
    }
    let measured = ["at ", "outside "].iter().any(|it| before.starts_with(it));
    if measured && matches!(text, "⌀" | "ø" | "Ø") {
        return error(span, format!("{text} means nothing here"))
            .hint("write dia")
            .fix("write dia", span, "dia ")
            .mending();
    }
    let thread = before.rsplit([' ', '\t', '=']).next().unwrap_or_default();
    let dia = thread.strip_prefix('M').unwrap_or_default();
    if text == "×" && dia.starts_with(|c: char| c.is_ascii_digit()) {
        return error(span, "× stands between a thread's diameter and its pitch")
            .hint("write x, as in M13x0.8")
            .fix("write x", span, "x")
            .mending();
    }
    let shown: String = text.chars().take(20).flat_map(shown).collect();
    let finding = error(span, format!("{shown} means nothing here"));
    match FOREIGN.iter().find(|(from, _)| *from == text) {
        Some((_, "")) => finding.hint("leave it out").fix("leave it out", span, ""),
        Some((_, " ")) => finding
            .hint("write a plain blank")
            .fix("write a plain blank", span, " ")
            .mending(),
        Some((_, to)) => finding
            .hint(format!("write {to}"))
            .fix(format!("write {to}"), span, *to)
            .mending(),
        None => finding.hint("leave it out, or write it in quotes or after --"),
    }
}

/// A character as it can be seen.
fn shown(c: char) -> impl Iterator<Item = char> {
    let plain = !c.is_control() && !c.is_whitespace() && c != '\u{feff}';
    let escaped = c.escape_unicode();
    plain
        .then_some(c)
        .into_iter()
        .chain((!plain).then_some(escaped).into_iter().flatten())
}
