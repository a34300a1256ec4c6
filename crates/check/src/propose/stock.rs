//! Other stock for a part.

use super::{Proposal, literal};
use quillet_geometry::Length;
use quillet_model::{BlankPiece, Design};
use quillet_syntax::{Edit, Size, Span, text};

/// Thicker stock.
pub(crate) fn thicker(design: &Design, piece: &BlankPiece, size: Length) -> Option<Proposal> {
    let word = piece.stock.section.word();
    let span = number_after(design, piece.stock.span, word)?;
    (literal(design, span)? == piece.stock.size).then_some(())?;
    let title = text!("take {} {}", word, Size::Written(size));
    Some((title, vec![Edit::new(span, Size::Written(size))]))
}

/// Longer stock, where its length is said.
pub(crate) fn longer(design: &Design, piece: &BlankPiece, length: Length) -> Option<Proposal> {
    let span = number_after(design, piece.stock.span, "by")?;
    (Some(literal(design, span)?) == piece.stock.length).then_some(())?;
    let title = text!("take it by {}", Size::Written(length));
    Some((title, vec![Edit::new(span, Size::Written(length))]))
}

/// The number that follows a word within a span.
fn number_after(design: &Design, within: Span, word: &str) -> Option<Span> {
    let written = design.text(within);
    let mut words = written.split_ascii_whitespace();
    words.find(|it| *it == word)?;
    let number = words.next()?;
    let start = within.start as usize + (number.as_ptr() as usize - written.as_ptr() as usize);
    Some(Span::new(within.file, start, start + number.len()))
}
