//! Every clearance of a sample against the worst that is stated.

use super::Tally;
use quillet_model::{Clearance, ClearanceKind, Origin, Pen, SurfacePoint};

/// Every clearance of every joint is compared with the worst that is stated between its two
/// surfaces, and with the least that is stated between its two parts.
pub(super) fn compare(tally: &mut Tally, pen: &Pen, made: &Pen) {
    let joints = pen.assembly.joints.iter().zip(&made.assembly.joints);
    for (rest, other) in joints {
        for it in other.clearances.iter() {
            let stated = || rest.clearances.iter();
            let same = stated().find(|worst| surfaces(worst) == surfaces(it));
            let least = stated()
                .filter(|worst| parts(worst) == parts(it))
                .min_by(|a, b| a.least_mm.total_cmp(&b.least_mm));
            for worst in same.into_iter().chain(least) {
                let found = (it.nominal_mm, worst.least_mm, slack_mm(pen, worst));
                tally.hold(found, || format!("{}: {worst:#?}\n{it:#?}", pen.name.text));
            }
        }
    }
}

/// What a clearance is between: the parts, or their very surfaces.
fn parts(it: &Clearance) -> impl PartialEq + Copy + use<> {
    (it.kind, it.male.part, it.female.part)
}

fn surfaces(it: &Clearance) -> impl PartialEq + Copy + use<> {
    (parts(it), it.male.origin, it.female.origin)
}

/// Whether a clearance lies between outsides of which a corner is broken.
fn breaks(pen: &Pen, it: &Clearance) -> bool {
    let broken = |spot: &SurfacePoint| match spot.origin {
        Origin::Outside(to) => pen.parts[spot.part].stations[to].edge.is_some(),
        _ => false,
    };
    broken(&it.male) || broken(&it.female)
}

/// How far a sample may lie under a bound that is a sum of first order: nothing but rounding, but
/// across a sloping outside, whose slope and place both differ. Over 42 mm, two diameters each 0.05
/// off turn a side by 0.05 / 42, and where it is met 0.15 mm further along, that is 0.00018 mm. A broken
/// corner turns with the side it breaks; what is left of that beyond the first order is far less.
fn slack_mm(pen: &Pen, it: &Clearance) -> f64 {
    let slopes = |spot: &SurfacePoint| {
        let Origin::Outside(to) = spot.origin else {
            return false;
        };
        let stations = &pen.parts[spot.part].stations;
        let from = to.before().map(|it| &stations[it]);
        from.is_some_and(|it| it.step.unwrap_or(it.dia) != stations[to].dia)
    };
    if [&it.male, &it.female].iter().any(|it| it.origin.is_edge()) || breaks(pen, it) {
        return 2e-5;
    }
    let across = it.kind == ClearanceKind::RadialClearance;
    if across && (slopes(&it.male) || slopes(&it.female)) {
        2e-4
    } else {
        1e-6
    }
}
