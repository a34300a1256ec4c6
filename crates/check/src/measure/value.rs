//! What a measure comes to.

use crate::walls;
use quillet_model::{Amount, Configured, JointId, Measure, PartId, Parts, Pen, Quantity, Weights};

/// What a measure comes to; none where something that it rests on is missing.
///
/// Where `weights` are given, as if the pen's parts weighed so.
pub(super) fn of<N: Amount>(
    measure: &Measure,
    parts: &Parts,
    pen: Option<&Pen>,
    weights: Option<&Weights>,
) -> Option<Quantity<N>> {
    Some(Quantity {
        amount: N::measured(amount(measure, parts, pen, weights)?),
        dimension: measure.dimension(),
    })
}

/// The same in mm, g, mm³, N or turns.
fn amount(
    measure: &Measure,
    parts: &Parts,
    pen: Option<&Pen>,
    weights: Option<&Weights>,
) -> Option<f64> {
    // Where something of a pen could not be read, what it would come to is a guess.
    let pen = pen.filter(|pen| pen.is_settled());
    let configuration = |configured: &Configured| pen?.assembly.configuration(*configured);
    let filled = |configured: &Configured| {
        let there = configuration(configured)?;
        let reckoned = there.filled?;
        match weights {
            None => Some(reckoned),
            Some(weights) => there.weigh(weights, pen?.assembly.ink.as_ref()),
        }
    };
    let shaped = |part: &PartId| parts.get(*part).filter(|part| part.shaped);
    // Threads that never reach each other have no turns to speak of.
    let threads = |joint: &JointId| {
        let threads = pen?.assembly.joints.get(*joint)?.engagements.first();
        threads.filter(|it| it.overlap_mm > 0.0)
    };
    Some(match measure {
        Measure::Length(configured) => configuration(configured)?.length_mm?,
        Measure::Mass(configured) => filled(configured)?.mass_g,
        Measure::Balance(configured) => filled(configured)?.centre_mm,
        Measure::Turns(joint) => threads(joint)?.turns(),
        Measure::Travel(joint) => threads(joint)?.travel_mm,
        Measure::Overlap(joint) => threads(joint)?.overlap_mm,
        Measure::Hold(joint) => pen?.hold_n(*joint)?,
        Measure::Wall(part) => {
            let walls = walls::walls(shaped(part)?);
            walls.iter().map(|wall| wall.least).min()?.to_mm()
        }
        Measure::Diameter(part, at) => {
            let profiles = shaped(part)?.profiles.as_ref()?;
            let (_, after) = profiles.crest.outer.radii_at(at.to_mm())?;
            2.0 * after
        }
        Measure::Across(part, at) => {
            let profiles = shaped(part)?.profiles.as_ref()?;
            profiles.across_at_mm(at.to_mm())?
        }
        Measure::Clearance(one, other, configured) => {
            configuration(configured)?.apart_mm(parts, *one, *other)?
        }
        Measure::Distance(one, other, asked) => {
            let at = |configured: Configured| {
                let configuration = configuration(&configured)?;
                let z =
                    |face: &quillet_model::PenFace| configuration.z_mm(face.part, face.at.to_mm());
                Some(z(other)? - z(one)?)
            };
            if let Some(asked) = asked {
                return at(*asked);
            }
            at(Configured::Uncapped)
                .or_else(|| at(Configured::Capped))
                .or_else(|| at(Configured::Posted))?
        }
        Measure::Ink => pen?.assembly.ink.as_ref()?.capacity_ml * 1000.0,
    })
}
