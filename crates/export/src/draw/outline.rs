//! What every view of a part shows of its outline: edges, ends, pieces of the blank.

use super::beside;
use super::seen::Occluders;
use super::view::{Half, ViewTransform};
use crate::scene::{Hatch, Layer, Path, Scene, Xy, hatch};
use quillet_geometry::{Chain, Point};
use quillet_model::{Part, PieceId, Solid};

/// Two pieces of an outline that turn by less than this at their meeting show no edge, degrees.
const EDGE_DEG: f64 = 1.0;

/// The outside of a half: silhouette, and an edge wherever it turns.
pub(super) fn outside(
    scene: &mut Scene,
    view: ViewTransform,
    half: Half,
    solid: &Solid,
    before: &Occluders,
) {
    before.stroke(scene, view, half, &solid.outer);
    edges(scene, view, half, &solid.outer, before);
    ends(scene, view, half, solid, before);
}

/// The outline of a half alone.
pub(super) fn silhouette(
    scene: &mut Scene,
    view: ViewTransform,
    half: Half,
    solid: &Solid,
    before: &Occluders,
) {
    before.stroke(scene, view, half, &solid.outer);
    ends(scene, view, half, solid, before);
}

/// The cut half: outside, bores with their edges behind the cut, hatched where there is metal; the
/// hatches are told apart by `number`.
pub(super) fn section(
    scene: &mut Scene,
    view: ViewTransform,
    half: Half,
    (part, solid): (&Part, &Solid),
    number: usize,
    before: &Occluders,
) {
    for lines in hatches(view, half, part, solid, number, before) {
        scene.lines(Layer::Hatch, lines);
    }
    before.stroke(scene, view, half, &solid.outer);
    for bore in &solid.inner {
        before.stroke(scene, view, half, bore);
        edges(scene, view, half, bore, before);
    }
    beside::outlines(scene, view, half, part, before);
    ends(scene, view, half, solid, before);
}

/// A half's region on the paper: outside and bores, by the even-odd rule.
pub(super) fn region(view: ViewTransform, half: Half, solid: &Solid) -> Vec<Path> {
    let chains = std::iter::once(&solid.outer).chain(&solid.inner);
    chains.map(|chain| view.region(half, chain)).collect()
}

/// Lines from the axis to the outline wherever it turns.
fn edges(scene: &mut Scene, view: ViewTransform, half: Half, chain: &Chain, before: &Occluders) {
    for at in edge_places(chain) {
        before.line(scene, before.outline, view, half, Point::new(at.z, 0.0), at);
    }
}

/// Where an outline turns, and how wide the nearer side is.
pub(super) fn edge_places(chain: &Chain) -> Vec<Point> {
    let mut shown: Vec<Point> = Vec::new();
    for pair in chain.segments().windows(2) {
        let (one, two) = (&pair[0].curve, &pair[1].curve);
        let at = match (one.is_vertical(), two.is_vertical()) {
            (false, false) => {
                let turn = two.slope(0.0).atan() - one.slope(1.0).atan();
                (turn.abs().to_degrees() > EDGE_DEG).then(|| two.start())
            }
            (true, _) => Some(two.start()),
            (_, true) => Some(one.end()),
        };
        let Some(at) = at else { continue };
        // At a step the nearer edge lies before or on the farther one.
        match shown.last_mut().filter(|last| (last.z - at.z).abs() < 1e-9) {
            Some(last) if last.r < at.r => *last = at,
            Some(_) => {}
            None => shown.push(at),
        }
    }
    shown
}

/// The two end faces, from the axis out.
fn ends(scene: &mut Scene, view: ViewTransform, half: Half, solid: &Solid, before: &Occluders) {
    for at in [solid.outer.start(), solid.outer.end()] {
        if at.r > 1e-9 {
            before.line(scene, before.outline, view, half, Point::new(at.z, 0.0), at);
        }
    }
}

/// The hatching, each piece of a glued blank by its own.
fn hatches(
    view: ViewTransform,
    half: Half,
    part: &Part,
    solid: &Solid,
    number: usize,
    before: &Occluders,
) -> Vec<Vec<[Xy; 2]>> {
    let mut region = region(view, half, solid);
    region.extend(beside::regions(view, half, part));
    if part.blanks().len() < 2 {
        return vec![hatch(&region, None, before.covers, Hatch::numbered(number))];
    }
    let pieces = part.blanks().ids().map(|which| {
        let clip = piece(view, half, part, which);
        hatch(
            &region,
            Some(&clip),
            before.covers,
            Hatch::numbered(number + which.index()),
        )
    });
    pieces.collect()
}

/// Where a piece of the blank lies, its spigot with it and the next one's taken out.
fn piece(view: ViewTransform, half: Half, part: &Part, which: PieceId) -> Vec<Path> {
    let wide = 10.0 * part.length.to_mm();
    let rectangle = |from: f64, to: f64, radius: f64| {
        let [a, b] = [Point::new(from, 0.0), Point::new(to, radius)].map(|at| view.place(half, at));
        Path::polygon(&[a, Xy::new(b.x, a.y), b, Xy::new(a.x, b.y)])
    };
    let this = &part.blanks()[which];
    let spigot = |index: PieceId| {
        let piece = part.blanks().get(index)?;
        let spigot = piece.spigot?;
        let from = (piece.from - spigot.length).to_mm();
        Some(rectangle(
            from,
            piece.from.to_mm(),
            spigot.dia.to_mm() / 2.0,
        ))
    };
    let body = rectangle(this.from.to_mm(), this.to.to_mm(), wide);
    [Some(body), spigot(which), spigot(which.after())]
        .into_iter()
        .flatten()
        .collect()
}

/// The joints between the pieces of a glued blank: as an edge outside, with the spigot in the cut.
pub(super) fn glue_lines(
    scene: &mut Scene,
    view: ViewTransform,
    half: Half,
    part: &Part,
    solid: &Solid,
    cut: bool,
    layer: Layer,
) {
    for piece in part.blanks().iter().skip(1) {
        let z = piece.from.to_mm();
        let Some((radius, _)) = solid.outer.radii_at(z) else {
            continue;
        };
        let bore = |z: f64| bore_radius(solid, z);
        let rim = Point::new(z, radius);
        let places = match piece.spigot.filter(|_| cut) {
            Some(spigot) => {
                let (foot, r) = (z - spigot.length.to_mm(), spigot.dia.to_mm() / 2.0);
                vec![
                    rim,
                    Point::new(z, r),
                    Point::new(foot, r),
                    Point::new(foot, bore(foot).min(r)),
                ]
            }
            None if cut => vec![rim, Point::new(z, bore(z))],
            None => vec![rim, Point::new(z, 0.0)],
        };
        let mut places = places.into_iter().map(|at| view.place(half, at));
        let Some(start) = places.next() else { continue };
        scene.stroke(layer, places.fold(Path::open(start), Path::line));
    }
}

/// The radius bored at a station, mm; 0 where it is solid.
fn bore_radius(solid: &Solid, z: f64) -> f64 {
    solid
        .inner
        .iter()
        .find_map(|bore| bore.radii_at(z))
        .map_or(0.0, |(before, after)| before.max(after))
}
