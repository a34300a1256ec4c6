//! What closes a part beyond its bores: the faces of ends, and what lies under a drill's point.

use quillet_geometry::walls::Wall;
use quillet_geometry::{Chain, Length, Point, Tag};
use quillet_model::{End, Origin, Part, Profiles};

/// The ends no bore comes out of; their faces are walls' outsides too.
pub(super) struct ClosedEnds {
    ends: Vec<(End, Tag)>,
}

impl ClosedEnds {
    pub(super) fn of(part: &Part, profiles: &Profiles) -> Self {
        let open =
            |end: End| {
                let at = part.station(end, Length::ZERO).to_mm();
                profiles.root.inner.iter().any(|bore| {
                    (bore.start().z - at).abs() < 1e-6 || (bore.end().z - at).abs() < 1e-6
                })
            };
        let tag = |end: End| Tag((profiles.origins.len() + end.index()) as u32);
        let ends = [End::First, End::Second]
            .into_iter()
            .filter(|end| !open(*end));
        Self {
            ends: ends.map(|end| (end, tag(end))).collect(),
        }
    }

    pub(super) fn close(&self, outer: &Chain) -> Chain {
        self.ends
            .iter()
            .fold(outer.clone(), |chain, (end, tag)| match end {
                End::First => chain.after_face(*tag, 0.0),
                End::Second => chain.before_face(*tag, 0.0),
            })
    }

    pub(super) fn origin(&self, tag: Tag) -> Option<Origin> {
        self.ends
            .iter()
            .find(|(_, face)| *face == tag)
            .map(|(end, _)| Origin::Face(*end))
    }
}

/// The walls between the bottom of each blind bore and the outside beyond it, by the least distance
/// that runs more along the axis than across it, from where the bore closes on the axis and from
/// the corner of a flat bottom. `outer` is closed by its ends.
pub(super) fn under_points(
    outer: &Chain,
    bores: &[Chain],
    counts: &dyn Fn(Tag, Tag) -> bool,
) -> Vec<Wall> {
    let mut found = Vec::new();
    for bore in bores {
        let (pieces, outside) = (bore.segments(), outer.segments());
        let bottoms = [
            (bore.start(), pieces.first(), outer.start(), outside.first()),
            (bore.end(), pieces.last(), outer.end(), outside.last()),
        ];
        for (tip, bottom, pole, last) in bottoms {
            let Some((bottom, last)) = bottom.zip(last) else {
                continue;
            };
            let beyond = |place: Point| (place.z - tip.z) * (pole.z - tip.z) > 0.0;
            // Behind a web lies the bore from the other end, not the outside.
            let webbed = |other: &Chain| beyond(other.start()) || beyond(other.end());
            if !on_axis(tip) || !on_axis(pole) || bores.iter().any(webbed) {
                continue;
            }
            let from = |place: Point| {
                let nearest = outside
                    .iter()
                    .map(move |it| (it.tag, it.curve.nearest(place)));
                nearest.chain([(last.tag, pole)]).map(move |it| (it, place))
            };
            let (one, other) = (bottom.curve.start(), bottom.curve.end());
            let corner = if on_axis(one) { other } else { one };
            let corner = Some(corner).filter(|_| bottom.curve.is_vertical());
            let near = [tip].into_iter().chain(corner).flat_map(from);
            let near = near.filter(|((tag, at), place)| {
                let along = (at.z - place.z).abs() >= (at.r - place.r).abs();
                beyond(*at) && along && counts(*tag, bottom.tag)
            });
            let apart = |((_, at), place): &((Tag, Point), Point)| at.distance(*place);
            let nearest = near.min_by(|a, b| apart(a).total_cmp(&apart(b)));
            found.extend(nearest.map(|((tag, at), place)| Wall {
                outer: tag,
                inner: bottom.tag,
                from_mm: tip.z.min(at.z),
                to_mm: tip.z.max(at.z),
                least_mm: at.distance(place),
                outer_at: at,
                inner_at: place,
            }));
        }
    }
    found
}

fn on_axis(place: Point) -> bool {
    place.r < 1e-9
}
