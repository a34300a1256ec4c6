//! The sizes that are cut: ISO 261, the unified series, and what is usual on pens.

use std::sync::LazyLock;

use quillet_geometry::Length;
use serde::Deserialize;

use super::form::{InchSeries, ThreadForm};
use super::inch_size;
use crate::{Source, table};

/// A designation that a standard lists or the trade uses.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KnownThread {
    form: ThreadForm,
    designation: String,
    standing: Standing,
    source: Source,
}

/// Why a size counts as known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Standing {
    /// Listed in ISO 261.
    Iso261 {
        /// True for the coarse pitch of its diameter.
        coarse: bool,
        /// First, second or third choice of diameter.
        choice: u8,
        /// True where ISO 262 selects it for fasteners as well.
        iso262: bool,
    },
    /// Listed in a unified series of ASME B1.1.
    Unified(InchSeries),
    /// In no series, but usual on pens: common practice.
    Trade {
        /// Where it is met: `caps`, `nib units`.
        used_for: String,
    },
}

impl KnownThread {
    /// The thread, with one start.
    pub fn form(&self) -> ThreadForm {
        self.form
    }

    /// Its designation.
    pub fn designation(&self) -> &str {
        &self.designation
    }

    /// Why it counts as known.
    pub fn standing(&self) -> &Standing {
        &self.standing
    }

    /// The standard that lists it, or the trade's practice.
    pub fn source(&self) -> Source {
        self.source
    }
}

/// Every designation known: ISO 261 first, then what is usual on pens, then the unified series.
pub fn known() -> impl Iterator<Item = &'static KnownThread> {
    KNOWN.iter()
}

impl ThreadForm {
    /// The row of the tables for this size and pitch, whatever starts, hand and classes; none for
    /// an odd size.
    pub fn known(&self) -> Option<&'static KnownThread> {
        known().find(|known| known.form.same_size(self))
    }

    /// The `count` known designations of the same system nearest in diameter and pitch, nearest
    /// first.
    pub fn nearest_known(&self, count: usize) -> Vec<&'static KnownThread> {
        let mut all: Vec<_> = known()
            .filter(|known| known.form.is_inch() == self.is_inch())
            .collect();
        all.sort_by_key(|known| {
            (known.form.major() - self.major()).abs() + (known.form.pitch() - self.pitch()).abs()
        });
        all.truncate(count);
        all
    }

    fn same_size(&self, other: &ThreadForm) -> bool {
        self.is_inch() == other.is_inch()
            && self.major() == other.major()
            && self.pitch() == other.pitch()
    }
}

/// The coarse pitch that ISO 261 gives a diameter.
pub(super) fn coarse_pitch(major: Length) -> Option<Length> {
    METRIC
        .iter()
        .find(|row| row.series == "coarse" && row.d_mm == major)
        .map(|row| row.pitch_mm)
}

/// The standard series that a size and its threads per inch belong to.
pub(super) fn inch_series(major: Length, tpi: u32) -> Option<InchSeries> {
    UNIFIED
        .iter()
        .find(|row| row.major == major && row.tpi == tpi)
        .map(|row| row.series)
}

const METRIC_TABLE: &str = include_str!("../../data/metric_threads.csv");
const TRADE_TABLE: &str = include_str!("../../data/trade_threads.csv");
const INCH_TABLE: &str = include_str!("../../data/inch_threads.csv");

#[derive(Deserialize)]
struct MetricRow {
    #[serde(deserialize_with = "table::mm")]
    d_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    pitch_mm: Length,
    series: String,
    iso261_choice: u8,
    #[serde(deserialize_with = "table::yes")]
    iso262: bool,
}

#[derive(Deserialize)]
struct TradeRow {
    designation: String,
    #[serde(rename = "use")]
    used_for: String,
}

#[derive(Deserialize)]
struct InchRow {
    size: String,
    tpi: u32,
    series: String,
}

struct Unified {
    major: Length,
    tpi: u32,
    series: InchSeries,
}

static METRIC: LazyLock<Vec<MetricRow>> = LazyLock::new(|| table::rows(METRIC_TABLE));

static UNIFIED: LazyLock<Vec<Unified>> = LazyLock::new(|| {
    table::rows::<InchRow>(INCH_TABLE)
        .into_iter()
        .map(|row| Unified {
            major: inch_size::read(&row.size)
                .unwrap_or_else(|| panic!("{} is no size in inches", row.size)),
            tpi: row.tpi,
            series: InchSeries::ALL
                .into_iter()
                .find(|series| series.letters() == row.series)
                .unwrap_or_else(|| panic!("{} is no series", row.series)),
        })
        .collect()
});

static KNOWN: LazyLock<Vec<KnownThread>> = LazyLock::new(|| {
    let metric = METRIC.iter().map(|row| {
        let standing = Standing::Iso261 {
            coarse: row.series == "coarse",
            choice: row.iso261_choice,
            iso262: row.iso262,
        };
        let form = ThreadForm::metric(row.d_mm, row.pitch_mm);
        KnownThread::new(form, standing, table::source(METRIC_TABLE))
    });
    let trade = table::rows::<TradeRow>(TRADE_TABLE).into_iter().map(|row| {
        let form = row
            .designation
            .parse()
            .unwrap_or_else(|fault| panic!("{}: {fault}", row.designation));
        let standing = Standing::Trade {
            used_for: row.used_for,
        };
        KnownThread::new(form, standing, table::source(TRADE_TABLE))
    });
    let unified = UNIFIED.iter().map(|row| {
        let form = ThreadForm::inch(row.major, row.tpi, row.series);
        KnownThread::new(
            form,
            Standing::Unified(row.series),
            table::source(INCH_TABLE),
        )
    });
    metric.chain(trade).chain(unified).collect()
});

impl KnownThread {
    fn new(form: ThreadForm, standing: Standing, source: Source) -> KnownThread {
        KnownThread {
            form,
            designation: form.to_string(),
            standing,
            source,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    fn thread(designation: &str) -> ThreadForm {
        designation.parse().unwrap()
    }

    #[test]
    fn designations_are_unique_and_in_order() {
        let all: BTreeSet<_> = known().map(KnownThread::designation).collect();
        assert_eq!(all.len(), known().count());
        for pair in METRIC.windows(2) {
            assert!((pair[0].d_mm, pair[0].pitch_mm) < (pair[1].d_mm, pair[1].pitch_mm));
        }
        for known in known() {
            assert_eq!(thread(known.designation()), known.form());
            assert_eq!(known.form().known(), Some(known));
        }
    }

    #[test]
    fn standing_is_that_of_iso_261_and_262() {
        for row in quillet_reference::rows("metric_thread_basic.csv") {
            let known = thread(row.text("designation")).known().unwrap();
            match known.standing() {
                Standing::Iso261 {
                    coarse,
                    choice,
                    iso262,
                } => {
                    assert_eq!(row.text("iso261"), "yes", "{row}");
                    assert_eq!(*coarse, row.text("series") == "coarse", "{row}");
                    assert_eq!(choice.to_string(), row.text("iso261_choice"), "{row}");
                    assert_eq!(*iso262, row.text("iso262") == "yes", "{row}");
                }
                _ => {
                    assert_eq!(row.text("iso261"), "no", "{row}");
                    assert!(known.source().is_practice(), "{row}");
                }
            }
        }
    }

    #[test]
    fn an_odd_size_is_offered_its_neighbours() {
        let odd = thread("M12x0.85");
        assert_eq!(odd.known(), None);
        let near: Vec<_> = odd
            .nearest_known(3)
            .iter()
            .map(|known| known.designation())
            .collect();
        assert_eq!(near, ["M12x0.8", "M12x0.75", "M12x1"]);
        let inch: Vec<_> = thread("7/16-29")
            .nearest_known(2)
            .iter()
            .map(|known| known.designation())
            .collect();
        assert_eq!(inch, ["7/16-30UNS", "7/16-28UNEF"]);
        assert!(thread("M13x0.8 starts 3").known().is_some());
    }
}
