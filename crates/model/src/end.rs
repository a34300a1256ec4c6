//! `End`: one of a part's two ends.

/// One of a part's two ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum End {
    /// Station 0.
    First,
    /// Station `length`.
    Second,
}

impl End {
    /// The other end.
    #[must_use]
    pub fn other(self) -> End {
        match self {
            End::First => End::Second,
            End::Second => End::First,
        }
    }

    /// 0 or 1.
    pub fn index(self) -> usize {
        self as usize
    }
}
