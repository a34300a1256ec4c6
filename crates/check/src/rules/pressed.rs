//! A spring that is pressed further than it gives.

use crate::JointView;
use quillet_geometry::Length;
use quillet_model::{AtRest, Closing, Part, SurfacePoint};
use quillet_syntax::{Size, SizedText, Span, text};

/// A spring that keeps a joint from closing: what is left for it is less than its least length.
pub(super) struct Pressed<'a> {
    spring: &'a Part,
    room: Length,
}

impl<'a> Pressed<'a> {
    /// Of a joint that stops with something against a spring that it traps.
    pub(super) fn of(view: &JointView<'a>, rest: &AtRest) -> Option<Self> {
        let touch = match &rest.verdict.closing {
            Closing::Blocked(blocked) => blocked.touch,
            Closing::Short { .. } => *rest.touches.first()?,
            _ => return None,
        };
        let is_spring = |spot: &SurfacePoint| {
            let part = view.pen.pen.parts.get(spot.part)?;
            let gives = part.length_free > part.length && view.joint.through.contains(&spot.part);
            gives.then_some(&**part)
        };
        let spring = is_spring(&touch.male).or_else(|| is_spring(&touch.female))?;
        let room = spring.length - Length::mm(rest.short_mm);
        (room < spring.length).then_some(Self { spring, room })
    }

    /// What it is pressed to, and the least it gives.
    pub(super) fn words(&self) -> SizedText {
        let room = match self.room.is_positive() {
            true => text!("{} is left for it", Size::Rounded(self.room, 2)),
            false => "nothing is left for it".into(),
        };
        text!(
            "{} is pressed below its least length: {}, and it takes {}",
            self.spring.name.text,
            room,
            self.spring.length
        )
    }

    /// Where its length is said.
    pub(super) fn stated_at(&self) -> Span {
        self.spring.length_span
    }
}
