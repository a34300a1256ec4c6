//! What a part weighs and where it balances.

use crate::{BlankPiece, Part, Solid};
use quillet_geometry::envelope::{greatest, smallest};
use quillet_geometry::{Chain, Length, Mass, Point, Properties, Tag};

/// A body of one material that a part is made up of, or one taken out of another.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// The piece of the blank: an index into `Part::blanks`.
    pub piece: usize,
    /// It is where another piece's spigot stands, and is to be taken away.
    pub taken: bool,
    /// Density, g/cm³.
    pub density_g_cm3: f64,
    /// Its outside.
    pub outer: Vec<Chain>,
    /// Its bores.
    pub inner: Vec<Chain>,
}

impl Body {
    /// Its metal, as if it were not taken away.
    pub fn properties(&self) -> Properties {
        Properties::between(&self.outer, &self.inner)
    }
}

impl Part {
    /// The part's mass, with stations of the part along its axis: a bought part's as given, else
    /// each stretch of its blank by its volume and density. None where its shape is not known.
    ///
    /// A bought part without a given mass weighs nothing; one whose place is not given balances
    /// in the middle of what is drawn.
    pub fn weigh(&self) -> Option<Mass> {
        if self.bought {
            return self.weigh_bought();
        }
        let bodies = self.bodies();
        let weighed = |body: &Body| {
            let mass = body.properties().of_density(body.density_g_cm3);
            if body.taken { negative(mass) } else { mass }
        };
        (!bodies.is_empty()).then(|| bodies.iter().map(weighed).sum())
    }

    fn weigh_bought(&self) -> Option<Mass> {
        let given = self.mass?;
        let at_mm = given.at.map(Length::to_mm);
        let drawn = self
            .profiles
            .as_ref()
            .map(|profiles| profiles.metal.properties());
        Some(match drawn.filter(|it| it.volume_mm3 > 0.0) {
            Some(drawn) => {
                let mass = drawn.of_mass(given.mass_g);
                Mass {
                    centre_mm: at_mm.unwrap_or(mass.centre_mm),
                    ..mass
                }
            }
            None => Mass::at(given.mass_g, at_mm.unwrap_or(self.length.to_mm() / 2.0)),
        })
    }

    /// The bodies that a cut part is made up of: a stretch for each piece of its blank, and for
    /// each spigot the body it is and the one it takes out of the piece before; a glued gap counts
    /// to the piece around it.
    pub fn bodies(&self) -> Vec<Body> {
        let Some(profiles) = &self.profiles else {
            return Vec::new();
        };
        let metal = &profiles.metal;
        let whole = self.blanks.len() == 1;
        let mut bodies = Vec::with_capacity(self.blanks.len());
        for (piece, blank) in self.blanks.iter().enumerate() {
            let (from, to) = match whole {
                true => (f64::NEG_INFINITY, f64::INFINITY),
                false => (blank.from.to_mm(), blank.to.to_mm()),
            };
            let body = |piece: usize, taken: bool, (outer, inner): (Vec<Chain>, Vec<Chain>)| {
                let density_g_cm3 = self.blanks[piece].stock.material.density_g_cm3;
                Body {
                    piece,
                    taken,
                    density_g_cm3,
                    outer,
                    inner,
                }
            };
            bodies.push(body(piece, false, metal.stretch(from, to)));
            if let Some(spigot) = spigot(metal, blank)
                && piece > 0
            {
                bodies.push(body(piece, false, spigot.clone()));
                bodies.push(body(piece - 1, true, spigot));
            }
        }
        bodies
    }
}

impl Solid {
    /// The outside and the bores between two stations.
    pub(crate) fn stretch(&self, from_mm: f64, to_mm: f64) -> (Vec<Chain>, Vec<Chain>) {
        let clipped = |chain: &Chain| chain.between(from_mm, to_mm);
        let outer = clipped(&self.outer).into_iter().collect();
        (outer, self.inner.iter().filter_map(clipped).collect())
    }
}

/// The metal of a spigot, where it stands in the piece before.
fn spigot(metal: &Solid, blank: &BlankPiece) -> Option<(Vec<Chain>, Vec<Chain>)> {
    let spigot = blank.spigot.as_ref()?;
    let radius = spigot.dia.to_mm() / 2.0;
    let to = blank.from.to_mm();
    let from = to - spigot.length.to_mm();
    let round = Chain::polyline(
        Tag::default(),
        &[Point::new(from, radius), Point::new(to, radius)],
    )?;
    let outer = smallest(&[metal.outer.between(from, to)?, round.clone()]);
    let bored: Vec<Chain> = metal
        .inner
        .iter()
        .filter_map(|chain| chain.between(from, to))
        .collect();
    let inside = |chain: &Chain| {
        let over = round.between(chain.start().z, chain.end().z);
        smallest(&over.into_iter().chain([chain.clone()]).collect::<Vec<_>>())
    };
    let inner = greatest(&bored, from, to).iter().flat_map(inside).collect();
    Some((outer, inner))
}

/// A mass that is taken away from others when all are summed.
fn negative(mass: Mass) -> Mass {
    Mass {
        mass_g: -mass.mass_g,
        axial_g_mm2: -mass.axial_g_mm2,
        transverse_g_mm2: -mass.transverse_g_mm2,
        ..mass
    }
}
