//! Packs lengths onto rods so that least is wasted.

mod exchange;

use exchange::exchanged;
use quillet_geometry::Length;

/// Which pieces come off which rod: indices into the lengths given, in the order of sawing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Packing {
    /// For each rod its pieces.
    pub rods: Vec<Vec<usize>>,
    /// Pieces longer than a rod.
    pub too_long: Vec<usize>,
}

/// More pieces than this are packed longest first and then exchanged.
const SEARCHED: usize = 12;

/// Packs pieces onto rods of one length, a saw cut after each: the fewest rods, and among
/// those the longest remnant on one of them.
///
/// Up to a dozen pieces the best packing is found; more are packed longest first, and then pieces
/// are exchanged by a seeded draw. How near to the best that comes [`least_rods`] tells.
pub fn pack(pieces: &[Length], rod: Length, kerf: Length) -> Packing {
    let (fits, too_long): (Vec<usize>, Vec<usize>) =
        (0..pieces.len()).partition(|index| pieces[*index] <= rod);
    let lengths = RodLengths { pieces, rod, kerf };
    let mut longest_first = fits;
    longest_first.sort_by_key(|index| (-pieces[*index].nm(), *index));
    let mut best = first_fit(&longest_first, pieces, rod, kerf);
    if longest_first.len() <= SEARCHED {
        let mut search = PackingSearch {
            lengths,
            best: &mut best,
        };
        search.place(&longest_first, &mut Vec::new());
    } else {
        best = exchanged(best, &lengths);
    }
    Packing {
        rods: best,
        too_long,
    }
}

/// No packing takes fewer rods: `ceil(Σ(l + kerf) / (L + kerf))` over the pieces that are no longer
/// than a rod, since the last piece of each needs no cut after it.
pub fn least_rods(pieces: &[Length], rod: Length, kerf: Length) -> usize {
    let fitting = pieces.iter().filter(|piece| **piece <= rod);
    let needed: i128 = fitting.map(|piece| i128::from((*piece + kerf).nm())).sum();
    let each = i128::from((rod + kerf).nm());
    match each > 0 {
        true => usize::try_from((needed + each - 1) / each).unwrap_or(usize::MAX),
        false => 0,
    }
}

/// Packs pieces in the order given, each rod filled before the next is begun.
pub fn pack_in_order(pieces: &[Length], rod: Length, kerf: Length) -> Packing {
    let mut packing = Packing::default();
    let mut taken = Length::ZERO;
    for (index, piece) in pieces.iter().enumerate() {
        if *piece > rod {
            packing.too_long.push(index);
            continue;
        }
        match packing.rods.last_mut() {
            Some(last) if taken + *piece <= rod => {
                last.push(index);
                taken += *piece + kerf;
            }
            _ => {
                packing.rods.push(vec![index]);
                taken = *piece + kerf;
            }
        }
    }
    packing
}

/// What is packed on what.
#[derive(Clone, Copy)]
struct RodLengths<'a> {
    pieces: &'a [Length],
    rod: Length,
    kerf: Length,
}

impl RodLengths<'_> {
    /// What some pieces and the cuts after them take of a rod.
    fn used(&self, rod: &[usize]) -> Length {
        rod.iter()
            .map(|index| self.pieces[*index] + self.kerf)
            .sum()
    }

    /// Less is better: fewer rods, then a longer remnant on one of them.
    fn worth(&self, rods: &[Vec<usize>]) -> (usize, Length) {
        let least = rods.iter().map(|rod| self.used(rod));
        (rods.len(), least.min().unwrap_or_default())
    }
}

fn first_fit(order: &[usize], pieces: &[Length], rod: Length, kerf: Length) -> Vec<Vec<usize>> {
    // Each rod with what its pieces and the cuts after them take of it.
    let mut rods: Vec<(Length, Vec<usize>)> = Vec::new();
    for index in order {
        let piece = pieces[*index];
        let room = |(taken, _): &&mut (Length, Vec<usize>)| *taken + piece <= rod;
        match rods.iter_mut().find(room) {
            Some((taken, found)) => {
                *taken += piece + kerf;
                found.push(*index);
            }
            None => rods.push((piece + kerf, vec![*index])),
        }
    }
    rods.into_iter().map(|(_, rod)| rod).collect()
}

struct PackingSearch<'a> {
    lengths: RodLengths<'a>,
    best: &'a mut Vec<Vec<usize>>,
}

impl PackingSearch<'_> {
    /// Tries each way to put the pieces that are left, longest first.
    fn place(&mut self, left: &[usize], rods: &mut Vec<Vec<usize>>) {
        if rods.len() > self.best.len() {
            return;
        }
        let Some((next, rest)) = left.split_first() else {
            if self.lengths.worth(rods) < self.lengths.worth(self.best) {
                self.best.clone_from(rods);
            }
            return;
        };
        let mut tried: Vec<Length> = Vec::new();
        for at in 0..rods.len() {
            let taken = self.lengths.used(&rods[at]);
            // Two rods as full as each other are one choice.
            if taken + self.lengths.pieces[*next] > self.lengths.rod || tried.contains(&taken) {
                continue;
            }
            tried.push(taken);
            rods[at].push(*next);
            self.place(rest, rods);
            rods[at].pop();
        }
        rods.push(vec![*next]);
        self.place(rest, rods);
        rods.pop();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn mm(values: &[i64]) -> Vec<Length> {
        values
            .iter()
            .map(|value| Length::from_nm(value * 1_000_000))
            .collect()
    }

    #[test]
    fn the_longest_first_rule_alone_would_waste_a_rod() {
        // By hand: longest first puts 4+4, 3+3+3 and 3 on three rods of 10; 4+3+3 twice
        // fills two.
        let pieces = mm(&[4, 4, 3, 3, 3, 3]);
        let rod = Length::mm(10.0);
        let longest = first_fit(&[0, 1, 2, 3, 4, 5], &pieces, rod, Length::ZERO);
        assert_eq!(longest.len(), 3);
        assert_eq!(pack(&pieces, rod, Length::ZERO).rods.len(), 2);
    }

    /// Σ(l + kerf) / (L + kerf), by hand: 3·(70 + 1) = 213 of 121 each: 2; the best there is, is 3,
    /// for no two go on one rod of 120. Four of 59.5 go two by two: 4·60.5 / 121 = 2.
    #[test]
    fn no_packing_takes_fewer_than_the_bound() {
        let (rod, kerf) = (Length::mm(120.0), Length::mm(1.0));
        let three = mm(&[70, 70, 70]);
        assert_eq!(least_rods(&three, rod, kerf), 2);
        assert_eq!(pack(&three, rod, kerf).rods.len(), 3);
        let four = [Length::mm(59.5); 4];
        assert_eq!(least_rods(&four, rod, kerf), 2);
        assert_eq!(pack(&four, rod, kerf).rods.len(), 2);
        assert_eq!(least_rods(&[], rod, kerf), 0);
        assert_eq!(least_rods(&mm(&[121]), rod, kerf), 0);
    }

    /// The fewest rods by trying every way there is to put pieces into groups.
    fn by_force(pieces: &[Length], rod: Length, kerf: Length) -> usize {
        fn groups(left: &[Length], rods: &mut Vec<Length>, room: Length, kerf: Length) -> usize {
            let Some((next, rest)) = left.split_first() else {
                return rods.len();
            };
            let mut least = usize::MAX;
            for at in 0..rods.len() {
                if rods[at] + *next <= room {
                    rods[at] += *next + kerf;
                    least = least.min(groups(rest, rods, room, kerf));
                    rods[at] -= *next + kerf;
                }
            }
            rods.push(*next + kerf);
            least = least.min(groups(rest, rods, room, kerf));
            rods.pop();
            least
        }
        groups(pieces, &mut Vec::new(), rod, kerf)
    }

    proptest! {
        /// The search and the exchange against every way there is.
        #[test]
        fn small_cases_are_as_every_way_tried_has_them(
            lengths in prop::collection::vec(20..110_i64, 1..8),
            kerf in 0..3_i64,
        ) {
            let (pieces, rod) = (mm(&lengths), Length::mm(120.0));
            let kerf = Length::from_nm(kerf * 1_000_000);
            let least = by_force(&pieces, rod, kerf);
            prop_assert_eq!(pack(&pieces, rod, kerf).rods.len(), least);
            prop_assert!(least_rods(&pieces, rod, kerf) <= least);
            let mut longest: Vec<usize> = (0..pieces.len()).collect();
            longest.sort_by_key(|index| (-pieces[*index].nm(), *index));
            let found = first_fit(&longest, &pieces, rod, kerf);
            let lengths = RodLengths { pieces: &pieces, rod, kerf };
            let found = exchanged(found, &lengths);
            prop_assert!(found.len() >= least && found.len() <= least + 1);
        }

        /// More pieces than are searched: all are there once, none over a rod, no worse than longest
        /// first, and the same each time.
        #[test]
        fn many_pieces_are_sawn_once_and_no_worse_than_longest_first(
            lengths in prop::collection::vec(5..119_i64, 13..60),
        ) {
            let (pieces, rod, kerf) = (mm(&lengths), Length::mm(120.0), Length::mm(1.2));
            let packing = pack(&pieces, rod, kerf);
            let mut all: Vec<usize> = packing.rods.iter().flatten().copied().collect();
            all.sort_unstable();
            prop_assert_eq!(all, (0..pieces.len()).collect::<Vec<_>>());
            let sawn = RodLengths { pieces: &pieces, rod, kerf };
            for held in &packing.rods {
                prop_assert!(sawn.used(held) - kerf <= rod);
            }
            let mut longest: Vec<usize> = (0..pieces.len()).collect();
            longest.sort_by_key(|index| (-pieces[*index].nm(), *index));
            prop_assert!(packing.rods.len() <= first_fit(&longest, &pieces, rod, kerf).len());
            prop_assert!(packing.rods.len() >= least_rods(&pieces, rod, kerf));
            prop_assert_eq!(&packing, &pack(&pieces, rod, kerf));
        }
    }

    proptest! {
        #[test]
        fn every_piece_is_sawn_once_and_no_rod_is_too_short(
            lengths in prop::collection::vec(1..130_i64, 0..9),
            kerf in 0..3_i64,
        ) {
            let (pieces, rod) = (mm(&lengths), Length::mm(120.0));
            let kerf = Length::from_nm(kerf * 1_000_000);
            let sawn = RodLengths { pieces: &pieces, rod, kerf };
            for packing in [pack(&pieces, rod, kerf), pack_in_order(&pieces, rod, kerf)] {
                let mut all: Vec<usize> = packing.rods.iter().flatten().copied().collect();
                all.extend(&packing.too_long);
                all.sort_unstable();
                prop_assert_eq!(all, (0..pieces.len()).collect::<Vec<_>>());
                for held in &packing.rods {
                    // The last piece needs no cut after it.
                    prop_assert!(sawn.used(held) - kerf <= rod);
                }
            }
            let best = pack(&pieces, rod, kerf).rods.len();
            prop_assert!(best <= pack_in_order(&pieces, rod, kerf).rods.len());
        }
    }
}
