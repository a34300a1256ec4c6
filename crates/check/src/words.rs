//! Numbers and surfaces in a maker's words.

use quillet_geometry::Length;
use quillet_model::{Cut, DrillName, Feature, Origin, Part};
use quillet_syntax::Span;
use quillet_syntax::ast::Side;

/// A diameter to the hundredth: `⌀11.02`.
pub(crate) fn dia(dia: Length) -> String {
    format!("⌀{:.2}", dia.to_mm())
}

/// A length to the hundredth, or to the thousandth where a hundredth would show it equal to
/// the limit it is held against: `0.51 mm`.
pub(crate) fn against(length: Length, limit: Length) -> String {
    let two = |length: Length| format!("{:.2}", length.to_mm());
    match length != limit && two(length) == two(limit) {
        true => format!("{:.3} mm", length.to_mm()),
        false => format!("{} mm", two(length)),
    }
}

/// The next tenth of a millimetre below, as a maker would write a size.
pub(crate) fn tenth_down(length: Length) -> Length {
    Length::from_nm(length.nm().div_euclid(TENTH) * TENTH)
}

/// The next tenth of a millimetre above.
pub(crate) fn tenth_up(length: Length) -> Length {
    -tenth_down(-length)
}

const TENTH: i64 = 100_000;

/// Where a surface is said.
pub(crate) fn span_of(part: &Part, origin: Origin) -> Span {
    let station = |index: usize| part.stations.get(index).map(|station| station.span);
    let said = match origin {
        Origin::Outside(index) | Origin::StationEdge(index) => station(index),
        Origin::Face(end) => {
            let name = part.ends.as_ref().map(|ends| ends[end.index()].span);
            let last = part
                .stations
                .iter()
                .find(|it| it.at == part.station(end, Length::ZERO));
            last.map(|station| station.span).or(name)
        }
        _ => origin
            .feature()
            .and_then(|index| part.features.get(index))
            .map(|it| it.span),
    };
    said.unwrap_or(part.name.span)
}

/// An outer surface, with its diameter.
pub(crate) fn outer(part: &Part, origin: Origin, at: Length) -> String {
    match (
        origin,
        origin.feature().and_then(|index| part.features.get(index)),
    ) {
        (Origin::Face(end), _) => format!("the {}", part.end_name(end)),
        (_, Some(feature)) => match &feature.cut {
            Cut::Thread { thread, .. } => format!("{}'s root ({})", thread.called(), dia(at)),
            _ => format!("the {} ({})", word(feature), dia(at)),
        },
        _ if at < ON_AXIS => "the pole".to_owned(),
        _ => format!("the outside ({})", dia(at)),
    }
}

/// Nearer to the axis than this, no diameter is told.
const ON_AXIS: Length = Length::from_nm(5_000);

/// An inner surface, with its diameter.
pub(crate) fn inner(part: &Part, origin: Origin, at: Length) -> String {
    let Some(feature) = origin.feature().and_then(|index| part.features.get(index)) else {
        return format!("the bore ({})", dia(at));
    };
    match (&feature.cut, origin) {
        (_, Origin::DrillPoint(_)) => format!("the point of the {}", sized(feature)),
        (Cut::Thread { thread, .. }, _) => format!("{} ({})", thread.called(), dia(at)),
        _ => format!("the {}", sized(feature)),
    }
}

/// A cut with its size: `⌀8.00 drill`, `letter F drill`.
pub(crate) fn sized(feature: &Feature) -> String {
    let named = match &feature.cut {
        Cut::Drill { tool, .. } | Cut::Bore { tool, .. } | Cut::Ream { tool, .. } => match tool {
            DrillName::Number(number) => Some(format!("#{number}")),
            DrillName::Letter(letter) => Some(format!("letter {letter}")),
            DrillName::Diameter => None,
        },
        _ => None,
    };
    let size = named.or(feature.dia().map(dia)).unwrap_or_default();
    format!("{size} {}", word(feature)).trim_start().to_owned()
}

/// What a cut is called.
pub(crate) fn word(feature: &Feature) -> &'static str {
    match &feature.cut {
        Cut::Tenon { .. } => "tenon",
        Cut::Drill { .. } => "drill",
        Cut::Bore { .. } => "bore",
        Cut::Ream { .. } => "reamed hole",
        Cut::Thread {
            side: Side::Inside, ..
        } => "inside thread",
        Cut::Thread {
            side: Side::Outside,
            ..
        } => "outside thread",
        Cut::Relief { .. } => "relief",
        Cut::Groove { .. } => "groove",
        Cut::Recess { .. } => "recess",
        Cut::Taper { .. } => "taper",
        Cut::Countersink { .. } => "countersink",
        Cut::Edge(_) => "broken corner",
    }
}

/// `a`, `a and b`, `a, b and c`.
pub(crate) fn list(items: &[String]) -> String {
    match items {
        [] => String::new(),
        [one] => one.clone(),
        [rest @ .., last] => format!("{} and {last}", rest.join(", ")),
    }
}
