//! A list for each plan of a file, as `quillet tools` and `quillet cut` give one.

use crate::at::At;
use crate::batch::BatchChoice;
use crate::choice::UnitsChoice;
use crate::listing::Listing;
use crate::plans::plans;
use crate::warn::OmissionWarnings;
use crate::{terminal, warn};
use quillet_export::report::Lists;
use quillet_model::Units;
use quillet_pen::Planned;
use serde::Serialize;
use std::path::PathBuf;
use std::process::ExitCode;

/// What a command that lists may be asked.
#[derive(clap::Args)]
pub(crate) struct ListArgs {
    /// The file
    file: PathBuf,
    #[command(flatten)]
    at: At,
    #[command(flatten)]
    pens: BatchChoice,
    #[command(flatten)]
    units: UnitsChoice,
    #[command(flatten)]
    listing: Listing,
}

impl ListArgs {
    /// Whether the lists asked for are of pens that are made together.
    pub(crate) fn is_batch(&self) -> bool {
        self.pens.is_batch()
    }

    /// Gives out what `of` makes of the plans, in the words of `text`; 0, 1 where a part that is not
    /// known was left out, 2 with the reason where nothing could be listed.
    pub(crate) fn list<L: Serialize>(
        &self,
        of: impl Fn(&[Planned<'_>], Units) -> Vec<L>,
        text: impl Fn(&L, Units) -> String,
    ) -> ExitCode {
        terminal::ended_with(self.write(of, text))
    }

    fn write<L: Serialize>(
        &self,
        of: impl Fn(&[Planned<'_>], Units) -> Vec<L>,
        text: impl Fn(&L, Units) -> String,
    ) -> Result<ExitCode, String> {
        let mut left_out = OmissionWarnings::default();
        let analysis = self.at.analysis(&self.file)?;
        let design = &analysis.design;
        warn::errors(analysis.examined());
        let plans = plans(design, &self.pens.pens(design)?, &mut left_out)?;
        let units = self.units.of(design);
        let lists = Lists::of(of(&plans, units));
        self.listing
            .give(&self.file, &lists, |it| text(it, units))?;
        Ok(left_out.code())
    }
}
