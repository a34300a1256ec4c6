//! How all that is written of a part follows its sizes.

use crate::pen::assembly::chain::Drift;
use crate::pen::assembly::surface::Surface;
use crate::resolve::{ThreadOff, ThreadsOff, recut};
use crate::{
    ById, Cut, CutId, End, Feature, Origin, Part, PartId, PartKind, PenFace, Size, StationId,
};
use quillet_geometry::{Length, Shape};
use std::collections::BTreeMap;

/// A sum of sizes by their numbers, each with its factor.
pub(super) type SizeSum = Vec<(usize, f64)>;

/// What a sum comes to.
pub(super) fn off(sum: &SizeSum, off_mm: &[f64]) -> f64 {
    sum.iter().map(|(nth, factor)| factor * off_mm[*nth]).sum()
}

/// How far each thing of a part moves.
#[derive(Debug)]
pub(super) struct Follows<S> {
    length: S,
    /// Where a station lies, and half its diameter, then that of its step.
    stations: ById<StationId, [S; 3]>,
    /// Where a cut begins and ends along the part, and half its diameters: of a thread, its crests and
    /// its roots.
    cuts: ById<CutId, [S; 4]>,
    faces: Vec<S>,
}

/// The same by the numbers of the sizes.
pub(super) type PartFollows = Follows<SizeSum>;

/// How a part of a pen follows its sizes.
pub(super) fn of(id: PartId, part: &Part) -> Follows<Drift> {
    let surface = Surface::crests(part, id);
    Follows {
        length: Drift::of(Size::Whole { part: id }),
        stations: stations(surface),
        cuts: part
            .features
            .with_ids()
            .map(|(index, cut)| of_cut(surface, index, cut))
            .collect(),
        faces: part
            .faces
            .iter()
            .map(|face| surface.plane(part.is_inside(face), face.at))
            .collect(),
    }
}

/// A diameter that goes on unchanged from the station before is turned at once, and is one size.
fn stations(surface: Surface) -> ById<StationId, [Drift; 3]> {
    let part = surface.part;
    let mut before: Option<(Length, Size)> = None;
    let all = part.stations.with_ids().map(|(index, station)| {
        let own = |second| Size::Radius {
            part: surface.index,
            of: Origin::Outside(index),
            second,
        };
        let straight = station.shape == Shape::Straight;
        let same = before.filter(|it| straight && it.0 == station.dia);
        let arrives = same.map_or(own(false), |it| it.1);
        let leaves = station.step.map(|step| (step, own(true)));
        before = Some(leaves.unwrap_or((station.dia, arrives)));
        [
            surface.plane(false, station.at),
            Drift::of(arrives),
            leaves.map_or_else(Drift::default, |it| Drift::of(it.1)),
        ]
    });
    all.collect()
}

fn of_cut(surface: Surface, index: CutId, cut: &Feature) -> [Drift; 4] {
    let (part, of) = (surface.index, Origin::Feature(index));
    let radius = |second| Drift::of(Size::Radius { part, of, second });
    let plane = |inward| match cut.is_edge() {
        true => surface.plane(false, surface.part.station(cut.end, Length::ZERO)),
        false => surface.plane(cut.is_inside(), surface.part.station(cut.end, inward)),
    };
    let none = Drift::default;
    let radii = match &cut.cut {
        Cut::Edge(_) => [none(), none()],
        Cut::Taper { .. } => [radius(false), radius(true)],
        Cut::Thread { .. } if surface.part.is_bought() => [radius(false), none()],
        Cut::Thread { .. } => [radius(false), Drift::of(Size::Root { part, of })],
        _ => [radius(false), none()],
    };
    let [first, second] = radii;
    [plane(cut.from), plane(cut.to), first, second]
}

impl Follows<Drift> {
    /// The sizes that something follows.
    pub(super) fn sizes(&self) -> impl Iterator<Item = Size> + '_ {
        let stations = self.stations.iter().flatten();
        let cuts = self.cuts.iter().flatten();
        let all = std::iter::once(&self.length).chain(stations).chain(cuts);
        all.chain(&self.faces)
            .flat_map(|it| it.iter().map(|it| it.0))
    }

    /// The same by the numbers of the sizes; what has none stays as it is.
    pub(super) fn numbered(&self, order: &BTreeMap<Size, usize>) -> PartFollows {
        let sum = |drift: &Drift| -> SizeSum {
            let known = drift.iter().filter_map(|(size, factor)| {
                let nth = order.get(&size)?;
                Some((*nth, factor))
            });
            known.collect()
        };
        Follows {
            length: sum(&self.length),
            stations: self.stations.map(|it| it.each_ref().map(sum)),
            cuts: self.cuts.map(|it| it.each_ref().map(sum)),
            faces: self.faces.iter().map(sum).collect(),
        }
    }
}

/// What is cut further comes no nearer to where it begins than this.
const LEAST: Length = Length::from_nm(1);

impl PartFollows {
    /// The part cut anew with its sizes off; none where nothing of it moves. No station passes the one
    /// before it, and no cut ends before it begins.
    pub(super) fn made(&self, part: &Part, off_mm: &[f64]) -> Option<Part> {
        let moves = |sum: &SizeSum| sum.iter().any(|it| off_mm[it.0] != 0.0);
        let stations = self.stations.iter().flatten();
        let mut all = stations.chain(self.cuts.iter().flatten());
        if !all.any(moves) && !moves(&self.length) {
            return None;
        }
        let by = |sum: &SizeSum| Length::mm(off(sum, off_mm));
        let drawn = part.length;
        let mut made = part.clone();
        made.length += by(&self.length);
        made.length_free += by(&self.length);
        let mut least = Length::ZERO;
        for (station, [at, dia, step]) in made.stations.iter_mut().zip(&self.stations) {
            station.at = (station.at + by(at)).max(least);
            least = station.at + LEAST;
            station.dia += by(dia).twice();
            station.step = station.step.map(|it| it + by(step).twice());
        }
        let mut threads = ThreadsOff::new();
        let cuts = made.features.with_ids().zip(&self.cuts);
        for ((index, _), [_, _, crest, root]) in cuts.filter(|((_, it), _)| it.thread().is_some()) {
            let (crest_mm, root_mm) = (off(crest, off_mm), off(root, off_mm));
            threads.insert(index, ThreadOff { crest_mm, root_mm });
        }
        let length = made.length;
        for (cut, [from, to, first, second]) in made.features.iter_mut().zip(&self.cuts) {
            if !cut.is_edge() {
                let inward = |at: Length, moved: Length| match cut.end {
                    End::First => at + moved,
                    End::Second => at + (length - drawn) - moved,
                };
                let (start, end) = (inward(cut.from, by(from)), inward(cut.to, by(to)));
                (cut.from, cut.to) = (start, end.max(start + LEAST));
            }
            for (dia, radius) in diameters(&mut cut.cut).into_iter().zip([first, second]) {
                *dia += by(radius).twice();
            }
        }
        for (face, at) in made.faces.iter_mut().zip(&self.faces) {
            face.at += by(at);
        }
        if let PartKind::Cut(cut) = &mut made.kind {
            let last = cut.blanks.iter_mut().filter(|it| it.to == drawn);
            last.for_each(|it| it.to = length);
        }
        let faces = &made.faces;
        let moved = |face: &mut PenFace| {
            let found = faces.iter().find(|it| it.name.text == face.face.text);
            face.at = found.map_or(face.at, |it| it.at);
        };
        made.wants.iter_mut().for_each(|it| it.each_face(&moved));
        recut(&mut made, &threads);
        Some(made)
    }
}

/// The diameters that a cut is written with, its second last.
fn diameters(cut: &mut Cut) -> Vec<&mut Length> {
    match cut {
        Cut::Tenon { dia, .. }
        | Cut::Drill { dia, .. }
        | Cut::Bore { dia, .. }
        | Cut::Ream { dia, .. }
        | Cut::Relief { dia }
        | Cut::Groove { dia, .. }
        | Cut::Recess { dia, .. }
        | Cut::Countersink { dia, .. } => vec![dia],
        Cut::Taper { from_dia, to_dia } => vec![from_dia, to_dia],
        Cut::Thread { .. } | Cut::Edge(_) => Vec::new(),
    }
}
