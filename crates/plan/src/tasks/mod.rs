//! What must be done: the part as the lathe sees it, the broad choices, the blank, and every task
//! with what it waits for.

pub(crate) mod all;
pub(crate) mod as_one;
pub(crate) mod asked;
pub(crate) mod beside;
pub(crate) mod blank;
pub(crate) mod crowd;
pub(crate) mod feature_map;
pub(crate) mod inside;
pub(crate) mod lining;
pub(crate) mod mate;
pub(crate) mod outside;
pub(crate) mod passes;
pub(crate) mod side;
pub(crate) mod stack;
pub(crate) mod strategy;
pub(crate) mod task;
pub(crate) mod work;
pub(crate) mod work_map;
