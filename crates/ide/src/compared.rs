//! What a file's text does to its pens beside what it was: lenses, and the whole of it.

use crate::lens::{Lens, LensTarget};
use crate::{Analysis, Past, Snapshot};
use quillet_compare::{
    Asked, Comparison, FindingState, MeasureKind, PenChange, PenState, SheetLine, Side, State,
    States,
};
use quillet_export::report::Compared;
use quillet_export::sheet;
use quillet_model::{Design, Pen};
use std::path::Path;

/// A comparison in the forms that an editor shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ComparedPages {
    /// One page with pictures.
    pub html: String,
    /// For a merge request.
    pub markdown: String,
    /// For programs.
    pub json: String,
}

/// A file beside what it was, in every form; none where one of its files cannot be read.
pub fn compared(now: &Snapshot, path: &Path, past: &Past) -> Option<ComparedPages> {
    let analysis = now.analysis(path, &|| false)?;
    let comparison = comparison(now, path, (past, &analysis), &sheet::lines)?;
    let compared = Compared {
        comparison: &comparison,
        old: past.called.clone(),
        new: "the editor".to_owned(),
        stretch: 1.0,
    };
    Some(ComparedPages {
        html: compared.html(),
        markdown: compared.markdown(),
        json: compared.json(),
    })
}

/// What a lens above each pen and part of a file says; nothing where nothing differs.
pub fn lenses_since(now: &Snapshot, path: &Path, analysis: &Analysis, past: &Past) -> Vec<Lens> {
    if let Some(told) = past.told(path, analysis.whole()) {
        return told;
    }
    let lenses = lenses_anew(now, path, analysis, past);
    past.tell(path, analysis.whole(), &lenses);
    lenses
}

fn lenses_anew(now: &Snapshot, path: &Path, analysis: &Analysis, past: &Past) -> Vec<Lens> {
    let file = analysis.files().first().map(|it| it.id);
    // A lens reports no steps.
    let none = |_: &Design, _: &Pen| -> Vec<SheetLine> { Vec::new() };
    let Some(comparison) = comparison(now, path, (past, analysis), &none) else {
        return Vec::new();
    };
    let design = &analysis.design;
    let mut lenses = Vec::new();
    let mut put = |span: quillet_syntax::Span, text: String| {
        if Some(span.file) == file {
            let opens = LensTarget::Comparison;
            lenses.push(Lens { span, text, opens });
        }
    };
    for change in comparison
        .changed()
        .filter(|it| it.state == PenState::Changed)
    {
        let Some(pen) = design.pen(&change.name) else {
            continue;
        };
        let said = of_pen(change);
        if !said.is_empty() {
            put(pen.name.span, format!("since {}: {said}", past.called));
        }
    }
    for part in &design.parts {
        let outlines = comparison.pens.iter().flat_map(|it| &it.outlines);
        let own = |it: &&quillet_compare::OutlineChange| {
            it.side == Side::Outside && *it.part == *part.name.text
        };
        let extremes = outlines.filter(own).flat_map(|it| [it.grown, it.shrunk]);
        let most = extremes
            .flatten()
            .max_by(|a, b| a.0.abs().total_cmp(&b.0.abs()));
        if let Some((by, at)) = most {
            put(part.name.span, format!("⌀ {by:+.2} at {at:.0}"));
        }
    }
    lenses
}

/// `+0.01 g, 1 new warning`
fn of_pen(change: &PenChange) -> String {
    let mass = change
        .measures
        .iter()
        .find(|it| it.kind == MeasureKind::Mass);
    let mass = mass.and_then(|it| Some(format!("{:+.2} g", it.new? - it.old?)));
    let mut said: Vec<String> = mass.into_iter().collect();
    for severity in ["error", "warning", "note"] {
        let own = change
            .reported()
            .filter(|it| it.finding.severity.word() == severity);
        let (mut new, mut gone) = (0, 0);
        for it in own {
            new += usize::from(it.is_new());
            gone += usize::from(it.state == FindingState::Gone);
        }
        for (count, word) in [(new, "new"), (gone, "gone")] {
            let plural = if count == 1 { "" } else { "s" };
            if count > 0 {
                said.push(match word {
                    "new" => format!("{count} new {severity}{plural}"),
                    _ => format!("{count} {severity}{plural} gone"),
                });
            }
        }
    }
    if said.is_empty() {
        said.push("changed".to_owned());
    }
    said.join(", ")
}

fn comparison(
    now: &Snapshot,
    path: &Path,
    (past, analysis): (&Past, &Analysis),
    steps: quillet_compare::StepsOf,
) -> Option<Comparison> {
    let bench = now.settings().bench.as_deref();
    let files = |is_there: bool| is_there.then(|| path.to_owned()).into_iter().collect();
    let was = State {
        source: past.source(),
        files: files(past.has(path)),
        name: &*past.name,
        known: &|path| past.analysis(path, bench),
    };
    let is = State {
        source: now,
        files: files(true),
        name: &*past.name,
        known: &|_| Some(analysis.whole().clone()),
    };
    let (states, problems) = States::of(&was, &is, &Asked::default());
    if !problems.is_empty() {
        return None;
    }
    let done = (0..states.len()).map(|job| states.work(job, steps));
    let done = done.collect::<Result<Vec<_>, String>>().ok()?;
    Some(states.gather(done))
}
