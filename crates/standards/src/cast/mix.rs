//! How two parts of a resin are mixed.

/// What the shares of a mix are shares of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MixBy {
    /// Of its mass.
    Weight,
    /// Of its volume.
    Volume,
}

impl MixBy {
    /// Both.
    pub const ALL: [MixBy; 2] = [MixBy::Weight, MixBy::Volume];

    /// The language's word for it.
    pub const fn word(self) -> &'static str {
        match self {
            MixBy::Weight => "weight",
            MixBy::Volume => "volume",
        }
    }

    /// What such shares are measured in.
    pub const fn unit(self) -> &'static str {
        match self {
            MixBy::Weight => "g",
            MixBy::Volume => "ml",
        }
    }
}

/// Two parts by their shares, as `100:10 by weight`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mix {
    shares: [f64; 2],
    by: MixBy,
}

/// How much of each part is taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Portions {
    /// The first and the second, in grams or millilitres as `by` says.
    pub amounts: [f64; 2],
    /// What they are measured by.
    pub by: MixBy,
}

impl Mix {
    /// A mix of two shares over zero; none of others.
    pub fn new(first: f64, second: f64, by: MixBy) -> Option<Mix> {
        let sound = |it: f64| it.is_finite() && it > 0.0;
        (sound(first) && sound(second)).then_some(Mix {
            shares: [first, second],
            by,
        })
    }

    /// Its two shares.
    pub fn shares(&self) -> [f64; 2] {
        self.shares
    }

    /// What they are shares of.
    pub fn by(&self) -> MixBy {
        self.by
    }

    /// How much of each part makes up so much of the mix.
    pub fn of(&self, volume_ml: f64, mass_g: f64) -> Portions {
        let all = match self.by {
            MixBy::Weight => mass_g,
            MixBy::Volume => volume_ml,
        };
        let [first, second] = self.shares;
        Portions {
            amounts: self.shares.map(|share| all * share / (first + second)),
            by: self.by,
        }
    }
}
