//! The hole for a tap: ISO 2306 where it lists one, else major minus pitch.

use std::sync::LazyLock;

use quillet_geometry::{Length, Limits};
use serde::Deserialize;

use super::class::ThreadSide;
use super::form::ThreadForm;
use super::percent::{PercentOfThread, PercentSuitability, percent_practice};
use crate::drill::{self, Drill, DrillSeries};
use crate::material::Family;
use crate::{Source, table};

/// The drill for a tap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TapDrill {
    /// Its diameter.
    pub diameter: Length,
    /// The thread it leaves.
    pub percent: PercentOfThread,
    /// How it was found.
    pub rule: TapDrillRule,
    /// Limits of the minor diameter, which the drill stays within: 6H, or 2B in inches, or the
    /// class the thread names.
    pub window: Limits,
    /// Where it comes from.
    pub source: Source,
}

/// How a tap drill was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TapDrillRule {
    /// Listed in ISO 2306.
    Listed,
    /// Major diameter minus pitch.
    MajorMinusPitch,
    /// Major minus pitch, moved to the nearer limit of the minor diameter.
    Clipped,
}

/// A drill at hand, judged for a thread in a material.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TapDrillChoice {
    /// Its diameter.
    pub diameter: Length,
    /// The thread it leaves.
    pub percent: PercentOfThread,
    /// True where the minor diameter stays within the limits of its class.
    pub in_window: bool,
    /// How the percent suits the material; fairly where nothing is known of it.
    pub suits: PercentSuitability,
}

impl ThreadForm {
    /// The drill for a tap of this thread.
    pub fn tap_drill(&self) -> TapDrill {
        let window = self.minor_window();
        let listed = ROWS
            .iter()
            .find(|row| row.form.major() == self.major() && row.form.pitch() == self.pitch())
            .filter(|_| !self.is_inch());
        let (diameter, rule, source) = match listed {
            Some(row) => (row.drill, TapDrillRule::Listed, table::source(TABLE)),
            None => {
                let plain = self.major() - self.pitch();
                let clipped = plain.clamp(window.min(), window.max());
                let rule = if clipped == plain {
                    TapDrillRule::MajorMinusPitch
                } else {
                    TapDrillRule::Clipped
                };
                (clipped, rule, rule.source())
            }
        };
        TapDrill {
            diameter,
            percent: self.percent_of_thread(diameter),
            rule,
            window,
            source,
        }
    }

    /// Drills at hand for a tap of this thread, best first: those that suit the material, then
    /// those nearest to the tap drill. Drills that leave less than a tenth of thread, or are
    /// smaller than the minor diameter less a pitch, are left out.
    pub fn tap_drill_choices(
        &self,
        at_hand: impl IntoIterator<Item = Length>,
        family: Option<Family>,
    ) -> Vec<TapDrillChoice> {
        let best = self.tap_drill();
        let practice = family.and_then(percent_practice);
        let mut choices: Vec<TapDrillChoice> = at_hand
            .into_iter()
            .map(|diameter| {
                let percent = self.percent_of_thread(diameter);
                TapDrillChoice {
                    diameter,
                    percent,
                    in_window: best.window.contains(diameter),
                    suits: practice.map_or(PercentSuitability::Fairly, |practice| {
                        practice.suits(percent)
                    }),
                }
            })
            .filter(|choice| {
                choice.percent.of_3h4 >= 10.0
                    && choice.diameter >= self.minor_diameter() - self.pitch()
            })
            .collect();
        choices.sort_by_key(|choice| {
            (
                choice.suits > PercentSuitability::Fairly,
                !choice.in_window,
                choice.suits,
                (choice.diameter - best.diameter).abs(),
                choice.diameter,
            )
        });
        choices.dedup_by_key(|choice| choice.diameter);
        choices
    }

    /// The drill of these series that is kind to a material, nearest to the tap drill: what is
    /// taken where none is said. None where no drill of them comes near.
    pub fn kind_drill(
        &self,
        family: Option<Family>,
        series: &[DrillSeries],
    ) -> Option<(&'static Drill, TapDrillChoice)> {
        let drills = || {
            drill::all()
                .iter()
                .filter(|it| series.contains(&it.series()))
        };
        let choices = self.tap_drill_choices(drills().map(Drill::diameter), family);
        let best = choices
            .first()
            .filter(|it| it.suits <= PercentSuitability::Fairly)?;
        let named = drills().rfind(|drill| drill.diameter() == best.diameter)?;
        Some((named, *best))
    }

    /// The limits of the minor diameter of the class said, or of 6H and 2B.
    fn minor_window(&self) -> Limits {
        self.internal_limits(self.class(ThreadSide::Internal))
            .or_else(|_| self.internal_limits(self.without_classes().class(ThreadSide::Internal)))
            .map_or(Limits::exactly(self.minor_diameter()), |limits| {
                limits.minor
            })
    }
}

impl TapDrillRule {
    fn source(self) -> Source {
        match self {
            TapDrillRule::Listed => table::source(TABLE),
            TapDrillRule::MajorMinusPitch => Source::new(
                "major diameter minus pitch: common practice where ISO 2306 lists no drill",
            ),
            TapDrillRule::Clipped => Source::new(
                "major diameter minus pitch, held to the limits of the minor diameter: common practice where ISO 2306 lists no drill",
            ),
        }
    }
}

const TABLE: &str = include_str!("../../data/tap_drills.csv");

#[derive(Deserialize)]
struct TableRow {
    designation: String,
    #[serde(deserialize_with = "table::mm")]
    drill_mm: Length,
}

struct TapDrillRow {
    form: ThreadForm,
    drill: Length,
}

static ROWS: LazyLock<Vec<TapDrillRow>> = LazyLock::new(|| {
    table::rows::<TableRow>(TABLE)
        .into_iter()
        .map(|row| TapDrillRow {
            form: row
                .designation
                .parse()
                .unwrap_or_else(|fault| panic!("{}: {fault}", row.designation)),
            drill: row.drill_mm,
        })
        .collect()
});

#[cfg(test)]
mod tests;
