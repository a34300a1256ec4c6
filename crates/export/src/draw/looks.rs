//! A pen as it looks, cut away and in section, each bare: what is said of it stands on the page.

use super::assembled::Detailed;
use super::callouts::{Callout, CalloutSubject, callouts};
use super::extras;
use super::figures::LengthFormat;
use super::member::PenView;
use super::nib;
use super::seen::Seen;
use super::shade;
use super::view::Half;
use crate::scene::{Scene, Xy};
use quillet_geometry::{Point, put_in_order};
use quillet_model::{Configured, PartId, Pen, Units};

/// A picture, and where things are on it.
#[derive(Clone, Debug)]
pub struct Look {
    /// The picture, no larger than what is drawn.
    pub scene: Scene,
    /// Paper millimetres for each of the pen's.
    pub scale: f64,
    /// Where each part is, on the picture.
    pub parts: Vec<(PartId, Xy)>,
    /// Where it touches and where it stays clear.
    pub spots: Vec<(Callout, Xy)>,
}

/// A pen from outside in its colours, full size or the largest scale that fits; none where it could not be
/// put together.
pub fn outside(pen: &Pen, configured: Configured, width_mm: f64) -> Option<Look> {
    let (view, mut look) = begun(pen, configured, width_mm)?;
    coloured(&mut look.scene, &view, false);
    for arm in extras::arms(&view, &view.members()) {
        arm.paint(&mut look.scene, &view);
    }
    Some(look)
}

/// The same in lines alone.
pub fn lines(pen: &Pen, configured: Configured, width_mm: f64) -> Option<Look> {
    let (view, mut look) = begun(pen, configured, width_mm)?;
    let members = view.members();
    for member in &members {
        let hides = |at: Point| view.is_hidden(&members, member, at);
        let seen = Seen {
            hides: &hides,
            is_half: false,
        };
        let leaf = nib::leaf(pen, member);
        shade::lines(
            &mut look.scene,
            leaf.as_ref(),
            (member.part, member.solid),
            member.view,
            &seen,
        );
    }
    for arm in extras::arms(&view, &members) {
        arm.draw(&mut look.scene, &view);
    }
    view.draw_axis(&mut look.scene);
    Some(look)
}

/// A pen as it looks below its axis, cut above it.
pub fn cutaway(pen: &Pen, configured: Configured, width_mm: f64) -> Option<Look> {
    let (view, mut look) = begun(pen, configured, width_mm)?;
    coloured(&mut look.scene, &view, true);
    view.fill_bought(&mut look.scene, &[Half::Upper]);
    view.draw_half(&mut look.scene, Half::Upper, Detailed::Plainly);
    for arm in extras::arms(&view, &view.members()) {
        arm.draw(&mut look.scene, &view);
    }
    view.draw_axis(&mut look.scene);
    look.parts = part_places(&view);
    Some(look)
}

/// A pen in full section.
pub fn section(pen: &Pen, width_mm: f64, units: Units) -> Option<Look> {
    let configured = match pen.assembly.capped.is_some() {
        true => Configured::Capped,
        false => Configured::Uncapped,
    };
    let (view, mut look) = begun(pen, configured, width_mm)?;
    view.fill_bought(&mut look.scene, &[Half::Upper, Half::Lower]);
    view.draw(&mut look.scene);
    look.parts = part_places(&view);
    let figures = LengthFormat(units);
    for about in [CalloutSubject::Capped, CalloutSubject::Uncapped] {
        for callout in callouts(pen, about, 1, figures) {
            let spot = callout.spot;
            if let Some(axis) = view.axis(spot.part, spot.station_mm) {
                look.spots
                    .push((callout, axis.moved(0.0, spot.radius_mm * view.scale)));
            }
        }
    }
    Some(look)
}

/// Where each part is on a picture in section, from left to right.
fn part_places(view: &PenView) -> Vec<(PartId, Xy)> {
    let mut places = Vec::new();
    for member in view.members() {
        let (low, high) = (member.solid.outer.start().z, member.solid.outer.end().z);
        let station = low + (high - low) * 0.5;
        let outer = member.solid.outer.least_at(station).unwrap_or(0.0);
        let inner = if member.cut {
            member.solid.bore_radius(station)
        } else {
            0.0
        };
        if let Some(axis) = view.axis(member.id, station) {
            let at = axis.moved(0.0, (outer + inner.min(outer)) / 2.0 * view.scale);
            places.push((member.id, at));
        }
    }
    put_in_order(&mut places, |it| it.1.x);
    places
}

/// The parts in their colours, each where nothing wider lies over it.
fn coloured(scene: &mut Scene, view: &PenView, is_half: bool) {
    let members = view.members();
    for member in &members {
        let hides = |at: Point| view.is_hidden(&members, member, at);
        let seen = Seen {
            hides: &hides,
            is_half,
        };
        let leaf = nib::leaf(view.pen, member);
        let shown = (member.part, member.solid);
        shade::show(scene, leaf.as_ref(), shown, member.view, &seen);
    }
}

fn begun(pen: &Pen, configured: Configured, width_mm: f64) -> Option<(PenView<'_>, Look)> {
    if !pen.is_settled() {
        return None;
    }
    let configuration = pen.assembly.configuration(configured)?;
    let long = configuration.drawn_mm;
    let scale = super::overview::scale_for(long, 0.0, width_mm).filter(|_| long > 0.0)?;
    let scale = scale.min(1.0);
    let mut view = PenView {
        pen,
        configuration,
        origin: Xy::default(),
        scale,
    };
    let radius = view.radius_mm() * scale;
    view.origin = Xy::new(0.0, radius);
    let look = Look {
        scene: Scene::new(configured.word(), long * scale, 2.0 * radius),
        scale,
        parts: Vec::new(),
        spots: Vec::new(),
    };
    Some((view, look))
}
