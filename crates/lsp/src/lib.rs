//! The language server: carries the answers of `ide` to an editor.
//!
//! The only crate that knows the protocol. It keeps the order of the wire, the open
//! documents and when to work; it has no answers of its own.

mod gate;
mod line;
mod server;
mod transport;

pub use transport::{Ended, serve, serve_stdio};
