//! How the work is held for a stretch of its route, and what is cut away in it.

mod mate;
mod placement;
mod tail;

use super::mandrel::profile;
use super::overlay::PATTERN;
use super::pieces::pieces;
use super::stock::StockProfile;
use crate::scene::{Hatch, Layer, Path, Scene, Xy, hatch};
use mate::JoinedMate;
use placement::WorkPlacement;
use quillet_model::{ById, End, Part};
use quillet_plan::{Mandrel, MandrelId, MandrelKind, Nub, Operation, Plan, Route, Workholding};
use std::ops::Range;
use tail::tail_centre;

/// The pictures of a route's holdings, each for its range of operations; at most so wide and high.
pub(crate) fn holdings(
    plan: &Plan,
    route: &Route,
    ranges: &[Range<usize>],
    room_mm: (f64, f64),
) -> Vec<Scene> {
    let mut stock = StockProfile::of(&route.part, &route.blank);
    let whole = stock.clone();
    let mut pictures = Vec::new();
    let mut done = 0;
    for range in ranges {
        let work = |stock: &mut StockProfile, operations: &[Operation]| {
            operations.iter().for_each(|it| stock.cut(&route.part, it));
        };
        work(&mut stock, &route.operations[done..range.start]);
        let before = stock.clone();
        work(&mut stock, &route.operations[range.clone()]);
        done = range.end;
        let hold = route.operations[range.start].hold;
        if let Workholding::Pieces(held) = hold {
            let done = &route.operations[range.clone()];
            pictures.push(pieces(route, held, done, room_mm));
            continue;
        }
        let picture = HoldingPicture {
            part: &route.part,
            route,
            mandrels: &plan.mandrels,
            hold,
            whole: &whole,
            before: &before,
            after: &stock,
            mate: match hold {
                Workholding::Joined { .. } => JoinedMate::of(plan, route),
                _ => None,
            },
        };
        pictures.push(picture.draw(room_mm));
    }
    pictures
}

struct HoldingPicture<'a> {
    part: &'a Part,
    route: &'a Route,
    mandrels: &'a ById<MandrelId, Mandrel>,
    hold: Workholding,
    whole: &'a StockProfile,
    before: &'a StockProfile,
    after: &'a StockProfile,
    mate: Option<JoinedMate>,
}

/// Beyond the work on the paper, mm.
const BESIDE_MM: f64 = 2.0;
/// What an end loses by facing is shown, mm.
const FACED_MM: f64 = 3.0;
/// A tail centre's length and a jaw's thickness, mm true size.
const CENTRE_MM: f64 = 9.0;
const JAW_MM: f64 = 2.8;

impl HoldingPicture<'_> {
    fn draw(&self, (width, height): (f64, f64)) -> Scene {
        let Some((low, high)) = self.before.span() else {
            return Scene::new("nothing is held", width, 6.0);
        };
        let free = self.free();
        let mate = self.mate.as_ref();
        let (first, last) =
            mate.map_or((low, high), |it| (it.span.0.min(low), it.span.1.max(high)));
        // Along the spindle from the left: the stations run on or back.
        let (mut left, mut right) = match free {
            End::Second => (first, last),
            End::First => (-last, -first),
        };
        let shank = self
            .mandrel()
            .map_or(0.0, |it| it.shank_length.to_mm() * shank_shown(it));
        left -= shank;
        let centre = self.tail_centre();
        if centre {
            right += CENTRE_MM;
        }
        let of_mate = mate.map_or(0.0, |it| it.widest);
        let radius = self.before.widest().max(self.shank_radius()).max(of_mate);
        let tall = 2.0 * (radius + JAW_MM);
        let scale = ((width - 2.0 * BESIDE_MM) / (right - left))
            .min(height / tall)
            .min(1.0);
        let tall = tall * scale + 0.6;
        let mut scene = Scene::new(format!("{} as held", self.part.name.text), width, tall);
        let spare = (width - (right - left) * scale) / 2.0;
        let frame = WorkPlacement {
            x: spare - left * scale,
            y: tall / 2.0,
            scale,
            way: if free == End::First { -1.0 } else { 1.0 },
        };
        self.uncut(&mut scene, &frame, (low, high));
        self.holder(&mut scene, &frame);
        self.joined_with(&mut scene, &frame);
        let (after, before) = (frame.region(self.after), frame.region(self.before));
        scene.fill(Layer::Paper, before.to_vec());
        if let Some(mandrel) = self.mandrel() {
            mandrel_in(&mut scene, &frame, mandrel, self.part, free);
        }
        turned_away(&mut scene, before, after);
        if centre {
            let face = if free == End::Second { last } else { first };
            tail_centre(&mut scene, &frame, face);
        }
        let (from, to) = (frame.x + left * scale, frame.x + right * scale);
        scene.line(
            Layer::Axis,
            Xy::new(from - BESIDE_MM, frame.y),
            Xy::new(to + BESIDE_MM, frame.y),
        );
        scene
    }

    /// The stock as it was, dashed, about what there is of it now.
    fn uncut(&self, scene: &mut Scene, frame: &WorkPlacement, (low, high): (f64, f64)) {
        // What was parted off long ago is not there to be dashed.
        let (from, to) = self.whole.span().unwrap_or((low, high));
        let (from, to) = (from.max(low - FACED_MM), to.min(high + FACED_MM));
        let wide = self.whole.widest();
        for side in [1.0, -1.0] {
            let places = [(from, 0.0), (from, wide), (to, wide), (to, 0.0)];
            let places = places.map(|(z, r)| frame.place(z, side * r));
            scene.stroke(Layer::Uncut, Path::polygon(&places));
        }
    }

    /// The mate that it is joined with.
    fn joined_with(&self, scene: &mut Scene, frame: &WorkPlacement) {
        let mate = self.mate.iter();
        for side in mate.flat_map(|it| frame.mirrored(&it.outline)) {
            scene.fill(Layer::View, vec![side.clone()]);
            scene.stroke(Layer::Fine, side);
        }
    }

    /// The end that stands away from the spindle.
    fn free(&self) -> End {
        match self.hold {
            Workholding::Collet(grip) => grip.free,
            Workholding::Mandrel(mount) => mount.end.other(),
            // Towards the mate that bears the tail centre, or the end that bears it.
            Workholding::Joined { .. } => match (self.gripped_nub(), self.route.strategy.mandrel) {
                (Some(nub), _) => nub.end.other(),
                (None, Some((joint, _))) => joint.other(),
                (None, None) => End::Second,
            },
            _ => End::Second,
        }
    }

    /// The nub by which it is gripped while it is joined with its mate.
    fn gripped_nub(&self) -> Option<Nub> {
        self.route.blank.nub.filter(|it| it.gripped)
    }

    fn mandrel(&self) -> Option<&Mandrel> {
        match self.hold {
            Workholding::Mandrel(mount) => self.mandrels.get(mount.mandrel),
            _ => None,
        }
    }

    fn shank_radius(&self) -> f64 {
        self.mandrel()
            .map_or(0.0, |it| it.shank.max(it.stock).to_mm() / 2.0)
    }

    fn tail_centre(&self) -> bool {
        match self.hold {
            Workholding::Mandrel(mount) => mount.tail != quillet_plan::TailSupport::Free,
            Workholding::Centres => true,
            Workholding::Joined { .. } => self.gripped_nub().is_none() || self.mate.is_some(),
            _ => false,
        }
    }

    /// The collet on the work or on the mandrel's shank.
    fn holder(&self, scene: &mut Scene, frame: &WorkPlacement) {
        match self.hold {
            Workholding::Collet(grip) => {
                let radius = grip.dia.to_mm() / 2.0;
                frame.jaws(scene, (grip.from.to_mm(), grip.to.to_mm()), radius);
            }
            Workholding::Mandrel(mount) => {
                let Some(mandrel) = self.mandrel() else {
                    return;
                };
                let face = self
                    .part
                    .station(mount.end, quillet_geometry::Length::ZERO)
                    .to_mm();
                let out = if mount.end == End::First { -1.0 } else { 1.0 };
                let shank = mandrel.shank_length.to_mm();
                let shown = shank * shank_shown(mandrel);
                let (near, far) = (face + out * shown * 0.2, face + out * shown);
                let radius = mandrel.shank.to_mm() / 2.0;
                frame.jaws(scene, (near.min(far), near.max(far)), radius);
            }
            Workholding::Joined { .. } => {
                let of_mate = self.mate.as_ref().and_then(|it| it.gripped);
                if let Some((stretch, radius)) = of_mate {
                    frame.jaws(scene, stretch, radius);
                }
                let Some(nub) = self.gripped_nub() else {
                    return;
                };
                let out = if nub.end == End::First { -1.0 } else { 1.0 };
                let inward = quillet_geometry::Length::ZERO;
                let face = self.part.station(nub.end, inward).to_mm();
                let tip = face + out * nub.length.to_mm();
                frame.jaws(scene, (face.min(tip), face.max(tip)), nub.dia.to_mm() / 2.0);
            }
            _ => {}
        }
    }
}

/// So much of a mandrel's shank is seen, mm.
const SHANK_MM: f64 = 11.0;

/// The same as a share of it.
fn shank_shown(mandrel: &Mandrel) -> f64 {
    (SHANK_MM / mandrel.shank_length.to_mm().max(SHANK_MM)).min(1.0)
}

/// The mandrel, its shank and what of it is in the work or over it.
fn mandrel_in(scene: &mut Scene, frame: &WorkPlacement, mandrel: &Mandrel, part: &Part, free: End) {
    let end = free.other();
    let station = |inward: f64| match end {
        End::First => inward,
        End::Second => part.length.to_mm() - inward,
    };
    for side in [1.0, -1.0] {
        let places = profile(mandrel, shank_shown(mandrel));
        let places: Vec<Xy> = places
            .iter()
            .map(|(z, r)| frame.place(station(*z), side * r))
            .collect();
        let path = Path::polygon(&places);
        if mandrel.kind == MandrelKind::Female {
            let pattern = Hatch {
                angle_deg: 135.0,
                spacing_mm: 1.6,
            };
            let lines = hatch(std::slice::from_ref(&path), None, &[], pattern);
            scene.lines(Layer::Hatch, lines);
        }
        scene.stroke(Layer::Fine, path);
    }
}

/// The work as it is after, what is cut away hatched.
fn turned_away(scene: &mut Scene, before: [Path; 2], after: [Path; 2]) {
    scene.fill(Layer::Work, after.to_vec());
    let gone: Vec<Path> = before.iter().chain(&after).cloned().collect();
    scene.fill(Layer::CutGround, gone.clone());
    scene.lines(Layer::Cut, hatch(&gone, None, &[], PATTERN));
    for it in before {
        scene.stroke(Layer::Cut, it);
    }
    for it in after {
        scene.stroke(Layer::Fine, it);
    }
}
