//! Figures on a drawing, in the unit of the file that it is of.

use crate::write;
use quillet_geometry::Length;
use quillet_model::Units;

/// How sizes stand on a drawing: millimetres to the hundredth, inches to the thousandth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct LengthFormat(pub(super) Units);

impl LengthFormat {
    /// Without its unit, as dimensions are: `11.2`, `0.441`. Nobody turns a pen closer.
    pub(super) fn number(self, mm: f64) -> String {
        match self.0 {
            Units::Millimetres => write::number(mm, 2),
            Units::Inches => format!("{:.3}", (mm / 25.4 * 1e3).round() / 1e3 + 0.0),
        }
    }

    /// A diameter: `Ø11.2`, `Ø0.441`.
    pub(super) fn dia(self, radius_mm: f64) -> String {
        format!("Ø{}", self.number(2.0 * radius_mm))
    }

    /// A drilled hole; by the name of its drill where an inch drill has its size:
    /// `17/64 (Ø0.266)`.
    pub(super) fn drilled(self, dia: Length) -> String {
        let bare = self.dia(dia.to_mm() / 2.0);
        match self.0 {
            Units::Inches if self.0.is_drill(dia) => format!("{} ({bare})", self.0.drill(dia)),
            _ => bare,
        }
    }

    /// A size as it was written, without its unit: `0.3`, `0.012`.
    pub(super) fn written(self, length: Length) -> String {
        match self.0 {
            Units::Millimetres => length.mm_text(3),
            Units::Inches => length.inch_text(4),
        }
    }

    /// With its unit, to so many decimals of a millimetre and one more of an inch:
    /// `138.1 mm`, `5.44 in`.
    pub(super) fn length(self, mm: f64, places: usize) -> String {
        format!("{} {}", self.rounded(mm, places), self.0.suffix())
    }

    /// The same without its unit.
    pub(super) fn rounded(self, mm: f64, places: usize) -> String {
        match self.0 {
            Units::Millimetres => format!("{mm:.places$}"),
            Units::Inches => format!("{:.*}", places + 1, mm / 25.4),
        }
    }
}
