//! How far one profile goes into another: the least of all meetings of their surfaces.

mod by_hand;
mod by_sliding;

use quillet_geometry::{Chain, Curve, Meeting, Point, Tag};

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

/// Where a male comes to rest, `z` running back from its leading end, in a female, `z` running in
/// from its mouth; faces at both are put in. None where it slides through.
pub(crate) fn rest(male: &Chain, female: &Chain) -> Option<Meeting> {
    let males = surfaces(&male.after_face(Tag(0), 0.0).reversed(0.0));
    let females = surfaces(&female.after_face(Tag(0), 1e3));
    let meetings = males
        .iter()
        .flat_map(|one| females.iter().filter_map(|other| one.meeting(other)));
    meetings.min_by(|a, b| a.travel_mm.total_cmp(&b.travel_mm))
}

/// The pieces of a chain that look along the axis.
fn surfaces(chain: &Chain) -> Vec<Curve> {
    let pieces = chain
        .segments()
        .iter()
        .flat_map(|segment| segment.curve.monotone_pieces());
    pieces
        .filter(|piece| piece.start().r != piece.end().r)
        .collect()
}
