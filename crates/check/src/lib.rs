//! The rules: one file a rule, beside its page.
//!
//! [`check`] looks at a resolved [`Design`](quillet_model::Design) and gives everything that was
//! found, the model's own findings included, in the order of the text. A [`Rule`] is static data;
//! [`RULES`] lists them all. Nothing here prints.

mod accept;
mod accepted;
mod again;
pub mod assumed;
pub mod chain;
mod classes;
mod compared;
mod cures;
mod edits;
mod examine;
mod findings;
mod full_form;
mod held;
mod layers;
mod lead_in;
mod limits;
mod made;
pub mod measure;
mod mend;
mod merge;
mod propose;
mod remaining;
mod rule;
mod rules;
mod shape;
pub mod spots;
mod threading;
mod thresholds;
pub mod unstated;
mod view;
mod walls;
mod wants;
mod words;

pub use accepted::Accepted;
pub use again::KnownParts;
pub use compared::{ComparedSize, MeasuredAs, compared};
pub use cures::Trial;
pub use examine::{
    CheckReport, check, examine, examine_again, examine_knowing, examine_made, examine_until,
};
pub use findings::Findings;
pub use held::held_by;
pub use remaining::left_to_cut;
pub use rule::{Rule, Run, Threshold};
pub use rules::{RULES, asks_for_a_tool, is_mended_in_fitting, is_of_making, rule};
pub use view::{BenchView, DesignView, JointView, PartView, PenView};
pub use walls::{Role, Wall, walls};
pub use wants::JudgedWant;
