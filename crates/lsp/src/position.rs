//! Places as the protocol counts them: lines, and columns in the encoding agreed.

use tower_lsp::lsp_types::{ClientCapabilities, PositionEncodingKind};

/// What a column counts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Encoding {
    /// Bytes.
    Utf8,
    /// UTF-16 code units, the protocol's default.
    #[default]
    Utf16,
    /// Characters.
    Utf32,
}

impl Encoding {
    /// The first of the editor's offers that is known; UTF-16 where it offers none.
    pub(crate) fn agreed(editor: &ClientCapabilities) -> Self {
        let offers = editor
            .general
            .as_ref()
            .and_then(|general| general.position_encodings.as_ref());
        offers
            .into_iter()
            .flatten()
            .find_map(Self::of_kind)
            .unwrap_or_default()
    }

    /// The protocol's name for it.
    pub(crate) fn kind(self) -> PositionEncodingKind {
        match self {
            Encoding::Utf8 => PositionEncodingKind::UTF8,
            Encoding::Utf16 => PositionEncodingKind::UTF16,
            Encoding::Utf32 => PositionEncodingKind::UTF32,
        }
    }

    fn of_kind(kind: &PositionEncodingKind) -> Option<Self> {
        [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32]
            .into_iter()
            .find(|encoding| encoding.kind() == *kind)
    }
}
