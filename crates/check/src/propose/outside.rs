//! A turned outside made fatter or slimmer.

use super::{Proposal, literal};
use quillet_geometry::Length;
use quillet_model::{Design, Origin, Part, Station};
use quillet_syntax::{Edit, Size, text};

/// The surface that comes to a station made fatter by so much on diameter, at the stations it runs
/// between.
pub(crate) fn fatter(design: &Design, part: &Part, outer: Origin, by: Length) -> Option<Proposal> {
    changed(design, part, outer, &|dia| {
        design.units_at(part.span).up(dia + by)
    })
}

/// The same made slimmer, to a diameter at most.
pub(crate) fn slimmer(
    design: &Design,
    part: &Part,
    outer: Origin,
    most: Length,
) -> Option<Proposal> {
    changed(design, part, outer, &|dia| {
        dia.min(design.units_at(part.span).down(most))
    })
}

/// The station at a place given another diameter.
pub(crate) fn station_at(
    design: &Design,
    part: &Part,
    at: Length,
    dia: Length,
) -> Option<Proposal> {
    let station = part.stations.iter().find(|it| (it.at - at).abs() <= NEAR)?;
    let edit = edit(design, station, &|_| dia)?;
    let title = text!("make {} ⌀{} there", part.name.text, Size::Written(dia));
    (!part.is_bought()).then(|| (title, vec![edit]))
}

/// Places this near are one.
const NEAR: Length = Length::from_nm(1_000);

fn changed(
    design: &Design,
    part: &Part,
    outer: Origin,
    to: &dyn Fn(Length) -> Length,
) -> Option<Proposal> {
    let Origin::Outside(index) = outer else {
        return None;
    };
    let before = index.before();
    let between = [before, Some(index)].into_iter().flatten();
    let stations = between.filter_map(|at| part.stations.get(at));
    let edits: Vec<Edit> = stations
        .filter_map(|station| edit(design, station, to))
        .collect();
    let last = part.stations.get(index)?;
    let title = text!("make the outside ⌀{} there", Size::Written(to(last.dia)));
    (!part.is_bought() && !edits.is_empty()).then_some((title, edits))
}

/// The station's diameter otherwise; none where it is no number, or closes the end.
fn edit(design: &Design, station: &Station, to: &dyn Fn(Length) -> Length) -> Option<Edit> {
    let dia = literal(design, station.dia_span)?;
    let wanted = to(dia);
    (dia == station.dia && dia.is_positive() && wanted != dia)
        .then(|| Edit::new(station.dia_span, Size::Written(wanted)))
}
