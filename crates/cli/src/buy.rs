//! `quillet buy`: what is bought for pens that are made together, and what they cost.

use crate::answer::Format;
use crate::at::At;
use crate::batch::BatchChoice;
use crate::choice::{NO_PEN, UnitsChoice};
use crate::warn::OmissionWarnings;
use crate::{terminal, warn};
use quillet_export::report::BuyReport;
use quillet_model::{Design, Shelf};
use quillet_pen::PlannedPen;
use std::path::PathBuf;
use std::process::ExitCode;

/// What `quillet buy` may be asked.
#[derive(clap::Args)]
pub(crate) struct BuyArgs {
    /// The file
    file: PathBuf,
    #[command(flatten)]
    at: At,
    #[command(flatten)]
    pens: BatchChoice,
    /// The shelf, where the design has several
    #[arg(long, value_name = "NAME")]
    shelf: Option<String>,
    /// Say what each pen costs: materials, bought parts, hours
    #[arg(long)]
    price: bool,
    #[command(flatten)]
    units: UnitsChoice,
    /// How to print it
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

/// Lists; 0, 1 where a part that is not known was left out, 2 with the reason where nothing could be
/// listed.
pub(crate) fn run(args: &BuyArgs) -> ExitCode {
    terminal::ended_with(args.write())
}

impl BuyArgs {
    fn write(&self) -> Result<ExitCode, String> {
        let mut left_out = OmissionWarnings::default();
        let analysis = self.at.analysis(&self.file)?;
        let design = &analysis.design;
        warn::errors(analysis.examined());
        let counted = self.pens.pens(design)?;
        if counted.is_empty() {
            return Err(NO_PEN.into());
        }
        for part in counted.iter().flat_map(|(pen, _)| pen.parts.iter()) {
            left_out.is_known(part, part.lacks_making());
        }
        let pens = counted
            .iter()
            .map(|(pen, count)| PlannedPen::of(design, pen, *count));
        let pens: Vec<PlannedPen> = pens.collect();
        let report = BuyReport::of(&pens, self.shelf(design)?);
        match self.format {
            Format::Text => terminal::out(&report.text(self.units.of(design), self.price))?,
            Format::Json => terminal::json(&report.json())?,
        }
        Ok(left_out.code())
    }

    /// The shelf named, or the only one in sight.
    fn shelf<'d>(&self, design: &'d Design) -> Result<Option<&'d Shelf>, String> {
        let names = || {
            let names = design.shelves.iter().map(|it| &*it.name.text);
            names.collect::<Vec<_>>().join(", ")
        };
        match (&self.shelf, &design.shelves[..]) {
            (None, []) => Ok(None),
            (None, [only]) => Ok(Some(only)),
            (None, _) => Err(format!(
                "which shelf is not said; --shelf takes one of {}",
                names()
            )),
            (Some(name), []) => Err(format!("there is no shelf {name}; the design has none")),
            (Some(name), all) => {
                let found = all.iter().find(|it| *it.name.text == **name);
                let unknown = || format!("there is no shelf {name}; there is {}", names());
                found.map(|it| Some(it.as_ref())).ok_or_else(unknown)
            }
        }
    }
}
