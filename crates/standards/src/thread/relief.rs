//! Run-outs and undercuts by pitch: what ISO 3508, ISO 4755 and DIN 76 ask of a threaded shoulder.

use std::sync::LazyLock;

use quillet_geometry::{Length, Limits};
use serde::Deserialize;

use super::form::ThreadForm;
use crate::{Source, table};

/// Run-out and undercut of a thread, for information: on a pen they cost wall, and the lead-in of
/// the tap or die at hand decides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Relief {
    /// The pitch of the table's row: the thread's, or the next coarser one.
    pub pitch: Length,
    /// Incomplete thread at the end of an outside thread, x: normal and short.
    pub run_out: ShortNormal,
    /// From the last full thread to a shoulder, a: normal and short.
    pub to_shoulder: ShortNormal,
    /// Incomplete thread at the bottom of a blind hole, e: normal and short.
    pub blind: ShortNormal,
    /// Undercut outside.
    pub outside: Undercut,
    /// Undercut inside.
    pub inside: Undercut,
    /// Where it comes from.
    pub source: Source,
}

/// A length in the normal and in the short series.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ShortNormal {
    /// Where nothing speaks against it.
    pub normal: Length,
    /// Where length is dear.
    pub short: Length,
}

/// A groove that swallows the run-out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Undercut {
    /// Its diameter.
    pub diameter: Length,
    /// From the least width of full depth (g1) to the greatest width over all (g2).
    pub width: Limits,
}

impl ThreadForm {
    /// Run-out and undercut; none for pitches over 3 mm.
    pub fn relief(&self) -> Option<Relief> {
        let row = ROWS.iter().find(|row| row.pitch_mm >= self.pitch())?;
        let series = |normal, short| ShortNormal { normal, short };
        Some(Relief {
            pitch: row.pitch_mm,
            run_out: series(row.x_normal_mm, row.x_short_mm),
            to_shoulder: series(row.a_normal_mm, row.a_short_mm),
            blind: series(row.e_normal_mm, row.e_short_mm),
            outside: Undercut {
                diameter: self.major() - row.outside_less_mm,
                width: Limits::new(row.outside_g1_mm, row.outside_g2_mm),
            },
            inside: Undercut {
                diameter: self.major() + row.inside_more_mm,
                width: Limits::new(row.inside_g1_mm, row.inside_g2_mm),
            },
            source: Source::new(&row.source),
        })
    }
}

static ROWS: LazyLock<Vec<ReliefRow>> =
    LazyLock::new(|| table::rows(include_str!("../../data/run_outs.csv")));

#[derive(Deserialize)]
struct ReliefRow {
    #[serde(deserialize_with = "table::mm")]
    pitch_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    x_normal_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    x_short_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    a_normal_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    a_short_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    e_normal_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    e_short_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    outside_less_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    outside_g1_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    outside_g2_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    inside_more_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    inside_g1_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    inside_g2_mm: Length,
    source: String,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_in_order_and_sourced() {
        assert!(
            ROWS.windows(2)
                .all(|pair| pair[0].pitch_mm < pair[1].pitch_mm)
        );
        for row in ROWS.iter() {
            assert!(row.source.contains("from memory"));
            assert!(row.x_short_mm < row.x_normal_mm && row.x_normal_mm < row.a_normal_mm);
            assert!(row.outside_g1_mm < row.outside_g2_mm);
            assert!(row.inside_g1_mm < row.inside_g2_mm);
        }
    }

    /// Rules of the standards' making: the shoulder stands off three pitches, and an undercut is
    /// deeper than the thread's root.
    #[test]
    fn undercuts_clear_the_root() {
        for pitch in ["0.5", "0.75", "0.8", "1", "1.5", "2", "3"] {
            let form: ThreadForm = format!("M16x{pitch}").parse().unwrap();
            let relief = form.relief().unwrap();
            assert!(relief.outside.diameter < form.root_diameter(), "{pitch}");
            assert!(relief.inside.diameter > form.major(), "{pitch}");
            assert!(relief.to_shoulder.normal >= form.pitch() * 3, "{pitch}");
        }
        assert_eq!("M30x3.5".parse::<ThreadForm>().unwrap().relief(), None);
        let between: ThreadForm = "7/16-28UNEF".parse().unwrap();
        assert_eq!(between.relief().unwrap().pitch, Length::mm(1.0));
    }
}
