//! Pecking: how often a drill is withdrawn.

use quillet_geometry::Length;

/// How a hole is drilled: a first stretch freely, then in pecks with full withdrawal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Peck {
    /// The first stretch, in one go.
    pub free: Length,
    /// The greatest peck after it.
    pub step: Length,
    /// How many pecks follow.
    pub count: u32,
}

/// Pecks for a hole; none where the first stretch reaches the bottom.
///
/// The first two diameters are drilled freely, then pecks of at most one diameter, the drill
/// withdrawn each time (common practice, no published source).
pub fn peck(dia: Length, depth: Length) -> Option<Peck> {
    let free = dia * 2;
    let rest = depth - free;
    if !rest.is_positive() || !dia.is_positive() {
        return None;
    }
    let count = rest.nm().unsigned_abs().div_ceil(dia.nm().unsigned_abs());
    Some(Peck {
        free,
        step: dia,
        count: u32::try_from(count).unwrap_or(u32::MAX),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn pecks_reach_the_bottom_and_none_is_idle(dia in 1..20_000_000_i64, depth in 1..200_000_000_i64) {
            let (dia, depth) = (Length::from_nm(dia), Length::from_nm(depth));
            match peck(dia, depth) {
                None => prop_assert!(depth <= dia * 2),
                Some(found) => {
                    let count = i64::from(found.count);
                    prop_assert!(found.free + found.step * count >= depth);
                    prop_assert!(found.free + found.step * (count - 1) < depth);
                }
            }
        }
    }
}
