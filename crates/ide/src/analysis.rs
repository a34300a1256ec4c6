//! A file with all it uses, resolved and checked.

use crate::Snapshot;
use crate::settings::Settings;
use crate::shelf::lock;
use crate::sizes::Sizes;
use quillet_check::{Examined, Trial};
use quillet_model::{Design, ReadError, Source, SourceFile};
use quillet_syntax::{Edit, FileId, Finding, Fix};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, OnceLock};

/// A file with all it uses, resolved; checked when first asked for findings.
#[derive(Debug)]
pub struct Analysis {
    /// What the files say.
    pub design: Design,
    settings: Settings,
    looked_at: Vec<LookedAt>,
    examined: OnceLock<Examined>,
    /// The cures of findings that were asked for, tried, by the finding's index.
    cures: Mutex<BTreeMap<usize, Arc<[Fix]>>>,
    mended: OnceLock<Arc<[Edit]>>,
}

/// A path that was asked for, and what was there.
#[derive(Debug)]
struct LookedAt {
    path: PathBuf,
    found: Result<Arc<SourceFile>, ReadError>,
}

impl Analysis {
    /// None where there is no such file.
    pub(crate) fn of(path: &Path, source: &dyn Source, settings: &Settings) -> Option<Self> {
        let recorder = Recorder {
            source,
            looked_at: RefCell::default(),
        };
        let loaded = quillet_model::load(path, &recorder).ok()?;
        let mut design = quillet_model::resolve(&loaded);
        choose_bench(settings, &mut design);
        Some(Self {
            design,
            settings: settings.clone(),
            looked_at: recorder.looked_at.into_inner(),
            examined: OnceLock::new(),
            cures: Mutex::default(),
            mended: OnceLock::new(),
        })
    }

    /// Whether everything it looked at is the same in `source`.
    pub(crate) fn holds_in(&self, snapshot: &crate::Snapshot) -> bool {
        self.settings.bench == snapshot.settings.bench
            && self.settings.units == snapshot.settings.units
            && self
                .looked_at
                .iter()
                .all(|then| match (&then.found, snapshot.open(&then.path)) {
                    (Ok(then), Ok(now)) => Arc::ptr_eq(then, &now),
                    (Err(then), Err(now)) => *then == now,
                    _ => false,
                })
    }

    /// Everything that is found, in order; worked out when first asked for.
    ///
    /// None where `called_off` said so in the meantime.
    pub fn findings(&self, called_off: &dyn Fn() -> bool) -> Option<&[Finding]> {
        self.examined(called_off)
            .map(|examined| examined.findings.as_slice())
    }

    /// What is found, what of it the maker accepts, and every want judged; worked out when first
    /// asked for.
    ///
    /// None where `called_off` said so in the meantime.
    pub fn examined(&self, called_off: &dyn Fn() -> bool) -> Option<&Examined> {
        if self.examined.get().is_none() {
            let examined = quillet_check::examine_until(&self.design, called_off)?;
            // Where two asked at once, both found the same.
            let _ = self.examined.set(examined);
        }
        self.examined.get()
    }

    /// The cures of a finding, each tried on these files; worked out when first asked for.
    ///
    /// None where `called_off` said so in the meantime.
    pub fn cures(
        &self,
        finding: usize,
        snapshot: &Snapshot,
        called_off: &dyn Fn() -> bool,
    ) -> Option<Arc<[Fix]>> {
        if let Some(known) = lock(&self.cures).get(&finding) {
            return Some(known.clone());
        }
        let findings = self.findings(called_off)?;
        let cures: Arc<[Fix]> = self.tried(snapshot, called_off, &|trial| {
            findings
                .get(finding)
                .map_or_else(Vec::new, |finding| trial.cures(finding))
                .into()
        })?;
        lock(&self.cures).insert(finding, cures.clone());
        Some(cures)
    }

    /// What puts right every slip of its file that cannot change the pen; worked out when first
    /// asked for.
    ///
    /// None where `called_off` said so in the meantime.
    pub fn mended(
        &self,
        snapshot: &Snapshot,
        called_off: &dyn Fn() -> bool,
    ) -> Option<Arc<[Edit]>> {
        if self.mended.get().is_none() {
            let file = self.files().first()?.id;
            let edits = self.tried(snapshot, called_off, &|trial| trial.mended(file))?;
            let _ = self.mended.set(edits.into());
        }
        self.mended.get().cloned()
    }

    /// Asks something of a trial of this design.
    fn tried<T>(
        &self,
        snapshot: &Snapshot,
        called_off: &dyn Fn() -> bool,
        ask: &dyn Fn(&Trial<'_>) -> T,
    ) -> Option<T> {
        let answer = ask(&Trial {
            root: &self.files().first()?.path,
            source: snapshot,
            prepare: &|design| choose_bench(&self.settings, design),
            design: &self.design,
            findings: self.findings(called_off)?,
            called_off,
        });
        (!called_off()).then_some(answer)
    }

    /// How sizes are told of the file asked for.
    pub(crate) fn sizes(&self) -> Sizes {
        Sizes::chosen(self.settings.units, self.design.units())
    }

    /// The file asked for, then those it uses.
    pub fn files(&self) -> &[Arc<SourceFile>] {
        &self.design.files
    }

    /// The file of a number.
    pub fn file(&self, id: FileId) -> Option<&SourceFile> {
        self.design.file(id)
    }

    /// Paths it looked for in vain.
    pub fn missing(&self) -> impl Iterator<Item = &Path> {
        let missing = self.looked_at.iter().filter(|looked| looked.found.is_err());
        missing.map(|looked| looked.path.as_path())
    }
}

/// Leaves only the bench that the settings choose, where there is one of its name.
fn choose_bench(settings: &Settings, design: &mut Design) {
    if let Some(chosen) = &settings.bench
        && design
            .benches
            .iter()
            .any(|bench| *bench.name.text == **chosen)
    {
        design.benches.retain(|bench| *bench.name.text == **chosen);
    }
}

/// Notes what is asked for on the way to another source.
struct Recorder<'a> {
    source: &'a dyn Source,
    looked_at: RefCell<Vec<LookedAt>>,
}

impl Source for Recorder<'_> {
    fn open(&self, path: &Path) -> Result<Arc<SourceFile>, ReadError> {
        let found = self.source.open(path);
        let looked = LookedAt {
            path: path.to_path_buf(),
            found: found.clone(),
        };
        self.looked_at.borrow_mut().push(looked);
        found
    }

    fn beside(&self, folder: &Path) -> Vec<String> {
        self.source.beside(folder)
    }
}
