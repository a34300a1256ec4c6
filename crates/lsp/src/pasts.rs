//! The revisions that documents are compared with, each kept for as long as it is what it was.
//!
//! Git is asked when a document is opened or saved and when its own folder shows that something was
//! committed or checked out; in between nothing runs.

use quillet_history::{INDEX, Repository};
use quillet_ide::Past;
use quillet_model::SourceFile;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, mpsc};
use std::time::{Duration, SystemTime};

/// Git is waited for so long before lenses go without it.
const PATIENCE: Duration = Duration::from_secs(2);

/// The revisions by the folder asked from and their name.
#[derive(Debug, Default)]
pub(crate) struct Pasts {
    kept: Mutex<BTreeMap<(PathBuf, String), Kept>>,
    /// Held while git is asked: who comes meanwhile gets the same answer.
    asking: Mutex<()>,
    /// How often it was said that all are to be asked for again.
    round: AtomicUsize,
    /// What the log is to be told, and whether it has been.
    lines: Mutex<BTreeMap<String, bool>>,
}

/// A revision as it was asked for last.
#[derive(Clone, Debug)]
struct Kept {
    answer: Answer,
    /// The round in which it was asked for.
    round: usize,
}

/// What git answered: a revision, or why there is none.
type Answer = Result<Arc<Known>, String>;

/// A revision, and what shows that it may have become another.
#[derive(Debug)]
struct Known {
    repository: Repository,
    git_folder: PathBuf,
    marks: Marks,
    tree: String,
    past: Arc<Past>,
}

/// When what git writes at every commit and checkout was written last, and how long it is.
type Marks = [Option<(SystemTime, u64)>; 3];

impl Pasts {
    /// A revision as seen from a document; waits for git no longer than lenses may.
    ///
    /// # Errors
    ///
    /// A sentence that says why it cannot be had; the log is told once.
    pub(crate) fn of(self: &Arc<Self>, document: &Path, name: &str) -> Result<Arc<Past>, String> {
        if let Some(current) = self.current(&key(document, name)) {
            return current.map(|it| it.past.clone());
        }
        let (done, found) = mpsc::channel();
        let (pasts, document, name) = (self.clone(), document.to_owned(), name.to_owned());
        std::thread::spawn(move || {
            // Who asked may have lost patience; what is found is kept.
            let _ = done.send(pasts.patiently(&document, &name));
        });
        let slow = "git takes too long";
        found
            .recv_timeout(PATIENCE)
            .unwrap_or_else(|_| Err(slow.to_owned()))
    }

    /// The same, however long git takes.
    ///
    /// # Errors
    ///
    /// A sentence that says why it cannot be had.
    pub(crate) fn patiently(&self, document: &Path, name: &str) -> Result<Arc<Past>, String> {
        let key = key(document, name);
        let _asking = lock(&self.asking);
        if let Some(current) = self.current(&key) {
            return current.map(|it| it.past.clone());
        }
        let round = self.round.load(Ordering::SeqCst);
        let before = lock(&self.kept).get(&key).map(|it| it.answer.clone());
        let known = before.as_ref().and_then(|it| it.as_ref().ok());
        let answer = ask(&key.0, name, known);
        if let Err(why) = &answer {
            self.say(format!("not compared with {name}: {why}"));
        }
        let past = answer.clone().map(|it| it.past.clone());
        lock(&self.kept).insert(key, Kept { answer, round });
        past
    }

    /// All are to be asked for again: a document was opened or saved.
    pub(crate) fn look_again(&self) {
        self.round.fetch_add(1, Ordering::SeqCst);
    }

    /// What is kept of a revision as seen from a document, were it to be asked for again or not; none
    /// where it never was, and none in it where it cannot be had.
    pub(crate) fn known(&self, document: &Path, name: &str) -> Option<Option<Arc<Past>>> {
        let kept = lock(&self.kept);
        let kept = kept.get(&key(document, name))?;
        Some(kept.answer.as_ref().ok().map(|it| it.past.clone()))
    }

    /// Puts a line into the log, once.
    pub(crate) fn say(&self, line: String) {
        lock(&self.lines).entry(line).or_insert(false);
    }

    /// The lines that the log has not been told.
    pub(crate) fn take_unsaid(&self) -> Vec<String> {
        let mut lines = lock(&self.lines);
        let unsaid = lines.iter_mut().filter(|it| !*it.1);
        let told = unsaid.map(|(line, said)| {
            *said = true;
            line.clone()
        });
        told.collect()
    }

    /// What is kept, where it need not be asked for again.
    fn current(&self, key: &(PathBuf, String)) -> Option<Answer> {
        let round = self.round.load(Ordering::SeqCst);
        let kept = lock(&self.kept)
            .get(key)
            .filter(|it| it.round == round)
            .cloned()?;
        let moved = |it: &Arc<Known>| marks(&it.git_folder) != it.marks;
        (!kept.answer.as_ref().is_ok_and(moved)).then_some(kept.answer)
    }
}

fn key(document: &Path, name: &str) -> (PathBuf, String) {
    let folder = document.parent().unwrap_or(Path::new(""));
    (folder.to_owned(), name.to_owned())
}

/// Asks git; where the tree is the one that is known, all that was worked out of it stays.
fn ask(folder: &Path, name: &str, known: Option<&Arc<Known>>) -> Answer {
    let said = |error: quillet_history::HistoryError| error.to_string();
    let (repository, git_folder) = match known.filter(|it| it.git_folder.is_dir()) {
        Some(known) => (known.repository.clone(), known.git_folder.clone()),
        None => {
            let repository = Repository::around(folder).map_err(said)?;
            let git_folder = repository.git_folder().map_err(said)?;
            (repository, git_folder)
        }
    };
    // Taken first: what moves meanwhile is seen the next time.
    let marks = marks(&git_folder);
    let (tree, revision) = match name {
        INDEX => (INDEX.to_owned(), repository.revision(name).map_err(said)?),
        _ => {
            let tree = repository.tree(name).map_err(said)?;
            if let Some(known) = known.filter(|it| it.tree == tree && it.git_folder == git_folder) {
                let past = known.past.clone();
                return Ok(Arc::new(Known {
                    repository,
                    git_folder,
                    marks,
                    tree,
                    past,
                }));
            }
            let revision = repository.of_tree(&tree).map_err(said)?;
            (tree, revision)
        }
    };
    let top = repository.top.clone();
    let called = move |file: &SourceFile| top.called(&file.path);
    let past = Arc::new(Past::of(name, Box::new(revision), Box::new(called)));
    Ok(Arc::new(Known {
        repository,
        git_folder,
        marks,
        tree,
        past,
    }))
}

fn marks(git_folder: &Path) -> Marks {
    ["HEAD", "logs/HEAD", "index"].map(|name| {
        let about = std::fs::metadata(git_folder.join(name)).ok()?;
        Some((about.modified().ok()?, about.len()))
    })
}

fn lock<T>(shared: &Mutex<T>) -> MutexGuard<'_, T> {
    // What is kept here is only ever replaced whole.
    shared.lock().unwrap_or_else(PoisonError::into_inner)
}
