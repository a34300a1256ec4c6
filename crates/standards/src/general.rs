//! General tolerances: what a size may differ by that no drawing says anything of.

use crate::Source;
use quillet_geometry::Length;

/// A class of ISO 2768-1 for linear sizes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum GeneralClass {
    /// Class f.
    Fine,
    /// Class m.
    Medium,
}

impl GeneralClass {
    /// Its letter in the standard.
    pub fn letter(self) -> char {
        match self {
            GeneralClass::Fine => 'f',
            GeneralClass::Medium => 'm',
        }
    }

    /// The permissible deviation either way. Sizes below 0.5 mm, of which the standard says
    /// nothing, are read as the first row; those beyond the last row, as the last.
    pub fn either_way(self, size: Length) -> Length {
        let mm = size.abs().to_mm();
        let row = ROWS
            .iter()
            .find(|row| mm <= row.0)
            .unwrap_or(&ROWS[ROWS.len() - 1]);
        Length::from_nm(
            1000 * if self == GeneralClass::Fine {
                row.1
            } else {
                row.2
            },
        )
    }

    /// The standard.
    pub fn source(self) -> Source {
        match self {
            GeneralClass::Fine => Source::new("ISO 2768-1 table 1, class f"),
            GeneralClass::Medium => Source::new("ISO 2768-1 table 1, class m"),
        }
    }
}

/// Up to and with a size, mm: either way in micrometres, fine and medium. From memory, and alike
/// in a copy of table 1 of DIN ISO 2768-1.
const ROWS: [(f64, i64, i64); 6] = [
    (6.0, 50, 100),
    (30.0, 100, 200),
    (120.0, 150, 300),
    (400.0, 200, 500),
    (1000.0, 300, 800),
    (2000.0, 500, 1200),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_has_the_tolerance_of_its_row_the_upper_end_with_it() {
        // Table 1 of DIN ISO 2768-1, as transcribed: f 0.05 to 3 and to 6, 0.1 to 30, 0.15 to 120,
        // 0.2 to 400; m 0.1, 0.1, 0.2, 0.3, 0.5.
        for (mm, fine, medium) in [
            (1.0, 0.05, 0.1),
            (6.0, 0.05, 0.1),
            (6.01, 0.1, 0.2),
            (30.0, 0.1, 0.2),
            (54.0, 0.15, 0.3),
            (-120.0, 0.15, 0.3),
            (121.0, 0.2, 0.5),
            (401.0, 0.3, 0.8),
            (9000.0, 0.5, 1.2),
        ] {
            let of = |class: GeneralClass| class.either_way(Length::mm(mm)).to_mm();
            assert_eq!(of(GeneralClass::Fine), fine, "{mm}");
            assert_eq!(of(GeneralClass::Medium), medium, "{mm}");
        }
    }
}
