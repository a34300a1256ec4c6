//! `Fit`: a hole's and a shaft's class together, H7/g6.

use std::fmt;
use std::str::FromStr;

use quillet_geometry::{Length, Limits};

use super::zone::{FitError, Zone, ZoneLimits};
use crate::drill::DrillSize;

/// A fit: the classes of a hole and of the shaft that goes into it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Fit {
    /// The hole's class.
    pub hole: Zone,
    /// The shaft's class.
    pub shaft: Zone,
}

/// A fit at a size, as it is asked for: `10 H7/g6`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SizedFit {
    /// The nominal diameter.
    pub size: Length,
    /// The fit.
    pub fit: Fit,
}

/// What a fit gives at a size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FitLimits {
    /// The hole.
    pub hole: ZoneLimits,
    /// The shaft.
    pub shaft: ZoneLimits,
    /// Hole less shaft, from the least to the greatest; below zero it is interference.
    pub clearance: Limits,
    /// What kind of fit that is.
    pub kind: FitKind,
}

/// The three kinds of fit (ISO 286-1).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FitKind {
    /// Always loose, or just touching.
    Clearance,
    /// Loose or tight, as the parts turn out.
    Transition,
    /// Always tight, or just touching.
    Interference,
}

impl FitKind {
    /// The kind in a word.
    pub const fn word(self) -> &'static str {
        match self {
            FitKind::Clearance => "clearance",
            FitKind::Transition => "transition",
            FitKind::Interference => "interference",
        }
    }

    /// The kind of a range of clearances.
    pub fn of(clearance: Limits) -> FitKind {
        if !clearance.min().is_negative() {
            FitKind::Clearance
        } else if !clearance.max().is_positive() {
            FitKind::Interference
        } else {
            FitKind::Transition
        }
    }
}

impl Fit {
    /// Limits, clearance and kind at a size.
    ///
    /// # Errors
    /// When the size is beyond 50 mm, or the standard does not give a class there.
    pub fn at(self, size: Length) -> Result<FitLimits, FitError> {
        let (hole, shaft) = (self.hole.at(size)?, self.shaft.at(size)?);
        let clearance = Limits::new(hole.lower - shaft.upper, hole.upper - shaft.lower);
        Ok(FitLimits {
            hole,
            shaft,
            clearance,
            kind: FitKind::of(clearance),
        })
    }
}

/// `H7/g6`.
impl fmt::Display for Fit {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.pad(&format!("{}/{}", self.hole, self.shaft))
    }
}

impl FromStr for Fit {
    type Err = FitError;

    fn from_str(text: &str) -> Result<Fit, FitError> {
        let (hole, shaft) = text
            .split_once('/')
            .ok_or_else(|| FitError::Fit(text.trim().to_owned()))?;
        let (hole, shaft): (Zone, Zone) = (hole.parse()?, shaft.parse()?);
        if !hole.is_hole() {
            return Err(FitError::Side(hole));
        }
        if shaft.is_hole() {
            return Err(FitError::Side(shaft));
        }
        Ok(Fit { hole, shaft })
    }
}

/// `10 H7/g6`, `⌀10 H7/g6`, `10H7/g6`, `7/16in H7/g6`.
impl FromStr for SizedFit {
    type Err = FitError;

    fn from_str(text: &str) -> Result<SizedFit, FitError> {
        let text = text.trim();
        let refused = || FitError::Fit(text.to_owned());
        let plain = text.trim_start_matches(['⌀', 'Ø', 'ø']).trim_start();
        // The hole's capital letter begins the fit.
        let letter = plain
            .find(|c: char| c.is_ascii_uppercase())
            .ok_or_else(refused)?;
        let (size, fit) = plain.split_at(letter);
        if size.trim().is_empty() {
            return Err(refused());
        }
        let DrillSize(size) = size
            .parse()
            .map_err(|_| FitError::Size(size.trim().to_owned()))?;
        Ok(SizedFit {
            size,
            fit: fit.parse()?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str) -> FitLimits {
        let SizedFit { size, fit } = text.parse().unwrap();
        fit.at(size).unwrap()
    }

    fn um(lower: i64, upper: i64) -> Limits {
        Limits::new(Length::from_nm(lower * 1000), Length::from_nm(upper * 1000))
    }

    /// Worked examples of ISO 286 handbooks: 25 H7/g6 has 7 to 41 µm of clearance (the figure that
    /// the package pressfit documents too), 25 H7/k6 is a transition and 25 H7/p6 a press fit.
    #[test]
    fn clearances_and_kinds() {
        for (text, clearance, kind) in [
            ("25 H7/g6", um(7, 41), FitKind::Clearance),
            ("25 H7/h6", um(0, 34), FitKind::Clearance),
            ("25 H7/k6", um(-15, 19), FitKind::Transition),
            ("25 H7/p6", um(-35, -1), FitKind::Interference),
            ("⌀10H7/g6", um(5, 29), FitKind::Clearance),
            ("7/16in H7/g6", um(6, 35), FitKind::Clearance),
        ] {
            let found = at(text);
            assert_eq!(found.clearance, clearance, "{text}");
            assert_eq!(found.kind, kind, "{text}");
        }
    }

    #[test]
    fn a_fit_prints_as_it_reads() {
        for text in ["H7/g6", "JS7/h6", "H11/d11"] {
            assert_eq!(text.parse::<Fit>().unwrap().to_string(), text);
        }
    }

    #[test]
    fn what_is_no_fit_says_what_was_expected() {
        for (text, message) in [
            ("H7", "expected a hole's and a shaft's class"),
            ("10 h7/g6", "expected a hole's"),
            ("10 H7/G6", "a shaft's was expected"),
            ("10 H7/x6", "no tolerance class"),
            ("ten H7/g6", "no size"),
            ("0 H7/g6", "no size"),
        ] {
            let fault = text.parse::<SizedFit>().unwrap_err();
            assert!(fault.to_string().contains(message), "{text}: {fault}");
        }
        let swapped = "g6/H7".parse::<Fit>().unwrap_err();
        assert!(
            swapped.to_string().contains("a hole's was expected"),
            "{swapped}"
        );
        let SizedFit { size, fit } = "60 H7/g6".parse().unwrap();
        assert!(fit.at(size).is_err());
    }
}
