//! Cuts from the side in words: what is cut, and at which places round the spindle is locked.

use quillet_model::{Around, CircleId, Part, SideCut, SideCutKind, SideDepth, SideId, Units};
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
    let (verb, (size, how_far)) = match &cut.kind {
        SideCutKind::Drill { dia, depth, .. } => (
            "DRILL",
            (format!("Ø{}", units.plain(*dia)), deep(*depth, units)),
        ),
        SideCutKind::Slot { width, depth } => (
            "SLOT",
            (format!("{} wide", units.plain(*width)), deep(*depth, units)),
        ),
        SideCutKind::Pattern { name, deep, .. } => (
            "PATTERN",
            (
                name.text.to_string(),
                format!("{} deep", units.plain(*deep)),
            ),
        ),
        _ if tool == Some(Tool::File) => ("FILE", across(part, id, cut, units)),
        _ => ("MILL", across(part, id, cut, units)),
    };
    Some(SideWords {
        verb,
        size,
        reach: format!("{how_far}, {reach} from the {first_end}"),
        places: locked_for(cut).then(|| locked(&cut.around, places)),
    })
}

/// Of holes beside the axis, drilled at so many places round.
pub(super) fn beside(part: &Part, id: CircleId, places: u32, units: Units) -> Option<SideWords> {
    let holes = part.circle(id)?;
    let verb = match holes.point {
        Some(_) => "DRILL",
        None => "SINK",
    };
    let end = part.end_name(holes.end);
    let deep = match (holes.through, holes.from.is_positive()) {
        (true, _) => format!("right through from the {end}"),
        (false, false) => format!("{} deep from the {end}", units.plain(holes.to)),
        (false, true) => {
            let [from, to] = [holes.from, holes.to].map(|it| units.plain(it));
            format!("{from} to {to} from the {end}")
        }
    };
    let off = units.plain(holes.on.half());
    Some(SideWords {
        verb,
        size: format!("Ø{}", units.plain(holes.dia)),
        reach: format!("on Ø{}, {deep}", units.plain(holes.on)),
        places: Some(format!(
            "{}, the drilling spindle or the marked point {off} off the axis",
            locked(&holes.around, places)
        )),
    })
}

/// Whether the spindle is locked for it: a pattern is cut as the work turns.
fn locked_for(cut: &SideCut) -> bool {
    !matches!(cut.kind, SideCutKind::Pattern { .. })
}

/// Where the spindle is locked.
fn locked(around: &Around, places: u32) -> String {
    let clock = match around.clock.deg_text(1).as_str() {
        "0" => "at the mark".to_owned(),
        clock => format!("{clock}° clockwise of the mark"),
    };
    match places {
        1 => format!("spindle locked {clock}"),
        _ => {
            let apart = crate::write::number(360.0 / f64::from(places), 2);
            format!("spindle locked at {places} places {apart}° apart, the first {clock}")
        }
    }
}

fn deep(depth: SideDepth, units: Units) -> String {
    match depth {
        SideDepth::Void => "into the bore".into(),
        SideDepth::To { deep, .. } => format!("{} deep", units.plain(deep)),
        SideDepth::Through => "right through".into(),
    }
}

/// The size that flats are cut to, as calipers read it, and from what to what.
fn across(part: &Part, id: SideId, cut: &SideCut, units: Units) -> (String, String) {
    let sets = part.profiles.as_ref().map(|it| it.across_flats());
    let set = sets.and_then(|sets| sets.into_iter().find(|it| it.side == id));
    let plain = |mm: f64| units.plain(quillet_geometry::Length::mm(mm) - part.coat_on_dia());
    let what = match cut.around.count {
        1 => "from the flat to the round".to_owned(),
        count if count % 2 == 1 => format!("{count} flats, each to its corner"),
        count => format!("across {count} flats"),
    };
    let size = set.map_or_else(String::new, |set| {
        let [first, last] = set.calipers_mm().map(plain);
        if first == last {
            first
        } else {
            format!("{first} to {last}")
        }
    });
    (size, what)
}
