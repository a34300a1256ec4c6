//! What commands that make something say beside it.

use crate::terminal;
use quillet_check::CheckReport;
use quillet_export::solid::{SolidForm, left_out};
use quillet_model::{MissingData, Part, Pen, words};
use std::collections::BTreeSet;
use std::process::ExitCode;

/// Says that a design is not sound, where it is not; what is made of it may be made in vain.
pub(crate) fn errors(examined: &CheckReport) {
    let errors = examined.errors();
    if errors > 0 {
        let errors = words::errors(errors);
        terminal::aside(format!(
            "this design has {errors}; quillet check says what is wrong"
        ));
    }
}

/// Says how many errors a design has, where it has any; 0, or 1 where it has.
pub(crate) fn unsound(examined: &CheckReport) -> ExitCode {
    if examined.errors() == 0 {
        return ExitCode::SUCCESS;
    }
    let errors = words::errors(examined.errors());
    terminal::aside(format!(
        "this design has {errors}; what rests on what is wrong is not known. \
         quillet check says what is wrong"
    ));
    ExitCode::FAILURE
}

/// What was left out of a result because it is not known, each said once.
#[derive(Default)]
pub(crate) struct OmissionWarnings(BTreeSet<String>);

impl OmissionWarnings {
    /// Leaves a part out where something is missing, and says so; whether nothing is.
    pub(crate) fn is_known(&mut self, part: &Part, lacks: Option<MissingData>) -> bool {
        if let Some(lacks) = lacks {
            let name = &part.name.text;
            self.warn(format!("{name} {} and is left out", lacks.words()));
        }
        lacks.is_none()
    }

    /// Says of a part that is not round what its solid lacks in a form.
    pub(crate) fn says_round(&self, part: &Part, form: SolidForm) {
        let lacks = left_out(part, form);
        if !lacks.is_empty() {
            terminal::aside(format!(
                "{} is written without some of its cuts: {}",
                part.name.text,
                lacks.join(", ")
            ));
        }
    }

    /// Leaves out what a pen is put together, where that is not known; whether it is.
    pub(crate) fn is_settled(&mut self, pen: &Pen) -> bool {
        if !pen.is_settled() {
            let name = &pen.name.text;
            let unshaped = pen.parts.iter().find(|part| !part.shaped);
            let why = match unshaped.filter(|_| pen.whole) {
                Some(part) => format!("{} {}", part.name.text, MissingData::Shape.words()),
                None => "not all of it could be read".to_owned(),
            };
            self.warn(format!("{name} is not put together: {why}"));
        }
        pen.is_settled()
    }

    fn warn(&mut self, words: String) {
        if self.0.insert(words.clone()) {
            terminal::aside(words);
        }
    }

    /// Whether nothing was.
    pub(crate) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// How the command ends: 0, or 1 where something was left out.
    pub(crate) fn code(&self) -> ExitCode {
        match self.0.is_empty() {
            true => ExitCode::SUCCESS,
            false => ExitCode::FAILURE,
        }
    }
}
