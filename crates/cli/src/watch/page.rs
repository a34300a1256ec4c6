//! What the page shows, worked out anew when a file has changed.

use crate::disk;
use quillet_export::live::{self, Said};
use quillet_model::Design;
use quillet_syntax::{Encoding, Finding, LineIndex, Severity};
use std::fs;
use std::hash::{BuildHasher, Hasher, RandomState};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// A file with all it uses, as last seen.
pub(super) struct Watched {
    path: PathBuf,
    /// Each file with when it was last written.
    seen: Vec<(PathBuf, Option<SystemTime>)>,
    body: String,
    /// Changes whenever the body does.
    version: u64,
    /// No other process can guess the version a page asks by.
    salt: u64,
}

impl Watched {
    /// Looks at a file for the first time.
    ///
    /// # Errors
    ///
    /// A sentence that names the file and why it cannot be read.
    pub(super) fn new(path: &Path) -> Result<Watched, String> {
        let salt = RandomState::new().build_hasher().finish();
        let mut watched = Watched {
            path: path.to_owned(),
            seen: vec![],
            body: String::new(),
            version: 0,
            salt,
        };
        let design = disk::design(path)?;
        watched.show(&design);
        Ok(watched)
    }

    /// Looks again if a file has been written since.
    pub(super) fn look(&mut self) {
        if self.seen.iter().all(|(path, then)| written(path) == *then) {
            return;
        }
        match disk::design(&self.path) {
            Ok(design) => self.show(&design),
            // An editor may be in the middle of writing; the next look sees it whole.
            Err(reason) => {
                self.seen = vec![(self.path.clone(), written(&self.path))];
                self.body = live::body(&Design::default(), &[unreadable(reason)]);
                self.version += 1;
            }
        }
    }

    fn show(&mut self, design: &Design) {
        self.seen = design
            .files
            .iter()
            .map(|file| (file.real_path.clone(), written(&file.real_path)))
            .collect();
        let found = quillet_check::check(design);
        let said: Vec<Said> = found.iter().map(|finding| said(design, finding)).collect();
        self.body = live::body(design, &said);
        self.version += 1;
    }

    pub(super) fn body(&self) -> &str {
        &self.body
    }

    /// What a page says it has, to be told whether there is newer.
    pub(super) fn version(&self) -> String {
        format!("{:x}-{}", self.salt, self.version)
    }

    pub(super) fn title(&self) -> String {
        self.path
            .file_name()
            .unwrap_or(self.path.as_os_str())
            .to_string_lossy()
            .into_owned()
    }
}

fn written(path: &Path) -> Option<SystemTime> {
    fs::metadata(path).and_then(|about| about.modified()).ok()
}

fn said(design: &Design, finding: &Finding) -> Said {
    let place = design
        .file(finding.span.file)
        .map_or_else(String::new, |file| {
            let at = LineIndex::new(file.text.clone())
                .position(finding.span.range().start, Encoding::Utf32);
            format!("{}:{}:{}", file.path.display(), at.line + 1, at.column + 1)
        });
    Said {
        severity: match finding.severity {
            Severity::Error => "error",
            Severity::Warning => "warning",
            Severity::Note => "note",
        },
        rule: finding.rule,
        message: finding.message.clone(),
        hint: finding.hint.clone(),
        place,
    }
}

fn unreadable(reason: String) -> Said {
    Said {
        severity: "error",
        rule: "missing-file",
        message: reason,
        hint: None,
        place: String::new(),
    }
}
