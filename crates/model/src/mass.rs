//! What a part weighs and where it balances.

use crate::{Body, Part};
use quillet_geometry::{Length, Mass};

impl Part {
    /// The part's mass, with stations of the part along its axis: a bought part's as given, else
    /// each piece of its blank and its glue by volume and density. None where its shape is not known.
    ///
    /// A bought part without a given mass weighs nothing; one whose place is not given balances
    /// in the middle of what is drawn.
    pub fn weigh(&self) -> Option<Mass> {
        if self.bought {
            return self.weigh_bought();
        }
        let bodies = self.bodies();
        let weighed = |body: &Body| body.properties().of_density(body.density_g_cm3);
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
}
