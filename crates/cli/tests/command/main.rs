//! The command from end to end, as a maker runs it.

#![allow(clippy::unwrap_used, reason = "tests")]

mod acceptance;
mod books;
mod check;
#[cfg(unix)]
mod ci;
mod compare;
mod format;
#[cfg(unix)]
mod git;
mod inches;
#[cfg(unix)]
mod kept;
mod lists;
mod made;
mod manual;
mod measures;
mod pictures;
#[cfg(unix)]
mod progress;
mod readme;
mod revisions;
mod room;
#[cfg(unix)]
mod rough;
mod run;
mod sarif;
mod schemas;
mod solids;
mod unknown;
