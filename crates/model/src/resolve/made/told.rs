//! What is told of lines that stand for nothing that is drawn.

use super::NOT_IN_DRAWING;
use crate::Pen;
use quillet_geometry::Length;
use quillet_syntax::{Finding, RuleId, Severity, SizedText, Span, ast, text};

/// A finding for a statement that stands for nothing that is drawn.
pub(super) fn not_in_drawing(at: Span, message: impl Into<SizedText>) -> Finding {
    Finding::new(NOT_IN_DRAWING, Severity::Error, at, message)
}

/// A statement in other words than the drawn one that it stands for.
pub(super) fn in_other_words(at: Span, written: &str, drawn: Span) -> Finding {
    let message = text!("this is drawn in other words: {}", written);
    not_in_drawing(at, message)
        .label(drawn, "drawn here")
        .hint("write the same words with what was measured")
}

/// A cut for which none that is drawn is near enough, and the place of the nearest.
pub(super) fn not_drawn(at: Span, message: SizedText, nearest: Option<Span>) -> Finding {
    let finding = not_in_drawing(at, message);
    match nearest {
        Some(near) => finding
            .label(near, "the nearest")
            .hint("write it as it is drawn, with what was measured"),
        None => finding.hint("take the line out, or draw it"),
    }
}

/// A pen of which too little is known to hold anything against it.
pub(super) fn cannot_be_judged(of: &ast::Name) -> Finding {
    let message = format!(
        "{} has errors as it is drawn, so what was made of it cannot be judged",
        of.text
    );
    Finding::new("incomplete", Severity::Error, of.span, message)
        .hint("clear the errors of the drawing first")
}

/// A part that the pen does not have.
pub(super) fn no_such_part(part: &ast::MadePart, pen: &Pen) -> Finding {
    let names = pen.parts.iter().filter(|it| !it.is_bought());
    let names: Vec<&str> = names.map(|it| &*it.name.text).collect();
    let message = format!("{} has no part {}", pen.name.text, part.name.text);
    not_in_drawing(part.name.span, message).hint(format!("it has {}", names.join(", ")))
}

/// A part that is bought.
pub(super) fn is_bought(part: &ast::MadePart) -> Finding {
    let message = format!("{} is bought, not made", part.name.text);
    let hint = "its sizes are those that its own item says; write there what was measured";
    not_in_drawing(part.name.span, message).hint(hint)
}

/// A line that says nothing a caliper reads.
pub(super) fn not_measured(line: Span) -> Finding {
    let message = "this line says nothing that was measured";
    let hint = "a part that is made says length, outside, from, and what is accepted";
    not_in_drawing(line, message).hint(hint)
}

/// A size that no slip of the hand explains.
pub(super) fn out_of_proportion(made: Length, drawn: Length, most: Length, at: Span) -> Finding {
    let message = text!(
        "{} was measured where {} is drawn; no more than {} between them is expected",
        made,
        drawn,
        most
    );
    let hint = "see whether a decimal point is missing, or another statement is meant";
    Finding::new(RuleId::OUT_OF_RANGE, Severity::Error, at, message).hint(hint)
}
