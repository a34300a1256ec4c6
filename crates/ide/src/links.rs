//! The files that `use` lines name.

use crate::{Analysis, Cursor};
use quillet_model::SourceFile;
use quillet_syntax::{FileId, Span};
use std::path::PathBuf;

/// A `use` line that names a file that is there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    /// The path within its quotes.
    pub span: Span,
    /// The file.
    pub path: PathBuf,
    pub(crate) file: FileId,
}

/// The links of a file.
pub fn links(analysis: &Analysis, file: &SourceFile) -> Vec<Link> {
    let uses = analysis
        .design
        .uses
        .iter()
        .filter(|(span, _)| span.file == file.id);
    let links = uses.filter_map(|(span, id)| {
        let path = analysis.file(*id)?.path.clone();
        let span = Span::new(span.file, span.start as usize + 1, span.end as usize - 1);
        Some(Link {
            span,
            path,
            file: *id,
        })
    });
    links.collect()
}

/// The link at the cursor.
pub(crate) fn at(cursor: Cursor<'_>) -> Option<Link> {
    let mut links = links(cursor.analysis, cursor.file).into_iter();
    links.find(|link| link.span.touches(cursor.offset))
}
