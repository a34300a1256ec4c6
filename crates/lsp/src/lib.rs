//! The language server: carries the answers of `ide` to an editor.
//!
//! The only crate that knows the protocol. It keeps the order of the wire, the open
//! documents and when to work; it has no answers of its own.

mod answers;
mod cancel;
mod capabilities;
mod command;
mod convert;
mod desk;
mod documents;
mod editor;
mod folders;
mod gate;
mod lane;
mod line;
mod outbox;
mod pages;
mod position;
mod probe;
mod pull;
mod queue;
mod server;
mod session;
mod settings;
mod shown;
mod transport;

pub use session::Session;
pub use transport::{Ended, serve_stdio};
