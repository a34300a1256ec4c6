//! What is said on standard output and standard error: the one place that writes to either.
//!
//! A reader that has gone away, as `| head` does, is no failure and ends nothing loudly; any
//! other failure to write is told and ends the command with 2. Text of a design may hold
//! anything, so no control character of it reaches a terminal.

use std::fmt::Display;
use std::io::{self, IsTerminal, Write};
use std::process::ExitCode;
use std::sync::atomic::{AtomicBool, Ordering};

/// Prints text; control characters in it are shown as `�`.
///
/// # Errors
///
/// A sentence that says why standard output cannot be written.
pub(crate) fn out(text: &str) -> Result<(), String> {
    bytes(harmless(text).as_bytes())
}

/// Prints text with colours, which is harmless already.
///
/// # Errors
///
/// As [`out`].
pub(crate) fn coloured(text: &str) -> Result<(), String> {
    bytes(text.as_bytes())
}

/// Prints JSON; what its strings keep of control characters is escaped.
///
/// # Errors
///
/// As [`out`].
pub(crate) fn json(text: &str) -> Result<(), String> {
    let mut escaped = String::with_capacity(text.len());
    for letter in text.chars() {
        match is_control(letter) {
            // All that is left of them stands in strings, and none is above U+FFFF.
            true => escaped += &format!("\\u{:04x}", u32::from(letter)),
            false => escaped.push(letter),
        }
    }
    bytes(escaped.as_bytes())
}

/// Prints bytes as they are.
///
/// # Errors
///
/// As [`out`].
pub(crate) fn bytes(bytes: &[u8]) -> Result<(), String> {
    let mut output = io::stdout().lock();
    let written = output.write_all(bytes).and_then(|()| output.flush());
    match written {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => {
            Err(format!("standard output: {error}"))
        }
        _ => Ok(()),
    }
}

/// Prints what the command line's reader says of itself.
///
/// # Errors
///
/// As [`out`].
pub(crate) fn help(page: &clap::builder::StyledStr) -> Result<(), String> {
    match has_colours() {
        true => coloured(&page.ansi().to_string()),
        false => out(&page.to_string()),
    }
}

/// Whether standard output is a terminal.
pub(crate) fn is_terminal() -> bool {
    io::stdout().is_terminal()
}

/// How many letters a line of standard output holds: the terminal's own width, else as much as a page.
pub(crate) fn width() -> usize {
    let shown = terminal_size::terminal_size_of(io::stdout());
    shown.map_or(PAGE, |(width, _)| usize::from(width.0))
}

/// What is no terminal is read on a page.
const PAGE: usize = 110;

/// Whether standard output is a terminal that wants colours: <https://no-color.org>.
pub(crate) fn has_colours() -> bool {
    let wanted = std::env::var_os("NO_COLOR").is_none_or(|it| it.is_empty());
    let forced = std::env::var_os("CLICOLOR_FORCE").is_some_and(|it| !it.is_empty() && it != "0");
    wanted && (forced || !is_dumb() && is_terminal())
}

/// Whether standard error is a terminal that shows what is written over.
pub(crate) fn shows_asides() -> bool {
    io::stderr().is_terminal() && !is_dumb()
}

/// Whether the terminal can only be written on, line by line.
fn is_dumb() -> bool {
    std::env::var_os("TERM").is_some_and(|it| it == "dumb")
}

/// Whether a line stands on the terminal's standard error that is written over.
static STANDS: AtomicBool = AtomicBool::new(false);

/// Writes over the line that stands on the terminal's standard error; an empty one takes it away.
pub(crate) fn over(line: &str) {
    let mut locked = io::stderr().lock();
    STANDS.store(!line.is_empty(), Ordering::Relaxed);
    // There is nowhere left to say that nothing can be said.
    let _ = write!(locked, "\r{}\x1b[K", harmless(line));
}

/// Takes that line away, where one stands; while what it gives is held there comes none.
#[cfg(unix)]
pub(crate) fn without_line() -> io::StderrLock<'static> {
    let mut locked = io::stderr().lock();
    if STANDS.swap(false, Ordering::Relaxed) {
        let _ = write!(locked, "\r\x1b[K");
    }
    locked
}

/// Says why something was not done, or what there is to know beside what is printed.
pub(crate) fn aside(reason: impl Display) {
    let line = format!("quillet: {}\n", harmless(&reason.to_string()));
    // There is nowhere left to say that nothing can be said.
    let _ = io::stderr().lock().write_all(line.as_bytes());
}

/// Ends a command: 0, or 2 with the reason.
pub(crate) fn ended(result: Result<(), String>) -> ExitCode {
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(reason) => {
            aside(reason);
            ExitCode::from(2)
        }
    }
}

/// Ends a command with its own code, or with 2 and the reason.
pub(crate) fn ended_with(result: Result<ExitCode, String>) -> ExitCode {
    result.unwrap_or_else(|reason| ended(Err(reason)))
}

/// Text as it can be shown on a terminal: line ends and tabs are kept.
pub(crate) fn harmless(text: &str) -> String {
    let shown = |letter| {
        if is_control(letter) {
            '\u{fffd}'
        } else {
            letter
        }
    };
    text.chars().map(shown).collect()
}

/// Text that takes as many bytes as before and can be shown, for what points into it by bytes.
pub(crate) fn harmless_in_place(text: &str) -> String {
    let shown = |letter: char| match letter.len_utf8() {
        _ if letter == '\r' || !is_control(letter) => letter,
        1 => '?',
        2 => '·',
        _ => '\u{fffd}',
    };
    text.chars().map(shown).collect()
}

/// Whether a character steers a terminal, or the order in which its line is read.
fn is_control(letter: char) -> bool {
    let turns = matches!(letter, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    turns || letter.is_control() && !matches!(letter, '\n' | '\t')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_steers_a_terminal_is_shown() {
        // A title that would clear the screen, set the window's name, and turn the line round.
        let title = "Reed\u{1b}[2J\u{9b}31m\u{7}\r\u{202e}⌀ 12\t\n";
        assert_eq!(harmless(title), "Reed�[2J�31m���⌀ 12\t\n");
        let kept = harmless_in_place(title);
        assert_eq!(kept, "Reed?[2J·31m?\r�⌀ 12\t\n");
        assert_eq!(kept.len(), title.len());
    }
}
