//! Makes a packing better by exchanging pieces, where there are too many to try every way.

use super::RodLengths;

/// So many exchanges are tried.
const TRIES: u32 = 2000;

/// A packing after 2,000 seeded draws, each of which moves a piece to another rod or exchanges two
/// pieces where both still fit: kept where it fills some rods and empties others, which is what the
/// sum of the squares of what is used tells. Rods that come out empty are left out.
///
/// The best one met is given back, by the number of rods and then the longest remnant; it is never
/// worse than what came in.
pub(super) fn exchanged(rods: Vec<Vec<usize>>, lengths: &RodLengths<'_>) -> Vec<Vec<usize>> {
    let mut best = rods.clone();
    let mut now = rods;
    let mut dice = Dice(SEED);
    for _ in 0..TRIES {
        if now.len() < 2 {
            break;
        }
        if lengths.tried(&mut now, &mut dice) {
            now.retain(|rod| !rod.is_empty());
            if lengths.worth(&now) < lengths.worth(&best) {
                best.clone_from(&now);
            }
        }
    }
    best
}

impl RodLengths<'_> {
    /// Exchanges a piece of one rod for one of another, or for the empty place behind its last, where
    /// that is as good; whether it did.
    fn tried(&self, rods: &mut [Vec<usize>], dice: &mut Dice) -> bool {
        let (from, to) = (dice.below(rods.len()), dice.below(rods.len()));
        if from == to {
            return false;
        }
        let give = dice.below(rods[from].len());
        let take = dice.below(rods[to].len() + 1);
        let before = self.squares(&rods[from]) + self.squares(&rods[to]);
        let mut changed = [rods[from].clone(), rods[to].clone()];
        match changed[1].get(take).copied() {
            Some(taken) => {
                changed[1][take] = changed[0][give];
                changed[0][give] = taken;
            }
            None => {
                let given = changed[0].remove(give);
                changed[1].push(given);
            }
        }
        let fits = changed.iter().all(|rod| self.fits(rod));
        let after: i128 = changed.iter().map(|rod| self.squares(rod)).sum();
        let better = fits && after >= before;
        if better {
            let [first, second] = changed;
            (rods[from], rods[to]) = (first, second);
        }
        better
    }

    fn fits(&self, rod: &[usize]) -> bool {
        rod.is_empty() || self.used(rod) - self.kerf <= self.rod
    }

    fn squares(&self, rod: &[usize]) -> i128 {
        i128::from(self.used(rod).nm()).pow(2)
    }
}

const SEED: u64 = 1;

/// SplitMix64 (Steele, Lea and Flood, 2014): the same draws on every machine.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number below `count`; 0 where that is 0.
    fn below(&mut self, count: usize) -> usize {
        let count = count as u64;
        self.next().checked_rem(count).unwrap_or(0) as usize
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quillet_geometry::Length;

    /// The first numbers of seed 1234567, from the generator's published test vectors (from memory).
    #[test]
    fn the_dice_are_splitmix64() {
        let mut dice = Dice(1_234_567);
        assert_eq!(dice.next(), 6_457_827_717_110_365_317);
        assert_eq!(dice.next(), 3_203_168_211_198_807_973);
    }

    /// Longest first puts six pieces on three rods where two would do (as `pack`'s own test says).
    #[test]
    fn an_exchange_saves_a_rod() {
        let pieces: Vec<Length> = [4, 4, 3, 3, 3, 3]
            .map(|it| Length::mm(f64::from(it)))
            .into();
        let lengths = RodLengths {
            pieces: &pieces,
            rod: Length::mm(10.0),
            kerf: Length::ZERO,
        };
        let found = exchanged(vec![vec![0, 1], vec![2, 3, 4], vec![5]], &lengths);
        assert_eq!(found.len(), 2);
    }
}
