//! Temporary files: beside what they are to become, and gone however the process ends.
//!
//! Each is locked while it is in use. The system lets go of the lock of a process that was
//! killed, so a temporary file that can be locked is a left-over and is swept by the next
//! process that writes into the folder.

#[cfg(unix)]
use crate::terminal;
use std::collections::BTreeSet;
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::{Mutex, MutexGuard, PoisonError};

const PREFIX: &str = ".quillet-";

/// Those that exist now. Whoever holds this is not ended by a signal.
static ALL: Mutex<BTreeSet<PathBuf>> = Mutex::new(BTreeSet::new());

/// The folders that were swept.
static SWEPT: Mutex<BTreeSet<PathBuf>> = Mutex::new(BTreeSet::new());

/// A temporary file; dropped, it is gone.
pub(crate) struct TempFile {
    path: PathBuf,
    file: File,
}

impl TempFile {
    /// A new one in a folder; a private one is its owner's alone, another is as new files are.
    pub(crate) fn in_folder(folder: &Path, private: bool) -> io::Result<TempFile> {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        hear_signals();
        if lock(&SWEPT).insert(folder.to_owned()) {
            sweep(folder);
        }
        loop {
            let count = COUNT.fetch_add(1, Ordering::Relaxed);
            let name = format!("{PREFIX}{}-{count}", std::process::id());
            let path = folder.join(name);
            lock(&ALL).insert(path.clone());
            let mut options = OpenOptions::new();
            options.write(true).create_new(true);
            match for_whom(&mut options, private).open(&path) {
                Ok(file) => {
                    let scrap = TempFile { path, file };
                    // One that sweeps may have come in between.
                    if !matches!(scrap.file.try_lock(), Err(TryLockError::WouldBlock))
                        && scrap.path.exists()
                    {
                        return Ok(scrap);
                    }
                }
                Err(error) => {
                    lock(&ALL).remove(&path);
                    if error.kind() != io::ErrorKind::AlreadyExists {
                        return Err(error);
                    }
                }
            }
        }
    }

    /// Where it lies.
    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    /// The open file.
    pub(crate) fn file(&self) -> &File {
        &self.file
    }

    /// Writes it, to the disk.
    pub(crate) fn fill(
        &mut self,
        content: impl FnOnce(&mut dyn Write) -> io::Result<()>,
    ) -> io::Result<()> {
        content(&mut self.file)?;
        self.file.sync_all()
    }

    /// Takes the place of a file, there or not.
    pub(crate) fn replace(self, path: &Path) -> io::Result<()> {
        fs::rename(&self.path, path)
    }
}

impl Drop for TempFile {
    fn drop(&mut self) {
        let mut all = lock(&ALL);
        // Where it has taken a file's place there is nothing left to remove.
        let _ = fs::remove_file(&self.path);
        all.remove(&self.path);
    }
}

/// Does something that a signal must not break off.
pub(crate) fn undisturbed<T>(work: impl FnOnce() -> T) -> T {
    let _held = lock(&ALL);
    work()
}

/// Removes what killed processes have left in a folder.
fn sweep(folder: &Path) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let ours = entry.file_name().to_str().is_some_and(is_ours);
        if !ours || !entry.file_type().is_ok_and(|it| it.is_file()) {
            continue;
        }
        let left = OpenOptions::new().write(true).open(entry.path());
        if left.is_ok_and(|file| file.try_lock().is_ok()) {
            // Another may have been quicker.
            let _ = fs::remove_file(entry.path());
        }
    }
}

fn is_ours(name: &str) -> bool {
    let numbers = name.strip_prefix(PREFIX).and_then(|it| it.split_once('-'));
    let is_number = |it: &str| !it.is_empty() && it.bytes().all(|it| it.is_ascii_digit());
    numbers.is_some_and(|(process, count)| is_number(process) && is_number(count))
}

#[cfg(unix)]
fn for_whom(options: &mut OpenOptions, private: bool) -> &mut OpenOptions {
    use std::os::unix::fs::OpenOptionsExt;
    options.mode(if private { 0o600 } else { 0o666 })
}

#[cfg(not(unix))]
fn for_whom(options: &mut OpenOptions, _: bool) -> &mut OpenOptions {
    options
}

/// From now on what ends the process takes temporary files along, and a line that tells how far it has come.
#[cfg(unix)]
pub(crate) fn hear_signals() {
    use signal_hook::consts::{SIGINT, SIGTERM, SIGXFSZ};
    static HEARD: std::sync::Once = std::sync::Once::new();
    HEARD.call_once(|| {
        // A file that grows past what the user may write is told of as a full disk is.
        let _ = signal_hook::flag::register(SIGXFSZ, std::sync::Arc::default());
        let Ok(mut signals) = signal_hook::iterator::Signals::new([SIGINT, SIGTERM]) else {
            return;
        };
        std::thread::spawn(move || {
            for signal in signals.forever() {
                // Held to the end, so that no new one comes.
                let all = lock(&ALL);
                for path in all.iter() {
                    let _ = fs::remove_file(path);
                }
                let _line = terminal::without_line();
                let _ = signal_hook::low_level::emulate_default_handler(signal);
            }
        });
    });
}

#[cfg(not(unix))]
pub(crate) fn hear_signals() {}

fn lock<T>(shared: &Mutex<T>) -> MutexGuard<'_, T> {
    shared.lock().unwrap_or_else(PoisonError::into_inner)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_left_over_is_swept_and_one_in_use_is_not() {
        let folder = tempfile::tempdir().unwrap();
        let used = TempFile::in_folder(folder.path(), true).unwrap();
        for name in [
            ".quillet-1-2",
            ".quillet-notes",
            ".quillet-1-",
            "quillet-1-2",
        ] {
            fs::write(folder.path().join(name), "").unwrap();
        }
        sweep(folder.path());
        let mut left: Vec<_> = fs::read_dir(folder.path())
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        left.sort();
        let name = used.path.file_name().unwrap().to_str().unwrap().to_owned();
        let mut kept = vec![
            name,
            ".quillet-1-".into(),
            ".quillet-notes".into(),
            "quillet-1-2".into(),
        ];
        kept.sort();
        assert_eq!(left, kept);
        drop(used);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 3);
    }
}
