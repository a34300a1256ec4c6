//! Cuts from the side in words: what is cut, and at which places round the spindle is locked.

use quillet_model::{Part, SideCut, SideCutKind, SideDepth, SideId, Units};
use quillet_plan::Tool;

/// A cut as it is done: a verb, its size, its reach, and where the spindle stands.
pub(super) struct SideWords {
    pub(super) verb: &'static str,
    pub(super) size: String,
    pub(super) reach: String,
    pub(super) places: Option<String>,
}

impl SideWords {
    /// All of it in a line: where the spindle stands, then what is cut.
    pub(super) fn line(&self) -> String {
        let places = self.places.iter().map(|it| format!("{it}: "));
        let places: String = places.collect();
        let verb = self.verb.to_lowercase();
        format!("{places}{verb} {}, {}", self.size, self.reach)
    }
}

/// Of a cut made at so many places round with a tool.
pub(super) fn side(
    part: &Part,
    id: SideId,
    places: u32,
    tool: Option<Tool>,
    units: Units,
) -> Option<SideWords> {
    let cut = part.side(id)?;
    let (first, last) = (cut.stretch.from, cut.stretch.to);
    let reach = match first == last {
        true => format!("at {}", units.plain(first)),
        false => format!("{} to {}", units.plain(first), units.plain(last)),
    };
    let first_end = part.end_name(quillet_model::End::First);
    let (verb, size) = match &cut.kind {
        SideCutKind::Drill { dia, depth, .. } => (
            "DRILL",
            format!("Ø{}{}", units.plain(*dia), deep(*depth, units)),
        ),
        SideCutKind::Slot { width, depth } => (
            "SLOT",
            format!("{} wide{}", units.plain(*width), deep(*depth, units)),
        ),
        SideCutKind::Pattern { name, deep, .. } => (
            "PATTERN",
            format!("{}, {} deep", name.text, units.plain(*deep)),
        ),
        _ if tool == Some(Tool::File) => ("FILE", across(part, id, cut, units)),
        _ => ("MILL", across(part, id, cut, units)),
    };
    Some(SideWords {
        verb,
        size,
        reach: format!("{reach} from the {first_end}"),
        places: turned(cut, places),
    })
}

/// Where the spindle is locked; nothing of a pattern, which is cut as the work turns.
fn turned(cut: &SideCut, places: u32) -> Option<String> {
    if matches!(cut.kind, SideCutKind::Pattern { .. }) {
        return None;
    }
    let clock = cut.around.clock.deg_text(1);
    Some(match places {
        1 => format!("spindle locked {clock}° clockwise of the mark"),
        _ => {
            let apart = crate::write::number(360.0 / f64::from(places), 2);
            format!(
                "spindle locked at {places} places {apart}° apart, the first {clock}° clockwise of the mark"
            )
        }
    })
}

fn deep(depth: SideDepth, units: Units) -> String {
    match depth {
        SideDepth::Void => ", into the bore".into(),
        SideDepth::To { deep, .. } => format!(", {} deep", units.plain(deep)),
        SideDepth::Through => ", right through".into(),
    }
}

/// The size that flats are cut to, as calipers read it.
fn across(part: &Part, id: SideId, cut: &SideCut, units: Units) -> String {
    let sets = part.profiles.as_ref().map(|it| it.across_flats());
    let set = sets.and_then(|sets| sets.into_iter().find(|it| it.side == id));
    let count = cut.around.count;
    let plain = |mm: f64| units.plain(quillet_geometry::Length::mm(mm) - part.coat_on_dia());
    let Some(set) = set else {
        return format!("{count} flats");
    };
    let [first, last] = set.calipers_mm().map(plain);
    let what = match count {
        1 => "from the flat to the round",
        _ if count % 2 == 1 => "from a flat to the corner",
        _ => "across flats",
    };
    let size = if first == last {
        first
    } else {
        format!("{first} to {last}")
    };
    match count {
        1 => format!("a flat, {size} {what}"),
        _ => format!("{count} flats, {size} {what}"),
    }
}
