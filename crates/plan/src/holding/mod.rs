//! How the work is held: grips and mandrels, and the order that comes of what each hold allows.

pub(crate) mod blend;
pub(crate) mod hold;
pub(crate) mod make_mandrel;
pub(crate) mod mandrel;
pub(crate) mod mandrel_set;
pub(crate) mod one_speed;
mod open_tasks;
pub(crate) mod schedule;
mod tail;
