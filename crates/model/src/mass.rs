//! What a part weighs and where it balances.

use crate::part::worked::WorkedBody;
use crate::{Filling, Part, PieceId};
use quillet_geometry::{Length, Mass, Properties};

/// Nitrile rubber of O-rings, from memory, g/cm³; grades run from 1.1 to 1.4.
const RUBBER_G_CM3: f64 = 1.2;

impl Part {
    /// The part's mass, with stations of the part along its axis: a bought part's as given, else
    /// each piece of its blank and its glue by volume and density. None where something that it
    /// rests on is missing, as [`Part::lacks_mass`] says.
    ///
    /// A bought part whose place is not given balances in the middle of what is drawn; an O-ring
    /// without a given mass weighs what its cord weighs in rubber.
    pub fn weigh(&self) -> Option<Mass> {
        if self.lacks_mass().is_some() {
            return None;
        }
        if self.is_bought() {
            return self.weigh_bought();
        }
        let bodies = self.worked_bodies();
        let weighed = |body: &WorkedBody| body.volume.of_density(body.density_g_cm3);
        (!bodies.is_empty()).then(|| bodies.iter().map(weighed).sum())
    }

    /// Whether something is left of it, and no bore comes out of its outside.
    pub(crate) fn is_left(&self) -> bool {
        let profiles = self.profiles.as_ref();
        let sound = profiles.and_then(|it| it.metal.sound());
        if let Some(turned) = sound {
            self.worked.turned.get_or_init(|| turned);
        }
        sound.is_some()
    }

    /// Volume and moments of all that is left of it; none where its shape is not known.
    fn volume(&self) -> Option<Properties> {
        let profiles = self.profiles.as_ref()?;
        let turned = &self.worked.turned;
        Some(profiles.less_cuts(*turned.get_or_init(|| profiles.metal.properties())))
    }

    /// The volumes of its bodies.
    pub(crate) fn worked_bodies(&self) -> &[WorkedBody] {
        self.worked.bodies.get_or_init(|| {
            if let [only] = &**self.blanks() {
                let body = |volume| WorkedBody {
                    piece: Some(PieceId::FIRST),
                    density_g_cm3: only.stock.material.density_g_cm3,
                    volume,
                };
                return self.volume().map(body).into_iter().collect();
            }
            let bodies = self.bodies().into_iter().map(|it| WorkedBody {
                piece: match it.of {
                    Filling::Piece(piece) => Some(piece),
                    Filling::Glue(_) => None,
                },
                density_g_cm3: it.density_g_cm3,
                volume: it.properties(),
            });
            bodies.collect()
        })
    }

    /// A bought part's mass, g: as given, an O-ring's else by its cord. Nothing weighs less than
    /// nothing.
    pub(crate) fn given_mass(&self) -> Option<f64> {
        let by_cord = || {
            let volume = self.volume().filter(|_| self.ring().is_some())?;
            Some(volume.volume_mm3 * RUBBER_G_CM3 / 1000.0)
        };
        let given = self.stated_mass().map(|given| given.mass_g);
        given.or_else(by_cord).filter(|mass_g| *mass_g >= 0.0)
    }

    fn weigh_bought(&self) -> Option<Mass> {
        let mass_g = self.given_mass()?;
        let at_mm = self
            .stated_mass()
            .and_then(|given| given.at)
            .map(Length::to_mm);
        Some(match self.volume().filter(|it| it.volume_mm3 > 0.0) {
            Some(drawn) => {
                let mass = drawn.of_mass(mass_g);
                Mass {
                    centre_mm: at_mm.unwrap_or(mass.centre_mm),
                    ..mass
                }
            }
            None => Mass::at(mass_g, at_mm.unwrap_or(self.length.to_mm() / 2.0)),
        })
    }
}
