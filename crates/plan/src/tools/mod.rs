//! With what: the tools at hand, which of them does a job, how fast, and how often withdrawn.

pub(crate) mod bench_tools;
pub(crate) mod peck;
pub(crate) mod single_point;
pub(crate) mod speed;
pub(crate) mod tool;
pub(crate) mod tool_list;
pub(crate) mod toolbox;
