//! Which of a pen's joints, so that it is never taken for which of its parts.

use crate::{Assembly, AtRest, Joint, Pen};

/// Which joint of a pen: its place in `Pen::joints` and in `Assembly::joints`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct JointId(usize);

impl JointId {
    /// Of the joint at this place in its list.
    pub fn nth(index: usize) -> Self {
        Self(index)
    }

    /// Its place in its list.
    pub fn index(self) -> usize {
        self.0
    }
}

impl Pen {
    /// A joint; none where it is another pen's.
    pub fn joint(&self, id: JointId) -> Option<&Joint> {
        self.joints.get(id.0)
    }
}

impl Assembly {
    /// A joint at rest; none where it is another pen's.
    pub fn joint(&self, id: JointId) -> Option<&AtRest> {
        self.joints.get(id.0)
    }
}
