//! What the fit of a joint asks of a surface of one of its parts.

use quillet_geometry::Length;
use quillet_model::{
    AtRest, ClearanceKind, End, FitRequest, Joint, Origin, Part, Pen, SurfacePoint,
};
use quillet_standards::fit::ZoneLimits;

/// A surface that a joint's ISO 286 fit gives limits of size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AskedSize {
    /// The end of the part that is joined.
    pub end: End,
    /// It is a hole.
    pub inside: bool,
    /// What makes the surface.
    pub origin: Origin,
    /// From which station.
    pub from: Length,
    /// To which.
    pub to: Length,
    /// The diameter drawn.
    pub drawn: Length,
    /// The class and its limits, at the hole's drawn diameter.
    pub class: ZoneLimits,
}

/// What a joint asks of its male or its female; none where it asks for no fit, or the part is
/// bought, or nothing of the one lies in the other.
pub(crate) fn asked(pen: &Pen, joint: &Joint, rest: &AtRest, goes_in: bool) -> Option<AskedSize> {
    let Some((FitRequest::Fit(fit), _)) = joint.asks else {
        return None;
    };
    let own = |spot: &SurfacePoint, side: quillet_model::JointEnd| spot.part == side.part;
    let at = rest.clearances.iter().find(|it| {
        it.kind == ClearanceKind::RadialClearance
            && own(&it.male, joint.male)
            && own(&it.female, joint.female)
    })?;
    let (side, spot) = match goes_in {
        true => (joint.male, &at.male),
        false => (joint.female, &at.female),
    };
    let part = pen.parts.get(side.part).filter(|it| !it.is_bought())?;
    let dia = |spot: &SurfacePoint| Length::mm(spot.radius_mm).twice();
    let limits = fit.at(dia(&at.female)).ok()?;
    let (from, to) = stretch(part, spot.origin)?;
    Some(AskedSize {
        end: side.end,
        inside: !goes_in,
        origin: spot.origin,
        from,
        to,
        drawn: dia(spot),
        class: if goes_in { limits.shaft } else { limits.hole },
    })
}

/// The stations a surface lies between.
fn stretch(part: &Part, origin: Origin) -> Option<(Length, Length)> {
    match origin {
        Origin::Feature(index) => Some(part.features.get(index)?.stations(part.length)),
        Origin::Outside(index) => {
            let to = part.stations.get(index)?.at;
            let before = index.before().and_then(|it| part.stations.get(it));
            Some((before.map_or(Length::ZERO, |it| it.at), to))
        }
        _ => None,
    }
}
