//! The `quillet` command.

fn main() {}
