//! The parts of a pen put together, in full section; bought parts are not cut, but for rings, through
//! which others are seen.

use super::extras;
use super::member::{Member, PenView};
use super::outline;
use super::seen::Occluders;
use super::thread::{ThreadView, threads};
use super::view::Half;
use crate::scene::{Layer, Path, Scene};
use quillet_geometry::{Chain, Point};
use quillet_model::PartId;

/// A stretch of the axis, felt over in steps.
fn steps(low: f64, high: f64) -> impl Iterator<Item = f64> {
    const STEPS: u32 = 100;
    (0..=STEPS).map(move |step| low + (high - low) * f64::from(step) / f64::from(STEPS))
}

/// How much of a section is drawn.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Detailed {
    /// All that is known.
    Fully,
    /// As a picture: without threads and without the edges of what is bought.
    Plainly,
}

impl PenView<'_> {
    /// Half the greatest diameter of what is there, mm.
    pub(super) fn radius_mm(&self) -> f64 {
        let there = self.members();
        let chains = there.iter().map(|member| &member.solid.outer);
        let arms = extras::arms(self, &there);
        let arms = arms.iter().map(|arm| arm.top_mm);
        chains.map(widest).chain(arms).fold(0.0, f64::max)
    }

    /// The outermost surface on a stretch of the axis, mm off it.
    pub(super) fn widest_mm(&self, low: f64, high: f64) -> f64 {
        let members = self.members();
        let at = |z: f64| {
            let outer = members.iter().map(|it| extras::outside(it, z));
            outer.fold(0.0, f64::max)
        };
        steps(low, high).map(at).fold(0.0, f64::max)
    }

    /// The innermost wall of what is cut on a stretch of the axis, mm off it.
    pub(super) fn innermost_mm(&self, low: f64, high: f64) -> f64 {
        let members = self.members();
        let cut = || members.iter().filter(|it| it.cut);
        let at = |z: f64| {
            let there = cut().filter(|it| extras::outside(it, z) > 0.0);
            let bores = there.map(|it| it.solid.bore_radius(it.place.station(z)));
            bores.fold(f64::INFINITY, f64::min)
        };
        steps(low, high).map(at).fold(f64::INFINITY, f64::min)
    }

    /// Draws it.
    pub(super) fn draw(&self, scene: &mut Scene) {
        for half in [Half::Upper, Half::Lower] {
            self.draw_half(scene, half, Detailed::Fully);
        }
        for arm in extras::arms(self, &self.members()) {
            arm.draw(scene, self);
        }
        self.draw_axis(scene);
    }

    /// Draws what lies on one side of the axis, cut.
    pub(super) fn draw_half(&self, scene: &mut Scene, half: Half, detailed: Detailed) {
        let members = self.members();
        {
            let regions: Vec<Vec<Path>> = members
                .iter()
                .map(|it| outline::region(it.view, half, it.solid))
                .collect();
            for (at, member) in members.iter().enumerate() {
                let numbered = members.iter().zip(&regions);
                let others: Vec<(&Member, &Vec<Path>)> =
                    numbered.filter(|(it, _)| self.hides(it, member)).collect();
                let hides = |place: Point| {
                    let z = member.place.of(place.z);
                    others.iter().any(|(it, _)| it.holds(z, place.r))
                };
                let covers: Vec<Vec<Path>> = others
                    .iter()
                    .map(|(it, region)| {
                        // What is not cut covers its bore too.
                        let shown = if it.cut { region.len() } else { 1 };
                        region.iter().take(shown).cloned().collect()
                    })
                    .collect();
                let before = Occluders {
                    hides: &hides,
                    outline: Layer::Fine,
                    covers: &covers,
                };
                member.draw(scene, half, at, &before, detailed);
            }
            extras::rings(scene, self, &members, half);
        }
    }

    /// The ground of what is not cut.
    pub(super) fn fill_bought(&self, scene: &mut Scene, halves: &[Half]) {
        for member in self.members().iter().filter(|it| !it.cut) {
            let region = |half: &Half| member.view.region(*half, &member.solid.outer);
            scene.fill(Layer::View, halves.iter().map(region).collect());
        }
    }

    /// Whether a place of a part's surface lies under another part's, seen from outside.
    pub(super) fn is_hidden(&self, members: &[Member], one: &Member, at: Point) -> bool {
        let z = one.place.of(at.z);
        let mut others = members.iter().filter(|it| it.id != one.id);
        others.any(|it| extras::outside(it, z) > at.r + 1e-4)
    }

    /// Draws the axis.
    pub(super) fn draw_axis(&self, scene: &mut Scene) {
        let (from, to) = (
            self.origin,
            self.origin
                .moved(self.configuration.drawn_mm * self.scale, 0.0),
        );
        scene.line(Layer::Axis, from.moved(-4.0, 0.0), to.moved(4.0, 0.0));
    }

    /// Whether one part lies before another on the paper: what is not cut before what is, what goes in
    /// before what receives it (as ISO 6410-1 has it of threads).
    fn hides(&self, one: &Member, other: &Member) -> bool {
        if one.id == other.id {
            return false;
        }
        let goes_into = |male: PartId, female: PartId| {
            self.pen.assembly.joints.iter().any(|joint| {
                joint.males.iter().any(|it| it.0 == male)
                    && joint.females.iter().any(|it| it.0 == female)
            })
        };
        match (one.cut, other.cut) {
            (false, false) => !goes_into(one.id, other.id),
            (false, true) => true,
            (true, _) => !goes_into(other.id, one.id),
        }
    }
}

impl Member<'_> {
    fn draw(
        &self,
        scene: &mut Scene,
        half: Half,
        number: usize,
        before: &Occluders,
        detailed: Detailed,
    ) {
        if !self.cut && detailed == Detailed::Plainly {
            return outline::silhouette(scene, self.view, half, self.solid, before);
        }
        let shown = if self.cut {
            ThreadView::Cut
        } else {
            ThreadView::Outside
        };
        if !self.cut {
            outline::outside(scene, self.view, half, self.solid, before);
        } else {
            let what = (self.part, self.solid);
            outline::section(scene, self.view, half, what, number, before);
            outline::glue_lines(
                scene,
                self.view,
                half,
                self.part,
                self.solid,
                true,
                Layer::Fine,
            );
        }
        if detailed == Detailed::Fully {
            threads(scene, self.view, half, self.part, self.solid, shown, before);
        }
    }

    /// True for places inside it, of a part that is not cut also in its bore.
    fn holds(&self, z_mm: f64, r_mm: f64) -> bool {
        let station = self.place.station(z_mm);
        let radius = |chain: &Chain| {
            chain
                .radii_at(station)
                .map(|(one, two)| (one.min(two), one.max(two)))
        };
        let Some((outer, _)) = radius(&self.solid.outer) else {
            return false;
        };
        let bore = match self.cut {
            true => self.solid.inner.iter().find_map(radius),
            false => None,
        };
        // Surfaces that touch hide nothing.
        let near = 1e-4;
        r_mm < outer - near && bore.is_none_or(|(_, bore)| r_mm > bore + near)
    }
}

fn widest(chain: &Chain) -> f64 {
    let bounds = chain
        .segments()
        .iter()
        .map(|segment| segment.curve.bounds());
    bounds.fold(0.0, |most, bounds| bounds.max.r.max(most))
}
