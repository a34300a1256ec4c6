//! The surfaces that a thread stands for in the three profiles of a part.

use quillet_geometry::{Chain, Curve, Length, Point, Segment, Tag};
use quillet_standards::thread::{self as standards, ThreadForm};
use quillet_syntax::ast::Side;

/// How a thread is drawn in a profile.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum ThreadRendering {
    /// The radius of its equal volume, wherever its crests end.
    Metal,
    /// A level line at its roots.
    Root,
    /// A level line at its crests.
    Crest,
}

/// A thread's surface between two stations.
///
/// Its metal follows `crests`, the surface in which its crests end after every other cut of that
/// side: under a chamfer, over a countersink or a taper, on a curved outside the profile of
/// ISO 68-1 is cut off by what is left there, once. Crests and roots lie `off_mm` off their basic
/// radius; the metal does not follow them.
pub(super) fn surface(
    (form, side): (&ThreadForm, Side),
    threads: ThreadRendering,
    (from, to): (Length, Length),
    crests: &[Chain],
    tag: Tag,
    off_mm: f64,
) -> Vec<Chain> {
    let (from, to) = (from.to_mm(), to.to_mm());
    let level = |dia: Length| {
        let radius = dia.to_mm() / 2.0 + off_mm;
        Chain::polyline(tag, &[Point::new(from, radius), Point::new(to, radius)])
            .into_iter()
            .collect()
    };
    match (threads, side) {
        (ThreadRendering::Root, Side::Outside) => level(form.root_diameter()),
        (ThreadRendering::Root, Side::Inside) | (ThreadRendering::Crest, Side::Outside) => {
            level(form.major())
        }
        (ThreadRendering::Crest, Side::Inside) => level(form.minor_diameter()),
        (ThreadRendering::Metal, _) => joined(metal(form, side, (from, to), crests), tag),
    }
}

/// The radius of equal volume wherever a crest lies within the thread's profile. Above it (a bore
/// wider than the thread) or below it (a chamfer beneath its roots) there is no thread.
fn metal(form: &ThreadForm, side: Side, (from, to): (f64, f64), crests: &[Chain]) -> Vec<Curve> {
    let (low, high) = (
        form.minor_diameter().to_mm() / 2.0,
        form.major().to_mm() / 2.0,
    );
    let side = match side {
        Side::Outside => standards::ThreadSide::External,
        Side::Inside => standards::ThreadSide::Internal,
    };
    let of = |crest: f64| form.equal_volume_at_crest(side, crest);
    let under = crests.iter().filter_map(|chain| chain.between(from, to));
    let pieces: Vec<Curve> = under
        .flat_map(|chain| chain.segments().to_vec())
        .flat_map(|piece| piece.curve.between_radii(low, high))
        .collect();
    pieces
        .iter()
        .flat_map(|curve| curve.with_radii(&of))
        .collect()
}

/// Chains of what follows each other.
fn joined(curves: Vec<Curve>, tag: Tag) -> Vec<Chain> {
    let mut runs: Vec<Vec<Segment>> = Vec::new();
    for curve in curves {
        let segment = Segment { curve, tag };
        match runs.last_mut() {
            Some(run) if follows(run, &curve) => run.push(segment),
            _ => runs.push(vec![segment]),
        }
    }
    runs.into_iter().filter_map(Chain::new).collect()
}

fn follows(run: &[Segment], next: &Curve) -> bool {
    run.last()
        .is_some_and(|last| (next.start().z - last.curve.end().z).abs() <= 1e-9)
}
