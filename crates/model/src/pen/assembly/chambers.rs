//! The bores of joined parts as rooms, and which of them open into each other.

use super::group::Groups;
use super::{AtRest, Placement};
use crate::{ById, End, JointId, Part, PartId, Pen};
use quillet_geometry::envelope::greatest;
use quillet_geometry::{Chain, Properties};

/// The bores of the parts that hang together with one, cut where something closes them, on that
/// part's stations.
pub(super) struct Chambers {
    all: Vec<Chamber>,
}

/// An unbroken stretch of a part's bore between what closes it.
pub(super) struct Chamber {
    /// Whose bore it is.
    pub(super) part: PartId,
    /// The room in it, less what stands in it.
    pub(super) room: Properties,
    from: Side,
    to: Side,
    bore: Chain,
}

/// Where a chamber ends.
#[derive(Clone, Copy)]
struct Side {
    z_mm: f64,
    /// The part's end that lies there, or beyond what closes it.
    end: End,
    /// The part's outside there, where the bore comes out at the part's own end, mm.
    open_r: Option<f64>,
}

const SAME: f64 = 1e-6;

impl Chambers {
    /// Of the parts joined with `holder`.
    pub(super) fn of(
        pen: &Pen,
        joints: &ById<JointId, AtRest>,
        open: &Groups,
        holder: PartId,
    ) -> Chambers {
        let axis = open.place(holder).inverse();
        let parts: Vec<(PartId, Placement)> = open
            .with(holder)
            .map(|part| (part, open.place(part).then(axis)))
            .collect();
        let mut all = Vec::new();
        for (part, place) in &parts {
            let Some(profiles) = &pen.parts[*part].profiles else {
                continue;
            };
            let length = pen.parts[*part].length.to_mm();
            let (from, to) = closed(pen, joints, *part);
            for bore in &profiles.metal.inner {
                let Some(stretch) = bore.between(from, length - to) else {
                    continue;
                };
                let laid = laid(&stretch, *place);
                let (a, b) = (stretch.start().z, stretch.end().z);
                let outside = |z: f64| profiles.metal.outer.greatest_at(z).unwrap_or(0.0);
                let side = |z: f64, end: End, closed: f64| {
                    let face = if end == End::First { 0.0 } else { length };
                    let open = (z - face).abs() < SAME && closed < SAME;
                    Side {
                        z_mm: place.of(z),
                        end,
                        open_r: open.then(|| outside(z)),
                    }
                };
                let (low, high) = (side(a, End::First, from), side(b, End::Second, to));
                let (from, to) = if place.reversed {
                    (high, low)
                } else {
                    (low, high)
                };
                all.push(Chamber {
                    part: *part,
                    room: room(pen, &parts, *part, &laid),
                    from,
                    to,
                    bore: laid,
                });
            }
        }
        Chambers { all }
    }

    /// The rooms of a part's bores.
    pub(super) fn of_part(&self, part: PartId) -> impl Iterator<Item = &Chamber> {
        self.all.iter().filter(move |it| it.part == part)
    }

    /// All that opens into a part's bore as it is come to from one of its ends.
    pub(super) fn reached_from(&self, part: PartId, end: End) -> Vec<&Chamber> {
        let own = (0..self.all.len()).filter(|it| self.all[*it].part == part);
        let order = |index: &usize| self.all[*index].from.z_mm;
        let by = |a: &usize, b: &usize| order(a).total_cmp(&order(b));
        let first = match end {
            End::First => own.min_by(by),
            End::Second => own.max_by(by),
        };
        let mut reached: Vec<usize> = first.into_iter().collect();
        let mut next = 0;
        while let Some(at) = reached.get(next).copied() {
            next += 1;
            for other in 0..self.all.len() {
                if !reached.contains(&other) && self.all[at].opens_into(&self.all[other]) {
                    reached.push(other);
                }
            }
        }
        reached.into_iter().map(|it| &self.all[it]).collect()
    }
}

impl Chambers {
    /// The ends of parts at which these chambers come out where nothing closes them.
    pub(super) fn open_ends(&self, reached: &[&Chamber]) -> Vec<(PartId, End)> {
        let of = |chamber: &&Chamber| {
            let open = chamber.sides().filter(|side| {
                let leads = |other: &Chamber| chamber.leads_into(*side, other);
                side.0.open_r.is_some_and(|it| it > SAME) && !self.all.iter().any(leads)
            });
            open.map(|(side, _)| (chamber.part, side.end))
                .collect::<Vec<_>>()
        };
        reached.iter().flat_map(of).collect()
    }
}

impl Chamber {
    /// Whether the bore of one comes out in the other.
    fn opens_into(&self, other: &Chamber) -> bool {
        self.comes_out_in(other) || other.comes_out_in(self)
    }

    fn comes_out_in(&self, other: &Chamber) -> bool {
        self.sides().any(|side| self.leads_into(side, other))
    }

    /// Its sides, each with the way out.
    fn sides(&self) -> impl Iterator<Item = (&Side, f64)> {
        [(&self.from, -1.0), (&self.to, 1.0)].into_iter()
    }

    /// Whether one of its sides comes out in another's bore.
    fn leads_into(&self, (side, way): (&Side, f64), other: &Chamber) -> bool {
        let Some(outside) = side.open_r.filter(|_| self.part != other.part) else {
            return false;
        };
        // Just beyond the face: amid the other's bore, or where that begins.
        let z = side.z_mm + way * 1e-3;
        let bore = other.bore.greatest_at(z).unwrap_or(0.0);
        let begins = [&other.from, &other.to]
            .into_iter()
            .any(|it| (it.z_mm - side.z_mm).abs() < 1e-3);
        bore > SAME && (begins || outside <= bore + SAME)
    }
}

/// How much of a part's bore is closed at its first end and at its second, mm inward: what goes in
/// there closes it as far as it reaches.
fn closed(pen: &Pen, joints: &ById<JointId, AtRest>, part: PartId) -> (f64, f64) {
    let mut closed = (0.0f64, 0.0f64);
    for (joint, rest) in pen.joints.iter().zip(joints) {
        let lasting = joint.verb.lasts() && !rest.redundant;
        if joint.female.part != part || !lasting {
            continue;
        }
        match joint.female.end {
            End::First => closed.0 = closed.0.max(rest.goes_in_mm),
            End::Second => closed.1 = closed.1.max(rest.goes_in_mm),
        }
    }
    closed
}

/// The room in a stretch of bore, less the parts that stand in it.
fn room(pen: &Pen, parts: &[(PartId, Placement)], own: PartId, bore: &Chain) -> Properties {
    let (from, to) = (bore.start().z, bore.end().z);
    let standing: Vec<Chain> = parts
        .iter()
        .filter(|(part, _)| *part != own)
        .filter_map(|(part, place)| stands_in(&pen.parts[*part], *place, bore))
        .collect();
    let taken = greatest(&standing, from, to);
    Properties::between([bore], &taken)
}

/// A part's outside where it stands in a bore; none where it lies round it or beside it.
fn stands_in(part: &Part, place: Placement, bore: &Chain) -> Option<Chain> {
    let (a, b) = (place.of(0.0), place.of(part.length.to_mm()));
    if a.max(b) < bore.start().z || a.min(b) > bore.end().z {
        return None;
    }
    let outer = laid(&part.profiles.as_ref()?.metal.outer, place);
    let (from, to) = (
        outer.start().z.max(bore.start().z),
        outer.end().z.min(bore.end().z),
    );
    if to - from < SAME {
        return None;
    }
    let at = |chain: &Chain, z: f64| chain.least_at(z).unwrap_or(0.0);
    let middle = (from + to) / 2.0;
    (at(&outer, middle) <= at(bore, middle) + SAME)
        .then(|| outer.between(from, to))
        .flatten()
}

fn laid(chain: &Chain, place: Placement) -> Chain {
    match place.reversed {
        false => chain.moved(place.offset_mm),
        true => chain.reversed(place.offset_mm),
    }
}
