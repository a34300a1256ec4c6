//! In which passes an outside is turned.

use crate::tasks::feature_map::FeatureMap;
use crate::tasks::mate::{Mate, Mates};
use crate::{Blank, Core, Pass};
use quillet_geometry::Length;
use quillet_syntax::ast::Verb;

/// Left over the finished diameter after roughing (common practice, no published source).
pub const ROUGH_OVER: Length = Length::from_nm(1_000_000);
/// Left over the finished diameter for sanding (common practice, no published source).
pub const FINISH_OVER: Length = Length::from_nm(100_000);

/// The passes, each with what it leaves on diameter: no roughing where the stock is no fatter than that
/// leaves it, nothing to sand where no hand comes to.
pub(crate) fn passes(
    map: &FeatureMap,
    blank: &Blank,
    core: Option<Core>,
    mates: &Mates,
) -> Vec<(Pass, Length)> {
    let over = match is_hidden(map, mates) {
        true => Length::ZERO,
        false => FINISH_OVER,
    };
    let rough = roughs(map, blank, core).then_some((Pass::Rough, ROUGH_OVER));
    rough.into_iter().chain([(Pass::Finish, over)]).collect()
}

/// Whether a part's whole outside lies in the hole that it is glued or pressed into: it is turned to that
/// hole, roughened for the glue, and never sanded.
pub(crate) fn is_hidden(map: &FeatureMap, mates: &Mates) -> bool {
    let covers = |it: &&Mate| {
        let kept = matches!(it.verb, Verb::Glue | Verb::Press);
        kept && it.goes_in && it.depth >= map.part.length - Length::mm(SAME_MM)
    };
    mates.iter().flatten().any(|it| covers(&it))
}

/// As good as level, mm.
const SAME_MM: f64 = 0.001;

/// Whether roughing takes anything off: of the outside somewhere, or of what stands beyond a closed end.
fn roughs(map: &FeatureMap, blank: &Blank, core: Option<Core>) -> bool {
    let over = |(from, to): &(Length, Length)| {
        let narrowest = map.outer.narrowest(from.to_mm(), to.to_mm());
        narrowest.is_none_or(|(at, _)| Length::mm(at.r * 2.0) + ROUGH_OVER < blank.dia)
    };
    core.is_some() || map.shaped.iter().any(over)
}
