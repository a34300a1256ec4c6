//! Things put in order of a number of each.

/// Puts things in order of a number of each, the least first; those alike stay as they stood.
///
/// The numbers are sorted, and what they are of is moved: sorting is compiled once for all that is put in
/// order so, which is a good part of a program that is loaded over a line.
pub fn put_in_order<T>(all: &mut [T], of: impl Fn(&T) -> f64) {
    let is_after = |pair: &[T]| of(&pair[0]).total_cmp(&of(&pair[1])).is_gt();
    if !all.windows(2).any(is_after) {
        return;
    }
    let mut places: Vec<(f64, usize)> = all.iter().map(of).zip(0..).collect();
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    for at in 0..all.len() {
        // What stood there may have been moved on since, once or several times.
        let mut from = places[at].1;
        while from < at {
            from = places[from].1;
        }
        all.swap(at, from);
        places[at].1 = from;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// As the standard library sorts.
        #[test]
        fn all_are_in_order_and_those_alike_as_they_stood(
            numbers in prop::collection::vec(prop_oneof![Just(-0.0), Just(0.0), -3.0..3.0_f64, (-3..3_i32).prop_map(f64::from)], 0..40),
        ) {
            let mut found: Vec<(f64, usize)> = numbers.into_iter().zip(0..).collect();
            let mut wanted = found.clone();
            wanted.sort_by(|a, b| a.0.total_cmp(&b.0));
            put_in_order(&mut found, |it| it.0);
            let bits = |all: &[(f64, usize)]| all.iter().map(|it| (it.0.to_bits(), it.1)).collect::<Vec<_>>();
            prop_assert_eq!(bits(&found), bits(&wanted));
        }
    }
}
