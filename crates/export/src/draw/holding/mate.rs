//! The mate of a part that is turned joined with it.

use super::super::stock::StockProfile;
use quillet_geometry::Length;
use quillet_model::End;
use quillet_plan::{Plan, Route, Work, Workholding};

/// A mate as it stands in the picture of a part: along that part's stations, mm.
pub(super) struct JoinedMate {
    /// Its outline, places `(station, radius)`.
    pub(super) outline: Vec<(f64, f64)>,
    /// From where to where it reaches.
    pub(super) span: (f64, f64),
    /// Its greatest radius.
    pub(super) widest: f64,
    /// The stretch of its nub that is gripped, and the nub's radius.
    pub(super) gripped: Option<((f64, f64), f64)>,
}

impl JoinedMate {
    /// The mate of a route, as it comes to the pass that turns both; none of a part turned by itself.
    pub(super) fn of(plan: &Plan, route: &Route) -> Option<JoinedMate> {
        let with = route.operations.iter().find_map(|it| match &it.work {
            Work::Outside(pass) => pass.with,
            _ => None,
        });
        let mate = plan.routes.get(with?)?;
        let goes_in = route.joined_by?.to_mm();
        let (own_end, mate_end) = (joint_end(route)?, joint_end(mate)?);
        // The mate's face lies so far inward of the part's own as the one is in the other.
        let place = |station: f64| {
            let inward = match mate_end {
                End::First => station,
                End::Second => mate.part.length.to_mm() - station,
            };
            let own = goes_in - inward;
            match own_end {
                End::First => own,
                End::Second => route.part.length.to_mm() - own,
            }
        };
        let mut stock = StockProfile::of(&mate.part, &mate.blank);
        let apart = |it: &&quillet_plan::Operation| !matches!(it.hold, Workholding::Joined { .. });
        let before = mate.operations.iter().take_while(apart);
        before.for_each(|it| stock.cut(&mate.part, it));
        let (low, high) = stock.span()?;
        let gripped = mate.blank.nub.filter(|it| it.gripped).map(|nub| {
            let face = mate.part.station(nub.end, Length::ZERO).to_mm();
            let out = if nub.end == End::First { -1.0 } else { 1.0 };
            let tip = face + out * nub.length.to_mm();
            (ordered(place(face), place(tip)), nub.dia.to_mm() / 2.0)
        });
        let outline = stock.outline().into_iter();
        Some(JoinedMate {
            outline: outline.map(|(at, radius)| (place(at), radius)).collect(),
            span: ordered(place(low), place(high)),
            widest: stock.widest(),
            gripped,
        })
    }
}

/// The end at which a part is joined while it is turned with its mate.
fn joint_end(route: &Route) -> Option<End> {
    let nub = route.blank.nub.filter(|it| it.gripped);
    let by_nub = nub.map(|it| it.end.other());
    by_nub.or(route.strategy.mandrel.map(|it| it.0))
}

fn ordered(one: f64, other: f64) -> (f64, f64) {
    (one.min(other), one.max(other))
}
