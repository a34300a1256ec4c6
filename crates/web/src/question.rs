//! What may be asked, as it comes from the page.

use serde::Deserialize;
use std::collections::BTreeMap;

/// A question: `ask` says which. Files are called by their names, places are UTF-16 units.
#[derive(Debug, Deserialize)]
#[serde(tag = "ask", rename_all = "lowercase")]
pub(crate) enum Question {
    /// A file comes, or its text is another.
    Set { file: String, text: String },
    /// A file goes.
    Drop { file: String },
    /// What the maker has chosen about what is shown.
    Settings { units: Option<String> },
    /// All that is found in a file and in those it uses.
    Findings { file: String },
    /// What is shown of the thing at a place.
    Hover(Place),
    /// What can be written at a place.
    Complete(Place),
    /// What is to be known of a choice.
    About {
        file: String,
        about: quillet_ide::DocumentationKey,
    },
    /// How the statement at a place is written.
    Signature(Place),
    /// What can be done to some text.
    Actions(Range),
    /// What puts right every slip that cannot change the pen.
    Mend { file: String },
    /// What was worked out, told between the words.
    Inlays { file: String },
    /// What each word is.
    Tokens { file: String },
    /// What can be folded.
    Folds { file: String },
    /// What a file defines.
    Symbols { file: String },
    /// The edits that bring a file into its form.
    Format { file: String },
    /// Where a name comes from.
    Definition(Place),
    /// Where a name is used.
    References(Place),
    /// Another name.
    Rename { file: String, at: usize, to: String },
    /// A picture of the pen or part at a place, with its measures.
    Preview(Place),
    /// A sheet as PDF.
    Sheet(Sheet),
    /// A part, or the parts of a pen, as solids.
    Solid(Made),
    /// A drawing of a part, or of a pen put together.
    Draw(Made),
    /// How far numbers can move.
    Room {
        file: String,
        pen: Option<String>,
        #[serde(default)]
        of: Vec<String>,
    },
    /// What a file does beside what it was; texts by file.
    Compare {
        file: String,
        old: BTreeMap<String, String>,
    },
    /// A rule's page.
    Explain { rule: String },
}

/// A place in a file.
#[derive(Debug, Deserialize)]
pub(crate) struct Place {
    pub(crate) file: String,
    pub(crate) at: usize,
}

/// A stretch of a file.
#[derive(Debug, Deserialize)]
pub(crate) struct Range {
    pub(crate) file: String,
    pub(crate) from: usize,
    pub(crate) to: usize,
}

/// The sheet that is wanted.
#[derive(Debug, Deserialize)]
pub(crate) struct Sheet {
    pub(crate) file: String,
    pub(crate) pen: Option<String>,
    #[serde(default)]
    pub(crate) paper: Paper,
}

/// A format of paper.
#[derive(Clone, Copy, Debug, Default, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum Paper {
    #[default]
    A4,
    Letter,
}

/// What is to be made of a pen or of one part, and in which form.
#[derive(Debug, Deserialize)]
pub(crate) struct Made {
    pub(crate) file: String,
    pub(crate) pen: Option<String>,
    pub(crate) part: Option<String>,
    /// `step`, `stl` or `3mf`; `svg`, `pdf` or `dxf`.
    pub(crate) form: String,
    #[serde(default)]
    pub(crate) paper: Paper,
}
