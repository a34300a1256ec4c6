//! A file of a state as it was read.

use super::State;
use crate::job::Half;
use quillet_model::{ReadError, SourceFile};
use quillet_syntax::ast::ItemKind;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A file with all it uses, as it was read.
pub(super) struct Read {
    pub(super) name: String,
    pub(super) path: PathBuf,
    pub(super) pens: Vec<String>,
    /// All files by name, with their texts.
    pub(super) texts: BTreeMap<String, Arc<str>>,
}

pub(super) fn halved<'a>(path: &'a Path, state: &'a State<'a>) -> Half<'a> {
    Half {
        path,
        source: state.source,
        name: state.name,
        known: state.known,
    }
}

pub(super) fn sentence(path: &Path, error: &ReadError) -> String {
    format!("{}: {error}", path.display())
}

impl Read {
    pub(super) fn of(
        path: PathBuf,
        files: &[Arc<SourceFile>],
        name: &dyn Fn(&SourceFile) -> String,
    ) -> Read {
        let root = files.first();
        let items = root.iter().flat_map(|it| &it.parsed.tree.items);
        let pens = items.filter_map(|it| match &it.kind {
            ItemKind::Pen(pen) if !pen.name.text.is_empty() => Some(pen.name.text.to_string()),
            _ => None,
        });
        let texts = files.iter().map(|it| (name(it), it.text.clone()));
        Read {
            name: root.map_or_else(String::new, |it| name(it)),
            path,
            pens: pens.collect(),
            texts: texts.collect(),
        }
    }
}
