//! What is not passed as drawn, but lies so near that it may be at worst.

use super::{ClearanceSide, RadialClearance, Reach, SurfaceBand, bands, excused, parted};
use crate::outline::Radii;
use crate::pen::assembly::place::Placement;

/// A place of the female a little further in than the male comes.
#[derive(Clone, Copy, Debug)]
pub(crate) struct NearlyPassing {
    /// The two places, and what is left between them where the male comes so far.
    pub(crate) at: RadialClearance,
    /// The station where the male's surface ends, and that where the female's begins.
    pub(crate) ends: (f64, f64),
    /// How much further the male would have to come, mm.
    pub(crate) short_mm: f64,
}

/// No chain takes so much along the axis, mm.
const REACH_MM: f64 = 3.0;

/// The places that the male would pass if it came a little further in, narrower than what it passes
/// as drawn, `less_mm` on the radius, but not so narrow that it would touch them: arguments as of
/// [`super::throats`].
pub(crate) fn nearly(
    male: (&Radii, Placement),
    female: (&Radii, Placement),
    threads: &[(Reach, Reach)],
    less_mm: f64,
) -> Vec<NearlyPassing> {
    let ends =
        |of: fn(&(Reach, Reach)) -> Reach| threads.iter().map(of).flat_map(|it| [it.0, it.1]);
    let outside = bands(male.0.ends(false, !male.1.reversed), male.1);
    let inside = bands(female.0.ends(true, female.1.reversed), female.1);
    let outside = parted(outside, ends(|it| it.0));
    let inside = parted(inside, ends(|it| it.1));
    let passing: Vec<&SurfaceBand> = last(&outside, true).collect();
    let mut found = Vec::new();
    for throat in last(&inside, false) {
        for passed in &passing {
            let short_mm = throat.from_mm - passed.to_mm;
            let near = (-SAME_MM..REACH_MM).contains(&short_mm);
            if !near || excused(passed, throat, threads) {
                continue;
            }
            let (end, start) = (passed.side(passed.to_mm), throat.side(throat.from_mm));
            // What falls off towards its end is met further back, what narrows inward further in.
            let over = beyond(passed, end, throat.from_mm);
            let under = beyond(throat, start, passed.to_mm);
            for (male, female) in [(over, start), (end, under)] {
                let gap_mm = female.radius_mm - male.radius_mm;
                if gap_mm > SAME_MM && gap_mm < less_mm {
                    found.push(NearlyPassing {
                        at: RadialClearance {
                            gap_mm,
                            female,
                            male,
                        },
                        ends: (end.station_mm, start.station_mm),
                        short_mm,
                    });
                }
            }
        }
    }
    found
}

/// Of bands with which a surface ends and that were parted, those that do not go on.
fn last(bands: &[SurfaceBand], ahead: bool) -> impl Iterator<Item = &SurfaceBand> {
    let goes_on = move |it: &SurfaceBand, next: &SurfaceBand| {
        let apart_mm = match ahead {
            true => next.from_mm - it.to_mm,
            false => next.to_mm - it.from_mm,
        };
        next.tag == it.tag && apart_mm.abs() < SAME_MM
    };
    let goes_on = move |it: &SurfaceBand| bands.iter().any(|next| goes_on(it, next));
    bands.iter().filter(move |it| !goes_on(it))
}

const SAME_MM: f64 = 1e-9;

/// A band's end, or the same with the radius where a falling one would come to another place.
fn beyond(band: &SurfaceBand, end: ClearanceSide, z_mm: f64) -> ClearanceSide {
    if band.to_r >= band.from_r {
        return end;
    }
    let slope = (band.to_r - band.from_r) / (band.to_mm - band.from_mm);
    ClearanceSide {
        radius_mm: band.from_r + slope * (z_mm - band.from_mm),
        beyond: true,
        ..end
    }
}
