//! What a part weighs and where it balances.

use crate::{BlankPiece, Part, Solid};
use quillet_geometry::envelope::{greatest, smallest};
use quillet_geometry::{Chain, Mass, Point, Properties, Tag};

/// One stretch of a part that is of one material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// The piece of the blank: an index into `Part::blanks`.
    pub piece: usize,
    /// Its metal.
    pub properties: Properties,
    /// Density, g/cm³.
    pub density_g_cm3: f64,
}

impl Part {
    /// The part's mass, with stations of the part along its axis: a bought part's as given, else
    /// each stretch of its blank by its volume and density. None where its shape is not known.
    ///
    /// A bought part without a given mass weighs nothing; one whose place is not given balances
    /// in the middle of what is drawn.
    pub fn weigh(&self) -> Option<Mass> {
        let profiles = self.profiles.as_ref();
        if self.bought {
            let drawn = profiles.map(|profiles| profiles.metal.properties());
            let given = self.mass?;
            let at_mm = given.at.map(quillet_geometry::Length::to_mm);
            return Some(match drawn.filter(|it| it.volume_mm3 > 0.0) {
                Some(drawn) => {
                    let mass = drawn.of_mass(given.mass_g);
                    Mass {
                        centre_mm: at_mm.unwrap_or(mass.centre_mm),
                        ..mass
                    }
                }
                None => Mass::at(given.mass_g, at_mm.unwrap_or(self.length.to_mm() / 2.0)),
            });
        }
        let stretches = self.stretches();
        (!stretches.is_empty()).then(|| {
            stretches
                .iter()
                .map(|it| it.properties.of_density(it.density_g_cm3))
                .sum()
        })
    }

    /// The stretches of a part by the pieces of its blank, spigots counted to the piece they are
    /// turned on; a glued gap counts to the piece around it.
    pub fn stretches(&self) -> Vec<Stretch> {
        let Some(profiles) = &self.profiles else {
            return Vec::new();
        };
        let metal = &profiles.metal;
        let mut stretches = Vec::with_capacity(self.blanks.len());
        for (piece, blank) in self.blanks.iter().enumerate() {
            let (from, to) = (blank.from.to_mm(), blank.to.to_mm());
            let mut properties = match self.blanks.len() {
                1 => metal.properties(),
                _ => metal.stretch(from, to),
            };
            if let Some(own) = spigot(metal, blank) {
                properties = sum(properties, own, 1.0);
            }
            if let Some(next) = self.blanks.get(piece + 1)
                && let Some(taken) = spigot(metal, next)
            {
                properties = sum(properties, taken, -1.0);
            }
            let density_g_cm3 = blank.stock.material.density_g_cm3;
            stretches.push(Stretch {
                piece,
                properties,
                density_g_cm3,
            });
        }
        stretches
    }
}

impl Solid {
    /// The metal between two stations.
    pub(crate) fn stretch(&self, from_mm: f64, to_mm: f64) -> Properties {
        let outer = self.outer.between(from_mm, to_mm);
        let inner: Vec<Chain> = self
            .inner
            .iter()
            .filter_map(|chain| chain.between(from_mm, to_mm))
            .collect();
        Properties::between(&outer, &inner)
    }
}

/// The metal of a spigot, where it stands in the piece before.
fn spigot(metal: &Solid, blank: &BlankPiece) -> Option<Properties> {
    let spigot = blank.spigot.as_ref()?;
    let radius = spigot.dia.to_mm() / 2.0;
    let to = blank.from.to_mm();
    let from = to - spigot.length.to_mm();
    let ends = [Point::new(from, radius), Point::new(to, radius)];
    let round = Chain::polyline(Tag::default(), &ends)?;
    let outer = smallest(&[metal.outer.between(from, to)?, round.clone()]);
    let bored: Vec<Chain> = metal
        .inner
        .iter()
        .filter_map(|chain| chain.between(from, to))
        .collect();
    let inner: Vec<Chain> = greatest(&bored, from, to)
        .iter()
        .flat_map(|chain| {
            let over = round.between(chain.start().z, chain.end().z);
            smallest(&over.into_iter().chain([chain.clone()]).collect::<Vec<_>>())
        })
        .collect();
    Some(Properties::between(&outer, &inner))
}

/// Both taken as one, or the second taken from the first (`sign` -1), by the parallel axis theorem.
fn sum(one: Properties, other: Properties, sign: f64) -> Properties {
    let volume_mm3 = one.volume_mm3 + sign * other.volume_mm3;
    if volume_mm3 == 0.0 {
        return Properties::default();
    }
    let moment = one.volume_mm3 * one.centroid_mm + sign * other.volume_mm3 * other.centroid_mm;
    let centroid_mm = moment / volume_mm3;
    let about =
        |it: Properties| it.transverse_mm5 + it.volume_mm3 * (it.centroid_mm - centroid_mm).powi(2);
    Properties {
        volume_mm3,
        centroid_mm,
        axial_mm5: one.axial_mm5 + sign * other.axial_mm5,
        transverse_mm5: about(one) + sign * about(other),
    }
}
