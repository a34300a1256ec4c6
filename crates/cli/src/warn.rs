//! What commands that make something say beside it.

use crate::say;
use quillet_check::{Examined, examine};
use quillet_model::Design;
use std::process::ExitCode;

/// Says that a design is not sound, where it is not; what is made of it may be made in vain.
pub(crate) fn errors(design: &Design) {
    if let Some(errors) = counted(examine(design).errors()) {
        say::aside(format!(
            "this design has {errors}; quillet check says what is wrong"
        ));
    }
}

/// Says how many errors a design has, where it has any; 0, or 1 where it has.
pub(crate) fn unsound(examined: &Examined) -> ExitCode {
    let Some(errors) = counted(examined.errors()) else {
        return ExitCode::SUCCESS;
    };
    say::aside(format!(
        "this design has {errors}; what rests on what is wrong is not known. \
         quillet check says what is wrong"
    ));
    ExitCode::FAILURE
}

/// `an error`, `3 errors`; none where there is none.
pub(crate) fn counted(errors: usize) -> Option<String> {
    match errors {
        0 => None,
        1 => Some("an error".to_owned()),
        _ => Some(format!("{errors} errors")),
    }
}
