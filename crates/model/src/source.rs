//! Where files come from: the model itself reads nothing.

use quillet_syntax::{FileId, Parsed};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The longest text that is read as a design, bytes.
pub const LONGEST: u64 = 16 * 1024 * 1024;

/// A file as read and parsed.
#[derive(Debug)]
pub struct SourceFile {
    /// Its number, the same each time this file is opened through one [`Source`].
    pub id: FileId,
    /// The path it was opened by, as shown to the maker.
    pub path: PathBuf,
    /// Where it really lies, links followed; two paths to one file agree here.
    pub real_path: PathBuf,
    /// Its text.
    pub text: Arc<str>,
    /// Its tokens, tree and syntax findings.
    pub parsed: Parsed,
}

impl SourceFile {
    /// A text under a path, parsed.
    pub fn new(id: FileId, path: PathBuf, real_path: PathBuf, text: Arc<str>) -> Self {
        let parsed = quillet_syntax::parse(id, &text);
        SourceFile {
            id,
            path,
            real_path,
            text,
            parsed,
        }
    }

    /// The same file, were it to read otherwise.
    #[must_use]
    pub fn reading(&self, text: &str) -> Self {
        SourceFile::new(
            self.id,
            self.path.clone(),
            self.real_path.clone(),
            text.into(),
        )
    }

    /// What its bare lengths are counted in, and what is told of it.
    pub fn units(&self) -> quillet_standards::Units {
        self.parsed.tree.units()
    }
}

/// Why a file could not be had.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ReadError {
    /// There is none.
    Missing,
    /// It is not UTF-8 text; the offset of the first byte that is not.
    NotUtf8(usize),
    /// It is no file; what it is: "a folder".
    NotAFile(&'static str),
    /// It is longer than any design.
    TooLong,
    /// It could not be read, and why.
    Unreadable(String),
}

impl std::fmt::Display for ReadError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            ReadError::Missing => write!(f, "there is no such file"),
            ReadError::NotUtf8(at) => {
                write!(f, "it is not UTF-8 text (byte {at}); save it as UTF-8")
            }
            ReadError::NotAFile(what) => write!(f, "it is {what}, not a file"),
            ReadError::TooLong => write!(f, "it is longer than 16 MB"),
            ReadError::Unreadable(why) => write!(f, "it cannot be read: {why}"),
        }
    }
}

/// Gives files by path: the disk, an editor's open documents, a test's map.
pub trait Source {
    /// The file at a path.
    ///
    /// # Errors
    /// When it is missing, unreadable or not text.
    fn open(&self, path: &Path) -> Result<Arc<SourceFile>, ReadError>;

    /// The names of the language's files in a folder, in order, where that can be told: what a path
    /// that leads nowhere may have meant.
    fn beside(&self, folder: &Path) -> Vec<String> {
        let _ = folder;
        Vec::new()
    }
}

/// Texts held in memory, by path.
#[derive(Clone, Debug, Default)]
pub struct Texts {
    files: Vec<Arc<SourceFile>>,
}

impl Texts {
    /// Adds a text, or replaces the one at this path.
    #[must_use]
    pub fn with(mut self, path: impl Into<PathBuf>, text: &str) -> Self {
        let path = path.into();
        let known = self.files.iter().position(|file| file.path == path);
        let index = known.unwrap_or(self.files.len());
        let id = FileId(u32::try_from(index).unwrap_or(u32::MAX));
        let file = Arc::new(SourceFile::new(id, path.clone(), path, text.into()));
        match known {
            Some(index) => self.files[index] = file,
            None => self.files.push(file),
        }
        self
    }
}

impl<'a, P: Into<PathBuf>> FromIterator<(P, &'a str)> for Texts {
    fn from_iter<I: IntoIterator<Item = (P, &'a str)>>(texts: I) -> Self {
        let texts = texts.into_iter();
        texts.fold(Texts::default(), |all, (path, text)| all.with(path, text))
    }
}

impl Source for Texts {
    fn open(&self, path: &Path) -> Result<Arc<SourceFile>, ReadError> {
        self.files
            .iter()
            .find(|file| file.path == path)
            .cloned()
            .ok_or(ReadError::Missing)
    }

    fn beside(&self, folder: &Path) -> Vec<String> {
        let here = self.files.iter().map(|file| &file.path);
        let here = here.filter(|path| path.parent().unwrap_or(Path::new("")) == folder);
        let names = here.filter_map(|path| Some(path.file_name()?.to_str()?.to_owned()));
        let mut names: Vec<String> = names.collect();
        names.sort();
        names
    }
}
