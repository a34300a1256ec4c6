//! What no part's profile shows: the arms of clips, O-rings in their grooves.

use super::member::{Member, PenView};
use super::outline;
use super::view::Half;
use crate::colours::BOUGHT;
use crate::scene::{Layer, Paint, Path, Scene};

/// The arm of a clip over the pen. Only its length is known: it is drawn as a neighbour is, near
/// what lies under it.
pub(super) struct Arm {
    /// From its ring to its end, on the pen's axis, mm.
    reach_mm: (f64, f64),
    /// The outside of its ring, mm from the axis.
    root_mm: f64,
    /// Its underside and its top, mm from the axis.
    under_mm: f64,
    pub(super) top_mm: f64,
}

/// What an arm clears at the least, and how thick it is drawn, mm.
const CLEARS_MM: f64 = 0.4;
const THICK_MM: f64 = 1.2;
/// How closely what lies under it is felt for, mm.
const STEP_MM: f64 = 0.5;

/// The arms of the clips that are there.
pub(super) fn arms(view: &PenView, members: &[Member]) -> Vec<Arm> {
    let middle = view.configuration.drawn_mm / 2.0;
    let each = members.iter().filter_map(|clip| {
        let long = clip.part.arm()?.to_mm();
        let ends = [0.0, clip.part.length.to_mm()].map(|at| clip.place.of(at));
        // It points away from the end that the ring is near.
        let (low, high) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
        let (from, to) = match (low + high) / 2.0 < middle {
            true => (low, low + long),
            false => (high, high - long),
        };
        let others = || members.iter().filter(|it| it.id != clip.id);
        let count = (long / STEP_MM).ceil() as u32;
        let under = (0..=count).map(|step| {
            let z = from + (to - from) * f64::from(step) / f64::from(count.max(1));
            others().map(|it| outside(it, z)).fold(0.0, f64::max)
        });
        let root_mm = outside(clip, (low + high) / 2.0);
        let under_mm = under.fold(0.0, f64::max) + CLEARS_MM;
        Some(Arm {
            reach_mm: (from, to),
            root_mm,
            under_mm,
            top_mm: under_mm + THICK_MM,
        })
    });
    each.collect()
}

impl Arm {
    /// Draws it above the axis.
    pub(super) fn draw(&self, scene: &mut Scene, view: &PenView) {
        scene.stroke(Layer::Neighbour, self.outline(view));
    }

    /// Shows it as metal.
    pub(super) fn paint(&self, scene: &mut Scene, view: &PenView) {
        let outline = self.outline(view).close();
        scene.paint(Paint {
            paths: vec![outline.clone()],
            fill: Some(BOUGHT),
            line: None,
        });
        scene.stroke(Layer::Rim, outline);
    }

    fn outline(&self, view: &PenView) -> Path {
        let at = |z: f64, r: f64| view.origin.moved(z * view.scale, r * view.scale);
        let (from, to) = self.reach_mm;
        let inner = from + THICK_MM * (to - from).signum();
        let places = [
            at(from, self.root_mm),
            at(from, self.top_mm),
            at(to, self.top_mm),
            at(to, self.under_mm),
            at(inner, self.under_mm),
            at(inner, self.root_mm.min(self.under_mm)),
        ];
        places[1..]
            .iter()
            .fold(Path::open(places[0]), |path, at| path.line(*at))
    }
}

/// The O-rings in the grooves of what is there, as they are squeezed.
pub(super) fn rings(scene: &mut Scene, view: &PenView, members: &[Member], half: Half) {
    for ring in &view.pen.assembly.rings {
        let host = members.iter().find(|it| it.id == ring.part);
        let shape = ring.shape(view.pen, view.configuration);
        let (Some(host), Some(solid)) = (host, shape.and_then(|it| it.solid())) else {
            continue;
        };
        scene.fill(Layer::Fine, outline::region(host.view, half, &solid));
    }
}

/// The outside of a part at a place of the pen's axis, mm off it; 0 where it does not reach.
pub(super) fn outside(member: &Member, z_mm: f64) -> f64 {
    let outer = &member.solid.outer;
    outer.greatest_at(member.place.station(z_mm)).unwrap_or(0.0)
}
