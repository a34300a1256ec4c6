//! From plain answers to the protocol's types, one kind a file.

pub(crate) mod diagnostic;
