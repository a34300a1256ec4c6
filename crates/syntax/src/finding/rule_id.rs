//! Which rule a finding is of.

use std::fmt;

/// A rule, by its code: kebab-case, what `limit` and `accept` say.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct RuleId(&'static str);

impl RuleId {
    /// Text that cannot be read.
    pub const SYNTAX: RuleId = RuleId("syntax");
    /// A name that nothing bears.
    pub const UNKNOWN_NAME: RuleId = RuleId("unknown-name");
    /// A name that is given twice.
    pub const DUPLICATE_NAME: RuleId = RuleId("duplicate-name");
    /// A thread that is written as none is.
    pub const BAD_DESIGNATION: RuleId = RuleId("bad-designation");
    /// A colour that is written as none is.
    pub const BAD_COLOUR: RuleId = RuleId("bad-colour");
    /// A file that cannot be had.
    pub const MISSING_FILE: RuleId = RuleId("missing-file");
    /// A number that no pen can have.
    pub const OUT_OF_RANGE: RuleId = RuleId("out-of-range");
    /// Both versions of a merge, between marker lines.
    pub const UNFINISHED_MERGE: RuleId = RuleId("unfinished-merge");
    /// A joint one of whose parts lacks the thread of the other.
    pub const MISSING_THREAD: RuleId = RuleId("missing-thread");
    /// An item that nothing uses.
    pub const UNUSED_ITEM: RuleId = RuleId("unused-item");
    /// An acceptance of what is not found any more.
    pub const STALE_ACCEPTANCE: RuleId = RuleId("stale-acceptance");
    /// A want that is not met.
    pub const WANT_UNMET: RuleId = RuleId("want-unmet");

    /// The rule of a code.
    pub const fn new(code: &'static str) -> RuleId {
        RuleId(code)
    }

    /// Its code: `thin-wall`.
    pub const fn code(self) -> &'static str {
        self.0
    }
}

impl From<&'static str> for RuleId {
    fn from(code: &'static str) -> Self {
        RuleId(code)
    }
}

impl fmt::Display for RuleId {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.pad(self.0)
    }
}

/// For tests and other readers of codes; what ships names its rules.
impl PartialEq<&str> for RuleId {
    fn eq(&self, other: &&str) -> bool {
        self.0 == *other
    }
}
