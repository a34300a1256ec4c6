//! What is told of parts, threads and pens in a few words.

use crate::sizes::Sizes;
use quillet_geometry::{Length, number};
use quillet_model::words::SpotName;
use quillet_model::{AtRest, Configuration, Configured, MissingData, Part, Pen, SurfacePoint};
use quillet_standards::thread::ThreadForm;

/// A part's size: `64 mm, ⌀ 15.8`.
pub(crate) fn part_in_short(part: &Part, sizes: Sizes) -> String {
    let length = sizes.one(part.length);
    match greatest_dia(part) {
        Some(dia) => format!("{length}, ⌀ {}", sizes.figure(dia.to_mm(), 2)),
        None => length,
    }
}

/// A part's greatest diameter as its stations and outside cuts say.
pub(crate) fn greatest_dia(part: &Part) -> Option<Length> {
    let stations = part
        .stations
        .iter()
        .map(|station| station.dia.max(station.step.unwrap_or_default()));
    stations.max().filter(|dia| dia.is_positive())
}

/// A thread: `M13x0.8, 3 starts, lead 2.4 mm`.
pub(crate) fn thread_in_short(thread: &ThreadForm, sizes: Sizes) -> String {
    match thread.starts() {
        1 => thread.to_string(),
        starts => format!(
            "{}, {starts} starts, lead {}",
            thread.with_starts(1),
            sizes.one(thread.lead())
        ),
    }
}

/// A pen's lengths: `138 mm capped, 126.5 mm uncapped`.
pub(crate) fn pen_in_short(pen: &Pen, sizes: Sizes) -> String {
    let reported = configurations(pen).map(|(which, it)| match it.length_mm {
        Some(length_mm) => format!("{} {}", sizes.worked_out(length_mm, 1), which.word()),
        None => format!("{}: length not known", which.word()),
    });
    reported.collect::<Vec<_>>().join(", ")
}

/// A place on a part's surface: `cap.mouth`, `the section's tenon`.
pub(crate) fn spot_in_short(pen: &Pen, spot: &SurfacePoint) -> String {
    let Some(part) = pen.parts.get(spot.part) else {
        return String::new();
    };
    let name = &part.name.text;
    match part.spot_name(spot) {
        SpotName::Face(face) => format!("{name}.{}", face.name.text),
        SpotName::End(end) => format!("{name}.{}", part.end_name(end)),
        SpotName::DrillPoint(cut) | SpotName::Cut(cut) => match &cut.face {
            Some(face) => format!("{name}.{}", face.text),
            None => format!("{name}'s {}", cut.cut.word()),
        },
        SpotName::Outside => format!("{name}'s outside"),
    }
}

/// The configurations a pen has.
pub(crate) fn configurations(pen: &Pen) -> impl Iterator<Item = (Configured, &Configuration)> {
    let assembly = &pen.assembly;
    let all = [
        (Configured::Capped, &assembly.capped),
        (Configured::Uncapped, &assembly.uncapped),
        (Configured::Posted, &assembly.posted),
    ];
    all.into_iter()
        .filter_map(|(which, it)| Some((which, it.as_ref()?)))
}

/// What a pen is in a configuration: `138 mm, 21.7 g, balance 66.6 mm (48.3 %)`; what is not known
/// is said to be.
pub(crate) fn state_in_short(it: &Configuration, sizes: Sizes) -> String {
    let length = match it.length_mm {
        Some(length_mm) => sizes.worked_out(length_mm, 1),
        None => "length not known".to_owned(),
    };
    let Some(filled) = it.filled else {
        return format!("{length}, mass not known");
    };
    let share = it
        .balance_share()
        .map(|share| format!(" ({} %)", number(100.0 * share, 1)));
    format!(
        "{length}, {} g, balance {}{}",
        number(filled.mass_g, 1),
        sizes.worked_out(filled.centre_mm, 1),
        share.unwrap_or_default()
    )
}

/// Why it is not known where a joint comes to rest; none where it is.
pub(crate) fn why_not_at_rest(pen: &Pen, rest: &AtRest) -> Option<String> {
    if !pen.is_settled() {
        let unshaped = pen.parts.iter().find(|part| !part.shaped);
        return Some(match unshaped {
            Some(part) => format!("{} {}", part.name.text, MissingData::Shape.words()),
            None => "not all of the pen could be read".to_owned(),
        });
    }
    let upset = rest.verdict.upset;
    upset.then(|| "a joint made before it does not close".to_owned())
}

/// A part's mass: `4.2 g`, `mass not known: it says no mass`; with what it weighs to so many places.
pub(crate) fn mass_in_short(part: &Part, places: usize) -> String {
    match (part.weigh(), part.lacks_mass()) {
        (Some(mass), _) => format!("{} g", number(mass.mass_g, places)),
        (None, Some(lacks)) => format!("not known: it {}", lacks.words()),
        (None, None) => "not known".to_owned(),
    }
}
