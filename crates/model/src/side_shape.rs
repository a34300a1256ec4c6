//! The cuts from the side, and the holes beside the axis, as shapes in millimetres.

use crate::{CircleHoles, End, NotRound, Part, SideCut, SideCutKind, SideDepth, SideId};
use quillet_geometry::section::{Apothem, Flats};
use quillet_geometry::side::{Floor, SideCut as Opening};
use quillet_geometry::{Chain, Circle, Length, Pattern, Tag};

/// What is cut of a part besides, whose turned outside is this.
pub(crate) fn not_round(part: &Part, turned: &Chain) -> NotRound {
    let cuts = part.sides().iter().enumerate();
    let cuts = cuts.map(|(index, cut)| (SideId::nth(index), cut));
    let mut made = NotRound {
        circles: part.circles().iter().map(|it| circle(part, it)).collect(),
        ..NotRound::default()
    };
    for (id, cut) in cuts.clone() {
        made.flats.extend(flats(cut).map(|it| (id, it)));
        made.patterns.extend(pattern(cut).map(|it| (id, it)));
    }
    let high = made.high(turned, |_| Tag::default());
    for (id, cut) in cuts {
        let opening = opening(cut, &high, part.length);
        made.openings.extend(opening.map(|it| (id, it)));
    }
    made.turned = (!made.is_empty()).then(|| turned.clone());
    made
}

fn flats(cut: &SideCut) -> Option<Flats> {
    let apothem = match cut.kind {
        SideCutKind::Across { from_dia, to_dia } => Apothem::Straight {
            from_mm: from_dia.to_mm() / 2.0,
            to_mm: to_dia.to_mm() / 2.0,
        },
        SideCutKind::Deep(deep) => Apothem::Below(deep.to_mm()),
        SideCutKind::Sharp => Apothem::Meeting,
        _ => return None,
    };
    Some(Flats {
        from_mm: cut.stretch.from.to_mm(),
        to_mm: cut.stretch.to.to_mm(),
        apothem,
        count: cut.around.count,
        clock_deg: cut.around.clock.to_deg(),
    })
}

fn pattern(cut: &SideCut) -> Option<Pattern> {
    let SideCutKind::Pattern { deep, share, .. } = cut.kind else {
        return None;
    };
    Some(Pattern {
        from_mm: cut.stretch.from.to_mm(),
        to_mm: cut.stretch.to.to_mm(),
        deep_mm: deep.to_mm(),
        share,
    })
}

fn opening(cut: &SideCut, high: &Chain, length: Length) -> Option<Opening> {
    let (from, to) = (cut.stretch.from.to_mm(), cut.stretch.to.to_mm());
    let (count, clock_deg) = (cut.around.count, cut.around.clock.to_deg());
    match cut.kind {
        SideCutKind::Drill { dia, depth, .. } => {
            let over = high.greatest_at(from).unwrap_or(0.0);
            let hole = Opening::hole(dia.to_mm(), from, floor(depth, over));
            Some(Opening {
                count,
                clock_deg,
                ..hole
            })
        }
        SideCutKind::Slot { width, depth } => {
            let over = high.fattest(from, to).map_or(0.0, |(place, _)| place.r);
            Some(Opening {
                from_mm: from,
                to_mm: to,
                width_mm: width.to_mm(),
                open: [!cut.stretch.from.is_positive(), cut.stretch.to >= length],
                floor: floor(depth, over),
                count,
                clock_deg,
            })
        }
        _ => None,
    }
}

/// The floor of a depth below the highest outside over it, mm.
fn floor(depth: SideDepth, over_mm: f64) -> Floor {
    match depth {
        SideDepth::Void => Floor::Void,
        SideDepth::To { deep, .. } => Floor::Plane((over_mm - deep.to_mm()).max(0.0)),
        SideDepth::Through => Floor::Through,
    }
}

fn circle(part: &Part, holes: &CircleHoles) -> Circle {
    let ends = [holes.from, holes.to].map(|inward| part.station(holes.end, inward).to_mm());
    let point = holes.point.filter(|_| !holes.through);
    let tip = point.map_or(0.0, |it| it.cone_depth_mm(holes.dia.to_mm() / 2.0));
    Circle {
        on_mm: holes.on.to_mm(),
        hole_mm: holes.dia.to_mm(),
        from_mm: ends[0].min(ends[1]),
        to_mm: ends[0].max(ends[1]),
        tips_mm: match holes.end {
            End::First => [0.0, tip],
            End::Second => [tip, 0.0],
        },
        count: holes.around.count,
        clock_deg: holes.around.clock.to_deg(),
    }
}
