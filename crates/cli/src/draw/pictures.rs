//! Pictures: a pen in its colours, a holding, what has changed.

use super::Args;
use crate::choice;
use crate::warn::OmissionWarnings;
use quillet_export::draw;
use quillet_export::picture;
use quillet_export::scene::Scene;
use quillet_model::{Configured, Pen, Units};
use quillet_pen::Analysis;

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
}

impl From<StateName> for Configured {
    fn from(name: StateName) -> Configured {
        match name {
            StateName::Capped => Configured::Capped,
            StateName::Uncapped => Configured::Uncapped,
            StateName::Posted => Configured::Posted,
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
    args: &Args,
    analysis: &Analysis,
    left_out: &mut OmissionWarnings,
) -> Result<Option<Vec<Scene>>, String> {
    let (asked, design) = (&args.pictures, &analysis.design);
    let units = args.units.of(design);
    if asked.look.is_none() && asked.holding.is_none() && !asked.gallery {
        return Ok(None);
    }
    let mut pens = args.pen.pens(design)?;
    if let (Some(number), Some(part)) = (asked.holding, &args.part) {
        choice::parts(design, &pens, Some(part))?;
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
