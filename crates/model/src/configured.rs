//! `Configured`: the ways in which a pen is carried or held.

/// One of the ways in which a pen is carried or held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Configured {
    /// Closed.
    Capped,
    /// Open, the cap laid aside.
    Uncapped,
    /// Open, the cap on the tail.
    Posted,
    /// Open, what a mechanism throws drawn back.
    Retracted,
    /// In its stand.
    Resting,
}

impl Configured {
    /// The three of every pen that is capped and posted, in the order they are told in.
    pub const ALL: [Configured; 3] = [Configured::Capped, Configured::Uncapped, Configured::Posted];

    /// The word as written: `capped`.
    pub fn word(self) -> &'static str {
        match self {
            Configured::Capped => "capped",
            Configured::Uncapped => "uncapped",
            Configured::Posted => "posted",
            Configured::Retracted => "retracted",
            Configured::Resting => "resting",
        }
    }

    /// The configuration of a word.
    pub fn named(word: &str) -> Option<Configured> {
        let others = [Configured::Retracted, Configured::Resting];
        let all = Configured::ALL.into_iter().chain(others);
        all.into_iter().find(|it| it.word() == word)
    }
}
