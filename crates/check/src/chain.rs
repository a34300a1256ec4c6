//! The chain of a clearance in a maker's words: what it is the sum of, and how closely each is kept.

use crate::words;
use quillet_geometry::Length;
use quillet_model::{Cut, End, Feature, Link, Origin, Part, Pen, Size};
use quillet_syntax::{Size as Shown, SizedText, text};

/// The sizes that take something of the gap at worst, those that take most first:
/// `cap's drill to 54 (±0.3 mm), barrel's shoulder (±0.1 mm)`.
pub fn words(pen: &Pen, chain: &[Link]) -> SizedText {
    let counts = chain.iter().filter(|it| counts(it));
    SizedText::joined(counts.map(|it| link(pen, it)), ", ")
}

/// Whether a size takes so much of the gap at worst that it shows.
pub fn counts(link: &Link) -> bool {
    link.takes_mm() >= 5e-3
}

/// One size, with how closely it is kept: `cap's drill to 54 (±0.3 mm)`.
pub fn link(pen: &Pen, link: &Link) -> SizedText {
    let what = size(pen, link);
    // Diameters are told as they are measured, not by their radii.
    let twice = match link.size {
        Size::Radius { .. } | Size::Root { .. } => 2.0,
        _ => 1.0,
    };
    let (under, over) = link.range_mm;
    let shown = |mm: f64| Shown::Short(Length::mm(twice * mm));
    match (under == 0.0, over == 0.0) {
        (true, _) => text!("{} (up to {} over)", what, shown(over)),
        (_, true) => text!("{} (up to {} under)", what, shown(-under)),
        _ if (under + over).abs() < 1e-9 => text!("{} (±{})", what, shown(over)),
        _ => text!(
            "{} (up to {} under, {} over)",
            what,
            shown(-under),
            shown(over)
        ),
    }
}

/// A size of a chain in words: `cap's drill to 54`, `barrel's shoulder`.
pub fn size(pen: &Pen, link: &Link) -> SizedText {
    let Some(part) = pen.parts.get(link.size.part()) else {
        return SizedText::default();
    };
    let name = &part.name.text;
    match link.size {
        Size::Plane { from, at, .. } => plane(part, link.origin, from, at),
        Size::Whole { .. } => text!("{}'s length of {}", name, Shown::Written(part.length)),
        Size::Radius { of, second, .. } => text!("{}'s {}", name, surface(part, of, second)),
        Size::Root { of, .. } => text!("{}'s roots of {}", name, surface(part, of, false)),
        Size::By { by, .. } => text!("{} by {}", name, Shown::Written(by)),
        Size::Nib { .. } => text!("how far out {} is set", name),
    }
}

fn plane(part: &Part, origin: Origin, from: End, at: Length) -> SizedText {
    let name = &part.name.text;
    let station = part.station(from, at);
    let face = part.faces.iter().find(|it| it.at == station);
    if let (Some(face), Origin::Outside(_)) = (face, origin) {
        return text!("{}'s {}", name, &face.name.text);
    }
    let cut = origin
        .feature()
        .and_then(|index| part.features.get(index))
        .map(|it| (it, ends(it, at)));
    let far = match from {
        End::First => SizedText::default(),
        End::Second => text!(" from {}", part.end_name(from)),
    };
    match cut {
        Some((cut, end)) => text!("{}'s {} {} {}", name, cut.called(), end, Shown::Written(at)),
        None => text!("{} at {}{}", name, Shown::Written(at), far),
    }
}

/// Whether a plane is where a cut ends, or where it begins.
fn ends(cut: &Feature, at: Length) -> &'static str {
    match cut.to == at {
        true => "to",
        false => "at",
    }
}

fn surface(part: &Part, of: Origin, second: bool) -> SizedText {
    if let Origin::Outside(index) = of
        && let Some(station) = part.stations.get(index)
    {
        let dia = station.step.filter(|_| second).unwrap_or(station.dia);
        let at = Shown::Written(station.at);
        return text!("{} at {}", Shown::Diameter(dia), at);
    }
    let cut = of.feature().and_then(|index| part.features.get(index));
    match cut {
        Some(cut) => match &cut.cut {
            Cut::Thread { thread, .. } => thread.called().into(),
            Cut::Taper { from_dia, to_dia } => {
                let dia = if second { to_dia } else { from_dia };
                text!("taper of {}", Shown::Diameter(*dia))
            }
            _ => words::sized(cut),
        },
        None => "surface".into(),
    }
}
