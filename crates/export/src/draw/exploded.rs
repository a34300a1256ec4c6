//! A pen taken apart along its axis, in the order in which its parts meet.

mod order;

use super::looks::Look;
use super::member::{Member, PenView};
use super::nib;
use super::seen::WHOLE;
use super::shade;
use super::view::ViewTransform;
use crate::scene::{Layer, Scene, Xy};
use quillet_model::{Configured, PartId, Pen};

/// A pen taken apart along its axis, and where the gap of each of its joints is.
pub fn exploded(pen: &Pen, width_mm: f64) -> Option<(Look, Vec<Option<f64>>)> {
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
    let members = view.members();
    let span = |it: &Member| {
        let ends = [it.solid.outer.start().z, it.solid.outer.end().z].map(|z| it.place.of(z));
        (ends[0].min(ends[1]), ends[0].max(ends[1]))
    };
    let order = order::order(pen, &members);
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
    for member in order.iter().map(|at| &members[*at]) {
        let (low, high) = span(member);
        let view = ViewTransform {
            flipped: member.place.reversed,
            ..ViewTransform::new(
                Xy::new(x + (member.place.of(0.0) - low) * scale, radius),
                scale,
            )
        };
        let leaf = nib::leaf(pen, member);
        let shown = (member.part, member.solid);
        shade::show(&mut scene, leaf.as_ref(), shown, view, &WHOLE);
        parts.push((member.id, Xy::new(x + (high - low) * scale / 2.0, radius)));
        begins.push((x, x + (high - low) * scale));
        x += (high - low) * scale + GAP;
    }
    let order: Vec<PartId> = order.iter().map(|at| members[*at].id).collect();
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

/// Before the later of a joint's two parts, or where that gap is taken after the earlier one, or between them.
fn joint_gaps(pen: &Pen, order: &[PartId]) -> Vec<Option<usize>> {
    let mut taken: Vec<usize> = Vec::new();
    let each = pen.joints.iter().map(|joint| {
        let place = |id: PartId| order.iter().position(|it| *it == id);
        let (a, b) = (place(joint.male.part)?, place(joint.female.part)?);
        let (earlier, later) = (a.min(b), a.max(b));
        let gaps = std::iter::once(later.checked_sub(1)?).chain(earlier..later);
        let gap = gaps.into_iter().find(|it| !taken.contains(it))?;
        taken.push(gap);
        Some(gap)
    });
    each.collect()
}
