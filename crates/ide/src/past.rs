//! A state in which files once were, and what has been worked out of it.

use crate::lens::Lens;
use quillet_model::{ReadError, Source, SourceFile};
use quillet_pen::{Analysis, Cache};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// What a file is called, alike in every state.
pub type Namer = dyn Fn(&SourceFile) -> String + Send + Sync;

/// A state in which files once were. It never changes, so what is worked out of it is kept: the
/// analysis of each file that is asked about, and what was told of it last.
pub struct Past {
    source: Box<dyn Source + Send + Sync>,
    pub(crate) name: Box<Namer>,
    /// What the state is called: `HEAD`.
    pub called: String,
    analyses: Cache,
    told: Mutex<BTreeMap<PathBuf, Told>>,
}

/// What was told of a file, and of which analysis of it.
struct Told {
    now: Arc<Analysis>,
    lenses: Vec<Lens>,
}

impl Past {
    /// A state by its files.
    pub fn of(called: &str, source: Box<dyn Source + Send + Sync>, name: Box<Namer>) -> Self {
        Self {
            source,
            name,
            called: called.to_owned(),
            analyses: Cache::default(),
            told: Mutex::default(),
        }
    }

    /// Whether a file was there.
    pub fn has(&self, path: &Path) -> bool {
        !matches!(self.source.open(path), Err(ReadError::Missing))
    }

    pub(crate) fn source(&self) -> &(dyn Source + Sync) {
        &*self.source
    }

    /// The analysis of a file as it was; none where it was not there, or cannot be read.
    pub(crate) fn analysis(&self, path: &Path, bench: Option<&str>) -> Option<Arc<Analysis>> {
        let keep = |_: &Path| true;
        let source = &*self.source;
        self.analyses
            .analysis(path, source, bench, &keep, &|| false)
    }

    /// What was told of a file, where nothing of it has changed since.
    pub(crate) fn told(&self, path: &Path, now: &Arc<Analysis>) -> Option<Vec<Lens>> {
        let told = self.lock();
        let known = told.get(path).filter(|it| Arc::ptr_eq(&it.now, now))?;
        Some(known.lenses.clone())
    }

    pub(crate) fn tell(&self, path: &Path, now: &Arc<Analysis>, lenses: &[Lens]) {
        let (now, lenses) = (now.clone(), lenses.to_vec());
        self.lock().insert(path.to_owned(), Told { now, lenses });
    }

    fn lock(&self) -> MutexGuard<'_, BTreeMap<PathBuf, Told>> {
        // What is kept here is only ever replaced whole.
        self.told.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl std::fmt::Debug for Past {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Past")
            .field("called", &self.called)
            .finish_non_exhaustive()
    }
}
