//! Cuts a part in the meridian plane: smallest outside wins, largest inside wins, edges last.

use super::threading::{ThreadRendering, surface};
use crate::planes::CutPlanes;
use crate::{BlankPiece, ById, Cut, CutId, End, Feature, NotRound, Origin, Part, Profiles, Solid};
use quillet_geometry::envelope::{greatest, smallest};
use quillet_geometry::{Chain, EdgeFlaw, Length, MetalSide, Point, Tag};
use quillet_syntax::ast::Side;
use std::collections::BTreeMap;
use std::slice::from_ref;

/// How far a thread's crests and roots lie off their basic radius, mm.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct ThreadOff {
    pub(crate) crest_mm: f64,
    pub(crate) root_mm: f64,
}

/// The threads of a part that do not lie on their basic sizes.
pub(crate) type ThreadsOff = BTreeMap<CutId, ThreadOff>;

/// Builds the three profiles of a part.
pub(super) struct ProfileBuilder<'p> {
    part: &'p Part,
    origins: Vec<Origin>,
    /// The outside as its stations and the stock give it.
    outside: Vec<Chain>,
    /// The bores of the tubes it is cut from.
    tubes: Vec<Chain>,
    /// One tag for each feature, and one for each drill point.
    features: ById<CutId, Tag>,
    points: ById<CutId, Tag>,
    length_mm: f64,
    /// How far the crests and the roots of its threads lie off their basic radius, mm.
    off: &'p ThreadsOff,
    /// Cuts whose corner cannot be broken.
    pub(super) flaws: Vec<(CutId, EdgeFlaw)>,
}

impl<'p> ProfileBuilder<'p> {
    pub(super) fn new(
        part: &'p Part,
        outside: Option<Chain>,
        mut origins: Vec<Origin>,
        off: &'p ThreadsOff,
    ) -> Self {
        let length_mm = part.length.to_mm();
        let tube = tag(&mut origins, Origin::Tube);
        let stock = match part.tube() {
            Some(_) => tube,
            None => tag(&mut origins, Origin::Stock),
        };
        let features: ById<CutId, Tag> = part
            .features
            .with_ids()
            .map(|(index, feature)| {
                let origin = match feature.cut {
                    Cut::Edge(_) | Cut::Countersink { .. } => Origin::FeatureEdge(index),
                    _ => Origin::Feature(index),
                };
                tag(&mut origins, origin)
            })
            .collect();
        let points = part
            .features
            .ids()
            .map(|i| tag(&mut origins, Origin::DrillPoint(i)))
            .collect();
        let mut whole = vec![];
        whole.extend(outside);
        let (from, to) = whole
            .first()
            .map_or((0.0, 0.0), |chain: &Chain| (chain.start().z, chain.end().z));
        let rough = stock_radius_mm(part);
        if from > 0.0 || whole.is_empty() {
            let end = if whole.is_empty() { length_mm } else { from };
            whole.extend(level(stock, 0.0, end, rough));
        }
        if to < length_mm && to > 0.0 {
            whole.extend(level(stock, to, length_mm, rough));
        }
        ProfileBuilder {
            part,
            origins,
            outside: whole,
            tubes: bores(part, tube),
            features,
            points,
            length_mm,
            off,
            flaws: Vec::new(),
        }
    }

    /// Crests come first, with the edges that are broken on them: what a thread holds of metal and
    /// where its roots lie follows from the crest that is left at each station.
    pub(super) fn profiles(&mut self) -> Option<Profiles> {
        let mut outer = self.outside.clone();
        outer.extend(self.cuts(false));
        outer.extend(self.threads(Side::Outside, ThreadRendering::Crest, &[]));
        let outer = self.break_corners(smallest(&outer).into_iter().next()?);
        let mut inner = self.cuts(true);
        inner.extend(self.tubes.iter().cloned());
        inner.extend(self.threads(Side::Inside, ThreadRendering::Crest, &[]));
        let inner = greatest(&inner, 0.0, self.length_mm);
        let crest = Solid { outer, inner };
        Some(Profiles {
            metal: self.threaded(&crest, ThreadRendering::Metal)?,
            root: self.threaded(&crest, ThreadRendering::Root)?,
            crest,
            not_round: NotRound::default(),
            origins: std::mem::take(&mut self.origins),
            planes: CutPlanes::default(),
        })
    }

    /// The part with its threads cut into its crests; a side that bears none stays as it is.
    fn threaded(&self, crest: &Solid, threads: ThreadRendering) -> Option<Solid> {
        let mut outer = vec![crest.outer.clone()];
        outer.extend(self.threads(Side::Outside, threads, from_ref(&crest.outer)));
        let outer = match outer.len() {
            1 => outer.pop()?,
            _ => smallest(&outer).into_iter().next()?,
        };
        let mut inner = crest.inner.clone();
        let made = self.threads(Side::Inside, threads, &crest.inner);
        if !made.is_empty() {
            inner.extend(made);
            inner = greatest(&inner, 0.0, self.length_mm);
        }
        Some(Solid { outer, inner })
    }

    /// The surfaces of the threads of one side, over these crests.
    fn threads(&self, wanted: Side, threads: ThreadRendering, crests: &[Chain]) -> Vec<Chain> {
        let mut made = Vec::new();
        for (index, feature) in self.part.features.with_ids() {
            if let Some((thread, side)) = feature.thread()
                && side == wanted
            {
                let (form, tag) = (&thread.thread, self.features[index]);
                let stations = feature.stations(self.part.length);
                let off = self.off.get(&index).copied().unwrap_or_default();
                let off_mm = match threads {
                    ThreadRendering::Crest => off.crest_mm,
                    ThreadRendering::Root => off.root_mm,
                    ThreadRendering::Metal => 0.0,
                };
                let form = (form, side);
                made.extend(surface(form, threads, stations, crests, tag, off_mm));
            }
        }
        made
    }

    /// The surfaces that the plain cuts of one side leave.
    fn cuts(&self, inside: bool) -> Vec<Chain> {
        let features = self.part.features.with_ids();
        let of_side = features.filter(|(_, it)| it.is_inside() == inside);
        of_side
            .flat_map(|(index, feature)| self.cut(index, feature))
            .collect()
    }

    /// Breaks the corners of the ends as the cuts say; edges come last.
    fn break_corners(&mut self, mut outer: Chain) -> Chain {
        for (index, feature) in self.part.features.with_ids() {
            let Cut::Edge(edge) = feature.cut else {
                continue;
            };
            let at = self.part.station(feature.end, Length::ZERO).to_mm();
            match outer.with_edge(at, edge, MetalSide::Outside, self.features[index]) {
                Ok(broken) => outer = broken,
                Err(flaw) if !self.flaws.contains(&(index, flaw)) => self.flaws.push((index, flaw)),
                Err(_) => {}
            }
        }
        outer
    }

    /// The surfaces a plain cut leaves, along the part.
    fn cut(&self, index: CutId, feature: &Feature) -> Vec<Chain> {
        let tag = self.features[index];
        let (from, to) = (feature.from.to_mm(), feature.to.to_mm());
        let places: Vec<Point> = match &feature.cut {
            Cut::Tenon { dia, .. } | Cut::Relief { dia } | Cut::Groove { dia, .. } => {
                let radius = dia.to_mm() / 2.0;
                vec![Point::new(from, radius), Point::new(to, radius)]
            }
            Cut::Bore { dia, .. } | Cut::Recess { dia, .. } => {
                let radius = dia.to_mm() / 2.0;
                vec![Point::new(from, radius), Point::new(to, radius)]
            }
            Cut::Ream { dia, .. } => {
                let radius = dia.to_mm() / 2.0;
                vec![Point::new(0.0, radius), Point::new(to, radius)]
            }
            Cut::Drill { dia, point, .. } => {
                let radius = dia.to_mm() / 2.0;
                let body = [Point::new(0.0, radius), Point::new(to, radius)];
                let tip = to + point.cone_depth_mm(radius);
                let cone = [Point::new(to, radius), Point::new(tip, 0.0)];
                let mut made = self.placed(tag, feature.end, &body);
                if !feature.through {
                    made.extend(self.placed(self.points[index], feature.end, &cone));
                }
                return made;
            }
            Cut::Taper { from_dia, to_dia } => vec![
                Point::new(from, from_dia.to_mm() / 2.0),
                Point::new(to, to_dia.to_mm() / 2.0),
            ],
            Cut::Countersink { dia, angle } => {
                let radius = dia.to_mm() / 2.0;
                let depth = angle.cone_depth_mm(radius);
                vec![Point::new(0.0, radius), Point::new(depth, 0.0)]
            }
            Cut::Thread { .. } | Cut::Edge(_) => return vec![],
        };
        self.placed(tag, feature.end, &places)
    }

    /// A polyline measured inward from an end, as it lies along the part.
    fn placed(&self, tag: Tag, end: End, places: &[Point]) -> Vec<Chain> {
        let chain = Chain::polyline(tag, places).map(|chain| match end {
            End::First => chain,
            End::Second => chain.reversed(self.length_mm),
        });
        chain.into_iter().collect()
    }
}

/// The radius of the stock where nothing is said: half the rod, or the largest size said.
fn stock_radius_mm(part: &Part) -> f64 {
    let of_blank = part.blanks().iter().map(|piece| piece.stock.size);
    let of_stations = part.stations.iter().map(|station| station.dia);
    let of_features = part.features.iter().filter_map(Feature::dia);
    let largest = of_blank.max().or(of_stations.chain(of_features).max());
    largest.unwrap_or_default().to_mm() / 2.0
}

/// The bore of each piece that is a tube.
fn bores(part: &Part, tag: Tag) -> Vec<Chain> {
    let bore = |piece: &BlankPiece| {
        let radius = piece.stock.tube_bore()?.to_mm() / 2.0;
        level(tag, piece.from.to_mm(), piece.to.to_mm(), radius)
    };
    part.blanks().iter().filter_map(bore).collect()
}

fn level(tag: Tag, from: f64, to: f64, radius: f64) -> Option<Chain> {
    (to > from)
        .then(|| Chain::polyline(tag, &[Point::new(from, radius), Point::new(to, radius)]))?
}

pub(super) fn tag(origins: &mut Vec<Origin>, origin: Origin) -> Tag {
    origins.push(origin);
    Tag(origins.len() as u32 - 1)
}
