//! What commands that make something say beside it.

use quillet_model::Design;
use quillet_syntax::Severity;
use std::process::ExitCode;

/// Says that a design is not sound, where it is not; what is made of it may be made in vain.
pub(crate) fn errors(design: &Design) {
    let errors = design
        .findings
        .iter()
        .filter(|it| it.severity == Severity::Error)
        .count();
    match errors {
        0 => {}
        1 => eprintln!("quillet: this design has an error; quillet check says what it is"),
        _ => {
            eprintln!("quillet: this design has {errors} errors; quillet check says what they are")
        }
    }
}

/// Ends a command: 0, or 2 with the reason.
pub(crate) fn ended(result: Result<(), String>) -> ExitCode {
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(reason) => {
            eprintln!("quillet: {reason}");
            ExitCode::from(2)
        }
    }
}
