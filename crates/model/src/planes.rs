//! Where the cuts of a part begin and end, in the order of the stations: one of thousands is found
//! at once.

use crate::{ById, CutId, Feature};
use quillet_geometry::Length;

/// The planes in which a part's cuts begin and end, of those outside and of those inside.
#[derive(Clone, Debug, Default)]
pub(crate) struct CutPlanes {
    outside: Vec<(Length, CutId)>,
    inside: Vec<(Length, CutId)>,
}

impl CutPlanes {
    /// Those of the cuts of a part of this length; a broken corner has none of its own.
    pub(crate) fn of(cuts: &ById<CutId, Feature>, length: Length) -> Self {
        let mut planes = Self::default();
        for (index, cut) in cuts.with_ids().filter(|(_, cut)| !cut.is_edge()) {
            let (from, to) = cut.stations(length);
            let own = match cut.is_inside() {
                true => &mut planes.inside,
                false => &mut planes.outside,
            };
            own.extend([(from, index), (to, index)]);
        }
        planes.outside.sort_unstable();
        planes.inside.sort_unstable();
        planes
    }

    /// The first cut, in the order of the text, that begins or ends so near to a station.
    pub(crate) fn first_at(&self, inside: bool, station: Length, within: Length) -> Option<CutId> {
        let all = match inside {
            true => &self.inside,
            false => &self.outside,
        };
        let from = all.partition_point(|(at, _)| *at < station - within);
        let near = all.iter().skip(from);
        let near = near.take_while(|(at, _)| *at <= station + within);
        near.map(|(_, index)| *index).min()
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests")]
mod tests {
    use crate::{Texts, load, resolve};
    use quillet_geometry::Length;
    use std::path::Path;

    /// Every plane is found, by the first cut that lies there, as a walk through all cuts finds it.
    #[test]
    fn a_plane_is_found_by_the_first_cut_that_lies_there() {
        let text = "part p from a to b {\n  blank of acrylic rod 20\n  length 60\n  outside dia 18\n  \
                    from b {\n    relief 15 for 4 at 6\n    drill 5 to 20\n  }\n  from a {\n    drill 8 \
                    to 12\n    bore 10 to 5\n    groove 14 for 2 at 5\n    recess 9 for 3 at 5\n  }\n}\n";
        let texts = Texts::default().with("p.quillet", text);
        let design = resolve(&load(Path::new("p.quillet"), &texts).unwrap());
        let part = design.part("p").unwrap();
        let planes = &part.profiles.as_ref().unwrap().planes;
        let within = Length::from_nm(2);
        let mut found = 0;
        for nm in (0..=60_000_000).step_by(500_000).map(Length::from_nm) {
            for (inside, off) in [(true, 0), (true, 2), (false, -2), (false, 3)] {
                let at = nm + Length::from_nm(off);
                let walked = part.features.with_ids().find(|(_, cut)| {
                    let (from, to) = cut.stations(part.length);
                    let near = |plane: Length| (plane - at).abs() <= within;
                    cut.is_inside() == inside && !cut.is_edge() && (near(from) || near(to))
                });
                let walked = walked.map(|(index, _)| index);
                assert_eq!(
                    planes.first_at(inside, at, within),
                    walked,
                    "{inside} {at:?}"
                );
                found += usize::from(walked.is_some());
            }
        }
        assert!(found > 10, "{found}");
    }
}
