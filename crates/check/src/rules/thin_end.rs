//! `thin-end`: a closed end that is thin under the drill's point.

use crate::{Findings, PartView, Role, Rule, Run, Threshold, Wall, propose, words};
use quillet_geometry::Length;
use quillet_model::{End, Origin};
use quillet_syntax::{Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "thin-end",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("thin-end.md"),
    run: Run::Part(run),
};

/// Common practice, no published source.
const USUAL: Length = Length::from_nm(1_500_000);

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    let wanted = view.length_limit(&RULE, USUAL);
    let ends = view.walls().iter().filter(|wall| wall.role == Role::End);
    for end in [End::First, End::Second] {
        let beyond = |wall: &&Wall| nearer_end(view, wall) == end;
        let Some(wall) = ends.clone().filter(beyond).min_by_key(|wall| wall.least) else {
            continue;
        };
        if wall.least >= wanted || !wall.least.is_positive() {
            continue;
        }
        let short = wanted - wall.least;
        // What is cut from the side may lie nearer than the end does.
        let cut = matches!(wall.outer, Origin::Side(_));
        let (beyond, label) = match cut {
            true => (wall.outer_words(part), "cut here"),
            false => (text!("the {}", part.end_name(end)), "the outside beyond it"),
        };
        let finding = RULE
            .at(
                wall.inner_span(part),
                text!(
                    "{} left between {} and {}; {} wanted at a closed end",
                    words::against(wall.least, wanted),
                    wall.inner_words(part),
                    beyond,
                    wanted
                ),
            )
            .label(wall.outer_span(part), label)
            .hint(text!(
                "drill {} less deep",
                Size::Rounded(Length::mm((short.to_mm() * 10.0).ceil() / 10.0), 1)
            ));
        let finding = propose::with(finding, propose::wall(view, wall, wanted));
        findings.push_at(finding, wall.from, wall.to);
    }
}

/// The end a hole's bottom lies before.
fn nearer_end(view: &PartView<'_>, wall: &Wall) -> End {
    let part = view.part;
    let cut = wall.inner.feature().and_then(|at| part.features.get(at));
    let holes = wall.beside().and_then(|it| part.circle(it));
    let cut_from = cut.map(|it| it.end).or(holes.map(|it| it.end));
    cut_from.map_or(End::Second, End::other)
}
