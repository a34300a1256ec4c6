//! Running the user's own git: no shell, no question asked, nothing fetched, never for ever.

use crate::{HistoryError, PATIENCE};
use std::ffi::OsStr;
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::mpsc::{self, Receiver};
use std::thread;

/// Git, run in a folder.
#[derive(Clone, Debug)]
pub(crate) struct Git {
    folder: PathBuf,
}

/// What git answered.
pub(crate) struct Answer {
    /// Whether it ended with 0.
    pub(crate) good: bool,
    /// Its standard output.
    pub(crate) out: Vec<u8>,
    /// Its standard error, as a line.
    pub(crate) error: String,
}

impl Answer {
    /// The output of a git that ended well.
    ///
    /// # Errors
    ///
    /// What it said, where it did not.
    pub(crate) fn out(self) -> Result<Vec<u8>, HistoryError> {
        match self.good {
            true => Ok(self.out),
            false => Err(HistoryError::Git(self.error)),
        }
    }
}

impl Git {
    pub(crate) fn in_folder(folder: &Path) -> Self {
        let folder = match folder.as_os_str().is_empty() {
            true => Path::new("."),
            false => folder,
        };
        Self {
            folder: folder.to_owned(),
        }
    }

    /// Asks git something and waits for its answer.
    ///
    /// # Errors
    ///
    /// Where it cannot be run, or gives no answer in [`PATIENCE`].
    pub(crate) fn ask<S: AsRef<OsStr>>(&self, words: &[S]) -> Result<Answer, HistoryError> {
        let mut child = self.begin(words, Stdio::null())?;
        let out = read_aside(child.stdout.take());
        let error = read_aside(child.stderr.take());
        let (Ok(out), Ok(error)) = (out.recv_timeout(PATIENCE), error.recv_timeout(PATIENCE))
        else {
            end(&mut child);
            return Err(HistoryError::TooSlow(line_of(words)));
        };
        let status = child.wait().map_err(|error| unrun(&error))?;
        Ok(Answer {
            good: status.success(),
            out,
            error: String::from_utf8_lossy(&error).trim().to_owned(),
        })
    }

    /// Starts a git whose output is piped.
    ///
    /// # Errors
    ///
    /// Where it cannot be run.
    pub(crate) fn begin<S: AsRef<OsStr>>(
        &self,
        words: &[S],
        stdin: Stdio,
    ) -> Result<Child, HistoryError> {
        Command::new("git")
            .arg("-C")
            .arg(&self.folder)
            .args(words)
            .env("GIT_NO_LAZY_FETCH", "1")
            .env("GIT_OPTIONAL_LOCKS", "0")
            .env("GIT_TERMINAL_PROMPT", "0")
            .env("LC_ALL", "C")
            .stdin(stdin)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .map_err(|error| unrun(&error))
    }
}

/// Ends a process and forgets it.
pub(crate) fn end(child: &mut Child) {
    // One that has ended already is as good.
    let _ = child.kill();
    let _ = child.wait();
}

/// All that a pipe gives, read on a thread of its own.
fn read_aside(pipe: Option<impl Read + Send + 'static>) -> Receiver<Vec<u8>> {
    let (done, read) = mpsc::channel();
    thread::spawn(move || {
        let mut bytes = Vec::new();
        if let Some(mut pipe) = pipe {
            // What came before a pipe broke is what there is.
            let _ = pipe.read_to_end(&mut bytes);
        }
        let _ = done.send(bytes);
    });
    read
}

fn unrun(error: &io::Error) -> HistoryError {
    HistoryError::NoGit(match error.kind() {
        io::ErrorKind::NotFound => "there is none on the path".to_owned(),
        _ => error.to_string(),
    })
}

fn line_of<S: AsRef<OsStr>>(words: &[S]) -> String {
    let words = words.iter().map(|it| it.as_ref().to_string_lossy());
    words.collect::<Vec<_>>().join(" ")
}
