//! Two files with all they use, side by side.

mod pen;

use crate::change::Change;
use crate::comparison::{FileChange, PenChange};
use crate::effect::findings::{self, Found};
use crate::effect::steps::SheetLine;
use crate::written;
use crate::written::rename::{Called, Renamed, renamed};
use crate::written::statement::{Statement, items};
use quillet_model::{Design, Pen, ReadError, Source, SourceFile};
use quillet_pen::Analysis;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::Arc;

/// What the sheet of a pen says, line by line.
pub type StepsOf<'a> = &'a (dyn Fn(&Design, &Pen) -> Vec<SheetLine> + Sync);

/// Gives the analysis of a file, where one was made before.
pub type Known<'a> = dyn Fn(&Path) -> Option<Arc<Analysis>> + Sync + 'a;

/// No analysis was made before.
pub fn unknown(_: &Path) -> Option<Arc<Analysis>> {
    None
}

/// What came of a job.
#[derive(Debug, Default)]
pub struct Done {
    pub(crate) files: Vec<FileChange>,
    pub(crate) pens: Vec<PenChange>,
    /// The files that others use, by name.
    pub(crate) used: BTreeSet<String>,
}

/// A file of one state, and how its files are called.
#[derive(Clone, Copy)]
pub(crate) struct Half<'a> {
    pub(crate) path: &'a Path,
    pub(crate) source: &'a (dyn Source + Sync),
    pub(crate) name: &'a (dyn Fn(&SourceFile) -> String + Sync),
    pub(crate) known: &'a Known<'a>,
}

/// A pen by its names in both states; none where it is not there.
pub(crate) type Names<'a> = (Option<&'a str>, Option<&'a str>);

/// Two files of two states, and the pens of theirs that are to be reported.
pub(crate) struct Task<'a> {
    pub(crate) old: Option<Half<'a>>,
    pub(crate) new: Option<Half<'a>>,
    pub(crate) pens: Vec<Names<'a>>,
    /// The files of which this task reports what is written otherwise.
    pub(crate) reports: &'a dyn Fn(&str) -> bool,
}

/// One state's analysis with the items of its files, by file.
struct State {
    analysis: Arc<Analysis>,
    /// What the file asked for is called.
    root: String,
    files: BTreeMap<String, Vec<Statement>>,
}

impl State {
    fn of(analysis: Arc<Analysis>, half: &Half) -> State {
        let root = analysis
            .files()
            .first()
            .map_or_else(String::new, |it| (half.name)(it));
        let files = analysis.files().iter();
        let files = files.map(|it| ((half.name)(it), items(it))).collect();
        State {
            analysis,
            root,
            files,
        }
    }

    fn items(&self) -> Vec<&Statement> {
        self.files.values().flatten().collect()
    }
}

impl Task<'_> {
    /// Works it out.
    ///
    /// # Errors
    ///
    /// Where a file cannot be had; a sentence that names it.
    pub(crate) fn work(&self, steps: StepsOf) -> Result<Done, String> {
        let named = |half: &Half, it: Result<Analysis, ReadError>| {
            it.map_err(|error| format!("{}: {error}", half.path.display()))
        };
        let read = |half: &Half| {
            let analysis = match (half.known)(half.path) {
                Some(known) => known,
                None => Arc::new(named(half, Analysis::of(half.path, half.source, None))?),
            };
            Ok::<State, String>(State::of(analysis, half))
        };
        let new = self.new.as_ref().map(read).transpose()?;
        let mut old = self.old.as_ref().map(read).transpose()?;
        let mut renames = Vec::new();
        if let (Some(was), Some(is), Some(half)) = (&old, &new, &self.old) {
            renames = renamed(&was.items(), &is.items());
            if !renames.is_empty() {
                let called = Called::of(half.source, &was.analysis.design, &renames);
                let analysis = named(half, was.analysis.again(&called))?;
                old = Some(State::of(Arc::new(analysis), half));
            }
        }
        let mut done = Done::default();
        let files = changed_files(old.as_ref(), new.as_ref(), &renames);
        let found = [(&old, &self.old), (&new, &self.new)].map(|(state, half)| {
            let half = half.as_ref()?;
            Some(Found::of(&state.as_ref()?.analysis, half.source, half.name))
        });
        let both = (old.as_ref(), new.as_ref());
        done.pens = self
            .matched(&renames)
            .into_iter()
            .filter_map(|(names, from)| pen::pen(both, names, from, &found, &files, steps))
            .collect();
        let of_none = findings::changes(
            found[0].as_ref().map(|it| (it, None)),
            found[1].as_ref().map(|it| (it, None)),
        );
        done.files = files
            .into_iter()
            .filter(|it| (self.reports)(&it.name))
            .collect();
        for change in of_none {
            let name = change.place.file.clone();
            let own = done.files.iter_mut().find(|it| it.name == name);
            match own {
                Some(file) => file.findings.push(change),
                None => done.files.push(FileChange {
                    name,
                    findings: vec![change],
                    ..FileChange::default()
                }),
            }
        }
        if let (Some(state), Some(half)) = (&new, &self.new) {
            let design = &state.analysis.design;
            let used = design.uses.iter().filter_map(|it| design.file(it.1));
            done.used.extend(used.map(half.name));
        }
        Ok(done)
    }

    /// The pens, those that are called otherwise in pairs with what they were called.
    fn matched(&self, renames: &[Renamed]) -> Vec<(Names<'_>, Option<String>)> {
        let was = |name: &str| {
            let own = renames.iter().find(|it| it.kind == "pen" && it.new == name);
            own.map(|it| it.old.clone())
        };
        let moved = |name: &str| renames.iter().any(|it| it.kind == "pen" && it.old == name);
        let each = self.pens.iter().filter_map(|names| match *names {
            (Some(old), None) if moved(old) => None,
            (None, Some(new)) => match was(new) {
                // The old side bears the new name by now.
                Some(from) => Some(((Some(new), Some(new)), Some(from))),
                None => Some((*names, None)),
            },
            names => Some((names, None)),
        });
        each.collect()
    }
}

/// What differs in the files of both, by file.
fn changed_files(old: Option<&State>, new: Option<&State>, renames: &[Renamed]) -> Vec<FileChange> {
    let (Some(old), Some(new)) = (old, new) else {
        return Vec::new();
    };
    // What stands between a merge's markers is no statement.
    if [old, new].iter().any(|it| it.analysis.design.is_merging()) {
        return Vec::new();
    }
    let none = Vec::new();
    let mut all = Vec::new();
    for (name, is) in &new.files {
        let was = old.files.get(name).unwrap_or(&none);
        let called = renames.iter().filter_map(|it| {
            let item = format!("{} {}", it.kind, it.new);
            is.iter().any(|own| own.name() == item).then(|| Change {
                item: format!("{} {}", it.kind, it.old),
                block: String::new(),
                old: it.old.clone(),
                new: it.new.clone(),
                diff: format!("renamed {}", it.new),
                renamed: true,
            })
        });
        let mut changes: Vec<Change> = called.collect();
        changes.extend(written::changes(was, is));
        if !changes.is_empty() {
            all.push(FileChange {
                name: name.clone(),
                changes,
                findings: Vec::new(),
            });
        }
    }
    all
}
