//! Pictures: a pen in its colours, a holding, what has changed.

use super::{DrawArgs, over};
use crate::warn::OmissionWarnings;
use quillet_export::draw;
use quillet_export::picture;
use quillet_export::scene::Scene;
use quillet_model::{Configured, Design, Pen, Units};
use quillet_pen::Analysis;
use std::path::PathBuf;

/// Which picture is wanted.
#[derive(clap::Args)]
pub(crate) struct Pictures {
    /// How the pen put together looks; without it, a drawing with what touches
    #[arg(long, value_enum, requires = "assembled")]
    look: Option<LookName>,
    /// How it is held [default: capped, or uncapped where it has no cap]
    #[arg(long, value_enum, requires = "look")]
    state: Option<StateName>,
    /// A holding of the part, counted as on its page of the sheet
    #[arg(long, value_name = "N", requires = "part")]
    holding: Option<usize>,
    /// An old file, whose parts are shown under the same of this one
    #[arg(long, value_name = "OLD", conflicts_with_all = ["assembled", "holding", "gallery"])]
    pub(super) over: Option<PathBuf>,
    /// A pen of this file, whose parts are shown under the same of the pen
    #[arg(long, value_name = "PEN", conflicts_with_all = ["assembled", "holding", "gallery", "over"])]
    pub(super) with: Option<String>,
    /// The bare outside of the part as one line, true size, for a template or a machine (.dxf, .svg)
    #[arg(long, requires = "part", conflicts_with_all = ["holding", "over", "with", "gallery"])]
    profile: bool,
    /// Three looks and a line of figures, for the top of a page
    #[arg(long, conflicts_with_all = ["part", "assembled"])]
    gallery: bool,
}

/// How a pen looks.
#[derive(Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum LookName {
    /// From outside in lines
    Line,
    /// From outside in the colours of its materials
    Outside,
    /// Cut above its axis, from outside below it
    Cutaway,
    /// Taken apart, in the order in which its parts meet
    Exploded,
}

/// How a pen is held.
#[derive(Clone, Copy, clap::ValueEnum)]
enum StateName {
    /// Closed
    Capped,
    /// Open, the cap laid aside
    Uncapped,
    /// Open, the cap on the tail
    Posted,
    /// Its point drawn back
    Retracted,
    /// In its stand
    Resting,
}

impl From<StateName> for Configured {
    fn from(name: StateName) -> Configured {
        match name {
            StateName::Capped => Configured::Capped,
            StateName::Uncapped => Configured::Uncapped,
            StateName::Posted => Configured::Posted,
            StateName::Retracted => Configured::Retracted,
            StateName::Resting => Configured::Resting,
        }
    }
}

/// The widest a picture may be that is not shown full size, mm: a sheet's live width.
const WIDTH_MM: f64 = 190.0;

/// The pictures asked for; none where a drawing was.
///
/// # Errors
///
/// A sentence that says what there is instead.
pub(super) fn wanted(
    args: &DrawArgs,
    analysis: &Analysis,
    left_out: &mut OmissionWarnings,
) -> Result<Option<Vec<Scene>>, String> {
    let (asked, design) = (&args.pictures, &analysis.design);
    let units = args.units.of(design);
    let is_over = asked.over.is_some() || asked.with.is_some();
    let is_other = asked.holding.is_some() || asked.gallery || asked.profile;
    if asked.look.is_none() && !is_over && !is_other {
        return Ok(None);
    }
    let mut pens = args.pen.pens(design)?;
    if is_over {
        return over::over(args, analysis, &pens).map(Some);
    }
    if let (true, Some(part)) = (asked.profile, &args.part) {
        return profiles(design, &pens, part).map(Some);
    }
    if let (Some(number), Some(part)) = (asked.holding, &args.part) {
        quillet_pen::parts(design, &pens, Some(part))?;
        let owner = pens.iter().find(|pen| pen.part_id(part).is_some());
        let owner = owner.ok_or_else(|| format!("no pen has the part {part}"))?;
        let drawn = picture::holdings(design, owner, part, units);
        let mut drawn = drawn.ok_or_else(|| format!("{part} is bought, so nothing holds it"))?;
        if !(1..=drawn.len()).contains(&number) {
            return Err(match drawn.len() {
                0 => format!("{part} has no holding that is drawn"),
                1 => format!("{part} has one holding that is drawn, so 1 is its only number"),
                count => {
                    format!("{part} has {count} holdings that are drawn; say one of 1 to {count}")
                }
            });
        }
        return Ok(Some(vec![drawn.swap_remove(number - 1)]));
    }
    pens.retain(|pen| left_out.is_settled(pen));
    let each = pens.iter().map(|pen| match asked.look {
        Some(look) => looked(pen, look, asked.state.map(Configured::from), units),
        None => picture::gallery(pen, WIDTH_MM, units).ok_or_else(|| apart(pen)),
    });
    each.collect::<Result<Vec<Scene>, String>>().map(Some)
}

fn profiles(design: &Design, pens: &[&Pen], name: &str) -> Result<Vec<Scene>, String> {
    let parts = quillet_pen::parts(design, pens, Some(name))?;
    let first = parts.first().and_then(|(_, part)| draw::profile(part));
    let lacks = || format!("{name} has no shape yet; see what quillet check says");
    first.map(|it| vec![it]).ok_or_else(lacks)
}

fn looked(
    pen: &Pen,
    look: LookName,
    state: Option<Configured>,
    units: Units,
) -> Result<Scene, String> {
    let state = state.unwrap_or(match pen.assembly.capped.is_some() {
        true => Configured::Capped,
        false => Configured::Uncapped,
    });
    if look != LookName::Exploded && pen.assembly.configuration(state).is_none() {
        let (name, word) = (&pen.name.text, state.word());
        return Err(format!("{name} cannot be shown {word}: no joint says so"));
    }
    let looked = match look {
        LookName::Line => draw::lines(pen, state, f64::MAX),
        LookName::Outside => draw::outside(pen, state, f64::MAX),
        LookName::Cutaway => draw::cutaway(pen, state, f64::MAX),
        LookName::Exploded => {
            return picture::exploded(pen, WIDTH_MM, units).ok_or_else(|| apart(pen));
        }
    };
    let looked = looked.ok_or_else(|| apart(pen))?;
    Ok(picture::framed(&looked, pen.title_or_name()))
}

fn apart(pen: &Pen) -> String {
    let name = &pen.name.text;
    format!("{name} does not go together yet; see what quillet check says")
}
