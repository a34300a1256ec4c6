//! A list for each plan of a file, as `quillet tools` and `quillet cut` give one.

use crate::choice::PenChoice;
use crate::listing::Listing;
use crate::plans::{Planned, plans};
use crate::{disk, say, warn};
use serde::Serialize;
use std::path::PathBuf;
use std::process::ExitCode;

/// What a command that lists may be asked.
#[derive(clap::Args)]
pub(crate) struct Args {
    /// The file
    file: PathBuf,
    #[command(flatten)]
    pen: PenChoice,
    #[command(flatten)]
    listing: Listing,
}

#[derive(Serialize)]
struct Lists<L> {
    lists: Vec<L>,
}

impl Args {
    /// Gives out what `of` makes of each plan, in the words of `text`; 0, or 2 with the reason where
    /// nothing could be listed.
    pub(crate) fn list<L: Serialize>(
        &self,
        of: impl Fn(&Planned<'_>) -> L,
        text: impl Fn(&L) -> String,
    ) -> ExitCode {
        say::ended(self.write(of, text))
    }

    fn write<L: Serialize>(
        &self,
        of: impl Fn(&Planned<'_>) -> L,
        text: impl Fn(&L) -> String,
    ) -> Result<(), String> {
        let design = disk::design(&self.file)?;
        warn::errors(&design);
        let plans = plans(&design, &self.pen)?;
        let lists = Lists {
            lists: plans.iter().map(of).collect(),
        };
        self.listing.give(&self.file, &lists, |all| {
            let each: Vec<String> = all.lists.iter().map(text).collect();
            each.join("\n")
        })
    }
}
