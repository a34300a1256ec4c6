//! A file that a question is about, with all it uses.

use crate::files::Files;
use crate::offsets::Offsets;
use quillet_ide::{Analysis, Cursor, Snapshot};
use quillet_model::SourceFile;
use quillet_syntax::{Edit, FileId, Span};
use serde::Serialize;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::Path;
use std::rc::Rc;
use std::sync::Arc;

/// Nobody calls off a question here: the page drops an answer that it no longer wants.
pub(crate) fn never() -> bool {
    false
}

/// A file that a question is about, with all it uses.
pub(crate) struct Opened {
    pub(crate) snapshot: Snapshot,
    pub(crate) analysis: Arc<Analysis>,
    pub(crate) file: Arc<SourceFile>,
    offsets: RefCell<BTreeMap<FileId, Rc<Offsets>>>,
}

/// Some text of a file.
#[derive(Debug, Serialize)]
pub(crate) struct Stretch {
    file: String,
    pub(crate) from: usize,
    pub(crate) to: usize,
}

/// What some text of a file becomes.
#[derive(Debug, Serialize)]
pub(crate) struct Change {
    from: usize,
    to: usize,
    text: String,
}

/// Edits, by file.
pub(crate) type Changes = BTreeMap<String, Vec<Change>>;

impl Opened {
    /// The file of a name.
    ///
    /// # Errors
    ///
    /// Where the page holds no such file.
    pub(crate) fn of(files: &Files, name: &str) -> Result<Self, String> {
        let snapshot = files.now();
        let missing = || format!("there is no file called {name} here");
        let analysis = snapshot
            .analysis(Path::new(name), &never)
            .ok_or_else(missing)?;
        let file = analysis.files().first().ok_or_else(missing)?.clone();
        Ok(Self {
            snapshot,
            analysis,
            file,
            offsets: RefCell::default(),
        })
    }

    /// How places of a file are counted.
    pub(crate) fn offsets(&self, file: &SourceFile) -> Rc<Offsets> {
        let mut known = self.offsets.borrow_mut();
        let own = known.entry(file.id);
        own.or_insert_with(|| Rc::new(Offsets::of(file.text.clone())))
            .clone()
    }

    /// A place in the file.
    pub(crate) fn cursor(&self, at: usize) -> Option<Cursor<'_>> {
        Cursor::at(&self.analysis, self.offsets(&self.file).byte(at))
    }

    /// Some text of the file.
    pub(crate) fn within(&self, from: usize, to: usize) -> Span {
        let offsets = self.offsets(&self.file);
        let (from, to) = (offsets.byte(from), offsets.byte(to));
        Span::new(self.file.id, from.min(to), to)
    }

    /// Where a span of the file itself lies.
    pub(crate) fn here(&self, span: Span) -> (usize, usize) {
        self.offsets(&self.file).units(span.range())
    }

    /// Where a span of any of its files lies.
    pub(crate) fn stretch(&self, span: Span) -> Option<Stretch> {
        let file = self.analysis.file(span.file)?;
        Some(self.stretch_of(file, span))
    }

    /// Where a span lies in a file that need not be one of its own.
    pub(crate) fn stretch_at(&self, path: &Path, span: Span) -> Option<Stretch> {
        let file = self.snapshot.file(path)?;
        Some(self.stretch_of(&file, span))
    }

    fn stretch_of(&self, file: &SourceFile, span: Span) -> Stretch {
        let (from, to) = self.offsets(file).units(span.range());
        Stretch {
            file: name_of(&file.path),
            from,
            to,
        }
    }

    /// Edits as a page applies them, by file.
    pub(crate) fn changes(&self, edits: &[Edit]) -> Changes {
        let mut changes = Changes::new();
        for edit in edits {
            if let Some(place) = self.stretch(edit.span) {
                put(&mut changes, place, edit.text.to_string());
            }
        }
        changes
    }
}

/// Adds an edit.
pub(crate) fn put(changes: &mut Changes, place: Stretch, text: String) {
    let change = Change {
        from: place.from,
        to: place.to,
        text,
    };
    changes.entry(place.file).or_default().push(change);
}

/// What a file is called in the page.
pub(crate) fn name_of(path: &Path) -> String {
    path.to_string_lossy().into_owned()
}
