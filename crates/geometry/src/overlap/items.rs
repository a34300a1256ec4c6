//! What a plane square to the axis shows of each cut.

use std::f64::consts::PI;

use crate::chain::SAME;
use crate::side::{Floor, SideCut};
use crate::{Circle, Pattern, put_in_order};

/// One cut in a plane; angles in radians clockwise of the mark.
#[derive(Debug, Clone, Copy)]
pub(super) enum Item {
    /// All flats together, of which the lowest is so far from the axis.
    Flats { low_mm: f64 },
    /// A hole or a slot: half its width, where it faces, and where its floor is.
    Strip {
        half_mm: f64,
        angle: f64,
        floor_mm: f64,
    },
    /// A pattern's ring and its share of that.
    Ring { from_mm: f64, share: f64 },
    /// A hole beside the axis.
    Disc {
        on_mm: f64,
        angle: f64,
        radius_mm: f64,
    },
}

/// What an item takes along a ray.
#[derive(Debug, Clone, Copy)]
pub(super) struct Span {
    pub(super) from: f64,
    pub(super) to: f64,
    /// Of what is there.
    pub(super) share: f64,
}

fn evenly(clock_deg: f64, count: u32) -> impl Iterator<Item = f64> {
    let apart = 360.0 / f64::from(count.max(1));
    (0..count).map(move |nth| (clock_deg + apart * f64::from(nth)).to_radians())
}

/// Whether any two of them may lie over each other; flats and what begins at them never do.
pub(super) fn any_meet(items: &[Item], bore_mm: f64) -> bool {
    let rings = items
        .iter()
        .filter(|it| matches!(it, Item::Ring { .. }))
        .count();
    let others = items
        .iter()
        .any(|it| matches!(it, Item::Flats { .. } | Item::Strip { .. }));
    let low_mm = items.iter().map(|it| match *it {
        Item::Flats { low_mm: low } | Item::Ring { from_mm: low, .. } => low,
        _ => f64::INFINITY,
    });
    let low_mm = low_mm.fold(f64::INFINITY, f64::min);
    let reaches = |it: &Item| matches!(*it, Item::Disc { on_mm, radius_mm, .. } if on_mm + radius_mm > low_mm + SAME);
    rings > 1 || rings == 1 && others || items.iter().any(reaches) || sectors_meet(items, bore_mm)
}

/// Whether any two of those that do not go all round spread over the same directions.
fn sectors_meet(items: &[Item], bore_mm: f64) -> bool {
    let aside = items
        .iter()
        .filter(|it| matches!(it, Item::Strip { .. } | Item::Disc { .. }));
    let mut sectors = Vec::new();
    for it in aside {
        match it.sector(bore_mm) {
            Some((at, wide)) => sectors.push(((at - wide).rem_euclid(2.0 * PI), 2.0 * wide)),
            None => sectors.push((0.0, 2.0 * PI)),
        }
    }
    put_in_order(&mut sectors, |it| it.0);
    let next = sectors.iter().skip(1).map(|it| it.0);
    // The first comes again after the last.
    let again = sectors.iter().take(1).map(|it| it.0 + 2.0 * PI);
    sectors.len() > 1
        && sectors
            .iter()
            .zip(next.chain(again))
            .any(|((from, wide), next)| from + wide > next + 1e-9)
}

impl Item {
    pub(super) fn strips(cut: &SideCut, z_mm: f64) -> impl Iterator<Item = Item> + use<> {
        let half_mm = cut.half_width_mm(z_mm);
        let floor_mm = match cut.floor {
            Floor::Plane(at_mm) => at_mm.max(0.0),
            Floor::Void | Floor::Through => 0.0,
        };
        let ways = if cut.floor == Floor::Through { 2 } else { 1 };
        let faces = evenly(cut.clock_deg, cut.count);
        let all = faces.flat_map(move |face| (0..ways).map(move |way| face + PI * f64::from(way)));
        all.filter(move |_| half_mm > SAME)
            .map(move |angle| Item::Strip {
                half_mm,
                angle,
                floor_mm,
            })
    }

    pub(super) fn ring(pattern: &Pattern, z_mm: f64, outside_mm: f64) -> Option<Item> {
        let here = pattern.from_mm <= z_mm && z_mm <= pattern.to_mm;
        here.then_some(Item::Ring {
            from_mm: (outside_mm - pattern.deep_mm).max(0.0),
            share: pattern.share,
        })
    }

    /// The points of drilled ones narrower as they end.
    pub(super) fn discs(circle: &Circle, z_mm: f64) -> impl Iterator<Item = Item> + use<> {
        let [before, after] = circle.tips_mm;
        let left = |beyond_mm: f64, tip_mm: f64| match beyond_mm > 0.0 {
            true if tip_mm > 0.0 => (1.0 - beyond_mm / tip_mm).max(0.0),
            true => 0.0,
            false => 1.0,
        };
        let left = left(circle.from_mm - z_mm, before).min(left(z_mm - circle.to_mm, after));
        let (on_mm, radius_mm) = (circle.on_mm / 2.0, circle.hole_mm / 2.0 * left);
        let faces = evenly(circle.clock_deg, circle.count);
        faces
            .filter(move |_| radius_mm > SAME)
            .map(move |angle| Item::Disc {
                on_mm,
                angle,
                radius_mm,
            })
    }

    /// Whether it takes what is not there.
    pub(super) fn reaches_beyond(&self, [bore_mm, outside_mm]: [f64; 2]) -> bool {
        match *self {
            Item::Flats { low_mm } => low_mm < bore_mm - SAME,
            Item::Ring { from_mm, .. } => from_mm < bore_mm - SAME,
            Item::Disc {
                on_mm, radius_mm, ..
            } => {
                let reach = [on_mm - radius_mm, on_mm + radius_mm];
                reach[0] < bore_mm - SAME || reach[1] > outside_mm + SAME
            }
            Item::Strip { .. } => false,
        }
    }

    /// Where it faces and how far it spreads to either side; none where it goes all round.
    fn sector(&self, bore_mm: f64) -> Option<(f64, f64)> {
        match *self {
            Item::Flats { .. } | Item::Ring { .. } => None,
            Item::Strip {
                half_mm,
                angle,
                floor_mm,
            } => {
                let floor = half_mm.atan2(floor_mm);
                let bore = if half_mm < bore_mm {
                    (half_mm / bore_mm).asin()
                } else {
                    PI / 2.0
                };
                Some((angle, floor.min(bore)))
            }
            Item::Disc {
                on_mm,
                angle,
                radius_mm,
                ..
            } => (radius_mm < on_mm).then(|| (angle, (radius_mm / on_mm).asin())),
        }
    }

    /// What it takes along a ray, which leaves the bore, the flats and the outside at these radii.
    pub(super) fn along(&self, ray: f64, [bore, flat, outside]: [f64; 3]) -> Option<Span> {
        let (from, to, share) = match *self {
            Item::Flats { .. } => (flat, outside, 1.0),
            Item::Ring { from_mm, share } => (from_mm, outside, share),
            Item::Strip {
                half_mm,
                angle,
                floor_mm,
            } => {
                let (sin, cos) = (ray - angle).sin_cos();
                if cos <= 0.0 {
                    return None;
                }
                let beside = half_mm / sin.abs().max(1e-300);
                ((floor_mm / cos).max(bore), beside.min(flat), 1.0)
            }
            Item::Disc {
                on_mm,
                angle,
                radius_mm,
            } => {
                let (sin, cos) = (ray - angle).sin_cos();
                let aside = on_mm * sin;
                let half = ((radius_mm - aside) * (radius_mm + aside)).max(0.0).sqrt();
                let middle = on_mm * cos;
                ((middle - half).max(0.0), middle + half, 1.0)
            }
        };
        (to > from).then_some(Span { from, to, share })
    }
}
