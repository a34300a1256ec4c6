//! The corners of an outline, and from which end each is measured.

use quillet_geometry::{Chain, Point, Tag};
use quillet_model::{End, Part, Profiles};

type Corner = (Point, f64, f64, Vec<Tag>);

/// Where the pieces of an outline meet: the place, the radii before and after, who made them.
pub(super) fn corners(chain: &Chain) -> Vec<Corner> {
    let mut corners: Vec<Corner> = Vec::new();
    for segment in chain
        .segments()
        .iter()
        .filter(|segment| !segment.curve.is_vertical())
    {
        let (start, end) = (segment.curve.start(), segment.curve.end());
        match corners
            .last_mut()
            .filter(|last| (last.0.z - start.z).abs() < 1e-9)
        {
            Some(last) => {
                last.0.r = last.0.r.max(start.r);
                last.2 = start.r;
                last.3.push(segment.tag);
            }
            None => corners.push((start, start.r, start.r, vec![segment.tag])),
        }
        corners.push((end, end.r, end.r, vec![segment.tag]));
    }
    corners
}

/// The end that a corner is measured from: that of a cut which made it, else the first.
pub(super) fn datum(part: &Part, profiles: &Profiles, tags: &[Tag]) -> End {
    let of = |tag: &Tag| {
        let feature = part.features.get(profiles.origin(*tag).feature()?)?;
        Some(feature.end)
    };
    tags.iter().find_map(of).unwrap_or(End::First)
}
