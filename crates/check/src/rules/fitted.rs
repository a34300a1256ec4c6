//! The plain surfaces of a slip, press or glue joint, as drawn.

use crate::JointView;
use quillet_geometry::Length;
use quillet_model::{Clearance, ClearanceKind};

/// The tightest place of a plain joint's own two parts.
pub(super) struct FitContact<'a> {
    /// The clearance there.
    pub(super) at: &'a Clearance,
    /// The hole's diameter.
    pub(super) hole: Length,
    /// What goes into it.
    pub(super) shaft: Length,
}

impl<'a> FitContact<'a> {
    /// Of a joint at rest; none where nothing of the one lies in the other.
    pub(super) fn of(view: &JointView<'a>) -> Option<Self> {
        let joint = view.joint;
        let own = |it: &&Clearance| {
            it.kind == ClearanceKind::RadialClearance
                && it.male.part == joint.male.part
                && it.female.part == joint.female.part
        };
        let at = view.at_rest()?.clearances.iter().find(own)?;
        let dia = |radius_mm: f64| Length::mm(radius_mm).twice();
        Some(Self {
            at,
            hole: dia(at.female.radius_mm),
            shaft: dia(at.male.radius_mm),
        })
    }

    /// The hole less what goes into it, on diameter; less than nothing where they press.
    pub(super) fn clearance(&self) -> Length {
        self.hole - self.shaft
    }
}
