//! What a change does to a pen: its outlines, measures, findings, sheet.

pub(crate) mod findings;
pub(crate) mod measures;
pub(crate) mod outline;
pub(crate) mod spot;
pub(crate) mod steps;
