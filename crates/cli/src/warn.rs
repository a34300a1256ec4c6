//! What commands that make something say beside it.

use crate::say;
use quillet_model::Design;
use quillet_syntax::Severity;

/// Says that a design is not sound, where it is not; what is made of it may be made in vain.
pub(crate) fn errors(design: &Design) {
    let errors = design
        .findings
        .iter()
        .filter(|it| it.severity == Severity::Error)
        .count();
    match errors {
        0 => {}
        1 => say::aside("this design has an error; quillet check says what it is"),
        _ => say::aside(format!(
            "this design has {errors} errors; quillet check says what they are"
        )),
    }
}
