//! What the parser expects at a place.

use super::Reader;
use crate::FileId;
use crate::grammar::Place;
use crate::grammar::expect::ExpectSet;
use crate::layout::Layout;
use crate::token::Token;

/// Reads all statements of a layout and says what was expected at a place, if anything was.
pub(crate) fn listen(
    file: FileId,
    text: &str,
    tokens: &[Token],
    layout: &Layout,
    place: u32,
) -> Option<Expectations> {
    let mut reader = Reader::of(file, text, tokens, layout);
    reader.listening = Some(ExpectationProbe {
        at: place,
        heard: None,
    });
    reader.file(&layout.lines);
    reader.listening?.heard
}

/// What the parser expected at a place.
pub(crate) struct Expectations {
    pub(crate) place: Place,
    /// Which lexeme of its statement stands there.
    pub(crate) index: usize,
    pub(crate) set: ExpectSet,
}

/// Where expectations are listened for, and what was heard there.
pub(super) struct ExpectationProbe {
    pub(super) at: u32,
    pub(super) heard: Option<Expectations>,
}
