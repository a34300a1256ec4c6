//! What waits to be checked: one running and one waiting version of each file at most.

use crate::cancel::CancellationToken;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// How soon a file is wanted; the least comes first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Priority {
    /// The maker is editing it.
    Edited,
    /// The editor has it open.
    Open,
    /// It lies in the folder.
    Folder,
}

/// Files waiting, and files being checked.
#[derive(Default)]
pub(crate) struct Queue {
    waiting: BTreeMap<PathBuf, Priority>,
    order: BTreeSet<(Priority, PathBuf)>,
    running: BTreeMap<PathBuf, CancellationToken>,
}

impl Queue {
    /// Asks for a file to be checked (again); a check of it under way is called off.
    pub(crate) fn ask(&mut self, path: &Path, urgency: Priority) {
        if let Some(running) = self.running.get(path) {
            running.call_off();
        }
        let sooner = self
            .waiting
            .get(path)
            .map_or(urgency, |was| urgency.min(*was));
        if let Some(was) = self.waiting.insert(path.to_path_buf(), sooner) {
            self.order.remove(&(was, path.to_path_buf()));
        }
        self.order.insert((sooner, path.to_path_buf()));
    }

    /// Takes a file out: it is no longer to be checked.
    pub(crate) fn forget(&mut self, path: &Path) {
        if let Some(was) = self.waiting.remove(path) {
            self.order.remove(&(was, path.to_path_buf()));
        }
        if let Some(running) = self.running.get(path) {
            running.call_off();
        }
    }

    /// The most urgent file that is not being checked already, with the flag that calls it off.
    pub(crate) fn take(&mut self) -> Option<(PathBuf, CancellationToken)> {
        let next = self
            .order
            .iter()
            .find(|(_, path)| !self.running.contains_key(path))
            .cloned()?;
        self.order.remove(&next);
        let (_, path) = next;
        self.waiting.remove(&path);
        let cancel = CancellationToken::default();
        self.running.insert(path.clone(), cancel.clone());
        Some((path, cancel))
    }

    /// The files that are being checked.
    pub(crate) fn running(&self) -> impl Iterator<Item = PathBuf> {
        self.running.keys().cloned()
    }

    /// The check of a file has ended.
    pub(crate) fn done(&mut self, path: &Path) {
        self.running.remove(path);
    }

    /// Whether a file waits or is being checked.
    pub(crate) fn holds(&self, path: &Path) -> bool {
        self.waiting.contains_key(path) || self.running.contains_key(path)
    }

    /// How many files wait or are being checked.
    pub(crate) fn count(&self) -> usize {
        let both = self
            .running
            .keys()
            .filter(|path| self.waiting.contains_key(*path));
        self.waiting.len() + self.running.len() - both.count()
    }

    /// Whether nothing waits and nothing runs.
    pub(crate) fn is_idle(&self) -> bool {
        self.waiting.is_empty() && self.running.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_edited_comes_first_and_each_file_once() {
        let mut queue = Queue::default();
        queue.ask(Path::new("a"), Priority::Folder);
        queue.ask(Path::new("b"), Priority::Open);
        queue.ask(Path::new("a"), Priority::Edited);
        queue.ask(Path::new("a"), Priority::Folder);
        assert_eq!(queue.take().unwrap().0, Path::new("a"));
        assert_eq!(queue.take().unwrap().0, Path::new("b"));
        assert!(queue.take().is_none());
    }

    #[test]
    fn one_runs_and_one_waits() {
        let mut queue = Queue::default();
        queue.ask(Path::new("a"), Priority::Edited);
        let (path, cancel) = queue.take().unwrap();
        queue.ask(&path, Priority::Edited);
        queue.ask(&path, Priority::Edited);
        assert!(cancel.is_off());
        assert!(queue.take().is_none(), "not two at a time");
        queue.done(&path);
        assert!(!queue.take().unwrap().1.is_off());
        queue.done(&path);
        assert!(queue.is_idle());
    }
}
