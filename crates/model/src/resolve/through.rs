//! Cuts that leave no wall and so no shape: edges that reach through it, a bought part's bore wider
//! than the part.

use crate::{Cut, CutId, End, Feature, Origin, Part, Profiles, StationId};
use quillet_geometry::{Chain, Curve, Edge, Length, Segment};
use quillet_syntax::{Finding, Severity, Size, Span, text};

/// The cuts and broken corners to be left out of the shape, and what is to be said of them.
#[derive(Default)]
pub(super) struct BrokenSurfaces {
    pub(super) refused: Vec<Origin>,
    pub(super) findings: Vec<Finding>,
}

impl BrokenSurfaces {
    /// With more of them; of one that is told of already nothing more is told.
    pub(super) fn also(&mut self, more: Vec<(Origin, Finding)>) {
        for (origin, finding) in more {
            if !self.refused.contains(&origin) {
                self.refused.push(origin);
                self.findings.push(finding);
            }
        }
    }
}

/// What of a part's inside stands out of its outside, or meets it at an edge. Of a part that is cut
/// only edges are looked at; what else breaks through is told by the walls.
pub(super) fn through(part: &Part, profiles: &Profiles) -> BrokenSurfaces {
    let pairs = pairs(part, profiles);
    let alone = |origin: Origin| {
        let mut with = pairs
            .iter()
            .filter(|it| it.outer == origin || it.inner == origin);
        with.any(|it| !(it.outer.is_edge() && it.inner.is_edge()))
    };
    let mut found = BrokenSurfaces::default();
    for pair in &pairs {
        let (outer, inner) = (pair.outer.is_edge(), pair.inner.is_edge());
        // Of two edges one that cuts through by itself is to blame.
        if outer && inner && (alone(pair.outer) || alone(pair.inner)) {
            continue;
        }
        let blamed = match (outer, inner) {
            (true, false) => pair.outer,
            _ => pair.inner,
        };
        if found.refused.contains(&blamed) {
            continue;
        }
        // Of a hole wider than all that is round it, what the walls tell is enough.
        if !(outer && !inner && pair.inner_dia > widest(part)) {
            found.findings.push(pair.finding(part, blamed));
        }
        found.refused.push(blamed);
        if outer && inner {
            found.refused.push(pair.outer);
        }
    }
    found
}

/// The widest that a part is; no hole in it can be as wide.
fn widest(part: &Part) -> Length {
    let sizes = part.stations.iter().flat_map(|it| [Some(it.dia), it.step]);
    sizes.flatten().max().unwrap_or(Length::MAX)
}

/// An outer and an inner surface with no metal between them.
struct Pair {
    outer: Origin,
    inner: Origin,
    /// The diameters where the inner one stands out most, or is nearest.
    outer_dia: Length,
    inner_dia: Length,
    gap_mm: f64,
    z_mm: f64,
}

/// The pairs that leave nothing, each once, where they leave least.
fn pairs(part: &Part, profiles: &Profiles) -> Vec<Pair> {
    let solid = &profiles.root;
    let outer = solid.outer.segments().iter();
    let inner: Vec<&Segment> = solid.inner.iter().flat_map(Chain::segments).collect();
    let mut pairs: Vec<Pair> = Vec::new();
    for one in outer.filter(|it| !it.curve.is_vertical()) {
        for other in inner.iter().filter(|it| !it.curve.is_vertical()) {
            let (outer, inner) = (profiles.origin(one.tag), profiles.origin(other.tag));
            let edge = outer.is_edge() || inner.is_edge();
            if !edge && (!part.is_bought() || is_assumed(part, inner)) {
                continue;
            }
            let Some(Gap {
                least_mm: gap_mm,
                most_mm,
                z_mm,
            }) = gap(&one.curve, &other.curve)
            else {
                continue;
            };
            // What was measured may meet at a sharp end, and no further; an edge must leave something.
            let meets = edge || most_mm <= NOTHING_MM;
            if gap_mm > if meets { NOTHING_MM } else { -NOTHING_MM } {
                continue;
            }
            let dia = |curve: &Curve| Length::mm(2.0 * curve.radius_at(z_mm));
            let pair = Pair {
                outer,
                inner,
                outer_dia: dia(&one.curve),
                inner_dia: dia(&other.curve),
                gap_mm,
                z_mm,
            };
            match pairs
                .iter_mut()
                .find(|it| it.outer == outer && it.inner == inner)
            {
                Some(known) if known.gap_mm <= gap_mm => {}
                Some(known) => *known = pair,
                None => pairs.push(pair),
            }
        }
    }
    pairs
}

/// A tap drill that nobody wrote: its thread, which is wider, is told of.
fn is_assumed(part: &Part, origin: Origin) -> bool {
    cut(part, origin).is_some_and(|it| {
        matches!(
            it.cut,
            Cut::Drill {
                assumed_for: Some(_),
                ..
            }
        )
    })
}

const NOTHING_MM: f64 = 1e-6;

/// The difference in radius where one curve lies over another.
struct Gap {
    least_mm: f64,
    most_mm: f64,
    /// The station at which it is least.
    z_mm: f64,
}

fn gap(outer: &Curve, inner: &Curve) -> Option<Gap> {
    let (from, to) = (
        outer.start().z.max(inner.start().z),
        outer.end().z.min(inner.end().z),
    );
    let straight = matches!((outer, inner), (Curve::Line(_), Curve::Line(_)));
    let parts = if straight { 1 } else { 32 };
    let at = |part: u32| {
        let z = from + (to - from) * f64::from(part) / f64::from(parts);
        (outer.radius_at(z) - inner.radius_at(z), z)
    };
    let (least_mm, z_mm) = (0..=parts).map(at).min_by(|a, b| a.0.total_cmp(&b.0))?;
    let most_mm = (0..=parts).map(|part| at(part).0).fold(least_mm, f64::max);
    (to - from > NOTHING_MM).then_some(Gap {
        least_mm,
        most_mm,
        z_mm,
    })
}

impl Pair {
    fn finding(&self, part: &Part, blamed: Origin) -> Finding {
        let end = match self.z_mm < part.length.to_mm() / 2.0 {
            true => part.end_name(End::First),
            false => part.end_name(End::Second),
        };
        let (outer, inner) = (span(part, self.outer), span(part, self.inner));
        let (outer_dia, inner_dia) = (
            Size::Diameter(self.outer_dia),
            Size::Diameter(self.inner_dia),
        );
        let error =
            |message| Finding::new("out-of-range", Severity::Error, span(part, blamed), message);
        match (self.outer.is_edge(), self.inner.is_edge()) {
            (true, true) => error(text!(
                "this {} and the {} meet: no face is left between them at the {}",
                word(part, self.inner),
                word(part, self.outer),
                end
            ))
            .label(outer, text!("the {}", word(part, self.outer)))
            .hint("make one of them smaller"),
            (true, false) => error(text!(
                "this {} cuts through the wall at the {}, down to {} where the hole is {}",
                word(part, self.outer),
                end,
                outer_dia,
                inner_dia
            ))
            .label(inner, "the hole under it")
            .hint("write one smaller than the wall there"),
            (false, true) => error(text!(
                "this {} cuts through the wall at the {}: it is {} where the outside is {}",
                word(part, self.inner),
                end,
                inner_dia,
                outer_dia
            ))
            .label(outer, "the outside it comes out of")
            .hint(match cut(part, self.inner).is_some_and(Feature::is_sharp) {
                true => "leave the angle out, for 90°: a cone so sharp goes deep",
                false => "write its diameter at the face, a little wider than the hole",
            }),
            (false, false) => error(text!(
                "this {} is {}, {} the part it is in, which is {} there",
                word(part, self.inner),
                inner_dia,
                match self.gap_mm < -NOTHING_MM {
                    true => "wider than",
                    false => "as wide as",
                },
                outer_dia
            ))
            .label(outer, "the outside there")
            .hint("measure both again; a hole is narrower than what is round it"),
        }
    }
}

fn span(part: &Part, origin: Origin) -> Span {
    let station = |index: StationId| part.stations.get(index).map(|it| it.span);
    let feature = |index: CutId| part.features.get(index).map(|it| it.span);
    let phrase = match origin {
        Origin::Outside(index) | Origin::StationEdge(index) => station(index),
        _ => origin.feature().and_then(feature),
    };
    phrase.unwrap_or(part.name.span)
}

/// What a maker calls the cut of a surface.
fn cut(part: &Part, origin: Origin) -> Option<&Feature> {
    origin.feature().and_then(|index| part.features.get(index))
}

fn word(part: &Part, origin: Origin) -> &'static str {
    let edge = match origin {
        Origin::StationEdge(index) => part.stations.get(index).and_then(|it| it.edge),
        _ => None,
    };
    let cut = cut(part, origin).map(|it| &it.cut);
    let broken = edge.or(match cut {
        Some(Cut::Edge(edge)) => Some(*edge),
        _ => None,
    });
    match (broken, cut) {
        (Some(Edge::Chamfer(_)), _) => "chamfer",
        (Some(Edge::Round(_)), _) => "round",
        (_, Some(Cut::Countersink { .. })) => "countersink",
        (_, Some(Cut::Drill { .. })) => "drill",
        (_, Some(Cut::Ream { .. })) => "reamed hole",
        (_, Some(Cut::Recess { .. })) => "recess",
        (_, Some(Cut::Taper { .. })) => "taper",
        (_, Some(Cut::Thread { .. })) => "thread",
        _ => "bore",
    }
}
