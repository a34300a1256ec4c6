//! A file with all it uses, resolved and checked.

use crate::recorder::{ReadPath, Recorder};
use quillet_check::{CheckReport, Trial, examine, examine_until};
use quillet_model::{Design, Loaded, ReadError, Source, SourceFile, load, resolve};
use quillet_syntax::{Edit, FileId, Finding, Fix};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError};

/// A file with all it uses, resolved; the rest is worked out when first asked for.
///
/// What can be called off gives nothing once `called_off` says so, and is worked out anew when it is
/// asked for again.
#[derive(Debug)]
pub struct Analysis {
    /// What the files say.
    pub design: Design,
    loaded: Loaded,
    bench: Option<String>,
    looked_at: Vec<ReadPath>,
    examined: OnceLock<CheckReport>,
    /// The cures of findings that were asked for, tried, by the finding's index.
    cures: Mutex<BTreeMap<usize, Arc<[Fix]>>>,
    mended: OnceLock<Arc<[Edit]>>,
}

impl Analysis {
    /// The file at `path` and all it uses. Where `bench` names one of several in sight, that one
    /// alone counts.
    ///
    /// # Errors
    ///
    /// Where the file itself cannot be had; a file it uses that cannot be had is a finding.
    pub fn of(path: &Path, source: &dyn Source, bench: Option<&str>) -> Result<Self, ReadError> {
        let recorder = Recorder::of(source);
        let loaded = load(path, &recorder)?;
        let mut design = resolve(&loaded);
        choose_bench(bench, &mut design);
        Ok(Self {
            design,
            loaded,
            bench: bench.map(str::to_owned),
            looked_at: recorder.into_looked_at(),
            examined: OnceLock::new(),
            cures: Mutex::default(),
            mended: OnceLock::new(),
        })
    }

    /// The same file at the same bench, from another source.
    ///
    /// # Errors
    ///
    /// As [`Analysis::of`].
    pub fn again(&self, source: &dyn Source) -> Result<Self, ReadError> {
        let root = self.files().first().ok_or(ReadError::Missing)?;
        Self::of(&root.path, source, self.bench.as_deref())
    }

    /// Whether it would come out the same from a source, at a bench.
    pub fn holds_in(&self, source: &dyn Source, bench: Option<&str>) -> bool {
        self.bench.as_deref() == bench && self.looked_at.iter().all(|it| it.holds_in(source))
    }

    /// What is found, what of it the maker accepts, and every want judged.
    pub fn examined(&self) -> &CheckReport {
        self.examined.get_or_init(|| examine(&self.design))
    }

    /// The same; none where it was called off.
    pub fn examined_until(&self, called_off: &dyn Fn() -> bool) -> Option<&CheckReport> {
        if self.examined.get().is_none() {
            let examined = examine_until(&self.design, called_off)?;
            // Where two asked at once, both found the same.
            let _ = self.examined.set(examined);
        }
        self.examined.get()
    }

    /// Everything that is found, in order; none where it was called off.
    pub fn findings(&self, called_off: &dyn Fn() -> bool) -> Option<&[Finding]> {
        let examined = self.examined_until(called_off);
        examined.map(|examined| examined.findings.as_slice())
    }

    /// The cures of a finding, each tried on these files; none where it was called off.
    pub fn cures(
        &self,
        finding: usize,
        source: &dyn Source,
        called_off: &dyn Fn() -> bool,
    ) -> Option<Arc<[Fix]>> {
        if let Some(known) = lock(&self.cures).get(&finding) {
            return Some(known.clone());
        }
        let findings = self.findings(called_off)?;
        let cures: Arc<[Fix]> = self.tried(source, called_off, &|trial| {
            findings
                .get(finding)
                .map_or_else(Vec::new, |finding| trial.cures(finding))
                .into()
        })?;
        lock(&self.cures).insert(finding, cures.clone());
        Some(cures)
    }

    /// Everything that is found, each with the cures that hold; none where it was called off.
    pub fn findings_with_cures(
        &self,
        source: &dyn Source,
        called_off: &dyn Fn() -> bool,
    ) -> Option<Vec<Finding>> {
        self.tried(source, called_off, &|trial| trial.all())
    }

    /// What puts right every slip of its file that cannot change the pen; none where it was called
    /// off.
    pub fn mended(
        &self,
        source: &dyn Source,
        called_off: &dyn Fn() -> bool,
    ) -> Option<Arc<[Edit]>> {
        if self.mended.get().is_none() {
            let file = self.files().first()?.id;
            let edits = self.tried(source, called_off, &|trial| trial.mended(file))?;
            let _ = self.mended.set(edits.into());
        }
        self.mended.get().cloned()
    }

    /// Asks something of a trial of this design.
    fn tried<T>(
        &self,
        source: &dyn Source,
        called_off: &dyn Fn() -> bool,
        ask: &dyn Fn(&Trial<'_>) -> T,
    ) -> Option<T> {
        let answer = ask(&Trial {
            root: &self.files().first()?.path,
            source,
            prepare: &|design| choose_bench(self.bench.as_deref(), design),
            design: &self.design,
            findings: self.findings(called_off)?,
            called_off,
        });
        (!called_off()).then_some(answer)
    }

    /// The file asked for, then those it uses.
    pub fn files(&self) -> &[Arc<SourceFile>] {
        &self.design.files
    }

    /// The same, before anything was resolved.
    pub fn loaded(&self) -> &Loaded {
        &self.loaded
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

/// Leaves only the bench that was chosen, where there is one of its name.
fn choose_bench(chosen: Option<&str>, design: &mut Design) {
    if let Some(chosen) = chosen
        && design.benches.iter().any(|it| *it.name.text == *chosen)
    {
        design.benches.retain(|it| *it.name.text == *chosen);
    }
}

pub(crate) fn lock<T>(shared: &Mutex<T>) -> MutexGuard<'_, T> {
    // What is kept here is only ever replaced whole, so a panic elsewhere left it sound.
    shared.lock().unwrap_or_else(PoisonError::into_inner)
}
