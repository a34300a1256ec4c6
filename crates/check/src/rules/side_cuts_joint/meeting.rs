//! Where the mate of a ring, or a seat, is cut from the side.

use super::{RULE, TAKEN, Taken, floors, opened, taken};
use crate::{Findings, JointView};
use quillet_geometry::Length;
use quillet_model::{Part, SideCut, SideId, SurfacePoint};
use quillet_syntax::{Finding, Severity, Size, text};

/// Of a seat less than this share is left; common practice, no published source.
const LEFT: f64 = 0.5;

pub(super) fn run(view: &JointView<'_>, findings: &mut Findings) {
    rings(view, findings);
    seats(view, findings);
}

/// The face of the mate that a ring is squeezed against.
fn rings(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest() else { return };
    let pen = view.pen.pen;
    for seated in pen.assembly.rings.iter() {
        let Some(seal) = seated.seal.filter(|it| it.joint == view.id) else {
            continue;
        };
        let (host, mate) = (&pen.parts[seated.part], &pen.parts[seal.mate]);
        let groove = host.features.get(seated.feature);
        let places = rest.place(seated.part).zip(rest.place(seal.mate));
        let Some((groove, (own, other))) = groove.zip(places) else {
            continue;
        };
        let (from, to) = groove.stations(host.length);
        let ends = [from, to].map(|it| Length::mm(other.station(own.of(it.to_mm()))));
        let stretch = (ends[0].min(ends[1]), ends[0].max(ends[1]));
        for (cut, at) in cuts_over(view, mate, stretch, groove.is_inside()) {
            let message = text!(
                "the {} of {} opens the face that the ring on {} is squeezed against, from {} to {} from the {}",
                cut.called(),
                mate.name.text,
                host.name.text,
                Size::Rounded(at.from, 2),
                Size::Rounded(at.to, 2),
                mate.end_name(quillet_model::End::First)
            );
            let finding = RULE
                .at(cut.span, message)
                .label(groove.span, "where the ring sits")
                .hint("cut it where no ring runs, or move the groove");
            findings.push(Finding {
                severity: Severity::Error,
                ..finding
            });
        }
    }
}

/// The side cuts that take from a stretch of a part: its bore, or with `outside` its outside.
fn cuts_over<'p>(
    view: &JointView<'_>,
    part: &'p Part,
    stretch: (Length, Length),
    outside: bool,
) -> Vec<(&'p SideCut, Taken)> {
    let Some(profiles) = &part.profiles else {
        return Vec::new();
    };
    let spare = view.length_limit(&RULE, TAKEN);
    let deep = |it: &Taken| it.deep.is_some_and(|deep| deep > spare);
    let cuts = (0..part.sides().len()).map(SideId::nth);
    cuts.filter_map(|id| {
        let shallow = || taken(profiles, id, stretch, |_, _| true).filter(deep);
        let at = opened(profiles, id, stretch);
        let at = at.or_else(|| outside.then(shallow)?)?;
        Some((part.side(id)?, at))
    })
    .collect()
}

/// The ring of face that a joint comes to rest on.
fn seats(view: &JointView<'_>, findings: &mut Findings) {
    let rest = view.at_rest().filter(|it| it.verdict.is_sure());
    let Some(touch) = rest.and_then(|it| it.touches.first()) else {
        return;
    };
    if touch.width_mm <= 0.0 {
        return;
    }
    for spot in [&touch.male, &touch.female] {
        let Some(part) = view.pen.pen.parts.get(spot.part) else {
            continue;
        };
        for cut in (0..part.sides().len()).map(SideId::nth) {
            let left = left_of_seat(part, cut, spot);
            let narrow = left.filter(|left| *left < LEFT * touch.width_mm);
            let Some((left, said)) = narrow.zip(part.side(cut)) else {
                continue;
            };
            let message = text!(
                "the {} of {} leaves {} of the {} wide ring that the joint comes to rest on",
                said.called(),
                part.name.text,
                Size::Rounded(Length::mm(left.max(0.0)), 2),
                Size::Rounded(Length::mm(touch.width_mm), 2)
            );
            let finding = RULE
                .at(said.span, message)
                .label(view.joint.head, "the joint")
                .hint("end it short of the face, or cut it less deep there");
            findings.push(finding);
        }
    }
}

/// How much a cut leaves of a face outward of a place on it, mm; none where it takes nothing there.
fn left_of_seat(part: &Part, id: SideId, spot: &SurfacePoint) -> Option<f64> {
    let (profiles, cut) = (part.profiles.as_ref()?, part.side(id)?);
    let (from, to) = (cut.stretch.from.to_mm(), cut.stretch.to.to_mm());
    // Beside the face, on the sides that the cut lies on.
    let beside = [spot.station_mm - BESIDE_MM, spot.station_mm + BESIDE_MM];
    let beside = beside.into_iter().filter(|z| from < *z && *z < to);
    let turned = profiles.turned();
    let floors = floors(profiles, id);
    let left = beside.flat_map(|z| {
        let outside = turned.least_at(z).unwrap_or(0.0);
        let lows = floors.iter().filter_map(move |it| it.least_at(z));
        lows.filter(move |low| outside - low > BESIDE_MM)
    });
    left.reduce(f64::min).map(|low| low - spot.radius_mm)
}

/// How far from a face what is cut of it is read, and less than what is nothing, mm.
const BESIDE_MM: f64 = 1e-5;
