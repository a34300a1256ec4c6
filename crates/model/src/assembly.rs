//! Where everything comes to rest.

/// A pen put together.
#[derive(Debug, Default)]
pub struct Assembly {}
