//! Reads a file and all it uses, each once.

use crate::{ReadError, Source, SourceFile};
use quillet_syntax::ast::{ItemKind, Text};
use quillet_syntax::{Edit, Finding, Severity, Span, edited, moved};
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;

/// A file asked for and all it uses, transitively.
#[derive(Debug, Default)]
pub struct Loaded {
    /// The file asked for, then those it uses, in the order they were reached.
    pub files: Vec<Arc<SourceFile>>,
    /// `use-cycle` and `missing-file` findings.
    pub findings: Vec<Finding>,
    /// Each `use` path and the file it led to.
    pub uses: Vec<(Span, Arc<SourceFile>)>,
}

impl Loaded {
    /// The same, were its files to read otherwise, in what is no `use`; none where edits overlap or lie
    /// outside of all.
    #[must_use]
    pub fn edited(&self, edits: &[Edit]) -> Option<Loaded> {
        let known = |it: &Edit| self.files.iter().any(|file| file.id == it.span.file);
        if !edits.iter().all(known) {
            return None;
        }
        let files = self.files.iter().map(|file| {
            let own = edits.iter().filter(|it| it.span.file == file.id);
            match own.cloned().collect::<Vec<_>>() {
                own if own.is_empty() => Some(file.clone()),
                own => Some(Arc::new(file.reading(&edited(&file.text, &own)?))),
            }
        });
        let files = files.collect::<Option<Vec<_>>>()?;
        let uses = self.uses.iter();
        let mut findings = self.findings.clone();
        for finding in &mut findings {
            finding.span = moved(finding.span, edits);
        }
        Some(Loaded {
            files,
            findings,
            uses: uses
                .map(|(span, file)| (moved(*span, edits), file.clone()))
                .collect(),
        })
    }
}

/// Loads the file at `path` and all it uses.
///
/// # Errors
/// When that file itself cannot be had; a file it uses that cannot be had is a finding.
pub fn load(path: &Path, source: &dyn Source) -> Result<Loaded, ReadError> {
    let root = source.open(path)?;
    let home = root
        .real_path
        .parent()
        .map(Path::to_path_buf)
        .unwrap_or_default();
    let mut loader = Loader {
        source,
        home,
        loaded: Loaded::default(),
        open: Vec::new(),
    };
    loader.visit(root);
    Ok(loader.loaded)
}

struct Loader<'a> {
    source: &'a dyn Source,
    home: PathBuf,
    loaded: Loaded,
    /// The chain of files whose `use`s are being followed.
    open: Vec<Arc<SourceFile>>,
}

impl Loader<'_> {
    fn visit(&mut self, file: Arc<SourceFile>) {
        self.loaded.files.push(file.clone());
        self.open.push(file.clone());
        for item in &file.parsed.tree.items {
            if let ItemKind::Use(path) = &item.kind {
                self.follow(&file, path, item.span);
            }
        }
        self.open.pop();
    }

    fn follow(&mut self, from: &SourceFile, reference: &Text, statement: Span) {
        let folder = from.path.parent().unwrap_or(Path::new(""));
        let path = match tidy(&folder.join(&*reference.text)) {
            here if here.as_os_str().is_empty() => PathBuf::from("."),
            path => path,
        };
        let used = match self.source.open(&path) {
            Ok(used) => used,
            Err(error) => return self.missing(reference, &path, &error),
        };
        let climbs = Path::new(&*reference.text)
            .components()
            .any(|part| matches!(part, Component::ParentDir | Component::RootDir));
        // A file that was reached by ../ has a folder of its own, in which what it uses may lie.
        let beside = from.real_path.parent().unwrap_or(Path::new(""));
        let within = |folder: &Path| used.real_path.starts_with(folder);
        let is_known = !self.home.as_os_str().is_empty();
        if !climbs && is_known && !within(&self.home) && !within(beside) {
            let finding = Finding::new(
                "missing-file",
                Severity::Error,
                reference.span,
                format!(
                    "{:?} is a link that leads out of this folder; it is not read",
                    reference.text
                ),
            );
            self.loaded
                .findings
                .push(finding.hint("name the file by its own path, with ../"));
            return;
        }
        self.loaded.uses.push((reference.span, used.clone()));
        if let Some(at) = self.open.iter().position(|file| file.id == used.id) {
            self.cycle(reference, statement, at);
        } else if self.loaded.files.iter().all(|file| file.id != used.id) {
            self.visit(used);
        }
    }

    fn missing(&mut self, reference: &Text, path: &Path, error: &ReadError) {
        let finding = Finding::new(
            "missing-file",
            Severity::Error,
            reference.span,
            format!("{} cannot be used: {error}", path.display()),
        );
        let finding = match error {
            ReadError::Missing => match self.near(reference, path) {
                Some(near) => finding.hint(format!("did you mean {near}?")).fix(
                    format!("write {near}"),
                    reference.span,
                    format!("\"{near}\""),
                ),
                None => {
                    finding.hint("write the path from this file's own folder, or take the line out")
                }
            },
            ReadError::NotUtf8(_) => finding.hint("save the file as UTF-8 text"),
            ReadError::NotAFile(_) | ReadError::TooLong => {
                finding.hint("name a file of the language, or take the line out")
            }
            ReadError::Unreadable(_) => finding.hint("see that the file may be read"),
        };
        self.loaded.findings.push(finding);
    }

    /// What lies in the same folder under nearly the same name, as it would be written.
    fn near(&self, reference: &Text, path: &Path) -> Option<String> {
        let names = self.source.beside(path.parent()?);
        let stems: Vec<&str> = names
            .iter()
            .filter_map(|it| it.strip_suffix(EXTENSION))
            .collect();
        let wanted = path.file_name()?.to_str()?;
        let (stem, whole) = match wanted.split_once('.') {
            Some((stem, _)) => (stem, false),
            None => (wanted, true),
        };
        let known = stems
            .iter()
            .copied()
            .find(|it| it.eq_ignore_ascii_case(stem));
        let near = known.or_else(|| quillet_syntax::nearest(stem, stems.iter().copied()));
        let name = format!("{}{EXTENSION}", near?);
        let folder = match reference.text.rsplit_once('/') {
            Some((folder, _)) => format!("{folder}/"),
            None if whole || !reference.text.contains('\\') => String::new(),
            None => return None,
        };
        Some(format!("{folder}{name}"))
    }

    fn cycle(&mut self, reference: &Text, statement: Span, at: usize) {
        let names: Vec<String> = self.open[at..]
            .iter()
            .map(|file| {
                file.path
                    .file_name()
                    .unwrap_or_default()
                    .to_string_lossy()
                    .into_owned()
            })
            .collect();
        let message = match names.as_slice() {
            [alone] => format!("{alone} uses itself"),
            _ => format!(
                "these files use each other in a circle: {}",
                names.join(" → ")
            ),
        };
        self.loaded.findings.push(
            Finding::new("use-cycle", Severity::Error, reference.span, message)
                .hint("move what both need into a third file, or take this line out")
                .fix("take the line out", statement, ""),
        );
    }
}

/// How the names of the language's files end.
const EXTENSION: &str = ".quillet";

/// A path without `.` and with `..` folded where it can be.
pub fn tidy(path: &Path) -> PathBuf {
    let mut out = PathBuf::new();
    for part in path.components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir if out.file_name().is_some() => {
                out.pop();
            }
            part => out.push(part),
        }
    }
    out
}
