//! Numbers drawn from a seed: the same on every machine.

/// A generator of the kind SplitMix64 (Steele, Lea and Flood, 2014).
#[derive(Clone, Debug)]
pub struct Dice(u64);

impl Dice {
    /// Dice that fall as the seed says.
    pub fn new(seed: u64) -> Dice {
        Dice(seed)
    }

    /// Any number.
    pub fn any(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number below `sides`; 0 where there are none.
    pub fn throw(&mut self, sides: usize) -> usize {
        let sides = sides.max(1) as u64;
        usize::try_from(self.any() % sides).unwrap_or(0)
    }

    /// One of several.
    pub fn pick<'a, T>(&mut self, from: &'a [T]) -> Option<&'a T> {
        from.get(self.throw(from.len()))
    }
}
