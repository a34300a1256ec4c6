//! A pen as it looks, in section, and taken apart, each bare: what is said of it stands on the page.

use super::callouts::{Callout, CalloutSubject, callouts};
use super::figures::LengthFormat;
use super::member::{Member, PenView};
use super::outline;
use super::seen::ALONE;
use super::thread::{ThreadView, threads};
use super::view::{Half, ViewTransform};
use crate::scene::{Layer, Scene, Xy};
use quillet_model::{Configured, PartId, Pen, Units};

/// A picture, and where things are on it.
#[derive(Clone, Debug)]
pub(crate) struct Look {
    /// The picture, no larger than what is drawn.
    pub(crate) scene: Scene,
    /// Paper millimetres for each of the pen's.
    pub(crate) scale: f64,
    /// Where each part is, on the picture.
    pub(crate) parts: Vec<(PartId, Xy)>,
    /// Where it touches and where it stays clear.
    pub(crate) spots: Vec<(Callout, Xy)>,
}

/// A pen from outside, full size or the largest scale that fits; none where it could not be put together.
pub(crate) fn outside(pen: &Pen, configured: Configured, width_mm: f64) -> Option<Look> {
    let (view, mut look) = begun(pen, configured, width_mm)?;
    let mut members = view.members();
    // What goes in lies beneath what it goes into.
    let widest = |it: &Member| {
        let pieces = it.solid.outer.segments().iter();
        pieces.map(|it| it.curve.bounds().max.r).fold(0.0, f64::max)
    };
    members.sort_by(|a, b| widest(a).total_cmp(&widest(b)));
    for member in &members {
        seen(&mut look.scene, member, member.view);
    }
    Some(look)
}

/// A pen in full section.
pub(crate) fn section(pen: &Pen, width_mm: f64, units: Units) -> Option<Look> {
    let configured = match pen.assembly.capped.is_some() {
        true => Configured::Capped,
        false => Configured::Uncapped,
    };
    let (view, mut look) = begun(pen, configured, width_mm)?;
    view.draw(&mut look.scene);
    for member in view.members() {
        let (low, high) = (member.solid.outer.start().z, member.solid.outer.end().z);
        let station = low + (high - low) * 0.5;
        let outer = member
            .solid
            .outer
            .radii_at(station)
            .map_or(0.0, |it| it.0.min(it.1));
        let inner = if member.cut {
            member.solid.bore_radius(station)
        } else {
            0.0
        };
        if let Some(axis) = view.axis(member.id, station) {
            let at = axis.moved(0.0, (outer + inner.min(outer)) / 2.0 * view.scale);
            look.parts.push((member.id, at));
        }
    }
    look.parts.sort_by(|a, b| a.1.x.total_cmp(&b.1.x));
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

/// A pen taken apart along its axis, and where the gap of each of its joints is.
pub(crate) fn exploded(pen: &Pen, width_mm: f64) -> Option<(Look, Vec<Option<f64>>)> {
    const GAP: f64 = 10.0;
    let configured = match pen.assembly.capped.is_some() {
        true => Configured::Capped,
        false => Configured::Uncapped,
    };
    let configuration = pen.assembly.configuration(configured)?;
    let view = PenView {
        pen,
        configuration,
        origin: Xy::default(),
        scale: 1.0,
    };
    let mut members = view.members();
    let span = |it: &Member| {
        let ends = [it.solid.outer.start().z, it.solid.outer.end().z].map(|z| it.place.of(z));
        (ends[0].min(ends[1]), ends[0].max(ends[1]))
    };
    members.sort_by(|a, b| span(a).0.total_cmp(&span(b).0));
    let long: f64 = members.iter().map(|it| span(it).1 - span(it).0).sum();
    let gaps = GAP * members.len().saturating_sub(1) as f64;
    if members.is_empty() || long <= 0.0 {
        return None;
    }
    let scale = ((width_mm - gaps) / long).clamp(0.05, 1.0);
    let radius = view.radius_mm() * scale;
    let width = long * scale + gaps;
    let mut scene = Scene::new("taken apart", width, 2.0 * radius);
    scene.line(
        Layer::Axis,
        Xy::new(-4.0, radius),
        Xy::new(width + 4.0, radius),
    );
    let (mut x, mut parts, mut begins) = (0.0, Vec::new(), Vec::new());
    for member in &members {
        let (low, high) = span(member);
        let view = ViewTransform {
            origin: Xy::new(x + (member.place.of(0.0) - low) * scale, radius),
            scale,
            flipped: member.place.reversed,
        };
        seen(&mut scene, member, view);
        parts.push((member.id, Xy::new(x + (high - low) * scale / 2.0, radius)));
        begins.push((x, x + (high - low) * scale));
        x += (high - low) * scale + GAP;
    }
    let order: Vec<PartId> = members.iter().map(|it| it.id).collect();
    let gaps = joint_gaps(pen, &order);
    let middle = |gap: usize| (begins[gap].1 + begins[gap + 1].0) / 2.0;
    let gaps = gaps.into_iter().map(|gap| gap.map(middle)).collect();
    let look = Look {
        scene,
        scale,
        parts,
        spots: Vec::new(),
    };
    Some((look, gaps))
}

/// Before the later of a joint's two parts, or where that gap is taken after the earlier one.
fn joint_gaps(pen: &Pen, order: &[PartId]) -> Vec<Option<usize>> {
    let mut taken: Vec<usize> = Vec::new();
    let each = pen.joints.iter().map(|joint| {
        let place = |id: PartId| order.iter().position(|it| *it == id);
        let (a, b) = (place(joint.male.part)?, place(joint.female.part)?);
        let (earlier, later) = (a.min(b), a.max(b));
        let gap = [later.checked_sub(1)?, earlier];
        let gap = gap.into_iter().find(|it| !taken.contains(it))?;
        taken.push(gap);
        Some(gap)
    });
    each.collect()
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

/// A part from outside.
fn seen(scene: &mut Scene, member: &Member, view: ViewTransform) {
    let solid = member.solid;
    let halves = [Half::Upper, Half::Lower];
    let regions = halves.map(|half| view.region(half, &solid.outer));
    scene.fill(Layer::Paper, regions.to_vec());
    scene.fill(Layer::View, regions.to_vec());
    for half in halves {
        outline::outside(scene, view, half, solid, &ALONE);
        threads(
            scene,
            view,
            half,
            member.part,
            solid,
            ThreadView::Outside,
            &ALONE,
        );
    }
}
