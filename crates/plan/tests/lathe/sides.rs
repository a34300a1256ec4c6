//! What is cut with the spindle locked: stroke by stroke at its angle, in space; and whether that leaves the
//! designed solid.

use super::Lathe;
use quillet_geometry::section::section_at;
use quillet_geometry::side::{Floor, SideCut as Opening};
use quillet_geometry::{Chain, Circle, Point};
use quillet_model::{CircleHoles, End, NotRound, Part, SideCut, SideCutKind, SideDepth};
use quillet_plan::Work;

/// A cut made while the spindle stands locked.
pub(super) enum Stroke<'a> {
    /// From the side, at this angle.
    Side(&'a SideCut, f64),
    /// Along the axis beside it.
    Beside(&'a CircleHoles, f64),
}

/// A place in space: the station, and how far it lies off the axis in which direction.
#[derive(Clone, Copy)]
struct Place {
    z: f64,
    /// How far out the outside is turned there.
    radius: f64,
    r: f64,
    clock_deg: f64,
}

impl Place {
    /// How far out in a direction, and how far beside it.
    fn seen_from(self, clock_deg: f64) -> (f64, f64) {
        let turn = (self.clock_deg - clock_deg).to_radians();
        (self.r * turn.cos(), self.r * turn.sin())
    }
}

impl<'a> Lathe<'a> {
    /// The strokes of an operation, the spindle locked at each of its places.
    pub(super) fn strokes(&mut self, part: &'a Part, work: &Work) {
        match work {
            Work::Side { cut, places } => {
                let Some(cut) = part.side(*cut) else { return };
                for nth in 0..*places {
                    let clock = at_place(&cut.around, nth);
                    self.strokes.push(Stroke::Side(cut, clock));
                }
            }
            Work::Beside { holes, places, .. } => {
                let Some(holes) = part.circle(*holes) else {
                    return;
                };
                for nth in 0..*places {
                    let clock = at_place(&holes.around, nth);
                    self.strokes.push(Stroke::Beside(holes, clock));
                }
            }
            _ => {}
        }
    }

    /// Whether every place in the metal that the turning leaves is cut away by the strokes where the designed
    /// solid has nothing, and nowhere else.
    pub(super) fn compare_strokes(&mut self) {
        let part = self.part();
        let Some(profiles) = &part.profiles else {
            return;
        };
        if self.strokes.is_empty() && profiles.not_round.is_empty() {
            return;
        }
        let turned = profiles.turned();
        let high = |at: f64| high(&self.strokes, turned, at);
        let each = self.strokes.iter();
        let strokes: Vec<(&Stroke, f64)> = each.map(|it| (it, it.over(&high))).collect();
        let sets: Vec<_> = profiles.not_round.flats.iter().map(|it| it.1).collect();
        let (mut at, mut section) = (f64::NAN, None);
        for place in places(part, turned) {
            if place.z != at {
                at = place.z;
                section = section_at(Point::new(at, place.radius), &sets);
            }
            let mut each = strokes.iter();
            let made = each.any(|(it, over)| it.takes(place, part, *over));
            let flat = section.as_ref();
            let flat = flat.is_none_or(|it| place.r > it.radius_at_mm(place.clock_deg));
            let wanted = flat || takes(&profiles.not_round, place);
            if made != wanted {
                let Place {
                    z, r, clock_deg, ..
                } = place;
                let how = if made { "is gone" } else { "is left" };
                self.wrong.push(format!(
                    "{}: at {z:.3}, {r:.3} off the axis at {clock_deg:.2}°, metal {how}",
                    part.name.text
                ));
                return;
            }
        }
    }
}

/// The angle of one of several places: evenly round, from the first.
fn at_place(around: &quillet_model::Around, nth: u32) -> f64 {
    around.clock.to_deg() + 360.0 * f64::from(nth) / f64::from(around.count)
}

/// Places all through what is turned, at no round figure: on a boundary there is nothing to tell.
fn places(part: &Part, turned: &Chain) -> Vec<Place> {
    const ALONG: u32 = 67;
    const ROUND: u32 = 47;
    const OUT: u32 = 7;
    let mut all = Vec::new();
    for along in 0..ALONG {
        let z = part.length.to_mm() * (f64::from(along) + 0.4142) / f64::from(ALONG);
        let Some(radius) = turned.least_at(z) else {
            continue;
        };
        for round in 0..ROUND {
            let clock_deg = 360.0 * (f64::from(round) + 0.6180) / f64::from(ROUND);
            for out in 0..OUT {
                // Denser towards the outside, where most is cut.
                let share = (f64::from(out) + 0.7320) / f64::from(OUT);
                let r = radius * share.sqrt();
                all.push(Place {
                    z,
                    radius,
                    r,
                    clock_deg,
                });
            }
        }
    }
    all
}

/// The greatest radius round the turn where sets of more than two flats are cut.
fn high(strokes: &[Stroke], turned: &Chain, at: f64) -> f64 {
    let radius = turned.greatest_at(at).unwrap_or(0.0);
    let corners = strokes.iter().filter_map(|it| {
        let Stroke::Side(cut, _) = it else {
            return None;
        };
        let count = cut.around.count;
        let within = cut.stretch.from.to_mm() <= at && at <= cut.stretch.to.to_mm();
        let apothem = apothem(cut, at, radius).filter(|_| within && count > 2)?;
        Some(apothem / (std::f64::consts::PI / f64::from(count)).cos())
    });
    corners.fold(radius, f64::min)
}

/// How far a flat lies from the axis at a station.
fn apothem(cut: &SideCut, z: f64, radius: f64) -> Option<f64> {
    let (from, to) = (cut.stretch.from.to_mm(), cut.stretch.to.to_mm());
    match cut.kind {
        SideCutKind::Across { from_dia, to_dia } => {
            let share = (z - from) / (to - from);
            let across = from_dia.to_mm() + (to_dia.to_mm() - from_dia.to_mm()) * share;
            Some(across / 2.0)
        }
        SideCutKind::Deep(deep) => Some(radius - deep.to_mm()),
        SideCutKind::Sharp => {
            Some(radius * (std::f64::consts::PI / f64::from(cut.around.count)).cos())
        }
        _ => None,
    }
}

impl Stroke<'_> {
    /// The highest outside over it: from there it is so deep.
    fn over(&self, high: &dyn Fn(f64) -> f64) -> f64 {
        let Stroke::Side(cut, _) = self else {
            return 0.0;
        };
        let (from, to) = (cut.stretch.from.to_mm(), cut.stretch.to.to_mm());
        let steps = (0..=64).map(|nth| from + (to - from) * f64::from(nth) / 64.0);
        steps.map(high).fold(0.0, f64::max)
    }

    fn takes(&self, place: Place, part: &Part, over: f64) -> bool {
        match self {
            Stroke::Side(cut, clock) => side_takes(cut, *clock, place, part, over),
            Stroke::Beside(holes, clock) => {
                let (x, y) = place.seen_from(*clock);
                let inward = match holes.end {
                    End::First => place.z,
                    End::Second => part.length.to_mm() - place.z,
                };
                let off = (x - holes.on.to_mm() / 2.0).hypot(y);
                let radius = holes.dia.to_mm() / 2.0;
                let (from, to) = (holes.from.to_mm(), holes.to.to_mm());
                let beyond = inward - to;
                let point = holes.point.filter(|_| !holes.through);
                let cone = point.map_or(0.0, |it| radius / (it.to_deg() / 2.0).to_radians().tan());
                inward > from && beyond <= 0.0 && off < radius
                    || beyond > 0.0 && beyond < cone && off < radius * (1.0 - beyond / cone)
            }
        }
    }
}

fn side_takes(cut: &SideCut, clock: f64, place: Place, part: &Part, over: f64) -> bool {
    let (out, beside) = place.seen_from(clock);
    let (from, to) = (cut.stretch.from.to_mm(), cut.stretch.to.to_mm());
    let within = from <= place.z && place.z <= to;
    let deep = |depth: SideDepth| match depth {
        SideDepth::Void => out > 0.0,
        SideDepth::To { deep, .. } => out > over - deep.to_mm(),
        SideDepth::Through => true,
    };
    match cut.kind {
        SideCutKind::Drill { dia, depth, .. } => {
            (place.z - from).hypot(beside) < dia.to_mm() / 2.0 && deep(depth)
        }
        SideCutKind::Slot { width, depth } => {
            let half = width.to_mm() / 2.0;
            let round = half.min((to - from) / 2.0);
            let [first, last] = [from > 0.0, to < part.length.to_mm()];
            // Past the middle of a round end, as far as its circle goes.
            let past = match place.z {
                z if first && z < from + round => from + round - z,
                z if last && z > to - round => z - (to - round),
                _ => 0.0,
            };
            let wide = half - round + (round * round - past * past).max(0.0).sqrt();
            within && beside.abs() < wide && deep(depth)
        }
        // It takes a share of its ring, at no place in particular.
        SideCutKind::Pattern { .. } => false,
        _ => within && apothem(cut, place.z, place.radius).is_some_and(|flat| out > flat),
    }
}

/// Whether the designed solid is hollow at a place, by its holes and slots.
fn takes(design: &NotRound, place: Place) -> bool {
    let opened = design.openings.iter().any(|(_, it)| opens(it, place));
    opened || design.circles.iter().any(|it| drilled(it, place))
}

fn opens(opening: &Opening, place: Place) -> bool {
    let half = opening.half_width_mm(place.z);
    let each = (0..opening.count).map(|nth| {
        let clock = opening.clock_deg + 360.0 * f64::from(nth) / f64::from(opening.count);
        place.seen_from(clock)
    });
    each.into_iter().any(|(out, beside)| {
        let deep = match opening.floor {
            Floor::Void => out > 0.0,
            Floor::Plane(at) => out > at,
            Floor::Through => true,
        };
        deep && beside.abs() < half
    })
}

fn drilled(circle: &Circle, place: Place) -> bool {
    (0..circle.count).any(|nth| {
        let clock = circle.clock_deg + 360.0 * f64::from(nth) / f64::from(circle.count);
        let (x, y) = place.seen_from(clock);
        let (off, radius) = ((x - circle.on_mm / 2.0).hypot(y), circle.hole_mm / 2.0);
        let [before, after] = circle.tips_mm;
        let wide = match place.z {
            z if z < circle.from_mm => radius * (1.0 - (circle.from_mm - z) / before),
            z if z > circle.to_mm => radius * (1.0 - (z - circle.to_mm) / after),
            _ => radius,
        };
        off < wide
    })
}
