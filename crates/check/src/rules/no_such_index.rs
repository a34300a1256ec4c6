//! `no-such-index`: no stop of the spindle gives as many places round as a cut is made at.

use crate::propose::{self, Proposal};
use crate::{Findings, PartView, Rule, Run, words};
use quillet_geometry::Length;
use quillet_model::Part;
use quillet_plan::{Indexed, PlanProblem};
use quillet_syntax::{Edit, Severity, Span, text};

pub(crate) static RULE: Rule = Rule {
    code: "no-such-index",
    severity: Severity::Note,
    limit: None,
    page: include_str!("no-such-index.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    for problem in view.problems() {
        let PlanProblem::NoIndex { cut, places } = *problem else {
            continue;
        };
        let Some(cut) = IndexedCut::of(view.part, cut) else {
            continue;
        };
        let stops = view.bench.map_or(&[][..], |bench| &bench.index);
        let stops: Vec<String> = stops.iter().map(ToString::to_string).collect();
        let message = text!(
            "the {} at {} places round; the bench's spindle locks at {}, which {} does not divide",
            cut.words,
            places,
            words::list(&stops),
            places
        );
        let hint = text!(
            "wrap a strip with {} even marks round the chuck and lock the spindle by that, or take a number that divides",
            places
        );
        let finding = RULE.at(cut.span, message).hint(hint);
        let finding = propose::with(finding, dividing(view, cut.span, places));
        findings.push_at(finding, cut.from, cut.to);
    }
}

/// What is cut at places round, and where it lies along the part.
struct IndexedCut {
    words: String,
    span: Span,
    from: Length,
    to: Length,
}

impl IndexedCut {
    fn of(part: &Part, cut: Indexed) -> Option<IndexedCut> {
        Some(match cut {
            Indexed::Side(id) => {
                let cut = part.side(id)?;
                IndexedCut {
                    words: format!("{} is made", cut.called()),
                    span: cut.span,
                    from: cut.stretch.from,
                    to: cut.stretch.to,
                }
            }
            Indexed::Beside(id) => {
                let holes = part.circle(id)?;
                let ends = [holes.from, holes.to].map(|it| part.station(holes.end, it));
                IndexedCut {
                    words: "holes on the pitch circle are drilled".to_owned(),
                    span: holes.span,
                    from: ends[0].min(ends[1]),
                    to: ends[0].max(ends[1]),
                }
            }
        })
    }
}

/// The next numbers below and above at which the spindle locks evenly, written in the place of this one.
fn dividing(view: &PartView<'_>, cut: Span, places: u32) -> Vec<Proposal> {
    let stops = view.bench.map_or(&[][..], |bench| &bench.index);
    let locks = |count: &u32| stops.iter().any(|stop| stop % count == 0);
    let below = (2..places).rev().find(locks);
    let above = (places + 1..=2 * places).find(locks);
    let written = view.design.text(cut);
    let number = written.find(WORD).map(|at| at + WORD.len());
    let Some(at) = number.filter(|at| says(&written[*at..], places)) else {
        return Vec::new();
    };
    let start = cut.start as usize + at;
    let span = Span::new(cut.file, start, start + places.to_string().len());
    let made = |count: u32| {
        let title = text!("make it at {} places", count);
        (title, vec![Edit::new(span, count.to_string().as_str())])
    };
    [below, above].into_iter().flatten().map(made).collect()
}

const WORD: &str = "indexed ";

/// Whether a text begins with this count, written as a number.
fn says(text: &str, count: u32) -> bool {
    let rest = text.strip_prefix(&count.to_string());
    rest.is_some_and(|rest| !rest.starts_with(|it: char| it.is_ascii_alphanumeric() || it == '.'))
}
