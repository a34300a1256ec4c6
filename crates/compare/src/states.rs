//! Which files and pens of two states belong together, and which of them differ at all.

mod read;

use crate::comparison::{Comparison, FileChange, PenChange, PenState};
use crate::job::{Done, Known, Names, StepsOf, Task};
use quillet_model::{Source, SourceFile, Units, load};
use quillet_syntax::RuleId;
use read::{Read, halved, sentence};
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

/// Files of a state.
pub struct State<'a> {
    /// Where they are read.
    pub source: &'a (dyn Source + Sync),
    /// The files asked for.
    pub files: Vec<PathBuf>,
    /// What a file is called: the same in both states where it is the same file.
    pub name: &'a (dyn Fn(&SourceFile) -> String + Sync),
    /// The analysis of a file, where one was made before; [`unknown`](crate::unknown) where none was.
    pub known: &'a Known<'a>,
}

/// Which pens are asked about.
#[derive(Clone, Debug, Default)]
pub struct Asked {
    /// This pen alone.
    pub pen: Option<String>,
    /// Against this pen instead of its own old self.
    pub with: Option<String>,
}

/// Two states, read; what differs is worked out job by job.
pub struct States<'a> {
    old: Vec<Read>,
    new: Vec<Read>,
    sides: [&'a State<'a>; 2],
    jobs: Vec<Job>,
    /// Pens of which nothing differs, with their files.
    same: Vec<(String, String)>,
    /// The job that reports what is written otherwise in a file.
    reporter: BTreeMap<String, usize>,
}

/// Two files that differ, by their numbers, and their pens.
#[derive(Default)]
struct Job {
    old: Option<usize>,
    new: Option<usize>,
    pens: Vec<(Option<String>, Option<String>)>,
}

impl<'a> States<'a> {
    /// Reads both states and finds what belongs together; a sentence for each file that cannot be read.
    pub fn of(old: &'a State<'a>, new: &'a State<'a>, asked: &Asked) -> (Self, Vec<String>) {
        let mut problems = Vec::new();
        let mut read = |state: &State| -> Vec<Read> {
            let each = state.files.iter().map(|path| {
                let files = match (state.known)(path) {
                    Some(known) => Ok(known.files().to_vec()),
                    None => load(path, state.source).map(|it| it.files),
                };
                (path, files)
            });
            each.filter_map(|(path, files)| match files {
                Ok(files) => Some(Read::of(path.clone(), &files, state.name)),
                Err(error) => {
                    problems.push(sentence(path, &error));
                    None
                }
            })
            .collect()
        };
        let (was, is) = (read(old), read(new));
        let mut states = States {
            old: was,
            new: is,
            sides: [old, new],
            jobs: Vec::new(),
            same: Vec::new(),
            reporter: BTreeMap::new(),
        };
        states.pair(asked);
        (states, problems)
    }

    /// How many jobs there are.
    pub fn len(&self) -> usize {
        self.jobs.len()
    }

    /// Whether nothing differs.
    pub fn is_empty(&self) -> bool {
        self.jobs.is_empty()
    }

    /// Whether a pen of this name is in either state.
    pub fn has_pen(&self, name: &str) -> bool {
        self.old
            .iter()
            .chain(&self.new)
            .any(|it| it.pens.iter().any(|pen| pen == name))
    }

    /// Whether there is no file on either side.
    pub fn has_no_file(&self) -> bool {
        self.old.is_empty() && self.new.is_empty()
    }

    /// Every pen of both states, by name.
    pub fn pens(&self) -> BTreeSet<&str> {
        let all = self.old.iter().chain(&self.new);
        all.flat_map(|it| it.pens.iter().map(String::as_str))
            .collect()
    }

    /// Works out a job.
    ///
    /// # Errors
    ///
    /// Where a file cannot be had; a sentence that names it.
    pub fn work(&self, job: usize, steps: StepsOf) -> Result<Done, String> {
        let Some(it) = self.jobs.get(job) else {
            return Ok(Done::default());
        };
        let half = |side: usize, reads: &'_ [Read], at: Option<usize>| {
            let state = self.sides[side];
            at.map(|at| (reads[at].path.clone(), state))
        };
        let (old, new) = (half(0, &self.old, it.old), half(1, &self.new, it.new));
        let half = |it: &'_ Option<(PathBuf, &'a State<'a>)>| it.clone();
        let (old, new) = (half(&old), half(&new));
        let names = it.pens.iter().map(|(a, b)| (a.as_deref(), b.as_deref()));
        let reports = |name: &str| self.reporter.get(name) == Some(&job);
        Task {
            old: old.as_ref().map(|(path, it)| halved(path, it)),
            new: new.as_ref().map(|(path, it)| halved(path, it)),
            pens: names.collect::<Vec<Names>>(),
            reports: &reports,
        }
        .work(steps)
    }

    /// All that came of the jobs, in one.
    pub fn gather(&self, done: impl IntoIterator<Item = Done>) -> Comparison {
        let mut pens: Vec<PenChange> = self.same.iter().map(|it| same(&it.0, &it.1)).collect();
        let mut files: BTreeMap<String, FileChange> = BTreeMap::new();
        let mut used = BTreeSet::new();
        for job in done {
            pens.extend(job.pens);
            used.extend(job.used);
            for file in job.files {
                let known = files.entry(file.name.clone()).or_default();
                known.name = file.name;
                known.changes.extend(file.changes);
                for change in file.findings {
                    let place = change.place.to_string();
                    if known
                        .findings
                        .iter()
                        .all(|it| it.place.to_string() != place)
                    {
                        known.findings.push(change);
                    }
                }
            }
        }
        for file in files.values_mut().filter(|it| used.contains(&it.name)) {
            file.findings
                .retain(|it| it.finding.rule != RuleId::UNUSED_ITEM);
        }
        files.retain(|_, it| {
            !it.changes.is_empty() || it.findings.iter().any(|it| it.state.counts())
        });
        pens.sort_by(|a, b| (&a.name, &a.file).cmp(&(&b.name, &b.file)));
        Comparison {
            files: files.into_values().collect(),
            pens,
        }
    }

    /// Pairs pens by name, in the same file first; a file without pens with its own old self.
    fn pair(&mut self, asked: &Asked) {
        let wanted = |name: &String| asked.pen.as_ref().is_none_or(|pen| pen == name);
        let mut jobs: BTreeMap<(Option<usize>, Option<usize>), Job> = BTreeMap::new();
        let mut put = |old, new, pen: Option<(Option<String>, Option<String>)>| {
            let job = jobs.entry((old, new)).or_default();
            (job.old, job.new) = (old, new);
            job.pens.extend(pen);
        };
        let mut left: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
        for (at, file) in self.old.iter().enumerate() {
            for pen in file
                .pens
                .iter()
                .filter(|it| asked.with.is_some() || wanted(it))
            {
                left.entry(pen).or_default().push(at);
            }
        }
        for (at, file) in self.new.iter().enumerate() {
            let self_before = self.old.iter().position(|it| it.name == file.name);
            for pen in file.pens.iter().filter(|it| wanted(it)) {
                let before = asked.with.as_ref().unwrap_or(pen);
                let known = left.get_mut(before.as_str()).filter(|it| !it.is_empty());
                let found = known.map(|all| {
                    let here = all.iter().position(|it| Some(*it) == self_before);
                    all.remove(here.unwrap_or(0))
                });
                let was = found.map(|_| before.clone());
                put(
                    found.or(self_before),
                    Some(at),
                    Some((was, Some(pen.clone()))),
                );
            }
            if file.pens.is_empty() && asked.pen.is_none() && self_before.is_some() {
                put(self_before, Some(at), None);
            }
        }
        for (pen, all) in left.into_iter().filter(|_| asked.with.is_none()) {
            for at in all {
                let now = self.new.iter().position(|it| it.name == self.old[at].name);
                put(Some(at), now, Some((Some(pen.to_owned()), None)));
            }
        }
        self.keep(jobs.into_values());
    }

    /// Keeps the jobs in which anything differs; the pens of the others are the same.
    fn keep(&mut self, jobs: impl Iterator<Item = Job>) {
        let differ = |job: &Job| match (job.old, job.new) {
            (Some(old), Some(new)) => self.old[old].texts != self.new[new].texts,
            _ => true,
        };
        for job in jobs {
            let crossed = job.pens.iter().any(|it| it.0 != it.1);
            if crossed || differ(&job) {
                self.jobs.push(job);
            } else if let Some(file) = job.new {
                let names = job.pens.into_iter().filter_map(|it| it.1);
                let file = &self.new[file].name;
                self.same.extend(names.map(|it| (it, file.clone())));
            }
        }
        for (at, job) in self.jobs.iter().enumerate() {
            let files = job.new.map(|it| self.new[it].texts.keys());
            for file in files.into_iter().flatten() {
                self.reporter.entry(file.clone()).or_insert(at);
            }
        }
    }
}

fn same(name: &str, file: &str) -> PenChange {
    PenChange {
        name: name.to_owned(),
        from: None,
        against: None,
        file: file.to_owned(),
        state: PenState::Same,
        changes: Vec::new(),
        outlines: Vec::new(),
        measures: Vec::new(),
        findings: Vec::new(),
        steps: Vec::new(),
        units: Units::default(),
        pair: None,
    }
}
