//! Sizes, limits, tap drill, tenon and wires of a thread.

mod json;
mod page;

use super::Answer;
use quillet_geometry::{Length, Limits};
use quillet_standards::drill::Drill;
use quillet_standards::material::Family;
use quillet_standards::thread::{
    ExternalLimits, InternalLimits, LimitsError, LimitsFrom, OverWires, PercentOfThread,
    PercentSuitability, TapDrill, ThreadForm, ThreadSide, percent_practice,
};
use quillet_standards::{Source, Units};

/// What is asked of a thread.
pub struct ThreadQuestion {
    /// The thread, with the classes asked for.
    pub form: ThreadForm,
    /// The diameter of the hole that is meant to be tapped.
    pub drill: Option<Length>,
    /// The diameter of the measuring wire at hand.
    pub wire: Option<Length>,
    /// The material's family, to judge drills by.
    pub family: Option<Family>,
}

/// Answers what is asked of a thread.
///
/// # Errors
///
/// Where a standard gives no limits for a class at this size.
pub fn thread(asked: ThreadQuestion) -> Result<Answer, LimitsError> {
    let figures = ThreadFigures::of(asked)?;
    Ok(Answer::new(
        page::page(&figures),
        &json::ThreadReport::of(&figures),
    ))
}

/// A thread with all that is answered of it.
struct ThreadFigures {
    form: ThreadForm,
    outside: ExternalLimits,
    inside: InternalLimits,
    tap: TapDrill,
    asked: Option<Length>,
    wires: OverWires,
    wire_limits: Limits,
    family: Option<Family>,
}

impl ThreadFigures {
    fn of(asked: ThreadQuestion) -> Result<Self, LimitsError> {
        let ThreadQuestion {
            form,
            drill,
            wire,
            family,
        } = asked;
        let outside = form.external_limits(form.class(ThreadSide::External))?;
        let inside = form.internal_limits(form.class(ThreadSide::Internal))?;
        Ok(Self {
            outside,
            inside,
            tap: form.tap_drill(),
            asked: drill,
            wires: form.over_wires(wire),
            wire_limits: form.over_wires_limits(&outside, wire),
            family,
            form,
        })
    }

    /// The hole to be tapped: the one asked about; else the drill that is kind to the material, to
    /// resin where none is said; the standard's where no such drill is sold.
    fn hole(&self) -> TappedHole {
        if let Some(size) = self.asked {
            return TappedHole {
                diameter: size,
                percent: self.form.percent_of_thread(size),
                drill: None,
                why: "as asked".to_owned(),
                source: None,
            };
        }
        let family = self.family.unwrap_or(Family::Resin);
        match self.form.kind_drill(Some(family), self.units().drills()) {
            Some((drill, choice)) => TappedHole {
                diameter: choice.diameter,
                percent: choice.percent,
                drill: Some(drill),
                why: match choice.suits {
                    PercentSuitability::Well => format!("kind to {}", family.word()),
                    _ => format!("fair in {}", family.word()),
                },
                source: percent_practice(family).map(|practice| practice.source),
            },
            None => TappedHole {
                diameter: self.tap.diameter,
                percent: self.tap.percent,
                drill: None,
                why: "no drill of the series comes near".to_owned(),
                source: Some(self.tap.source),
            },
        }
    }

    /// What the maker of such a thread counts in.
    fn units(&self) -> Units {
        match self.form.is_inch() {
            true => Units::Inches,
            false => Units::Millimetres,
        }
    }

    fn limits_from(&self) -> LimitsFrom {
        self.outside.from.and(self.inside.from)
    }
}

/// A hole that is tapped.
struct TappedHole {
    diameter: Length,
    percent: PercentOfThread,
    /// The drill that makes it, where it is one that is sold.
    drill: Option<&'static Drill>,
    why: String,
    source: Option<Source>,
}
