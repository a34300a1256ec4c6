//! What a part is to the lathe: which of its cuts belong to which end, where the shaped
//! outside lies, which ends are open, and what to hold it by.

use crate::JoinedIn;
use crate::tasks::mate::Mates;
use quillet_geometry::{Chain, Length, put_in_order};
use quillet_model::{Cut, End, Feature, Origin, Part};
use quillet_syntax::ast::Side;

/// The two ends.
pub(crate) const ENDS: [End; 2] = [End::First, End::Second];

/// A part as the lathe sees it.
pub(crate) struct FeatureMap<'p> {
    pub(crate) part: &'p Part,
    /// The finished outside, threads at their crests.
    pub(crate) outer: &'p Chain,
    /// How far from each end's face the outside is turned from that end: its tenons, threads
    /// and reliefs, one against the other.
    pub(crate) zone: [Length; 2],
    /// The stretches between that follow the stations.
    pub(crate) shaped: Vec<(Length, Length)>,
    /// The fattest of the finished outside.
    pub(crate) fattest: Length,
    /// Whether a hole opens at each end.
    pub(crate) open: [bool; 2],
    /// What lies within it when its outside is turned, in the order in which it is joined in.
    pub(crate) linings: Vec<Lining<'p>>,
}

/// A part that is joined into another before that one's outside is turned, and lies within it.
pub(crate) struct Lining<'p> {
    pub(crate) map: FeatureMap<'p>,
    pub(crate) mates: Mates,
    /// Which of its ends is level with each end of the part around it.
    pub(crate) ends: [Option<End>; 2],
    pub(crate) joined: JoinedIn,
}

impl<'p> FeatureMap<'p> {
    /// None for a part whose shape could not be worked out.
    pub(crate) fn of(part: &'p Part) -> Option<Self> {
        let profiles = part.profiles.as_ref()?;
        let outer = profiles.turned();
        let zone = ENDS.map(|end| part.zone(end));
        let opens = |end: End| {
            let at = part.station(end, Length::ZERO).to_mm();
            profiles.crest.inner.iter().any(|chain| {
                let edge = match end {
                    End::First => chain.start(),
                    End::Second => chain.end(),
                };
                (edge.z - at).abs() < 1e-6 && edge.r > 0.0
            })
        };
        let mut fattest = Length::ZERO;
        if let Some((place, _)) = outer.fattest(0.0, part.length.to_mm()) {
            fattest = Length::mm(place.r * 2.0);
        }
        Some(FeatureMap {
            part,
            outer,
            zone,
            shaped: shaped(part, zone),
            fattest,
            open: ENDS.map(opens),
            linings: Vec::new(),
        })
    }

    /// What the hole at an end is cut in once all is joined: the innermost part whose face is level
    /// there, with its own end and mates; itself where nothing lines it.
    pub(crate) fn mouth<'m>(
        &'m self,
        end: End,
        mates: &'m Mates,
    ) -> (&'m FeatureMap<'p>, End, &'m Mates) {
        let level = |it: &'m Lining<'p>| Some((it, it.ends[end.index()]?));
        match self.linings.iter().find_map(level) {
            Some((lining, own)) => lining.map.mouth(own, &lining.mates),
            None => (self, end, mates),
        }
    }

    /// Whether a hole opens at an end once all is joined.
    pub(crate) fn opens_at(&self, end: End, mates: &Mates) -> bool {
        let (inner, at, _) = self.mouth(end, mates);
        inner.open[at.index()]
    }

    /// Whether something that is joined in later is level with an end.
    pub(crate) fn is_lined_at(&self, end: End) -> bool {
        self.linings.iter().any(|it| it.ends[end.index()].is_some())
    }

    /// Whether a cut of this index is turned from its end before the outside is shaped.
    pub(crate) fn in_zone(&self, feature: &Feature) -> bool {
        match &feature.cut {
            Cut::Edge(_) => self.zone[feature.end.index()].is_positive(),
            _ => feature.to <= self.zone[feature.end.index()],
        }
    }

    /// A thread cut at an end, inside or outside; outside only where it is turned there.
    pub(crate) fn thread_at(&self, end: End, side: Side) -> Option<&'p Feature> {
        self.part.features.iter().find(|it| {
            it.end == end
                && it.thread().is_some_and(|(_, found)| found == side)
                && (side == Side::Inside || self.in_zone(it))
        })
    }

    /// The first plain stretch of the hole that opens at an end, a countersunk mouth passed
    /// over: its diameter and how deep it stays as wide.
    pub(crate) fn bore_at(&self, end: End) -> Option<(Length, Length)> {
        let level = |(from, to, [a, b]): (f64, f64, [f64; 2])| {
            let radius = if (a - b).abs() < 1e-6 { a } else { f64::NAN };
            (from, to, radius)
        };
        let pieces: Vec<(f64, f64, f64)> = self.pieces_at(end)?.into_iter().map(level).collect();
        let first = pieces.iter().position(|piece| !piece.2.is_nan())?;
        let radius = pieces[first].2;
        let straight = pieces[first..]
            .iter()
            .take_while(|it| (it.2 - radius).abs() < 1e-6);
        let reach = straight.map(|it| it.1).fold(0.0, f64::max);
        // A mouth deeper than this is a taper, not a broken edge.
        (pieces[first].0 < 2.0).then(|| (Length::mm(radius * 2.0), Length::mm(reach)))
    }

    /// Whether the outside is left as the tube that it is cut from came.
    pub(crate) fn keeps_tube(&self) -> bool {
        self.shaped.is_empty() && self.part.tube().is_some()
    }

    /// What a straight pin stands in at an end: its plain stretch, or, of a hole that tapers all the
    /// way, the narrowest it comes to; the diameter, and how deep that lets it in.
    pub(crate) fn pin_at(&self, end: End) -> Option<(Length, Length)> {
        let tapering = || {
            let pieces = self.pieces_at(end)?;
            // Not into what comes to a point.
            let open = pieces
                .iter()
                .take_while(|it| it.2.iter().all(|r| *r > 1e-6));
            open.map(|it| (it.2[0].min(it.2[1]), it.1))
                .reduce(|all, it| (all.0.min(it.0), it.1))
                .map(|(radius, reach)| (Length::mm(radius * 2.0), Length::mm(reach)))
        };
        self.bore_at(end).or_else(tapering)
    }

    /// The hole that opens at an end, from its face inward: from where to where, mm, each piece is
    /// how wide at its two ends, as radii.
    fn pieces_at(&self, end: End) -> Option<Vec<(f64, f64, [f64; 2])>> {
        let length = self.part.length.to_mm();
        let inward = |z: f64| if end == End::First { z } else { length - z };
        let inner = &self.part.profiles.as_ref()?.crest.inner;
        let chain = inner.iter().find(|chain| {
            let mouth = if end == End::First {
                chain.start()
            } else {
                chain.end()
            };
            inward(mouth.z).abs() < 1e-6
        })?;
        let along = chain.segments().iter().filter(|it| !it.curve.is_vertical());
        let mut pieces: Vec<(f64, f64, [f64; 2])> = along
            .map(|piece| {
                let (a, b) = (piece.curve.start(), piece.curve.end());
                let (from, to) = (inward(a.z), inward(b.z));
                (from.min(to), from.max(to), [a.r, b.r])
            })
            .collect();
        put_in_order(&mut pieces, |it| it.0);
        Some(pieces)
    }

    /// A short part with a hole right through and no thread: a ring or band.
    pub(crate) fn is_ring(&self) -> bool {
        let threaded = self.part.features.iter().any(|it| it.thread().is_some());
        self.open == [true; 2] && !threaded && self.part.length < self.fattest.half()
    }

    /// The finished outside diameter just inside an end's face.
    pub(crate) fn dia_at_face(&self, end: End) -> Length {
        let at = self.part.station(end, Length::ZERO).to_mm();
        let radius = match (self.outer.radii_at(at), end) {
            (Some((_, after)), End::First) => after,
            (Some((before, _)), End::Second) => before,
            (None, _) => 0.0,
        };
        Length::mm(radius * 2.0)
    }
}

/// The stretches outside both zones, and those within where the stations are the smallest.
fn shaped(part: &Part, zone: [Length; 2]) -> Vec<(Length, Length)> {
    let (from, to) = (zone[0], part.length - zone[1]);
    let mut spans = Vec::new();
    // A tube of which no station is said keeps its own outside.
    let bare = part.stations.is_empty() && part.tube().is_some();
    if from < to && !bare {
        spans.push((from, to));
    }
    let Some(profiles) = &part.profiles else {
        return spans;
    };
    for piece in profiles.turned().segments() {
        let follows = matches!(
            profiles.origin(piece.tag),
            Origin::Outside(_) | Origin::StationEdge(_)
        );
        let (a, b) = (piece.curve.start().z, piece.curve.end().z);
        if !follows || piece.curve.is_vertical() {
            continue;
        }
        spans.push((Length::mm(a), Length::mm(b)));
    }
    joined(spans)
}

/// Overlapping and touching spans joined, in order.
fn joined(mut spans: Vec<(Length, Length)>) -> Vec<(Length, Length)> {
    spans.sort();
    let mut out: Vec<(Length, Length)> = Vec::new();
    for (from, to) in spans {
        match out.last_mut() {
            Some(last) if from <= last.1 => last.1 = last.1.max(to),
            _ => out.push((from, to)),
        }
    }
    out
}
