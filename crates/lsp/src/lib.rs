//! The language server: carries the answers of `ide` to an editor.
//!
//! The only crate that knows the protocol. It keeps the order of the wire, the open
//! documents and when to work; it has no answers of its own. `quillet lsp` serves it on
//! standard input and output.
//!
//! # What it does beside the protocol
//!
//! * `quillet/preview`, a request with `{textDocument, position?, name?}`: the pen or part at
//!   the place (or of the name) as `{name, title, pictures: [{name, svg}], legend: [text],
//!   measures: [{name, value}]}`, or null; the legend says what the numbers in the picture point
//!   at. Once a document's preview was asked for, `quillet/previewChanged`
//!   tells `{uri, version}` whenever it would come out otherwise, until the document is closed.
//! * Commands, which give the address of what they made and have the editor show it where it
//!   can: `quillet.open.preview`, `quillet.open.drawing` and `quillet.open.sheet` with
//!   `[uri, name]`, `quillet.spread` with the same, `quillet.explain` with `[rule]`.
//! * Settings, section `quillet`: `units` (`file`, `mm`, `in` or `both`), `hints.walls`,
//!   `hints.drills`, `hints.tenons`, `hints.conversions`, `hints.rests` (true or false), `hints.room` (the same; false where not said),
//!   `pictures` (whether hovers show the part), `bench` (where several are in sight),
//!   `syntaxDelay` (milliseconds that a syntax finding on the line last changed waits after the
//!   last change before it is pushed; 300, and 0 for at once).
//!
//! # Who does what
//!
//! `frames` lets nothing through but sound messages, `output_writer` nothing out where nobody reads.
//! `ordering` stands before the protocol library and hands messages over in the order of the wire, and
//! `newer` reads and writes what that does not know.
//! `requests` has a row a question, of which the handlers of `server` and what it says it can are made;
//! each puts its question through the `server_state` to a file of `requests`, on a thread of its own and
//! from a snapshot. `documents` and `folders` change what the
//! state knows and put what is to be checked into the `queue`; each `worker` takes from it, the
//! `diagnostic_store` gathers what they find, and `client_messages` tell the editor; `debounce` and
//! `typing` hold back what half a statement would be blamed for, and `refresh` asks it to ask again. No handler waits for the editor.

mod cancel;
mod capabilities;
mod client_messages;
mod client_process;
mod client_support;
mod command;
mod convert;
mod debounce;
mod diagnostic_store;
mod documents;
mod folders;
mod frames;
mod markup;
mod newer;
mod ordering;
mod ordering_queue;
mod output_writer;
mod pages;
mod pasts;
mod position;
mod preview_page;
mod probe;
mod pull;
mod queue;
mod refresh;
mod requests;
mod server;
mod server_state;
mod service;
mod session;
mod settings;
mod since;
mod transport;
mod typing;
mod worker;

pub use session::Session;
pub use transport::{Ended, serve_stdio};
