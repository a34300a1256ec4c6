//! What a part's drawing dimensions: one column a place, outside above, inside below.

mod corners;

use super::beside;
use super::figures::LengthFormat;
use super::{side, thread};
use corners::{corners, datum};
use quillet_geometry::{Chain, Edge, Length, Point};
use quillet_model::{Cut, CutId, End, Feature, Origin, Part, Profiles};
use quillet_standards::thread::ThreadForm;
use quillet_syntax::ast::Side;

/// A place that is dimensioned.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct DimensionColumn {
    /// The place, in the meridian plane.
    pub(super) at: Point,
    /// The end it is measured from; none for a name without a measure.
    pub(super) datum: Option<End>,
    /// Its distance from that end.
    pub(super) distance: String,
    /// Diameter, or what is there.
    pub(super) caption: String,
}

/// What is dimensioned outside, along the part.
pub(super) fn outside(
    part: &Part,
    profiles: &Profiles,
    figures: LengthFormat,
) -> Vec<DimensionColumn> {
    let chain = profiles.turned();
    // A round that ends on the axis has no diameter there.
    let dia = |radius: f64| match radius < 1e-9 {
        true => String::new(),
        false => figures.dia(radius),
    };
    let mut columns: Vec<DimensionColumn> = corners(chain)
        .into_iter()
        .map(|(at, before, after, tags)| {
            let end = datum(part, profiles, &tags);
            let caption = match () {
                () if at.z < 1e-9 => dia(after),
                () if (before - after).abs() < 1e-9 || at.z > part.length.to_mm() - 1e-9 => {
                    dia(before)
                }
                () => format!("{}→{}", dia(before), figures.number(2.0 * after)),
            };
            measured(part, at, end, caption, figures)
        })
        .collect();
    for piece in part.blanks().iter().skip(1) {
        let z = piece.from.to_mm();
        let Some((before, after)) = chain.radii_at(z) else {
            continue;
        };
        let material = &piece.stock.material;
        let caption = material.title_or_name();
        let place = Point::new(z, before.max(after));
        columns.push(measured(
            part,
            place,
            End::First,
            caption.to_owned(),
            figures,
        ));
    }
    for feature in &part.features {
        match &feature.cut {
            Cut::Thread {
                thread,
                side: Side::Outside,
            } => {
                columns.push(called(part, feature, chain, &thread.thread, figures));
            }
            Cut::Edge(edge) => {
                let at = part.station(feature.end, Length::ZERO).to_mm();
                let place = Point::new(at, chain.greatest_at(at).unwrap_or(0.0));
                columns.push(DimensionColumn::named(place, edge_text(*edge, figures)));
            }
            _ => {}
        }
    }
    let sides = side::side(part, profiles, figures).into_iter();
    columns.extend(sides.map(|(place, caption)| DimensionColumn::named(place, caption)));
    finished(columns)
}

/// What is dimensioned inside, along the part.
pub(super) fn inside(
    part: &Part,
    profiles: &Profiles,
    figures: LengthFormat,
) -> Vec<DimensionColumn> {
    let solid = &profiles.crest;
    let made = |index: CutId| {
        let pieces = solid
            .inner
            .iter()
            .chain(&profiles.root.inner)
            .flat_map(Chain::segments);
        pieces
            .clone()
            .any(|piece| profiles.origin(piece.tag).feature() == Some(index))
    };
    let mut columns = Vec::new();
    for (index, feature) in part.features.with_ids() {
        // A pilot that a later cut removes leaves nothing to measure.
        if feature.is_inside() && made(index) {
            columns.extend(inside_feature(part, profiles, index, feature, figures));
        }
    }
    let holes = beside::dimensions(part, figures).into_iter();
    columns.extend(holes.map(|(place, from, words)| match from {
        Some(end) => measured(part, place, end, words, figures),
        None => DimensionColumn::named(place, words),
    }));
    finished(columns)
}

#[expect(clippy::too_many_lines, reason = "an arm a cut: it is read as a table")]
fn inside_feature(
    part: &Part,
    profiles: &Profiles,
    index: CutId,
    feature: &Feature,
    figures: LengthFormat,
) -> Vec<DimensionColumn> {
    let dia = |radius: f64| figures.dia(radius);
    let at = |inward: f64, radius: f64, caption: String| {
        let station = part.station(feature.end, Length::mm(inward)).to_mm();
        measured(
            part,
            Point::new(station, radius),
            feature.end,
            caption,
            figures,
        )
    };
    let start = |radius: f64, caption: String| {
        let from = feature.from.to_mm();
        (from > 0.0).then(|| at(from, radius, caption))
    };
    let through = |radius: f64, caption: String| {
        let middle = longest(profiles, index).unwrap_or(part.length.to_mm() / 2.0);
        DimensionColumn::named(Point::new(middle, radius), format!("{caption} through"))
    };
    let (from, to) = (feature.from.to_mm(), feature.to.to_mm());
    let mut columns = Vec::new();
    match &feature.cut {
        Cut::Thread { thread, .. } => {
            let [low, high] = thread::span(part, feature);
            let bores = profiles.crest.inner.iter();
            let bore = bores.filter(|bore| bore.radii_at((low + high) / 2.0).is_some());
            columns.extend(
                bore.take(1)
                    .map(|bore| called(part, feature, bore, &thread.thread, figures)),
            );
        }
        Cut::Drill { dia: size, .. } if feature.through => {
            columns.push(through(size.to_mm() / 2.0, figures.drilled(*size)));
        }
        Cut::Drill {
            dia: size, point, ..
        } => {
            let radius = size.to_mm() / 2.0;
            columns.push(at(to, radius, figures.drilled(*size)));
            if has_apex(profiles, index) {
                let apex = to + point.cone_depth_mm(radius);
                columns.push(at(apex, 0.0, format!("point {point}")));
            }
        }
        Cut::Bore { dia: size, .. }
        | Cut::Ream { dia: size, .. }
        | Cut::Recess { dia: size, .. } => {
            let radius = size.to_mm() / 2.0;
            columns.push(if feature.through {
                through(radius, dia(radius))
            } else {
                at(to, radius, dia(radius))
            });
            columns.extend(start(radius, dia(radius)));
        }
        Cut::Taper { from_dia, to_dia } => {
            let ends = [(from, from_dia), (to, to_dia)];
            columns.extend(ends.map(|(inward, size)| {
                let radius = size.to_mm() / 2.0;
                at(inward, radius, dia(radius))
            }));
        }
        Cut::Countersink { dia: size, angle } => {
            let radius = size.to_mm() / 2.0;
            columns.push(at(0.0, radius, format!("{} × {angle}", dia(radius))));
        }
        _ => {}
    }
    columns
}

/// True where a drill's cone is left down to the axis.
fn has_apex(profiles: &Profiles, index: CutId) -> bool {
    profiles
        .crest
        .inner
        .iter()
        .flat_map(Chain::segments)
        .any(|piece| {
            let least = piece.curve.end().r.min(piece.curve.start().r);
            profiles.origin(piece.tag) == Origin::DrillPoint(index) && least < 1e-9
        })
}

/// The middle of the longest stretch that a cut has made.
fn longest(profiles: &Profiles, index: CutId) -> Option<f64> {
    let pieces = profiles.crest.inner.iter().flat_map(Chain::segments);
    let spans = pieces
        .filter(|piece| profiles.origin(piece.tag) == Origin::Feature(index))
        .map(|piece| (piece.curve.start().z, piece.curve.end().z));
    spans
        .max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))
        .map(|(from, to)| (from + to) / 2.0)
}

/// A thread at its middle, in one: its name and from where to where it is of full form.
fn called(
    part: &Part,
    feature: &Feature,
    chain: &Chain,
    thread: &ThreadForm,
    figures: LengthFormat,
) -> DimensionColumn {
    let [from, to] = thread::span(part, feature);
    let middle = (from + to) / 2.0;
    let radius = chain
        .radii_at(middle)
        .map_or(0.0, |(one, two)| one.max(two));
    let end = match feature.end {
        End::First => "",
        End::Second => "B ",
    };
    let [from, to] = [feature.from, feature.to].map(|it| figures.number(it.to_mm()));
    let reach = match feature.from.is_positive() {
        true => format!("{end}{from} to {to}"),
        false => format!("{end}to {to}"),
    };
    DimensionColumn::named(Point::new(middle, radius), format!("{thread}, {reach}"))
}

impl DimensionColumn {
    fn named(at: Point, caption: String) -> DimensionColumn {
        DimensionColumn {
            at,
            datum: None,
            distance: String::new(),
            caption,
        }
    }
}

fn measured(
    part: &Part,
    at: Point,
    datum: End,
    caption: String,
    figures: LengthFormat,
) -> DimensionColumn {
    let long = part.length.to_mm();
    // The second end itself is measured from the first: so the length over all is there, and what runs
    // from either end hangs together.
    let (datum, distance) = match datum {
        End::Second if at.z < long - 1e-9 => (datum, long - at.z),
        _ => (End::First, at.z),
    };
    DimensionColumn {
        at,
        datum: Some(datum),
        distance: figures.number(distance),
        caption,
    }
}

/// In order along the part, each said once.
fn finished(mut columns: Vec<DimensionColumn>) -> Vec<DimensionColumn> {
    columns.sort_by(|a, b| a.at.z.total_cmp(&b.at.z).then(a.at.r.total_cmp(&b.at.r)));
    columns.dedup();
    columns
}

pub(super) fn edge_text(edge: Edge, figures: LengthFormat) -> String {
    match edge {
        Edge::Round(radius) => format!("R{}", figures.written(radius)),
        Edge::Chamfer(leg) => format!("{} × 45°", figures.written(leg)),
    }
}
