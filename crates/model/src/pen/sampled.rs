//! A pen as a hand makes it: every size a little off, the parts cut anew, the pen put together again.

use super::assembly::tolerance::{self, set_limits_mm};
use super::follow::{self, PartFollows, SizeSum};
use crate::{
    Assembly, ById, Clearance, ClearanceKind, FitRequest, Hand, Joint, JointId, Link, Origin, Part,
    PartId, Pen, PenFace, Size,
};
use quillet_geometry::Length;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// How a size comes out, from how it is drawn, mm; of a diameter, by half of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Distribution {
    /// As often over as under: 19 of 20 within two standard deviations.
    Normal {
        /// The standard deviation.
        sd_mm: f64,
    },
    /// Anywhere between two limits.
    Uniform {
        /// The lower.
        from_mm: f64,
        /// The upper.
        to_mm: f64,
    },
}

/// A size of a pen, and how a hand makes it.
#[derive(Clone, Debug)]
pub struct HandSize {
    /// The size, its factor 1.
    pub link: Link,
    /// How it comes out.
    pub distribution: Distribution,
    /// Where it is, in letters that no other size of the pen has and that a change elsewhere leaves.
    pub place: String,
}

/// Every size of a pen that may come out otherwise than drawn, each face and each diameter once.
#[derive(Debug)]
pub struct HandSizes<'p> {
    pen: &'p Pen,
    all: Vec<HandSize>,
    parts: ById<PartId, PartFollows>,
    joints: BTreeMap<JointId, SizeSum>,
    nib: SizeSum,
}

impl<'p> HandSizes<'p> {
    /// Those of a pen, each part by the hand of the bench it is made at. What a standard sets limits for
    /// (threads, the tenons under them, fits) comes out anywhere within them; a drilled hole anywhere
    /// from its size to what the drill takes over; all else so that 19 of 20 are within what is kept.
    pub fn of(pen: &'p Pen) -> Self {
        let follows: Vec<_> = pen
            .parts
            .with_ids()
            .map(|(id, part)| follow::of(id, part))
            .collect();
        let mut used: BTreeSet<Size> = follows.iter().flat_map(|it| it.sizes()).collect();
        let nib = pen
            .assembly
            .nib
            .filter(|it| pen.parts[*it].holds_ml().is_none());
        // Where a nib stands is known no better than it is set, however well its own sizes are.
        let of_nib = |size: &Size| {
            let along = matches!(size, Size::Plane { .. } | Size::Whole { .. });
            along && Some(size.part()) == nib
        };
        used.retain(|it| !of_nib(it));
        used.extend(nib.map(|part| Size::Nib { part }));
        let pushed: Vec<(JointId, Size)> = pen.joints.with_ids().filter_map(by(pen)).collect();
        used.extend(pushed.iter().map(|it| it.1));
        let fitted = fitted_mm(pen);
        let mut all: Vec<HandSize> = used
            .into_iter()
            .filter_map(|size| hand_size(pen, size, fitted.get(&size).copied()))
            .collect();
        all.sort_by(|a, b| a.place.cmp(&b.place));
        let order: BTreeMap<Size, usize> = all
            .iter()
            .enumerate()
            .map(|(nth, it)| (it.link.size, nth))
            .collect();
        let one = |size: Size| {
            let nth = order.get(&size);
            nth.map(|nth| vec![(*nth, 1.0)]).unwrap_or_default()
        };
        HandSizes {
            parts: follows.iter().map(|it| it.numbered(&order)).collect(),
            joints: pushed.into_iter().map(|it| (it.0, one(it.1))).collect(),
            nib: nib.map_or_else(Vec::new, |part| one(Size::Nib { part })),
            pen,
            all,
        }
    }

    /// All of them, in the order of their places.
    pub fn all(&self) -> &[HandSize] {
        &self.all
    }

    /// The pen with each size so much over what is drawn, mm, of a diameter half of it: cut anew and put
    /// together anew, and every size of it now what it is. `known` gives a part that no joint names, an
    /// O-ring, by its name.
    pub fn made(&self, off_mm: &[f64], known: &dyn Fn(&str) -> Option<Arc<Part>>) -> Pen {
        let mut pen = self.pen.clone();
        for (id, part) in self.pen.parts.with_ids() {
            if let Some(made) = self.parts[id].made(part, off_mm) {
                pen.parts[id] = Arc::new(made);
            }
        }
        for (joint, sum) in &self.joints {
            if let Some((by, _)) = &mut pen.joints[*joint].by {
                *by += Length::mm(follow::off(sum, off_mm));
            }
        }
        let parts = &pen.parts;
        let moved = |face: &mut PenFace| {
            let made = parts[face.part].face(&face.face.text);
            face.at = made.map_or(face.at, |it| it.at);
        };
        for joint in pen.joints.iter_mut() {
            if let Some(seat) = &mut joint.seat {
                moved(&mut seat.first);
                moved(&mut seat.second);
            }
            joint.wants.iter_mut().for_each(|it| it.each_face(&moved));
        }
        pen.wants.iter_mut().for_each(|it| it.each_face(&moved));
        pen.hands = pen.parts.map(|_| Hand::EXACT);
        pen.assembly = Assembly::of(&pen, follow::off(&self.nib, off_mm), known, None);
        pen
    }
}

/// How far a part is put in or onto another, where that is written.
fn by(pen: &Pen) -> impl Fn((JointId, &Joint)) -> Option<(JointId, Size)> + '_ {
    |(id, joint)| {
        let ends = [joint.male.part, joint.female.part];
        let size = Size::By {
            part: joint.male.part,
            bought: ends.iter().all(|it| pen.parts[*it].is_bought()),
            by: joint.by?.0,
        };
        Some((id, size))
    }
}

/// The limits that a joint's fit sets the surfaces that meet, from how they are drawn, in radius.
fn fitted_mm(pen: &Pen) -> BTreeMap<Size, (f64, f64)> {
    let mut all = BTreeMap::new();
    for (joint, rest) in pen.joints.iter().zip(&pen.assembly.joints) {
        let Some((FitRequest::Fit(fit), _)) = &joint.asks else {
            continue;
        };
        let own = |it: &&Clearance| {
            it.kind == ClearanceKind::RadialClearance
                && (it.male.part, it.female.part) == (joint.male.part, joint.female.part)
        };
        for it in rest.clearances.iter().filter(own) {
            let dia = |radius_mm: f64| Length::mm(radius_mm).twice();
            let Ok(zones) = fit.at(dia(it.female.radius_mm)) else {
                continue;
            };
            for (spot, zone) in [(it.male, zones.shaft), (it.female, zones.hole)] {
                let size = Size::Radius {
                    part: spot.part,
                    of: spot.origin,
                    second: false,
                };
                if !pen.parts[spot.part].is_bought() {
                    all.insert(size, tolerance::off_mm(dia(spot.radius_mm), zone.limits));
                }
            }
        }
    }
    all
}

/// A size as it is made; none where nothing of it is in doubt.
fn hand_size(pen: &Pen, size: Size, fitted: Option<(f64, f64)>) -> Option<HandSize> {
    let part = &pen.parts[size.part()];
    let link = tolerance::link(part, &pen.hands[size.part()], size, 1.0);
    let (under, over) = link.range_mm;
    let set = fitted.or_else(|| set_limits_mm(part, size));
    let distribution = match set {
        Some((from_mm, to_mm)) => Distribution::Uniform { from_mm, to_mm },
        None if under == 0.0 => Distribution::Uniform {
            from_mm: 0.0,
            to_mm: over,
        },
        None => Distribution::Normal { sd_mm: over / 2.0 },
    };
    let in_doubt = match distribution {
        Distribution::Normal { sd_mm } => sd_mm > 0.0,
        Distribution::Uniform { from_mm, to_mm } => from_mm < to_mm,
    };
    in_doubt.then(|| HandSize {
        place: place(part, size),
        link,
        distribution,
    })
}

/// Where a size is: the part, and the surface or plane by where it lies, not by its place in a list.
fn place(part: &Part, size: Size) -> String {
    let name = &part.name.text;
    let surface = |of: Origin| match of {
        Origin::Outside(index) => {
            let station = part.stations.get(index);
            format!("outside.{}", station.map_or(0, |it| it.at.nm()))
        }
        of => match of.feature().and_then(|it| part.features.get(it)) {
            Some(cut) => {
                let (end, called) = (part.end_name(cut.end), cut.called());
                format!("{end}.{called}.{}.{}", cut.from.nm(), cut.to.nm())
            }
            None => format!("{of:?}"),
        },
    };
    match size {
        Size::Plane {
            inside, from, at, ..
        } => {
            let side = if inside { "inside" } else { "outside" };
            format!("{name}.{side}.{}.{}", part.end_name(from), at.nm())
        }
        Size::Whole { .. } => format!("{name}.length"),
        Size::Radius { of, second, .. } => {
            format!(
                "{name}.{}.dia{}",
                surface(of),
                if second { "2" } else { "" }
            )
        }
        Size::Root { of, .. } => format!("{name}.{}.root", surface(of)),
        Size::By { .. } => format!("{name}.by"),
        Size::Nib { .. } => format!("{name}.set"),
    }
}
