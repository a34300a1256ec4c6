//! Rest positions of a male in a female.

mod by_hand;
mod by_sliding;

use quillet_geometry::contact::{Rest, rest};
use quillet_geometry::{Chain, Point, Tag};

/// Straight lines through stations and diameters.
pub(crate) fn line(tag: u32, places: &[(f64, f64)]) -> Chain {
    let places: Vec<Point> = places
        .iter()
        .map(|&(z, dia)| Point::new(z, dia / 2.0))
        .collect();
    Chain::polyline(Tag(tag), &places).expect("a chain")
}

/// Chains end to end.
pub(crate) fn joined(chains: &[Chain]) -> Chain {
    Chain::new(chains.iter().flat_map(|chain| chain.segments().to_vec())).expect("a chain")
}

/// One part in one part, nothing excused, contacts within 0.05 mm.
pub(crate) fn alone(male: &Chain, female: &Chain) -> Option<Rest> {
    rest(
        std::slice::from_ref(male),
        std::slice::from_ref(female),
        |_, _| false,
        0.05,
    )
}
