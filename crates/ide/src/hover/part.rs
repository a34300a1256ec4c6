//! What was worked out of a part and of a station of its outside.

use super::{Sheet, cut, weight};
use crate::facts::{greatest_dia, mass_in_short};
use quillet_check::PartView;
use quillet_check::measure::between;
use quillet_geometry::Length;
use quillet_geometry::number;
use quillet_model::{Doubts, End, Hand, Origin, Part, PartId, StationId};

/// A part's size, weight and least wall.
pub(super) fn facts(sheet: &mut Sheet, view: &PartView<'_>) {
    let part = view.part;
    sheet.size("length", part.length);
    if let Some(dia) = greatest_dia(part) {
        sheet.size("greatest ⌀", dia);
    }
    let materials = part
        .blanks()
        .iter()
        .map(|piece| piece.stock.material.name.to_string());
    let materials: Vec<String> = materials.collect();
    if !materials.is_empty() {
        sheet.row("of", &materials.join(", "));
    }
    sheet.row("mass", &mass_in_short(part, 2));
    let range = Doubts::alone(part, &Hand::at(view.bench)).of_part(PartId::ALONE);
    if let Some(range) = between(range, 2) {
        sheet.row("may weigh", &format!("{range} g"));
    }
    if let Some(mass) = part.weigh() {
        sheet.row(
            "balances at",
            &format!(
                "{} from the {}",
                sheet.sizes().worked_out(mass.centre_mm, 1),
                part.end_name(End::First)
            ),
        );
    }
    if let Some(ml) = part.holds_ml() {
        sheet.row("holds", &format!("{} ml", number(ml, 2)));
    }
    if part.is_bought() {
        return;
    }
    if let Some(profiles) = part.profiles.as_ref().filter(|_| part.shaped) {
        let volume = profiles.properties().volume_mm3 / 1000.0;
        sheet.row("volume", &format!("{} cm³", number(volume, 3)));
    }
    let walls: Vec<_> = view.reported_walls().iter().collect();
    cut::walls(sheet, view, &walls);
}

/// A station: its diameter, and the wall under the surface that comes to it.
pub(super) fn station(sheet: &mut Sheet, view: &PartView<'_>, index: StationId) {
    let part = view.part;
    let station = &part.stations[index];
    sheet.paragraph(format!("**station** of {}", part.name.text));
    from_ends(sheet, part, station.at);
    cut::diameter(sheet, station.dia);
    let walls = view
        .reported_walls()
        .iter()
        .filter(|wall| wall.outer == Origin::Outside(index));
    cut::walls(sheet, view, &walls.collect::<Vec<_>>());
    weight::station(sheet, view, index);
}

/// How far a station lies from either end.
pub(super) fn from_ends(sheet: &mut Sheet, part: &Part, at: Length) {
    for (end, from) in [(End::First, at), (End::Second, part.length - at)] {
        sheet.size(&format!("from the {}", part.end_name(end)), from);
    }
}
