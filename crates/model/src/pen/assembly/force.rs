//! The force that draws a joint apart: an estimate, good to a factor of two, since friction alone
//! varies that much.

use super::elastic::{NEAR_MM, elastic, material_at};
use super::{Clearance, ClearanceKind, HeldBy, SurfacePoint};
use crate::{Cut, JointId, Material, Pen, RingId};
use quillet_geometry::Length;
use quillet_standards::mechanics::press::Press;
use quillet_standards::mechanics::{FRICTION, o_ring};

/// In plastics half of the pressure is left after the years, by creep: common practice, no
/// published source.
const LEFT_BY_CREEP: f64 = 0.5;

impl Pen {
    /// The axial force in newtons that draws a joint apart, as far as it is held by what squeezes:
    /// an estimate, good to a factor of two. None where a thread, glue or what lies round it holds
    /// it, where nothing does, or where a modulus is not known.
    pub fn hold_n(&self, joint: JointId) -> Option<f64> {
        self.sum_n(joint, Pen::force_n)
    }

    /// The same while it is new: before plastics have crept.
    pub fn new_hold_n(&self, joint: JointId) -> Option<f64> {
        self.sum_n(joint, Pen::new_force_n)
    }

    fn sum_n(
        &self,
        joint: JointId,
        of: impl Fn(&Pen, JointId, &HeldBy) -> Option<f64>,
    ) -> Option<f64> {
        let held = &self.assembly.joints.get(joint)?.verdict.held_by;
        let forces: Option<Vec<f64>> = held.iter().map(|it| of(self, joint, it)).collect();
        let forces = forces.filter(|it| !it.is_empty())?;
        Some(forces.iter().sum())
    }

    /// What one of those that hold a joint bears, as [`Pen::hold_n`].
    pub fn force_n(&self, joint: JointId, held: &HeldBy) -> Option<f64> {
        let left = match held {
            HeldBy::Interference { .. } => self.left_by_creep(joint)?,
            _ => 1.0,
        };
        Some(self.new_force_n(joint, held)? * left)
    }

    fn new_force_n(&self, joint: JointId, held: &HeldBy) -> Option<f64> {
        match held {
            HeldBy::Interference { size, .. } => self.pressed_n(joint, *size),
            HeldBy::Ring { ring, squeeze } => self.squeezed_n(*ring, *squeeze),
            HeldBy::Snap(it) => it.hold_n,
            HeldBy::Magnets(it) => it.pull_n,
            _ => None,
        }
    }

    /// Of a ring round a tenon, where the two are tightest (Lamé), over the length that lies near.
    fn pressed_n(&self, joint: JointId, interference: Length) -> Option<f64> {
        let rest = self.assembly.joints.get(joint)?;
        let (male, female) = (self.joints[joint].male.part, self.joints[joint].female.part);
        let at = self.tightest(joint)?;
        let tenon = self.parts.get(male)?;
        let ring = self.parts.get(female)?;
        let of_ring = material_at(ring, at.female.station_mm, at.female.radius_mm + NEAR_MM)?;
        let of_tenon = material_at(tenon, at.male.station_mm, at.male.radius_mm - NEAR_MM)?;
        let outside = &ring.profiles.as_ref()?.crest.outer;
        let bore = tenon.profiles.as_ref()?;
        let joint_mm = 2.0 * at.male.radius_mm;
        let press = Press {
            joint_mm,
            ring_mm: 2.0 * outside.least_at(at.female.station_mm)?,
            bore_mm: 2.0 * bore.crest.bore_radius(at.male.station_mm),
            ring: elastic(of_ring)?,
            tenon: elastic(of_tenon)?,
        };
        let pressed = press.pressed(interference.to_mm())?;
        pressed.hold_n(joint_mm, rest.fit?.near_mm, FRICTION)
    }

    /// The share of an interference's hold that is left after the years.
    fn left_by_creep(&self, joint: JointId) -> Option<f64> {
        let at = self.tightest(joint)?;
        let of = |spot: &SurfacePoint, beside_mm: f64| {
            let part = self.parts.get(spot.part)?;
            material_at(part, spot.station_mm, spot.radius_mm + beside_mm)
        };
        let (around, inside) = (of(&at.female, NEAR_MM)?, of(&at.male, -NEAR_MM)?);
        let metal = |it: &Material| it.kind.family() == quillet_standards::material::Family::Metal;
        Some(match metal(around) && metal(inside) {
            true => 1.0,
            false => LEFT_BY_CREEP,
        })
    }

    /// Where a joint's own two parts are tightest.
    fn tightest(&self, joint: JointId) -> Option<&Clearance> {
        let (male, female) = (self.joints[joint].male.part, self.joints[joint].female.part);
        self.assembly
            .joints
            .get(joint)?
            .clearances
            .iter()
            .find(|it| {
                it.kind == ClearanceKind::RadialClearance
                    && (it.male.part, it.female.part) == (male, female)
            })
    }

    /// Of an O-ring that is squeezed by a share of its cord (Lindley).
    fn squeezed_n(&self, ring: RingId, squeeze: f64) -> Option<f64> {
        let seated = self.assembly.rings.get(ring)?;
        let cord = seated.ring.ring()?.cord;
        let groove = self.parts.get(seated.part)?.features.get(seated.feature)?;
        let mean = match &groove.cut {
            Cut::Groove { dia, .. } => *dia + cord,
            Cut::Recess { dia, .. } => *dia - cord,
            _ => return None,
        };
        o_ring::hold_n(mean.to_mm(), cord.to_mm(), squeeze)
    }
}
