//! A pen taken apart along its axis, in the order in which its parts meet.

mod order;

use super::looks::Look;
use super::member::{Member, PenView};
use super::nib;
use super::seen::Seen;
use super::shade;
use super::view::ViewTransform;
use crate::scene::{Layer, Scene, Xy};
use quillet_geometry::Point;
use quillet_model::{Configured, PartId, Pen};

/// A pen taken apart along its axis, and where the gap of each joint is that is made when its parts are
/// finished: parts that were joined before they were turned stay together.
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
    let pieces = pieces(pen, &members);
    let long: f64 = pieces.iter().map(|it| over(it).1 - over(it).0).sum();
    let gaps = GAP * pieces.len().saturating_sub(1) as f64;
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
    for piece in &pieces {
        let (low, high) = over(piece);
        let at = Xy::new(x - low * scale, radius);
        show(&mut scene, &view, piece, at, scale);
        let long = |it: &Member| span(it).1 - span(it).0;
        let longest = piece.iter().max_by(|a, b| long(a).total_cmp(&long(b)));
        let middle = Xy::new(x + (high - low) * scale / 2.0, radius);
        parts.extend(longest.map(|it| (it.id, middle)));
        begins.push((x, x + (high - low) * scale));
        x += (high - low) * scale + GAP;
    }
    let order: Vec<Vec<PartId>> = pieces
        .iter()
        .map(|piece| piece.iter().map(|it| it.id).collect())
        .collect();
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

/// From where to where a part lies on the pen's axis, mm.
fn span(it: &Member) -> (f64, f64) {
    let ends = [it.solid.outer.start().z, it.solid.outer.end().z].map(|z| it.place.of(z));
    (ends[0].min(ends[1]), ends[0].max(ends[1]))
}

/// From where to where several lie.
fn over(piece: &[Member]) -> (f64, f64) {
    let ends = (f64::INFINITY, f64::NEG_INFINITY);
    let spans = piece.iter().map(span);
    spans.fold(ends, |all, it| (all.0.min(it.0), all.1.max(it.1)))
}

/// Shows parts that stay together, the pen's foremost place at `at`.
fn show(scene: &mut Scene, view: &PenView, piece: &[Member], at: Xy, scale: f64) {
    for member in piece {
        let placed = ViewTransform {
            flipped: member.place.reversed,
            ..ViewTransform::new(at.moved(member.place.of(0.0) * scale, 0.0), scale)
        };
        let hides = |at: Point| view.is_hidden(piece, member, at);
        let seen = Seen {
            hides: &hides,
            is_half: false,
        };
        let leaf = nib::leaf(view.pen, member);
        let shown = (member.part, member.solid);
        shade::show(scene, leaf.as_ref(), shown, placed, &seen);
    }
}

/// What stands by itself once the pen is taken apart, from the foremost on.
fn pieces<'a>(pen: &Pen, members: &[Member<'a>]) -> Vec<Vec<Member<'a>>> {
    let order = order::order(pen, members);
    let mut pieces: Vec<Vec<Member<'_>>> = order.iter().map(|at| vec![members[*at]]).collect();
    for joint in pen.joints.iter().filter(|it| it.before_turning.is_some()) {
        let of = |id: PartId| pieces.iter().position(|it| it.iter().any(|it| it.id == id));
        let both = of(joint.male.part).zip(of(joint.female.part));
        if let Some((one, other)) = both.filter(|(one, other)| one != other) {
            let joined = pieces.remove(one.max(other));
            pieces[one.min(other)].extend(joined);
        }
    }
    pieces
}

/// Before the later of a joint's two parts, or where that gap is taken after the earlier one, or between them.
fn joint_gaps(pen: &Pen, order: &[Vec<PartId>]) -> Vec<Option<usize>> {
    let mut taken: Vec<usize> = Vec::new();
    let each = pen.joined_at_last().map(|(_, joint)| {
        let place = |id: PartId| order.iter().position(|it| it.contains(&id));
        let (a, b) = (place(joint.male.part)?, place(joint.female.part)?);
        let (earlier, later) = (a.min(b), a.max(b));
        let gaps = std::iter::once(later.checked_sub(1)?).chain(earlier..later);
        let gap = gaps.into_iter().find(|it| !taken.contains(it))?;
        taken.push(gap);
        Some(gap)
    });
    each.collect()
}
