//! A plain land behind an outside thread that runs into the inside thread.

use crate::{JointView, words};
use quillet_geometry::{Length, Segment};
use quillet_model::{AtRest, Origin, Part, Touch};
use quillet_syntax::{Size, SizedText, text};

/// The land that keeps a threaded joint from closing.
pub(super) struct Land {
    /// Its diameter.
    dia: Length,
    /// From the thread's end to the shoulder behind it.
    length: Length,
    /// How far in the mouth has to be opened for it to lie in; none where no shoulder is to seat.
    to: Option<Length>,
}

impl Land {
    /// Of a joint whose male stops with `touch`: where that is the plain stretch behind its thread
    /// against the thread, or the hole, of the other.
    pub(super) fn of(view: &JointView<'_>, rest: &AtRest, touch: &Touch) -> Option<Land> {
        let (male, female) = (view.male, view.female);
        let own =
            touch.male.part == view.joint.male.part && touch.female.part == view.joint.female.part;
        let threads = rest.engagements.first().filter(|_| own)?.threads;
        let (from, to) = male.features.get(threads.male)?.stations(male.length);
        // Behind the thread, as it goes in.
        let down = view.joint.male.end == quillet_model::End::Second;
        let rear = if down { from } else { to };
        let near = (touch.male.station_mm - rear.to_mm()).abs() < NEAR_MM;
        let inside = female.features.get(threads.female)?.stations(female.length);
        let in_thread = (inside.0.to_mm() - NEAR_MM..=inside.1.to_mm() + NEAR_MM)
            .contains(&touch.female.station_mm);
        if !near || !in_thread {
            return None;
        }
        let behind = behind(male, rear.to_mm(), down);
        let (first, rest_of) = behind.split_first()?;
        let is_thread = |it: &Segment| {
            let origin = male.profiles.as_ref().map(|all| all.origin(it.tag));
            origin == Some(Origin::Feature(threads.male))
        };
        let radius = |it: &Segment| it.curve.start().r.max(it.curve.end().r);
        let land = radius(first);
        let crest = &female.profiles.as_ref()?.crest;
        let at = touch.female.station_mm;
        let bore = crest
            .bore_radius(at - NEAR_MM)
            .min(crest.bore_radius(at + NEAR_MM));
        if is_thread(first) || land <= bore {
            return None;
        }
        let shoulder = rest_of.iter().find(|it| radius(it) > land + 1e-6);
        let end_mm = shoulder.map(|it| {
            let (a, b) = (it.curve.start().z, it.curve.end().z);
            if down { a.max(b) } else { a.min(b) }
        });
        let length = (end_mm? - rear.to_mm()).abs();
        let seat = shoulder.and_then(|it| seat_depth_mm(female, view.joint.female.end, radius(it)));
        Some(Land {
            dia: Length::mm(land).twice(),
            length: Length::mm(length),
            to: seat.map(|seat| Length::mm(seat + length)),
        })
    }

    /// What it is and what it does.
    pub(super) fn meets(&self, view: &JointView<'_>) -> SizedText {
        text!(
            "the plain {} land of {}, {} long behind its thread, enters {}'s thread",
            words::dia(self.dia),
            view.male.name.text,
            Size::Rounded(self.length, 2),
            view.female.name.text
        )
    }

    /// What to cut: of what is bought, nothing.
    pub(super) fn cure(&self, view: &JointView<'_>) -> SizedText {
        let relief = match view.male.is_bought() {
            true => "",
            false => "cut a relief behind the outside thread, or ",
        };
        text!("{}{}", relief, self.bored(view))
    }

    fn bored(&self, view: &JointView<'_>) -> SizedText {
        let units = view.pen.design.units_at(view.female.span);
        let size = units.up(self.dia + Length::from_nm(100_000));
        let to = self.to.map(|to| units.up(to));
        match to {
            Some(to) => text!(
                "bore {} plain, {} to {}, and let the thread begin there",
                view.female_name(),
                Size::Written(size),
                Size::Written(to)
            ),
            None => text!(
                "bore {} plain {} for the land, and let the thread begin behind it",
                view.female_name(),
                Size::Written(size)
            ),
        }
    }
}

const NEAR_MM: f64 = 1e-3;

/// The outside from a station on, away from the end that leads.
fn behind(part: &Part, station_mm: f64, down: bool) -> Vec<Segment> {
    let Some(profiles) = &part.profiles else {
        return Vec::new();
    };
    let on = |it: &&Segment| {
        let (a, b) = (it.curve.start().z, it.curve.end().z);
        let beyond = if down {
            a < station_mm - NEAR_MM
        } else {
            b > station_mm + NEAR_MM
        };
        beyond && !it.curve.is_vertical()
    };
    let mut found: Vec<Segment> = profiles
        .crest
        .outer
        .segments()
        .iter()
        .filter(on)
        .copied()
        .collect();
    if down {
        found.reverse();
    }
    found
}

/// How far in a shoulder of this radius comes to rest: where the mouth gets narrower.
fn seat_depth_mm(part: &Part, end: quillet_model::End, radius_mm: f64) -> Option<f64> {
    let crest = &part.profiles.as_ref()?.crest;
    let length = part.length.to_mm();
    let depths = crest
        .inner
        .iter()
        .flat_map(|bore| bore.segments())
        .filter_map(|it| {
            let wide = it.curve.start().r.min(it.curve.end().r) < radius_mm - 1e-6;
            let z = match end {
                quillet_model::End::First => it.curve.start().z,
                quillet_model::End::Second => length - it.curve.end().z,
            };
            (wide && !it.curve.is_vertical()).then_some(z)
        });
    depths.reduce(f64::min)
}
