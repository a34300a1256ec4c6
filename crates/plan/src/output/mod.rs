//! What the maker is given: the numbered operations with their figures, what stands in the way,
//! the caliper table and the cut list.

pub(crate) mod buy;
pub(crate) mod calipers;
pub(crate) mod cut_list;
pub(crate) mod inspection;
pub(crate) mod measure;
pub(crate) mod moulds;
pub(crate) mod operation;
pub(crate) mod operation_builder;
pub(crate) mod packing;
pub(crate) mod part_size;
pub(crate) mod problem;
