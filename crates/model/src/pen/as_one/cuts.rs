//! What is still to be cut of several parts that are one work, and what its ends are held by.

use super::seen::{SAME_MM, shows};
use super::{AsOneMember, Whose, level};
use crate::{
    ById, Cut, CutId, End, Feature, Part, PartId, Placement, Profiles, SideCut, SideCutKind,
    SideStretch,
};
use quillet_geometry::{Angle, Chain, Length};

/// One of the work's cuts, and whose it is.
type Own = (Feature, (PartId, CutId));

/// The cuts of the work: what is made at its ends already, and what is cut in the outside once that is
/// turned. None where something is to be cut that the others hide.
pub(super) fn cuts(
    parts: &[(&AsOneMember, &Part)],
    turned: &Chain,
    inner: &[Chain],
    length: Length,
) -> Option<(ById<CutId, Feature>, Whose<CutId>)> {
    let mut all: Vec<Own> = Vec::new();
    for (it, part) in parts {
        let faces = [End::First, End::Second].map(|end| on_work(it.place, end));
        for (index, cut) in part.features.with_ids() {
            let end = faces[cut.end.index()];
            let face = it.place.of(part.station(cut.end, Length::ZERO).to_mm());
            let own_end = match end {
                End::First => 0.0,
                End::Second => length.to_mm(),
            };
            let at_end = level(it, part, own_end) == Some(cut.end);
            let seen = match cut.is_inside() {
                true => at_end && opens(part, cut, inner, face),
                false => is_seen(it, part, cut, turned),
            };
            let made = cut.is_inside() || part.is_in_zone(cut);
            match (seen, made) {
                (true, true) if !at_end => {}
                (true, false) if matches!(cut.cut, Cut::Edge(_)) && !at_end => return None,
                (true, _) => {
                    let off = Length::mm((face - own_end).abs());
                    let placed = Feature {
                        end,
                        from: cut.from + off,
                        to: cut.to + off,
                        through: false,
                        cut: ended(cut),
                        ..cut.clone()
                    };
                    all.push((placed, (it.part, index)));
                }
                // A corner that is glued over is broken by nobody, and wanted by none.
                (false, true) => {}
                (false, false) if matches!(cut.cut, Cut::Edge(_)) => {}
                (false, false) => return None,
            }
        }
    }
    all.sort_by_key(|it| it.0.end.index());
    let of = all.iter().map(|it| it.1).collect();
    Some((all.into_iter().map(|it| it.0).collect(), of))
}

/// A hole right through a part ends where that does, without a drill's point.
fn ended(cut: &Feature) -> Cut {
    match cut.cut {
        Cut::Drill { dia, tool, .. } if cut.through => Cut::Bore { dia, tool },
        _ => cut.cut.clone(),
    }
}

/// What lies at an end of a part is seen from which end of the work.
fn on_work(place: Placement, end: End) -> End {
    match place.reversed {
        false => end,
        true => end.other(),
    }
}

/// Whether a hole is what is met at an end of the work: what lies innermost there.
fn opens(part: &Part, cut: &Feature, inner: &[Chain], face_mm: f64) -> bool {
    let widest = inner.iter().filter_map(|it| it.greatest_at(face_mm));
    let open = widest.fold(0.0, f64::max);
    let own = part.profiles.as_ref().map(|it| {
        let face = part.station(cut.end, Length::ZERO).to_mm();
        let holes = it.crest.inner.iter();
        let at = holes.filter_map(|hole| hole.greatest_at(face));
        at.fold(0.0, f64::max)
    });
    open > 0.0 && own.is_some_and(|own| own <= open + SAME_MM)
}

/// Whether a cut outside is on the outside of the work.
fn is_seen(it: &AsOneMember, part: &Part, cut: &Feature, turned: &Chain) -> bool {
    let (from, to) = cut.stations(part.length);
    seen_between(it, part, turned, (from, to))
}

fn seen_between(
    it: &AsOneMember,
    part: &Part,
    turned: &Chain,
    (from, to): (Length, Length),
) -> bool {
    let Some(own) = part.profiles.as_ref().map(Profiles::turned) else {
        return false;
    };
    let middle = (from + to).half().to_mm();
    let radius = own.least_at(middle).unwrap_or(0.0);
    shows(turned, it.place.of(middle), radius)
}

/// The cuts from the side, along the work; none where one of them is hidden.
pub(super) fn sides(
    parts: &[(&AsOneMember, &Part)],
    turned: &Chain,
    length: Length,
) -> Option<Vec<SideCut>> {
    let mut all = Vec::new();
    for (it, part) in parts {
        for cut in part.sides() {
            let stretch = (cut.stretch.from, cut.stretch.to);
            if !seen_between(it, part, turned, stretch) {
                return None;
            }
            all.push(laid_side(cut, it.place, length));
        }
    }
    Some(all)
}

fn laid_side(cut: &SideCut, place: Placement, length: Length) -> SideCut {
    let ends = [cut.stretch.from, cut.stretch.to].map(|at| Length::mm(place.of(at.to_mm())));
    let mut made = SideCut {
        stretch: SideStretch {
            from: ends[0].min(ends[1]).max(Length::ZERO),
            to: ends[0].max(ends[1]).min(length),
            ..cut.stretch
        },
        ..cut.clone()
    };
    if place.reversed {
        // Clockwise from the one end is the other way round from the other.
        made.around.clock = Angle::ZERO - cut.around.clock;
        if let SideCutKind::Across { from_dia, to_dia } = cut.kind {
            made.kind = SideCutKind::Across {
                from_dia: to_dia,
                to_dia: from_dia,
            };
        }
    }
    made
}
