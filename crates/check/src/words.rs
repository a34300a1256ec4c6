//! Numbers and surfaces in a maker's words.

use quillet_geometry::Length;
use quillet_model::{CircleId, Cut, Feature, Origin, Part, SideCut, StationId};
use quillet_syntax::{Size, SizedText, Span, ToText, text};

/// A diameter to the hundredth: `⌀11.02`.
pub(crate) fn dia(dia: Length) -> SizedText {
    Size::Diameter(dia).into()
}

/// A diameter, finer where it would show equal to the one it is held against: `⌀0.31496`.
pub(crate) fn dia_against(dia: Length, limit: Length) -> SizedText {
    Size::DiameterAgainst { dia, limit }.into()
}

/// What two surfaces that move in each other are wanted to leave a side: common practice, no published
/// source.
pub(crate) const ROOM_A_SIDE: Length = Length::from_nm(100_000);

/// A length to the hundredth, or as much finer where that would show it equal to the limit it
/// is held against: `0.51 mm`.
pub(crate) fn against(length: Length, limit: Length) -> SizedText {
    Size::Against { length, limit }.into()
}

/// The limit itself: `0.5 mm`, and finer where what is held against it would look equal to it.
pub(crate) fn limit(limit: Length, held: Length) -> SizedText {
    Size::Limit { limit, held }.into()
}

/// A number and what it is held against, to so many decimals, and to more where they would read
/// alike.
pub(crate) fn told_apart(number: f64, limit: f64, places: usize) -> [String; 2] {
    let told = |places: usize| [number, limit].map(|it| format!("{it:.places$}"));
    let apart = (places..=MOST_PLACES).map(told).find(|[a, b]| a != b);
    apart.unwrap_or_else(|| told(places))
}

/// Nobody reads on past so many in a sentence.
pub(crate) const MOST_LISTED: usize = 12;

/// No number is told to more decimals.
const MOST_PLACES: usize = 9;

/// Where a surface is said.
pub(crate) fn span_of(part: &Part, origin: Origin) -> Span {
    let station = |index: StationId| part.stations.get(index).map(|station| station.span);
    let phrase = match origin {
        Origin::Outside(index) | Origin::StationEdge(index) => station(index),
        Origin::Side(id) => part.side(id).map(|it| it.span),
        Origin::Beside(id) => part.circle(id).map(|it| it.span),
        Origin::Tube => part.blanks().first().map(|it| it.span),
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
    phrase.unwrap_or(part.name.span)
}

/// An outer surface, with its diameter.
pub(crate) fn outer(part: &Part, origin: Origin, at: Length) -> SizedText {
    match (
        origin,
        origin.feature().and_then(|index| part.features.get(index)),
    ) {
        (Origin::Face(end), _) => text!("the {}", part.end_name(end)),
        (_, Some(feature)) => match &feature.cut {
            Cut::Thread { thread, .. } => text!("{}'s root ({})", thread.called(), dia(at)),
            _ => text!("the {} ({})", feature.called(), dia(at)),
        },
        (Origin::Side(id), _) if part.side(id).is_some() => {
            let called = part.side(id).map_or("flat", SideCut::called);
            text!("the {} ({} across)", called, at)
        }
        (Origin::Beside(id), _) => text!("the {}", holes(part, id)),
        (Origin::Tube, _) => text!("the tube ({})", dia(at)),
        _ if at < ON_AXIS => "the pole".into(),
        _ => text!("the outside ({})", dia(at)),
    }
}

/// Nearer to the axis than this, no diameter is told.
const ON_AXIS: Length = Length::from_nm(5_000);

/// An inner surface, with its diameter.
pub(crate) fn inner(part: &Part, origin: Origin, at: Length) -> SizedText {
    let Some(feature) = origin.feature().and_then(|index| part.features.get(index)) else {
        return match origin {
            Origin::Beside(id) => text!("the {}", holes(part, id)),
            Origin::Tube => text!("the tube's bore ({})", dia(at)),
            _ => text!("the bore ({})", dia(at)),
        };
    };
    match (&feature.cut, origin) {
        (_, Origin::DrillPoint(_)) => text!("the point of the {}", sized(feature)),
        (Cut::Thread { thread, .. }, _) => text!("{} ({})", thread.called(), dia(at)),
        _ => text!("the {}", sized(feature)),
    }
}

/// Holes beside the axis: `⌀2.00 holes on ⌀9.00`.
pub(crate) fn holes(part: &Part, id: CircleId) -> SizedText {
    let Some(holes) = part.circle(id) else {
        return "holes".into();
    };
    let what = match holes.around.count {
        1 => "hole",
        _ => "holes",
    };
    let tool = holes.tool.name().map(SizedText::from);
    let size = tool.unwrap_or_else(|| dia(holes.dia));
    text!("{} {} on {}", size, what, dia(holes.on))
}

/// A cut with its size: `⌀8.00 drill`, `letter F drill`.
pub(crate) fn sized(feature: &Feature) -> SizedText {
    let named = match &feature.cut {
        Cut::Drill { tool, .. } | Cut::Bore { tool, .. } | Cut::Ream { tool, .. } => {
            tool.name().map(SizedText::from)
        }
        _ => None,
    };
    // A hole made by a drill goes by the drill's name where it has one.
    let hole = |dia: Length| SizedText::from(Size::Hole(dia));
    let drilled = matches!(&feature.cut, Cut::Drill { .. } | Cut::Ream { .. });
    let size = named.or_else(|| feature.dia().map(if drilled { hole } else { dia }));
    match size {
        Some(size) => text!("{} {}", size, feature.called()),
        None => feature.called().into(),
    }
}

/// `a`, `a and b`, `a, b and c`; of very many the first, and how many more there are.
pub(crate) fn list<T: ToText>(items: &[T]) -> SizedText {
    match items {
        _ if items.len() > MOST_LISTED => {
            let (first, others) = items.split_at(MOST_LISTED);
            let first = SizedText::joined(first.iter().map(ToText::to_text), ", ");
            text!("{} and {} more", first, others.len().to_string())
        }
        [] => SizedText::default(),
        [one] => one.to_text(),
        [rest @ .., last] => {
            let rest = SizedText::joined(rest.iter().map(ToText::to_text), ", ");
            text!("{} and {}", rest, last)
        }
    }
}
