//! Two outlines of a part, compared at the union of their breaks and between them.

use crate::change::{OutlineChange, Side};
use quillet_geometry::Chain;
use quillet_model::{Part, Solid};

/// On diameter, what differs by less is the same, mm.
const SAME_MM: f64 = 0.02;
/// Places looked at between two breaks.
const PLACES: u32 = 64;
/// An extreme is found this closely, mm.
const NEAR_MM: f64 = 1e-4;
/// Nearer than this two breaks are one, mm.
const HERE_MM: f64 = 1e-6;

/// By how much the outside and the bores of a part differ; of a part without a shape nothing is reported.
pub(crate) fn changes(old: &Part, new: &Part) -> Vec<OutlineChange> {
    let (Some(was), Some(is)) = (&old.profiles, &new.profiles) else {
        return Vec::new();
    };
    if !(old.shaped && new.shaped) {
        return Vec::new();
    }
    let each = [Side::Outside, Side::Inside]
        .into_iter()
        .filter_map(|side| {
            let (was, is) = (Surface(&was.crest, side), Surface(&is.crest, side));
            // Most parts that a bench's change touches are what they were.
            if was.chains() == is.chains() {
                return None;
            }
            let found = extremes(&was, &is);
            let grown = found.0.filter(|it| it.0 >= SAME_MM);
            let shrunk = found.1.filter(|it| it.0 <= -SAME_MM);
            (grown.is_some() || shrunk.is_some()).then(|| OutlineChange {
                part: new.name.text.to_string(),
                side,
                grown,
                shrunk,
            })
        });
    each.collect()
}

/// The outside or the bores of a part.
struct Surface<'a>(&'a Solid, Side);

impl Surface<'_> {
    /// Its chains.
    fn chains(&self) -> &[Chain] {
        match self.1 {
            Side::Outside => std::slice::from_ref(&self.0.outer),
            Side::Inside => &self.0.inner,
        }
    }

    fn breaks(&self) -> impl Iterator<Item = f64> {
        let ends = |it: &Chain| -> Vec<f64> {
            let each = it.segments().iter().map(|it| it.curve.end().z);
            std::iter::once(it.start().z).chain(each).collect()
        };
        self.chains().iter().flat_map(ends)
    }

    /// The diameter at a station within a stretch between two breaks; none where it does not reach.
    fn dia(&self, z: f64, (from, to): (f64, f64)) -> Option<f64> {
        let over = |it: &&Chain| it.start().z <= from + HERE_MM && it.end().z >= to - HERE_MM;
        let Some(chain) = self.chains().iter().find(over) else {
            return (self.1 == Side::Inside).then_some(0.0);
        };
        let (before, after) = chain.radii_at(z.clamp(chain.start().z, chain.end().z))?;
        // At a break the side that faces the stretch.
        let faces = if z - from < to - z { after } else { before };
        Some(2.0 * faces)
    }
}

/// By how much on diameter, and where, mm.
type Extreme = Option<(f64, f64)>;

/// Most grown and most shrunk on diameter, and where, mm.
fn extremes(old: &Surface, new: &Surface) -> (Extreme, Extreme) {
    let mut breaks: Vec<f64> = old.breaks().chain(new.breaks()).collect();
    breaks.sort_by(f64::total_cmp);
    breaks.dedup_by(|a, b| (*a - *b).abs() < HERE_MM);
    let (mut grown, mut shrunk): (Extreme, Extreme) = (None, None);
    for pair in breaks.windows(2) {
        let stretch = (pair[0], pair[1]);
        let differs = |z: f64| Some(new.dia(z, stretch)? - old.dia(z, stretch)?);
        let step = (stretch.1 - stretch.0) / f64::from(PLACES);
        for sign in [1.0, -1.0] {
            let over = |z: f64| differs(z).map(|it| sign * it);
            let places = (0..=PLACES).map(|at| stretch.0 + step * f64::from(at));
            let each = places.filter_map(|z| Some((over(z)?, z)));
            let Some((_, at)) = each.max_by(|a, b| a.0.total_cmp(&b.0)) else {
                continue;
            };
            let (from, to) = ((at - step).max(stretch.0), (at + step).min(stretch.1));
            let (most, z) = polished(&over, from, to, at);
            let best = if sign > 0.0 { &mut grown } else { &mut shrunk };
            if best.is_none_or(|it| most > sign * it.0 + 1e-9) {
                *best = Some((sign * most, z));
            }
        }
    }
    (grown, shrunk)
}

/// The greatest value between two places, by golden section, or at the place it was seen at.
fn polished(
    over: &dyn Fn(f64) -> Option<f64>,
    mut from: f64,
    mut to: f64,
    seen: f64,
) -> (f64, f64) {
    let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
    let value = |z: f64| over(z).unwrap_or(f64::NEG_INFINITY);
    while to - from > NEAR_MM {
        let (a, b) = (to - golden * (to - from), from + golden * (to - from));
        if value(a) < value(b) {
            from = a;
        } else {
            to = b;
        }
    }
    let z = (from + to) / 2.0;
    // An end of the stretch is met only there.
    match value(z) > value(seen) {
        true => (value(z), z),
        false => (value(seen), seen),
    }
}
