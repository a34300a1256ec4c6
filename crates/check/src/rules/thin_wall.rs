//! `thin-wall`: a wall thinner than its material and role allow.

use crate::{Findings, PartView, Role, Rule, Run, Threshold, Wall, words};
use quillet_geometry::Length;
use quillet_model::{Cut, DrillName, Feature, Hand, Material, Origin};
use quillet_standards::material::WarnError;
use quillet_syntax::{Finding, Severity};

pub(crate) static RULE: Rule = Rule {
    code: "thin-wall",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("thin-wall.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let mut thinnest: Vec<(&Wall, Wanted)> = Vec::new();
    for wall in view.walls() {
        let Some(wanted) = Wanted::of(view, wall) else {
            continue;
        };
        if wall.least + UNSEEN >= wanted.warn {
            continue;
        }
        match thinnest.iter_mut().find(|known| known.0.is_like(wall)) {
            Some(known) if known.0.least <= wall.least => {}
            Some(known) => *known = (wall, wanted),
            None => thinnest.push((wall, wanted)),
        }
    }
    // A wall of nothing is `broken-through`, and thinness beside it no news.
    thinnest.retain(|(wall, _)| wall.least.is_positive());
    for (wall, wanted) in thinnest {
        findings.push_at(finding(view, wall, &wanted), wall.from, wall.to);
    }
}

/// Less than this is missing from a wall on no caliper, nor in the message.
const UNSEEN: Length = Length::from_nm(1_000);

/// The thickness wanted of a wall.
struct Wanted {
    warn: Length,
    error: Length,
    material: String,
}

impl Wanted {
    fn of(view: &PartView<'_>, wall: &Wall) -> Option<Wanted> {
        // Of a wall through two pieces of a stack, what wants more.
        let wants = wall.materials(view.part).into_iter();
        let wants = wants.filter_map(|material| Self::in_material(view, wall, material));
        wants.max_by_key(|it| it.warn)
    }

    fn in_material(view: &PartView<'_>, wall: &Wall, material: &Material) -> Option<Wanted> {
        let usual = material.kind.least_walls();
        let both = |warn: Length| WarnError {
            warn,
            error: Length::ZERO,
        };
        let by_role = match wall.role {
            Role::ThreadOverThread => usual.thread_over_thread,
            Role::Tenon => usual.tenon_over_bore,
            Role::Lip => both(usual.lip),
            Role::Plain => both(usual.plain),
            Role::End => return None,
        };
        let share = material.wall.map_or(1.0, |wall| wall.ratio(usual.plain));
        let (warn, error) = (by_role.warn.scaled(share), by_role.error.scaled(share));
        let warn = view.length_limit(&RULE, warn);
        Some(Wanted {
            warn,
            error: error.min(warn),
            material: material.name.to_string(),
        })
    }
}

fn finding(view: &PartView<'_>, wall: &Wall, wanted: &Wanted) -> Finding {
    let part = view.part;
    let mut message = format!(
        "{} of wall between {} and {}; {} wanted, {} in {}",
        words::against(wall.least, wanted.warn),
        wall.outer_words(part),
        wall.inner_words(part),
        wanted.warn,
        wall.role.words(),
        wanted.material,
    );
    let worst = wall.worst(part, &Hand::at(view.bench));
    if !worst.is_positive() {
        message += "; nothing at the limits of size";
    } else if worst < wall.least {
        message += &format!("; {:.2} mm at the limits of size", worst.to_mm());
    }
    let finding = RULE.at(wall.inner_span(part), message).label(
        wall.outer_span(part),
        format!("{} lies over it", wall.outer_words(part)),
    );
    let finding = cure(view, wall, wanted, finding);
    match wall.least < wanted.error {
        true => Finding {
            severity: Severity::Error,
            ..finding
        },
        false => finding,
    }
}

/// What would leave the wall that is wanted: a smaller hole, or more outside.
fn cure(view: &PartView<'_>, wall: &Wall, wanted: &Wanted, finding: Finding) -> Finding {
    let short = wanted.warn - wall.least;
    let feature = |origin: Origin| origin.feature().and_then(|at| view.part.features.get(at));
    let outer = feature(wall.outer).and_then(|outer| outer.thread());
    if let Some((thread, _)) = outer {
        let major = words::tenth_up(thread.thread.major() + short.twice());
        return finding.hint(format!(
            "an outside thread of ⌀{} or more leaves {}",
            major.mm_text(2),
            wanted.warn
        ));
    }
    let Some(hole) = feature(wall.inner).filter(|hole| hole.thread().is_none()) else {
        let outside = words::tenth_up(wall.outer_dia + short.twice());
        return finding.hint(format!(
            "⌀{} outside leaves {}",
            outside.mm_text(2),
            wanted.warn
        ));
    };
    let smaller = hole.dia().map(|dia| words::tenth_down(dia - short.twice()));
    let Some(smaller) = smaller.filter(|dia| dia.is_positive()) else {
        return finding.hint(format!("keep {} of wall here", wanted.warn));
    };
    let finding = finding.hint(format!(
        "a hole of ⌀{} or less leaves {}",
        smaller.mm_text(2),
        wanted.warn
    ));
    match resizable(hole) {
        true => finding.fix(
            format!("make it ⌀{}", smaller.mm_text(2)),
            hole.size_span,
            smaller.mm_text(2),
        ),
        false => finding,
    }
}

/// Whether the size stands in the text as a diameter that an edit can change.
fn resizable(hole: &Feature) -> bool {
    match &hole.cut {
        Cut::Drill {
            tool, assumed_for, ..
        } => *tool == DrillName::Diameter && assumed_for.is_none(),
        Cut::Bore { tool, .. } | Cut::Ream { tool, .. } => *tool == DrillName::Diameter,
        Cut::Recess { .. } => true,
        _ => false,
    }
}
