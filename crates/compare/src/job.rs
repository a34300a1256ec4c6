//! Two files with all they use, side by side.

use crate::change::Change;
use crate::comparison::{FileChange, PenChange, PenPair, PenState};
use crate::effect::findings::{self, Found};
use crate::effect::steps::{self, SheetLine};
use crate::effect::{measures, outline};
use crate::written::rename::{Called, Renamed, renamed};
use crate::written::statement::{Statement, items};
use crate::written::{self, reach};
use quillet_model::{Design, Pen, ReadError, Source, SourceFile, Units};
use quillet_pen::Analysis;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::Arc;

/// What the sheet of a pen says, line by line.
pub type StepsOf<'a> = &'a (dyn Fn(&Design, &Pen) -> Vec<SheetLine> + Sync);

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
}

/// A pen by its names in both states; none where it is not there.
pub(crate) type Names<'a> = (Option<&'a str>, Option<&'a str>);

/// Two files of two states, and the pens of theirs that are to be told of.
pub(crate) struct Task<'a> {
    pub(crate) old: Option<Half<'a>>,
    pub(crate) new: Option<Half<'a>>,
    pub(crate) pens: Vec<Names<'a>>,
    /// The files of which this task tells what is written otherwise.
    pub(crate) tells: &'a dyn Fn(&str) -> bool,
}

/// One state's analysis with the items of its files, by file.
struct State {
    analysis: Arc<Analysis>,
    /// What the file asked for is called.
    root: String,
    files: BTreeMap<String, Vec<Statement>>,
}

impl State {
    fn of(analysis: Analysis, half: &Half) -> State {
        let root = analysis
            .files()
            .first()
            .map_or_else(String::new, |it| (half.name)(it));
        let files = analysis.files().iter();
        let files = files.map(|it| ((half.name)(it), items(it))).collect();
        let analysis = Arc::new(analysis);
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
        let read = |half: &Half, source: &dyn Source| {
            let why = |error: ReadError| format!("{}: {error}", half.path.display());
            let analysis = Analysis::of(half.path, source, None).map_err(why)?;
            Ok::<State, String>(State::of(analysis, half))
        };
        let new = self
            .new
            .as_ref()
            .map(|it| read(it, it.source))
            .transpose()?;
        let mut old = self
            .old
            .as_ref()
            .map(|it| read(it, it.source))
            .transpose()?;
        let mut renames = Vec::new();
        if let (Some(was), Some(is), Some(half)) = (&old, &new, &self.old) {
            renames = renamed(&was.items(), &is.items());
            if !renames.is_empty() {
                let called = Called::of(half.source, &was.analysis.design, &renames);
                old = Some(read(half, &called)?);
            }
        }
        let mut done = Done::default();
        let files = changed_files(old.as_ref(), new.as_ref(), &renames);
        let found = [(&old, &self.old), (&new, &self.new)].map(|(state, half)| {
            let half = half.as_ref()?;
            Some(Found::of(&state.as_ref()?.analysis, half.name))
        });
        let both = (old.as_ref(), new.as_ref());
        done.pens = self
            .matched(&renames)
            .into_iter()
            .filter_map(|(names, from)| pen(both, names, from, &found, &files, steps))
            .collect();
        let of_none = findings::changes(
            found[0].as_ref().map(|it| (it, None)),
            found[1].as_ref().map(|it| (it, None)),
        );
        done.files = files
            .into_iter()
            .filter(|it| (self.tells)(&it.name))
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
                told: format!("renamed {}", it.new),
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

/// What has become of a pen; none where neither state has it.
fn pen(
    (old, new): (Option<&State>, Option<&State>),
    names: Names,
    from: Option<String>,
    found: &[Option<Found>; 2],
    files: &[FileChange],
    steps: StepsOf,
) -> Option<PenChange> {
    let of = |state: Option<&State>, name: Option<&str>| {
        let name = name?;
        Some((state?.analysis.clone(), name.to_owned()))
            .filter(|it| it.0.design.pen(name).is_some())
    };
    let (was, is) = (of(old, names.0), of(new, names.1));
    let (analysis, name) = is.as_ref().or(was.as_ref())?;
    let mut change = PenChange {
        name: name.clone(),
        from,
        against: names
            .0
            .filter(|it| Some(*it) != names.1 && names.1.is_some())
            .map(str::to_owned),
        file: new.or(old)?.root.clone(),
        state: PenState::Same,
        changes: Vec::new(),
        outlines: Vec::new(),
        measures: Vec::new(),
        findings: findings::changes(
            found[0]
                .as_ref()
                .zip(was.as_ref())
                .map(|(it, pen)| (it, Some(&*pen.1))),
            found[1]
                .as_ref()
                .zip(is.as_ref())
                .map(|(it, pen)| (it, Some(&*pen.1))),
        ),
        steps: Vec::new(),
        units: Units::default(),
        pair: None,
    };
    change.units = analysis.design.units();
    let (Some(was), Some(is)) = (was, is) else {
        change.state = match new.is_some() && names.1.is_some() {
            true => PenState::Come,
            false => PenState::Gone,
        };
        return Some(change);
    };
    change.changes = written_of(old?, new?, &is, &was, files);
    change.pair = Some(PenPair { old: was, new: is });
    effects(&mut change, steps);
    // The texts differ, or nobody would have looked: then in layout, comments or order.
    let laid_out = files.is_empty() && names.0 == names.1;
    let written = laid_out || !change.changes.is_empty() || change.from.is_some();
    change.state = match (change.has_effect(), written) {
        (true, _) => PenState::Changed,
        (false, true) => PenState::Written,
        (false, false) => PenState::Same,
    };
    Some(change)
}

/// What is written otherwise of what a pen is made of.
fn written_of(
    old: &State,
    new: &State,
    is: &(Arc<Analysis>, String),
    was: &(Arc<Analysis>, String),
    files: &[FileChange],
) -> Vec<Change> {
    let design = &is.0.design;
    let Some(pen) = design.pen(&is.1) else {
        return Vec::new();
    };
    if was.1 != is.1 {
        // Two pens: what their own lines say.
        let item = |state: &State, name: &str| {
            let name = format!("pen {name}");
            state
                .items()
                .into_iter()
                .find(|it| it.name() == name)
                .cloned()
        };
        let mut found = Vec::new();
        if let (Some(a), Some(b)) = (item(old, &was.1), item(new, &is.1)) {
            written::of_item(&b.name(), &a, &b, &mut found);
        }
        return found;
    }
    let reached = reach::reached(&new.items(), design, pen);
    let all = files.iter().flat_map(|it| &it.changes);
    let of_pen = all.filter(|it| {
        let is = match it.renamed {
            true => it.item.replace(&it.old, &it.new),
            false => it.item.clone(),
        };
        // What is gone was reached, or it would not have been there.
        reached.contains(&is) || it.block.is_empty() && it.new.is_empty()
    });
    of_pen.cloned().collect()
}

fn effects(change: &mut PenChange, steps: StepsOf) {
    let Some(pair) = &change.pair else { return };
    let (was, is) = (&pair.old, &pair.new);
    let (Some(old), Some(new)) = (was.0.design.pen(&was.1), is.0.design.pen(&is.1)) else {
        return;
    };
    let parts = pair.parts();
    let outlines = parts.iter().flat_map(|(was, is)| outline::changes(was, is));
    let outlines = outlines.collect();
    let measures = measures::changes((old, was.0.examined()), (new, is.0.examined()));
    let lines = [(&was.0, old), (&is.0, new)].map(|(it, pen)| steps(&it.design, pen));
    let steps = steps::changes(&lines[0], &lines[1]);
    (change.outlines, change.measures, change.steps) = (outlines, measures, steps);
}
