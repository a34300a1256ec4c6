//! The latest analysis of each file that is asked about.

use crate::Analysis;
use crate::analysis::lock;
use quillet_model::Source;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

/// The latest analysis of each file that is asked about, so that none is worked out twice.
///
/// An analysis holds for as long as its [`Source`] gives the same file, not only an equal one, for
/// every path that was looked at.
#[derive(Debug, Default)]
pub struct Cache {
    slots: Mutex<BTreeMap<PathBuf, Slot>>,
}

/// One file's latest analysis; locked while it is worked out, so that it is done once.
type Slot = Arc<Mutex<Option<Arc<Analysis>>>>;

impl Cache {
    /// The file at `path` with all it uses, as [`Analysis::of`] has it: the one that is kept, while
    /// it holds. Only those of files that are to `keep` are kept.
    ///
    /// None where there is no such file, or `called_off` said so in the meantime.
    pub fn analysis(
        &self,
        path: &Path,
        source: &dyn Source,
        bench: Option<&str>,
        keep: &dyn Fn(&Path) -> bool,
        called_off: &dyn Fn() -> bool,
    ) -> Option<Arc<Analysis>> {
        let slot = lock(&self.slots)
            .entry(path.to_path_buf())
            .or_default()
            .clone();
        let mut kept = lock(&slot);
        if called_off() {
            return None;
        }
        if let Some(analysis) = kept.as_ref().filter(|it| it.holds_in(source, bench)) {
            return Some(analysis.clone());
        }
        let analysis = Arc::new(Analysis::of(path, source, bench).ok()?);
        let stays = keep(path);
        *kept = stays.then(|| analysis.clone());
        drop(kept);
        if !stays {
            lock(&self.slots).retain(|path, _| keep(path));
        }
        Some(analysis)
    }
}
