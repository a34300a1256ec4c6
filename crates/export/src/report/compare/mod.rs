//! Two states side by side: for people, for a merge request, for programs, as a page.

mod html;
mod json;
mod markdown;
mod sarif;
mod text;
mod words;

use quillet_compare::Comparison;
use quillet_model::SourceFile;
use quillet_syntax::Severity;

/// A comparison, to be written.
pub struct Compared<'a> {
    /// What differs.
    pub comparison: &'a Comparison,
    /// What was compared: `main~2`, `old/heron.quillet`.
    pub old: String,
    /// With what: `the working folder`.
    pub new: String,
    /// Radii are drawn so many times as high in the pictures.
    pub stretch: f64,
}

impl Compared<'_> {
    /// For people.
    pub fn text(&self) -> String {
        text::text(self.comparison)
    }

    /// For a merge request: at most 60 000 bytes.
    pub fn markdown(&self) -> String {
        markdown::text(self)
    }

    /// For programs; its schema is `schema/compare.json`.
    pub fn json(&self) -> String {
        json::text(self)
    }

    /// For other programs that show findings: SARIF 2.1.0, each result with what has become of it.
    /// `name` says what a file is called, from the folder that stands for all.
    pub fn sarif(&self, name: &dyn Fn(&SourceFile) -> String) -> String {
        sarif::text(self.comparison, name)
    }

    /// One page that needs nothing else, with each changed part over its old shape.
    pub fn html(&self) -> String {
        html::text(self)
    }

    /// `2 pens changed, 1 new error`, `nothing differs`.
    pub fn headline(&self) -> String {
        let it = self.comparison;
        let pens = it.changed().count();
        let counted = |count: usize, one: &str, many: &str| match count {
            0 => None,
            1 => Some(format!("1 {one}")),
            _ => Some(format!("{count} {many}")),
        };
        let mut said: Vec<String> = Vec::new();
        said.extend(counted(pens, "pen changed", "pens changed"));
        for severity in [Severity::Error, Severity::Warning, Severity::Note] {
            let word = severity.word();
            let new = it.new_findings(severity);
            said.extend(counted(
                new,
                &format!("new {word}"),
                &format!("new {word}s"),
            ));
        }
        match (
            said.is_empty(),
            it.files.iter().any(|it| !it.changes.is_empty()),
        ) {
            (false, _) => said.join(", "),
            (true, true) => "nothing differs but what is written".to_owned(),
            (true, false) => "nothing differs".to_owned(),
        }
    }
}
