//! How far each size is off in each case: a Latin hypercube, the same on every machine.

use quillet_model::{Distribution, HandSize};
use statrs::distribution::{ContinuousCDF, Normal};

/// One size over all cases.
#[derive(Debug)]
pub(super) struct Draw {
    /// How far it is over what is drawn, mm, case by case; of a diameter, half of it.
    pub(super) off_mm: Vec<f64>,
    /// The same as places from the least, which no two cases share.
    pub(super) ranks: Vec<u32>,
}

impl Draw {
    /// Of a size: as many equally likely slices as there are cases, one value from each, in an order that
    /// the seed and the place of the size alone decide.
    pub(super) fn of(size: &HandSize, cases: u32, seed: u64) -> Self {
        let mut stream = SplitMix64(seed ^ fnv_1a(&size.place));
        let mut ranks: Vec<u32> = (0..cases).collect();
        for last in (1..ranks.len()).rev() {
            ranks.swap(last, stream.below(last as u64 + 1) as usize);
        }
        let normal = Normal::standard();
        let off_mm = ranks.iter().map(|rank| {
            let share = (f64::from(*rank) + stream.share()) / f64::from(cases);
            let off_mm = match size.distribution {
                Distribution::Normal { sd_mm } => sd_mm * normal.inverse_cdf(share),
                Distribution::Uniform { from_mm, to_mm } => from_mm + (to_mm - from_mm) * share,
            };
            // To the nanometre, as lengths are kept: no machine's last digits show.
            (off_mm * 1e6).round() / 1e6
        });
        Draw {
            off_mm: off_mm.collect(),
            ranks,
        }
    }
}

/// Steele, Lea and Flood: Fast splittable pseudorandom number generators (2014).
struct SplitMix64(u64);

impl SplitMix64 {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut it = self.0;
        it = (it ^ (it >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        it = (it ^ (it >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        it ^ (it >> 31)
    }

    /// Above 0 and below 1, never either.
    fn share(&mut self) -> f64 {
        ((self.next() >> 12) as f64 + 0.5) / (1_u64 << 52) as f64
    }

    /// A whole number below another: the high half of a product, off even by less than one in 2⁴⁰.
    fn below(&mut self, most: u64) -> u64 {
        ((u128::from(self.next()) * u128::from(most)) >> 64) as u64
    }
}

/// The hash of Fowler, Noll and Vo, variant 1a of 64 bits.
fn fnv_1a(text: &str) -> u64 {
    text.bytes().fold(0xCBF2_9CE4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01B3)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_generator_and_the_hash_are_those_that_are_published() {
        // The first three of seed 1234567, as the generator's users list them (from memory).
        let mut stream = SplitMix64(1_234_567);
        assert_eq!(
            [stream.next(), stream.next(), stream.next()],
            [
                6_457_827_717_110_365_317,
                3_203_168_211_198_807_973,
                9_817_491_932_198_370_423
            ]
        );
        // The vectors of the hash's authors (from memory): the empty text, "a" and "foobar".
        assert_eq!(fnv_1a(""), 0xCBF2_9CE4_8422_2325);
        assert_eq!(fnv_1a("a"), 0xAF63_DC4C_8601_EC8C);
        assert_eq!(fnv_1a("foobar"), 0x8594_4171_F739_67E8);
    }
}
