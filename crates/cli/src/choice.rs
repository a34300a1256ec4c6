//! Which pen of a file a command is about, and the units it tells sizes in.

use quillet_model::{Design, Pen, Units};

/// What sizes are told in.
#[derive(clap::Args)]
pub(crate) struct UnitsChoice {
    /// What sizes are told in, whatever the file is in; JSON is always in mm
    #[arg(long, value_enum, value_name = "UNIT")]
    units: Option<UnitsName>,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum UnitsName {
    /// Millimetres
    Mm,
    /// Inches
    In,
}

impl UnitsChoice {
    /// What was asked for, else the file's own.
    pub(crate) fn of(&self, design: &Design) -> Units {
        match self.units {
            Some(UnitsName::Mm) => Units::Millimetres,
            Some(UnitsName::In) => Units::Inches,
            None => design.units(),
        }
    }
}

/// Said of a file that defines none.
pub(crate) const NO_PEN: &str = "there is no pen in this file";

/// Which pen of a file.
#[derive(clap::Args)]
pub(crate) struct PenChoice {
    /// The pen, where the file has several
    #[arg(long, value_name = "NAME")]
    pub(crate) pen: Option<String>,
}

impl PenChoice {
    /// The pens of the file asked for that are meant: the one named, or all it defines itself.
    ///
    /// # Errors
    ///
    /// A sentence that names the pens there are.
    pub(crate) fn pens<'d>(&self, design: &'d Design) -> Result<Vec<&'d Pen>, String> {
        quillet_pen::pens(design, self.pen.as_deref())
    }

    /// The one pen that is meant.
    ///
    /// # Errors
    ///
    /// A sentence, where there is none, or several and none is named.
    pub(crate) fn one<'d>(&self, design: &'d Design) -> Result<&'d Pen, String> {
        match self.pens(design)?[..] {
            [pen] => Ok(pen),
            [] => Err(NO_PEN.to_owned()),
            ref pens => {
                let names: Vec<&str> = pens.iter().map(|it| &*it.name.text).collect();
                Err(format!("say which pen with --pen: {}", names.join(", ")))
            }
        }
    }
}
