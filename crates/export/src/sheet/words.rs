//! Sizes, tools and mandrels by the names that lists, rows and lines call them.

use quillet_geometry::{Length, Limits};
use quillet_model::{Bench, DrillName, Units};
use quillet_plan::{Availability, Mandrel, MandrelId, MandrelKind, Substitute, Tool};

/// Limits of size; those nearer together than a twentieth of a millimetre to the micrometre, since
/// hundredths would run them into one.
pub(super) fn limits(limits: Limits, units: Units) -> String {
    let (least, most) = (limits.min(), limits.max());
    match most - least < NARROW {
        true => format!("{} to {}", units.fine(least), units.fine(most)),
        false => format!("{} to {}", units.plain(least), units.plain(most)),
    }
}

const NARROW: Length = Length::from_nm(50_000);

/// A tool by its name, as the lists call it.
pub fn tool(tool: Tool, units: Units) -> String {
    match tool {
        Tool::Saw => "saw".into(),
        Tool::CentreDrill => "centre drill".into(),
        Tool::Drill { dia, name } => format!("drill {}", drilled(dia, name, units)),
        Tool::FlatDrill { dia } => {
            format!("flat-bottomed drill or counterbore Ø{}", units.plain(dia))
        }
        Tool::BoringBar { enters } => format!("boring bar that enters Ø{}", units.plain(enters)),
        Tool::Reamer { dia } => format!("reamer Ø{}", units.plain(dia)),
        Tool::Countersink { angle_mdeg } => {
            format!(
                "countersink {}°",
                crate::write::number(angle_mdeg as f64 / 1000.0, 3)
            )
        }
        Tool::RecessingTool => "recessing tool".into(),
        Tool::Tap { thread } => format!("tap {thread}"),
        Tool::Die { thread } => format!("die {thread}"),
        Tool::ThreadingTool { inside: true } => "inside threading tool".into(),
        Tool::ThreadingTool { inside: false } => "outside threading tool".into(),
        Tool::TenonCutter { bushing } => {
            format!("tenon cutter with bushing Ø{}", units.plain(bushing))
        }
        Tool::PartingTool => "parting tool".into(),
        Tool::TurningTool => "turning tool".into(),
        Tool::Cutter { width } => {
            format!("milling cutter or slot drill {} wide", units.plain(width))
        }
        Tool::File => "file, on a roller rest".into(),
        Tool::PatternTool => "tool that cuts the pattern".into(),
        Tool::Abrasives => "abrasives and polish".into(),
        Tool::Glue => "glue".into(),
        Tool::Collet { dia } => format!("collet Ø{}", units.plain(dia)),
        Tool::Mandrel { which } => format!("mandrel {}", letter(which)),
    }
}

/// What grips stock of a diameter: what is wider than every collet of the bench goes in a chuck.
pub(super) fn gripper(bench: Option<&Bench>, dia: Length) -> &'static str {
    match bench.and_then(|it| it.collets.iter().max()) {
        None => "collet or chuck",
        Some(widest) if dia > *widest => "chuck",
        Some(_) => "collet",
    }
}

/// Whether a tool is at hand.
pub(super) fn standing(standing: Availability) -> &'static str {
    match standing {
        Availability::OnBench => "on the bench",
        Availability::ToBuy => "to be had",
        Availability::ToMake => "to be made",
        Availability::Needed => "",
    }
}

/// What does instead of a tool that is not at hand, and what that costs.
pub(super) fn substitute(it: Substitute, units: Units) -> String {
    let size = |dia: Length, wider: Length| {
        let drill = drilled(dia, DrillName::Diameter, units);
        let by = units.plain(wider.abs());
        match (wider.is_positive(), wider.is_negative()) {
            (true, _) => format!("drill {drill}, {by} wider"),
            (_, true) => format!("drill {drill}, {by} narrower"),
            _ => format!("drill {drill}"),
        }
    };
    match it {
        Substitute::Drill { dia, wider } => size(dia, wider),
        Substitute::GroundFlat { dia, wider } => {
            format!("{}, ground flat across", size(dia, wider))
        }
        Substitute::Chuck => "a chuck with jaws: it marks, and runs less true".into(),
    }
}

/// A drill by its size, and by its name where it is called by one; in inches by its name alone.
pub(super) fn drilled(dia: Length, name: DrillName, units: Units) -> String {
    match units {
        Units::Millimetres => {
            let name = name.name().or_else(|| Units::inch_drill(dia));
            let name = name.map(|name| format!(" ({name})"));
            format!("Ø{}{}", units.plain(dia), name.unwrap_or_default())
        }
        Units::Inches => units.drill(dia),
    }
}

/// Mandrels are lettered, for operations are numbered.
pub(super) fn letter(which: MandrelId) -> String {
    let index = which.index();
    u8::try_from(index).ok().filter(|it| *it < 26).map_or_else(
        || format!("M{}", index + 1),
        |it| char::from(b'A' + it).to_string(),
    )
}

/// A mandrel's sort.
pub(super) fn mandrel_kind(mandrel: &Mandrel) -> &'static str {
    match mandrel.kind {
        MandrelKind::Male => "male thread",
        MandrelKind::Female => "female thread",
        MandrelKind::Spigot => "plain spigot",
        MandrelKind::Stepped => "stepped",
        MandrelKind::Plug => "plug",
    }
}

/// A count with what is counted: `one peck`, `3 pecks`.
pub(super) fn count(number: usize, what: &str) -> String {
    if number == 1 {
        format!("one {what}")
    } else {
        format!("{number} {what}s")
    }
}

/// With a capital.
pub(super) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    let head = letters.next().map(|it| it.to_uppercase().to_string());
    format!("{}{}", head.unwrap_or_default(), letters.as_str())
}
