//! Everything the files say, resolved.

use crate::{Bench, BlankDef, Limits, Material, Part, Pen, Shelf, SourceFile, ThreadDef, Units};
use quillet_syntax::{FileId, Finding, RuleId, Span, ast};
use std::sync::Arc;

/// A design: one file and all it uses, with every name and number resolved.
///
/// An item that could not be resolved is missing here and told of in `findings`;
/// the others are whole.
#[derive(Clone, Debug, Default)]
pub struct Design {
    /// The file asked for, then those it uses, in the order they were reached.
    pub files: Vec<Arc<SourceFile>>,
    /// Each path after `use`, and the file it led to.
    pub uses: Vec<(Span, FileId)>,
    /// Named threads.
    pub threads: Vec<Arc<ThreadDef>>,
    /// Materials defined in the files.
    pub materials: Vec<Arc<Material>>,
    /// Named stock.
    pub blanks: Vec<Arc<BlankDef>>,
    /// Benches.
    pub benches: Vec<Arc<Bench>>,
    /// Parts, cut and bought, as the files' own `let`s give them.
    pub parts: Vec<Arc<Part>>,
    /// Pens, each with its parts as it sees them.
    pub pens: Vec<Pen>,
    /// Shelves.
    pub shelves: Vec<Arc<Shelf>>,
    /// The `limit`s of the file asked for and of those it uses.
    pub limits: Limits,
    /// What names mean where they are written.
    pub names: crate::Names,
    /// What was found while resolving.
    pub findings: Vec<Finding>,
}

impl Design {
    /// The file that was asked for.
    pub fn root(&self) -> Option<&SourceFile> {
        self.files.first().map(AsRef::as_ref)
    }

    /// The file of a number.
    pub fn file(&self, id: FileId) -> Option<&SourceFile> {
        self.files
            .iter()
            .find(|file| file.id == id)
            .map(AsRef::as_ref)
    }

    /// The units of the file that was asked for; what is told of a design is told in them.
    pub fn units(&self) -> Units {
        self.root().map_or_else(Units::default, SourceFile::units)
    }

    /// The units of the file that a span lies in; what is written there is written in them.
    pub fn units_at(&self, span: Span) -> Units {
        self.units_of(span.file)
    }

    /// The units of a file.
    pub fn units_of(&self, file: FileId) -> Units {
        self.file(file)
            .map_or_else(Units::default, SourceFile::units)
    }

    /// The text a span covers; empty where the span is of no file here.
    pub fn text(&self, span: Span) -> &str {
        self.file(span.file)
            .and_then(|file| file.text.get(span.range()))
            .unwrap_or("")
    }

    /// Whether a file holds both versions of a merge still, so that it is not known what is meant.
    pub fn is_merging(&self) -> bool {
        let unfinished = RuleId::UNFINISHED_MERGE;
        self.findings.iter().any(|it| it.rule == unfinished)
    }

    /// The part of a name, as the files' own `let`s give it.
    pub fn part(&self, name: &str) -> Option<&Arc<Part>> {
        self.parts.iter().find(|part| &*part.name.text == name)
    }

    /// The pen of a name.
    pub fn pen(&self, name: &str) -> Option<&Pen> {
        self.pens.iter().find(|pen| &*pen.name.text == name)
    }

    /// The bench for a pen or part that names `wanted`, or the only one in sight.
    pub fn bench(&self, wanted: Option<&ast::Name>) -> Option<&Arc<Bench>> {
        match wanted {
            Some(name) => self
                .benches
                .iter()
                .find(|bench| bench.name.text == name.text),
            None if self.benches.len() == 1 => self.benches.first(),
            None => None,
        }
    }
}
