//! What the documentation of a choice is asked for by.

/// What a choice's documentation is about; a short text that can be sent to an editor and back.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DocumentationKey {
    /// A word of the language: its place's number in the table of words.
    Word(usize),
    /// A name of the design.
    Name(String),
    /// A thread's designation.
    Thread(String),
    /// A drill's diameter in nanometres.
    Drill(i64),
    /// A built-in kind of material.
    Kind(String),
    /// A fit, and the diameter in nanometres it is told for.
    Fit(String),
    /// A rule.
    Rule(String),
    /// Nothing more than its detail.
    Nothing,
}
