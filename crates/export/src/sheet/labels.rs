//! What stands at the cuts of a part's drawing.

use super::row_words::thread_name;
use super::words;
use crate::draw::Label;
use quillet_geometry::Length;
use quillet_model::{CircleHoles, Cut, End, Feature, Part, Units};
use quillet_syntax::ast::Side;

/// The labels of a part: what is cut inside above, what is cut outside below.
pub(crate) fn labels(part: &Part, units: Units) -> Vec<Label> {
    let mut found: Vec<Label> = part
        .features
        .iter()
        .filter_map(|it| label(part, it, units))
        .collect();
    found.extend(part.circles().iter().map(|it| beside(part, it, units)));
    found.extend(point(part, units));
    found
}

fn label(part: &Part, feature: &Feature, units: Units) -> Option<Label> {
    let plain = |it: Length| units.plain(it);
    let below = !feature.is_inside();
    let span = || format!("{} to {}", plain(feature.from), plain(feature.to));
    let reach = || match (feature.through, feature.from.is_positive()) {
        (true, _) => "through".to_owned(),
        (false, true) => span(),
        (false, false) => format!("to {}", plain(feature.to)),
    };
    let dia = |it: Length| format!("⌀{}", plain(it));
    let (size, caption) = match &feature.cut {
        Cut::Drill { dia, tool, .. } => (
            words::drilled(*dia, *tool, units).replace('Ø', "⌀"),
            format!("drill {}", reach()),
        ),
        Cut::Bore { dia: it, .. } => (dia(*it), format!("bore {}", reach())),
        Cut::Ream { dia: it, .. } => (dia(*it), format!("ream {}", reach())),
        Cut::Recess { dia: it, .. } => (dia(*it), format!("recess {}", span())),
        Cut::Taper { from_dia, to_dia } => (
            format!("⌀{}–{}", plain(*from_dia), plain(*to_dia)),
            format!("taper {}", reach()),
        ),
        Cut::Countersink { dia: it, .. } => (dia(*it), "countersink".to_owned()),
        Cut::Thread { thread, side } => {
            let (name, starts) = thread_name(&thread.thread);
            let starts = match starts.trim_start_matches('×') {
                "" => String::new(),
                count => format!(", {count} starts"),
            };
            let caption = match side {
                Side::Inside => format!("full form {}", reach()),
                Side::Outside => match land(part, feature) {
                    Some(land) => format!("on ⌀{}, {}", plain(land), span()),
                    None => span(),
                },
            };
            (format!("{}{starts}", name.replace('×', " × ")), caption)
        }
        Cut::Tenon { .. } if threaded(part, feature) => return None,
        Cut::Tenon { dia: it, .. } => (dia(*it), format!("tenon {}", reach())),
        Cut::Relief { dia: it } => (dia(*it), format!("relief {}", reach())),
        Cut::Groove { dia: it, .. } => (dia(*it), format!("groove {}", span())),
        Cut::Edge(_) => return None,
    };
    let far = !below && feature.end == End::Second && both_ends(part);
    let caption = match far {
        true => format!(
            "from the {}, {}",
            part.end_name(End::Second),
            plain(feature.to)
        ),
        false => caption,
    };
    Some(Label {
        size,
        caption,
        at: place(part, feature),
        below,
    })
}

/// Holes on a pitch circle: how many and how wide, how deep and on what.
fn beside(part: &Part, holes: &CircleHoles, units: Units) -> Label {
    let plain = |it: Length| units.plain(it);
    let verb = if holes.point.is_some() {
        "drill"
    } else {
        "bore"
    };
    let reach = match (holes.through, holes.from.is_positive()) {
        (true, _) => "through".to_owned(),
        (false, true) => format!("{} to {}", plain(holes.from), plain(holes.to)),
        (false, false) => format!("to {}", plain(holes.to)),
    };
    let count = match holes.around.count {
        1 => String::new(),
        count => format!("{count} × "),
    };
    let at = part.station(holes.end, (holes.from + holes.to).half());
    Label {
        size: format!("{count}⌀{}", plain(holes.dia)),
        caption: format!("{verb} {reach}, on ⌀{}", plain(holes.on)),
        at: (at.to_mm(), (holes.on + holes.dia).half().to_mm()),
        below: false,
    }
}

/// Where the label points to: the middle of what is left of the cut.
fn place(part: &Part, feature: &Feature) -> (f64, f64) {
    let length = part.length.to_mm();
    let own = feature.dia().unwrap_or_default();
    let wider = part.features.iter().filter(|it| {
        let same = it.end == feature.end && it.is_inside() == feature.is_inside();
        let over = it.dia().is_some_and(|dia| dia >= own);
        same && over && !std::ptr::eq(*it, feature) && it.to < feature.to
    });
    let begins = match feature.is_inside() {
        true => wider
            .map(|it| it.to.to_mm())
            .fold(feature.from.to_mm(), f64::max),
        false => feature.from.to_mm(),
    };
    let to = match feature.through {
        true => length.min(begins + 4.0),
        false => feature.to.to_mm(),
    };
    let inward = match feature.cut {
        Cut::Countersink { .. } => 0.0,
        _ => (begins + to) / 2.0,
    };
    let radius = match (&feature.cut, feature.thread()) {
        (_, Some((thread, Side::Inside))) => thread.thread.minor_diameter(),
        (Cut::Taper { from_dia, to_dia }, _) => (*from_dia + *to_dia).half(),
        _ => own,
    };
    let at = match feature.end {
        End::First => inward,
        End::Second => length - inward,
    };
    (at, radius.to_mm() / 2.0)
}

/// The point of the deepest blind drill, whose scale stops there.
fn point(part: &Part, units: Units) -> Option<Label> {
    let blind = part.features.iter().filter_map(|it| match it.cut {
        Cut::Drill { dia, point, .. } if !it.through => {
            let cone = point.cone_depth_mm(dia.to_mm() / 2.0);
            Some((it.end, it.to.to_mm() + cone))
        }
        _ => None,
    });
    let (end, deep) = blind.max_by(|a, b| a.1.total_cmp(&b.1))?;
    let length = part.length.to_mm();
    // A hole that meets another has no point left.
    let meets = part
        .features
        .iter()
        .any(|it| it.is_inside() && it.end != end && (it.through || it.to.to_mm() + deep > length));
    let through = part.features.iter().any(|it| it.is_inside() && it.through);
    if meets || through || deep >= length {
        return None;
    }
    let at = if end == End::First {
        deep
    } else {
        length - deep
    };
    Some(Label {
        size: match units {
            Units::Millimetres => format!("{deep:.1}"),
            Units::Inches => format!("{:.2}", deep / 25.4),
        },
        caption: "to the point".into(),
        at: (at, 0.0),
        below: false,
    })
}

fn both_ends(part: &Part) -> bool {
    let inside = |end: End| {
        part.features
            .iter()
            .any(|it| it.is_inside() && it.end == end)
    };
    inside(End::First) && inside(End::Second)
}

/// Whether an outside thread is cut on a tenon.
fn threaded(part: &Part, tenon: &Feature) -> bool {
    part.features.iter().any(|it| {
        let outside = it.thread().is_some_and(|(_, side)| side == Side::Outside);
        outside && it.end == tenon.end && it.from >= tenon.from && it.to <= tenon.to
    })
}

/// The diameter an outside thread is cut on.
fn land(part: &Part, thread: &Feature) -> Option<Length> {
    part.features.iter().find_map(|it| match it.cut {
        Cut::Tenon { dia, .. } if it.end == thread.end && it.to >= thread.to => Some(dia),
        _ => None,
    })
}
