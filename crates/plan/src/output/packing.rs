//! Packs lengths onto rods so that least is wasted.

use quillet_geometry::Length;

/// Which pieces come off which rod: indices into the lengths given, in the order of sawing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Packing {
    /// For each rod its pieces.
    pub rods: Vec<Vec<usize>>,
    /// Pieces longer than a rod.
    pub too_long: Vec<usize>,
}

/// More pieces than this are packed by the longest-first rule alone.
const SEARCHED: usize = 12;

/// Packs pieces onto rods of one length, a saw cut after each: the fewest rods, and among
/// those the longest remnant on one of them.
///
/// Up to a dozen pieces the best packing is found; more are packed longest first.
pub fn pack(pieces: &[Length], rod: Length, kerf: Length) -> Packing {
    let (fits, too_long): (Vec<usize>, Vec<usize>) =
        (0..pieces.len()).partition(|index| pieces[*index] <= rod);
    let mut longest_first = fits;
    longest_first.sort_by_key(|index| (-pieces[*index].nm(), *index));
    let mut best = first_fit(&longest_first, pieces, rod, kerf);
    if longest_first.len() <= SEARCHED {
        let mut search = PackingSearch {
            pieces,
            rod,
            kerf,
            best: &mut best,
        };
        search.place(&longest_first, &mut Vec::new());
    }
    Packing {
        rods: best,
        too_long,
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

/// What some pieces and the cuts after them take of a rod.
fn used(rod: &[usize], pieces: &[Length], kerf: Length) -> Length {
    rod.iter().map(|index| pieces[*index] + kerf).sum()
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
    pieces: &'a [Length],
    rod: Length,
    kerf: Length,
    best: &'a mut Vec<Vec<usize>>,
}

impl PackingSearch<'_> {
    /// Tries each way to put the pieces that are left, longest first.
    fn place(&mut self, left: &[usize], rods: &mut Vec<Vec<usize>>) {
        if rods.len() > self.best.len() {
            return;
        }
        let Some((next, rest)) = left.split_first() else {
            let better = (rods.len(), -self.longest_remnant(rods))
                < (self.best.len(), -self.longest_remnant(self.best));
            if better {
                self.best.clone_from(rods);
            }
            return;
        };
        let mut tried: Vec<Length> = Vec::new();
        for at in 0..rods.len() {
            let taken = used(&rods[at], self.pieces, self.kerf);
            // Two rods as full as each other are one choice.
            if taken + self.pieces[*next] > self.rod || tried.contains(&taken) {
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

    fn longest_remnant(&self, rods: &[Vec<usize>]) -> Length {
        let left = rods
            .iter()
            .map(|it| self.rod - used(it, self.pieces, self.kerf));
        left.max().unwrap_or_default()
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

    proptest! {
        #[test]
        fn every_piece_is_sawn_once_and_no_rod_is_too_short(
            lengths in prop::collection::vec(1..130_i64, 0..9),
            kerf in 0..3_i64,
        ) {
            let (pieces, rod) = (mm(&lengths), Length::mm(120.0));
            let kerf = Length::from_nm(kerf * 1_000_000);
            for packing in [pack(&pieces, rod, kerf), pack_in_order(&pieces, rod, kerf)] {
                let mut all: Vec<usize> = packing.rods.iter().flatten().copied().collect();
                all.extend(&packing.too_long);
                all.sort_unstable();
                prop_assert_eq!(all, (0..pieces.len()).collect::<Vec<_>>());
                for held in &packing.rods {
                    // The last piece needs no cut after it.
                    prop_assert!(used(held, &pieces, kerf) - kerf <= rod);
                }
            }
            let best = pack(&pieces, rod, kerf).rods.len();
            prop_assert!(best <= pack_in_order(&pieces, rod, kerf).rods.len());
        }
    }
}
