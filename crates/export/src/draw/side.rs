//! What a part's drawing says of its cuts from the side: each in a column of its own.

use super::figures::LengthFormat;
use quillet_geometry::{Length, Point};
use quillet_model::{Part, Profiles, SideCut, SideCutKind, SideDepth};

/// The middle of each cut on the outside, with what is cut there: `8 flats, 10 to 60`.
pub(super) fn side(
    part: &Part,
    profiles: &Profiles,
    figures: LengthFormat,
) -> Vec<(Point, String)> {
    let said = |cut: &SideCut| {
        let ends = [cut.stretch.from, cut.stretch.to];
        let z = (ends[0].to_mm() + ends[1].to_mm()) / 2.0;
        let place = Point::new(z, profiles.turned().greatest_at(z)?);
        let [from, to] = ends.map(|it| figures.number(it.to_mm()));
        let reach = match ends[0] == ends[1] {
            true => from,
            false => format!("{from} to {to}"),
        };
        Some((place, format!("{}, {reach}", words(cut, figures))))
    };
    part.sides().iter().filter_map(said).collect()
}

fn words(cut: &SideCut, figures: LengthFormat) -> String {
    let size = |it: Length| figures.number(it.to_mm());
    let count = match cut.around.count {
        1 => String::new(),
        count => format!("{count}× "),
    };
    let depth = |depth: SideDepth| match depth {
        SideDepth::Void => String::new(),
        SideDepth::To { deep, .. } => format!(" {} deep", size(deep)),
        SideDepth::Through => " through".into(),
    };
    match &cut.kind {
        SideCutKind::Drill { dia, depth: to, .. } => {
            format!(
                "{count}{} from the side{}",
                figures.drilled(*dia),
                depth(*to)
            )
        }
        SideCutKind::Slot { width, depth: to } => {
            format!("{count}slot {}{}", size(*width), depth(*to))
        }
        SideCutKind::Pattern { name, deep, .. } => format!("{}, {} deep", name.text, size(*deep)),
        SideCutKind::Deep(deep) => format!("{count}flat {} deep", size(*deep)),
        SideCutKind::Across { .. } | SideCutKind::Sharp => match cut.around.count {
            1 => "flat".into(),
            count => format!("{count} flats"),
        },
    }
}
