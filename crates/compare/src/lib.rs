//! Two states of a design side by side: what a change does, in a maker's terms.
//!
//! [`States`] finds which pens of two states differ and in which files to look; each of its jobs is
//! worked by itself, and together they are a [`Comparison`]: what was written, what that does to the
//! sizes, the findings and the sheet of each pen. Nothing here reads a disk, runs git or words a sheet:
//! files come through a [`Source`](quillet_model::Source), the lines of the sheet from who asks.
//!
//! A finding is known again by its [`Place`]: never by its line, its message or its numbers. A
//! [`Baseline`] is what was found before, so that only what is new has to stop anyone.

mod baseline;
mod change;
mod comparison;
mod effect;
mod job;
mod place;
mod shape;
mod states;
mod written;

pub use baseline::Baseline;
pub use change::{
    Change, FindingChange, FindingState, MeasureChange, MeasureKind, OutlineChange, Side,
    StepChange,
};
pub use comparison::{Comparison, Deny, FileChange, PartPair, PenChange, PenPair, PenState};
pub use effect::steps::SheetLine;
pub use job::{Done, Known, StepsOf, unknown};
pub use place::{Place, places};
pub use states::{Asked, State, States};
