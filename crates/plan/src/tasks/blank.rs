//! The blank a part is cut from, and what is cut away of it besides.

use crate::tasks::feature_map::FeatureMap;
use crate::tools::bench_tools::BenchTools;
use crate::{Nub, PlanProblem, Strategy};
use quillet_geometry::Length;
use quillet_model::{ById, End, Part, PieceId};
use quillet_syntax::ast::StockSection;

/// The blank of a part, as it comes to the lathe.
#[derive(Clone, Debug, PartialEq)]
pub struct Blank {
    /// The station where it begins: below zero by what is faced off.
    pub from: Length,
    /// The station where it ends.
    pub to: Length,
    /// The diameter that is gripped, after it is rounded.
    pub dia: Length,
    /// It is turned round between centres first.
    pub rounded: bool,
    /// What is faced off at each end.
    pub facing: [Length; 2],
    /// The centre nub beyond a closed end.
    pub nub: Option<Nub>,
    /// Stock beyond an end that only serves to be gripped and is parted off.
    pub stub: Option<(End, Length)>,
    /// Each piece's length as sawn.
    pub pieces: ById<PieceId, Length>,
}

impl Nub {
    pub(crate) fn of(end: End, gripped: bool) -> Nub {
        let (dia, length) = match gripped {
            true => (GRIPPED_NUB_DIA, GRIPPED_NUB_LENGTH),
            false => (NUB_DIA, NUB_LENGTH),
        };
        Nub {
            end,
            dia,
            length,
            gripped,
        }
    }

    /// Of a part whose outside is turned in a work with others: long enough that the part is gripped by
    /// it and what follows while its other end is cut.
    pub(crate) fn in_work(map: &FeatureMap, end: End) -> Nub {
        let nub = Nub::of(end, false);
        let needed = map.zone[end.other().index()] + CLEAR + LEAST_GRIP;
        Nub {
            length: nub.length.max(needed - map.part.length),
            ..nub
        }
    }

    /// The diameter at which turning the outside stops: from there on it is finished when the nub
    /// comes off.
    pub fn core(&self) -> Length {
        self.dia + CORE_OVER
    }
}

/// What stands over the nub's diameter where turning stops (common practice, no published source).
const CORE_OVER: Length = Length::from_nm(2_000_000);
/// A nub that is gripped and has to drive the work: as thick as the smallest usual collet that does
/// not twist it off, and as long as a grip (common practice, no published source).
pub(crate) const GRIPPED_NUB_DIA: Length = Length::from_nm(10_000_000);
/// Its length.
pub(crate) const GRIPPED_NUB_LENGTH: Length = LEAST_GRIP;
/// Faced off a sawn end: 2 to 3 mm (common practice, no published source).
pub const FACING: Length = Length::from_nm(2_500_000);
/// The length of a centre nub: 5 to 8 mm (common practice, no published source).
pub const NUB_LENGTH: Length = Length::from_nm(6_000_000);
/// The diameter of a centre nub (common practice, no published source).
pub const NUB_DIA: Length = Length::from_nm(6_000_000);
/// The least that a collet should grip (common practice, no published source).
pub const LEAST_GRIP: Length = Length::from_nm(15_000_000);
/// Kept between the collet's nose and the nearest cut.
pub(crate) const CLEAR: Length = Length::from_nm(3_000_000);
/// The width of a parting tool.
pub(crate) const PARTING: Length = Length::from_nm(3_000_000);
/// Left to face after parting.
pub(crate) const PARTED_LONG: Length = Length::from_nm(1_000_000);
/// Left on a ring after parting (common practice, no published source).
pub(crate) const RING_LONG: Length = Length::from_nm(200_000);
/// Faced off each side of a glue line.
const GLUE_FACE: Length = Length::from_nm(1_000_000);
/// Wanted over the finished outside, a side, on round stock and on stock that is rounded.
const MARGIN_ROUND: Length = Length::from_nm(300_000);
const MARGIN_ROUGH: Length = Length::from_nm(500_000);

impl Blank {
    /// The length over all, as sawn.
    pub fn length(&self) -> Length {
        self.to - self.from
    }

    pub(crate) fn of(
        feature_map: &FeatureMap,
        strategy: &Strategy,
        nub: Option<Nub>,
        bench_tools: BenchTools,
        problems: &mut Vec<PlanProblem>,
    ) -> Blank {
        let part = feature_map.part;
        let (dia, rounded) = gripped(feature_map, bench_tools, problems);
        let far = strategy.first.other();
        let mut beyond = [FACING; 2];
        if let Some(nub) = nub {
            beyond[nub.end.index()] = nub.length + FACING;
        }
        let grips =
            part.length + beyond[far.index()] - feature_map.zone[strategy.first.index()] - CLEAR;
        let stub = (strategy.on_stub || grips < LEAST_GRIP).then(|| {
            let over = match nub {
                Some(nub) if nub.end == far => nub.length,
                _ if strategy.on_stub => Length::ZERO,
                _ if strategy.ring => RING_LONG,
                _ => PARTED_LONG,
            };
            beyond[far.index()] = over + PARTING + CLEAR + LEAST_GRIP;
            (far, PARTING + CLEAR + LEAST_GRIP)
        });
        let mut facing = [FACING; 2];
        if let Some((end, _)) = stub {
            facing[end.index()] = match (strategy.on_stub, strategy.ring) {
                (true, _) => Length::ZERO,
                (false, true) => RING_LONG,
                (false, false) => PARTED_LONG,
            };
            if nub.is_some_and(|it| it.end == end) {
                facing[end.index()] = Length::ZERO;
            }
        }
        let blank = Blank {
            from: -beyond[0],
            to: part.length + beyond[1],
            dia,
            rounded,
            facing,
            nub,
            stub,
            pieces: pieces(part, beyond),
        };
        blank.report(feature_map, problems);
        blank
    }

    /// What the stock lacks.
    fn report(&self, feature_map: &FeatureMap, problems: &mut Vec<PlanProblem>) {
        let part = feature_map.part;
        for (index, piece) in part.blanks().with_ids() {
            let (from, to) = (piece.from.to_mm(), piece.to.to_mm());
            let fattest = feature_map
                .outer
                .fattest(from, to)
                .map_or(0.0, |(place, _)| place.r * 2.0);
            let fattest = Length::mm(fattest);
            let margin = match piece.stock.section {
                StockSection::Rod => MARGIN_ROUND,
                StockSection::Square => MARGIN_ROUGH,
                // A tube's outside is the part's.
                StockSection::Tube => Length::ZERO,
            };
            if piece.stock.size < fattest + margin * 2 {
                let stock = piece.stock.size;
                problems.push(PlanProblem::BlankTooThin {
                    piece: index,
                    stock,
                    fattest,
                    margin,
                });
            }
            let Some(stock) = piece.stock.length else {
                continue;
            };
            let needed = self.pieces.get(index).copied().unwrap_or_default();
            if stock < needed {
                problems.push(PlanProblem::BlankTooShort {
                    piece: index,
                    stock,
                    needed,
                });
            }
        }
    }
}

/// The diameter that is gripped, and whether the blank is rounded to it first.
pub(crate) fn gripped(
    feature_map: &FeatureMap,
    bench_tools: BenchTools,
    problems: &mut Vec<PlanProblem>,
) -> (Length, bool) {
    let margin = match feature_map.part.tube() {
        Some(_) => Length::ZERO,
        None => MARGIN_ROUND * 2,
    };
    let least = feature_map.fattest + margin;
    let blanks = feature_map.part.blanks();
    let Some(smallest) = blanks.iter().map(|piece| piece.stock.size).min() else {
        // Without a blank the next whole millimetre of rod is supposed.
        return (Length::mm(least.to_mm().ceil()), false);
    };
    let square = blanks
        .iter()
        .any(|it| it.stock.section == StockSection::Square);
    let uneven = blanks.iter().any(|it| it.stock.size != smallest);
    // What is glued up is trued: no two pieces come out of the glue in one line.
    let odd = square || uneven || blanks.len() > 1;
    if !odd && (!bench_tools.lists_collets() || bench_tools.collet(smallest).is_some()) {
        return (smallest, false);
    }
    // Turning it true takes something off.
    let most = if odd {
        smallest - MARGIN_ROUND
    } else {
        smallest
    };
    match bench_tools.collet_within(least, most) {
        Some(collet) => (collet, true),
        None => {
            if bench_tools.lists_collets() {
                let stock = smallest;
                problems.push(PlanProblem::NoCollet {
                    piece: PieceId::FIRST,
                    stock,
                    least,
                });
            }
            let half_mm = (most.to_mm() * 2.0).floor() / 2.0;
            (if odd { Length::mm(half_mm) } else { smallest }, odd)
        }
    }
}

/// What each piece is sawn to: its stretch, what is faced off, and its spigot.
fn pieces(part: &Part, beyond: [Length; 2]) -> ById<PieceId, Length> {
    let (first, last) = (part.blanks().ids().next(), part.blanks().ids().next_back());
    let each = part.blanks().with_ids().map(|(index, piece)| {
        let before = if Some(index) == first {
            beyond[0]
        } else {
            GLUE_FACE
        };
        let after = if Some(index) == last {
            beyond[1]
        } else {
            GLUE_FACE
        };
        let spigot = piece.spigot.map_or(Length::ZERO, |it| it.length);
        piece.to - piece.from + before + after + spigot
    });
    each.collect()
}
