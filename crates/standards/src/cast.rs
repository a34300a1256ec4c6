//! Casting of blanks: what moulds hold, and how much of each part of a mix fills them.
//!
//! Plain arithmetic, without a source of its own: the volumes of a cylinder and a bar, mass = volume
//! times density. How long a resin keeps, cures, and what it bears of heat and pressure is in its own
//! sheet, and never here.

mod mix;

pub use mix::{Mix, MixBy, Portions};

use crate::Source;
use quillet_geometry::Length;
use std::f64::consts::FRAC_PI_4;

/// Round or square, as a mould is inside.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MouldSection {
    /// A cylinder, by its diameter.
    Rod,
    /// A bar, by its side.
    Square,
}

impl MouldSection {
    /// The language's word for it.
    pub const fn word(self) -> &'static str {
        match self {
            MouldSection::Rod => "rod",
            MouldSection::Square => "square",
        }
    }
}

/// Moulds of one size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Moulds {
    /// How many.
    pub count: u32,
    /// Their section.
    pub section: MouldSection,
    /// Diameter or side, inside the mould.
    pub size: Length,
    /// How long, or how deep, they are filled.
    pub length: Length,
}

impl Moulds {
    /// What all of them hold, millilitres: `n·π/4·D²·L`, or `n·S²·L`.
    pub fn volume_ml(&self) -> f64 {
        let face = self.size.to_mm().powi(2);
        let face = match self.section {
            MouldSection::Rod => FRAC_PI_4 * face,
            MouldSection::Square => face,
        };
        f64::from(self.count) * face * self.length.to_mm() / 1000.0
    }
}

/// What is asked of a casting.
#[derive(Debug, Clone, PartialEq)]
pub struct Casting {
    /// The moulds that are filled.
    pub moulds: Vec<Moulds>,
    /// What burls and inserts take of all the moulds, millilitres.
    pub displaced_ml: f64,
    /// What stays in the cup and runs over, per cent of what is left to fill.
    pub waste_percent: f64,
    /// Density of the mixed resin, g/cm³.
    pub density_g_cm3: f64,
    /// How it is mixed, where that is known.
    pub mix: Option<Mix>,
    /// Pigment in per cent of the mass, on top of it.
    pub pigment_percent: f64,
}

/// What a casting takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cast {
    /// What the moulds hold, empty, millilitres.
    pub moulds_ml: f64,
    /// What is mixed: what is left to fill, and the waste, millilitres.
    pub volume_ml: f64,
    /// Its mass, grams.
    pub mass_g: f64,
    /// How much of each part of the mix; none where it is not known.
    pub portions: Option<Portions>,
    /// Pigment, grams.
    pub pigment_g: f64,
}

/// Why a casting comes to nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CastError {
    /// What is put in takes all of the moulds, millilitres of each.
    NothingLeft {
        /// What is put in.
        displaced_ml: f64,
        /// What the moulds hold.
        moulds_ml: f64,
    },
    /// A figure that is no number, or out of its range.
    OutOfRange,
}

impl Casting {
    /// What it takes.
    ///
    /// # Errors
    ///
    /// Where nothing is left to fill, or a figure is below nothing or no number.
    pub fn works_out(&self) -> Result<Cast, CastError> {
        let figures = [self.displaced_ml, self.waste_percent, self.pigment_percent];
        let sound = figures.iter().all(|it| it.is_finite() && *it >= 0.0);
        if !sound || !self.density_g_cm3.is_finite() || self.density_g_cm3 <= 0.0 {
            return Err(CastError::OutOfRange);
        }
        let moulds_ml: f64 = self.moulds.iter().map(Moulds::volume_ml).sum();
        if self.displaced_ml >= moulds_ml {
            return Err(CastError::NothingLeft {
                displaced_ml: self.displaced_ml,
                moulds_ml,
            });
        }
        let volume_ml = (moulds_ml - self.displaced_ml) * (1.0 + self.waste_percent / 100.0);
        let mass_g = volume_ml * self.density_g_cm3;
        Ok(Cast {
            moulds_ml,
            volume_ml,
            mass_g,
            portions: self.mix.map(|mix| mix.of(volume_ml, mass_g)),
            pigment_g: mass_g * self.pigment_percent / 100.0,
        })
    }
}

/// What can hurt in casting (common practice); the resin's own sheet comes first.
pub const CAUTIONS: [&str; 4] = [
    "the resin's own sheet comes first: ratio, pot life, depth of a pour, cure and heat",
    "resin and hardener: gloves fit for them, eyes covered, the room aired; neither near a flame",
    "a large mix heats itself: no more at once than the sheet allows",
    "pressure or vacuum only in a vessel made and rated for it, used as its maker says",
];

/// Where [`CAUTIONS`] come from.
pub const CAUTIONS_SOURCE: Source = Source::PRACTICE;

#[cfg(test)]
mod tests {
    use super::*;

    fn rods(count: u32, dia: f64, length: f64) -> Moulds {
        Moulds {
            count,
            section: MouldSection::Rod,
            size: Length::mm(dia),
            length: Length::mm(length),
        }
    }

    fn plain(moulds: Vec<Moulds>) -> Casting {
        Casting {
            moulds,
            displaced_ml: 0.0,
            waste_percent: 0.0,
            density_g_cm3: 1.1,
            mix: None,
            pigment_percent: 0.0,
        }
    }

    fn near(found: f64, wanted: f64, within: f64) {
        assert!((found - wanted).abs() <= within, "{found} for {wanted}");
    }

    /// By hand: 6 · π/4 · 20² · 90 = 169 646 mm³; 1.08 of it 183.218 ml; at 1.10 g/cm³ 201.539 g,
    /// of which 100/110 are 183.218 and 10/110 are 18.322 g; 2 % of pigment 4.031 g.
    #[test]
    fn six_rods_by_hand() {
        let asked = Casting {
            waste_percent: 8.0,
            mix: Mix::new(100.0, 10.0, MixBy::Weight),
            pigment_percent: 2.0,
            ..plain(vec![rods(6, 20.0, 90.0)])
        };
        let found = asked.works_out().unwrap();
        near(found.moulds_ml, 169.646, 5e-4);
        near(found.volume_ml, 183.218, 5e-4);
        near(found.mass_g, 201.539, 5e-4);
        near(found.pigment_g, 4.031, 5e-4);
        let portions = found.portions.unwrap();
        near(portions.amounts[0], 183.218, 5e-4);
        near(portions.amounts[1], 18.322, 5e-4);
    }

    /// By hand: 2 · 20² · 100 = 80 000 mm³ beside π/4 · 10² · 40 = 3 141.59 mm³, less 13.14159 ml of
    /// wood: 70 ml; a tenth more, 77 ml, in shares of 2 to 1.
    #[test]
    fn bars_with_wood_in_them_by_hand() {
        let bars = Moulds {
            section: MouldSection::Square,
            ..rods(2, 20.0, 100.0)
        };
        let asked = Casting {
            displaced_ml: 13.141_592_653_6,
            waste_percent: 10.0,
            mix: Mix::new(2.0, 1.0, MixBy::Volume),
            ..plain(vec![bars, rods(1, 10.0, 40.0)])
        };
        let found = asked.works_out().unwrap();
        near(found.volume_ml, 77.0, 1e-9);
        let portions = found.portions.unwrap();
        near(portions.amounts[0], 154.0 / 3.0, 1e-9);
        near(portions.amounts[1], 77.0 / 3.0, 1e-9);
    }

    #[test]
    fn what_cannot_be_cast_is_told_apart() {
        let full = Casting {
            displaced_ml: 30.0,
            ..plain(vec![rods(1, 20.0, 90.0)])
        };
        assert!(matches!(
            full.works_out(),
            Err(CastError::NothingLeft { .. })
        ));
        for wrong in [f64::NAN, -1.0, f64::INFINITY] {
            let asked = Casting {
                waste_percent: wrong,
                ..plain(vec![rods(1, 20.0, 90.0)])
            };
            assert_eq!(asked.works_out(), Err(CastError::OutOfRange));
        }
    }
}
