//! Magnets that hold a cap: on each side of the joint, facing each other.

use super::contact::{Member, TOUCHING_MM};
use super::settle::{Bodies, SeatedJoint};
use crate::{Part, PartId};
use quillet_geometry::Length;
use quillet_standards::mechanics::magnet::Magnet;

/// Magnets that face each other over a gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MagnetPair {
    /// What of what goes in bears its own: the magnet itself, or the part in whose pockets they sit.
    pub male: PartId,
    /// The same of what receives it.
    pub female: PartId,
    /// How many pairs there are, evenly round the axis.
    pub pairs: u32,
    /// Between their faces at rest, mm.
    pub gap_mm: f64,
    /// What all of them pull over the gap, in newtons, each pair by itself; of two unlike ones the weaker
    /// counts. None where the formula does not give it.
    pub pull_n: Option<f64>,
}

/// Circles of pockets further apart than this, on diameter, do not face each other, mm.
const SAME_CIRCLE_MM: f64 = 0.1;

/// Magnets of one side, along the joint's axis.
struct Site<'p> {
    bearer: PartId,
    magnet: &'p Part,
    count: u32,
    /// The pitch circle that they lie on; nought on the axis.
    on_mm: f64,
    reach: (f64, f64),
}

/// Those that lie nearest; none where a side has no magnet, or none lies ahead of another. A cap that nothing
/// else turns comes round to where those in pockets face each other.
pub(super) fn facing(bodies: &Bodies, rest: &SeatedJoint) -> Option<MagnetPair> {
    let males = sites(bodies, &rest.males);
    let females = sites(bodies, &rest.females);
    let pairs = males.iter().flat_map(|male| {
        let alike = females
            .iter()
            .filter(|it| it.count == male.count && (it.on_mm - male.on_mm).abs() <= SAME_CIRCLE_MM);
        alike.map(move |female| (male, female, female.reach.0 - male.reach.1))
    });
    let ahead = pairs.filter(|it| it.2 >= -TOUCHING_MM);
    let (male, female, gap_mm) = ahead.min_by(|a, b| a.2.total_cmp(&b.2))?;
    let gap_mm = gap_mm.max(0.0);
    let one = || Some(pull_n(male.magnet, gap_mm)?.min(pull_n(female.magnet, gap_mm)?));
    Some(MagnetPair {
        male: male.bearer,
        female: female.bearer,
        pairs: male.count,
        gap_mm,
        pull_n: one().map(|it| it * f64::from(male.count)),
    })
}

/// The magnets among some parts, and in their pockets.
fn sites<'p>(bodies: &'p Bodies, members: &[Member]) -> Vec<Site<'p>> {
    let magnetic = |part: &Part| part.pulls_n().is_some();
    let mut found = Vec::new();
    for it in members {
        let part = &bodies.parts[it.part];
        let itself = magnetic(part).then(|| Site {
            bearer: it.part,
            magnet: part,
            count: 1,
            on_mm: 0.0,
            reach: it.place.span((0.0, part.length.to_mm())),
        });
        let pockets = bodies.pockets.iter().filter(|own| own.part == it.part);
        let pockets = pockets.filter(|own| own.lies_along() && magnetic(&own.piece));
        found.extend(itself);
        found.extend(pockets.map(|own| Site {
            bearer: it.part,
            magnet: &own.piece,
            count: own.count,
            on_mm: 2.0 * own.off_axis_mm,
            reach: it.place.span(own.along_mm),
        }));
    }
    found
}

/// What a magnet pulls on its like over a gap.
fn pull_n(part: &Part, gap_mm: f64) -> Option<f64> {
    Some(part.pulls_n()? * shape(part)?.share_at(gap_mm)?)
}

/// A magnet as it is drawn: its fattest, its hole, its length.
fn shape(part: &Part) -> Option<Magnet> {
    let profiles = part.profiles.as_ref()?;
    let (from, to) = (Length::ZERO.to_mm(), part.length.to_mm());
    let (fattest, _) = profiles.crest.outer.fattest(from, to)?;
    Some(Magnet {
        outside_mm: 2.0 * fattest.r,
        hole_mm: 2.0 * profiles.crest.bore_radius((from + to) / 2.0),
        thick_mm: to - from,
    })
}
