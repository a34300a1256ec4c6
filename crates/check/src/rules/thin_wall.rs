//! `thin-wall`: a wall thinner than its material and role allow.

use crate::layers::{self, Layers};
use crate::{Findings, PartView, Role, Rule, Run, Threshold, Wall, propose, words};
use quillet_geometry::Length;
use quillet_model::{Hand, Material, Origin};
use quillet_standards::material::{Family, WarnError};
use quillet_syntax::{Finding, Severity, Size, SizedText, text};

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
    /// What is turned with it and stands behind it.
    with: Option<Layers>,
}

/// The least of a layer that is turned with others, in resin or wood and in metal; common practice, no
/// published source.
const LAYER: Length = Length::from_nm(500_000);
const METAL_LAYER: Length = Length::from_nm(300_000);

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
        let with = layers::beside(view, wall);
        let least = match material.kind.family() {
            Family::Metal => METAL_LAYER,
            _ => LAYER,
        };
        // All layers together are as thick as one alone would be, and none is a skin.
        let layered = |wanted: Length| match &with {
            Some(others) => least.max(wanted - others.least).min(wanted),
            None => wanted,
        };
        let warn = layered(warn);
        Some(Wanted {
            warn,
            error: error.min(warn),
            material: material.name.to_string(),
            with,
        })
    }
}

fn finding(view: &PartView<'_>, wall: &Wall, wanted: &Wanted) -> Finding {
    let part = view.part;
    let message = text!(
        "{} of wall between {} and {}; {} wanted, {} in {}",
        words::against(wall.least, wanted.warn),
        wall.outer_words(part),
        wall.inner_words(part),
        words::limit(wanted.warn, wall.least),
        wall.role.words(),
        wanted.material,
    );
    let message = match &wanted.with {
        Some(others) => message.then(text!(" turned with {}", words::list(&others.names))),
        None => message,
    };
    let message = match view.shown {
        true => at_worst(view, wall, message),
        false => message,
    };
    let finding = RULE.at(wall.inner_span(part), message).label(
        wall.outer_span(part),
        text!("{} lies over it", wall.outer_words(part)),
    );
    let finding = match view.shown {
        true => propose::with(
            finding.hint(advice(view, wall, wanted)),
            propose::wall(view, wall, wanted.warn),
        ),
        false => finding,
    };
    match wall.least < wanted.error {
        true => Finding {
            severity: Severity::Error,
            ..finding
        },
        false => finding,
    }
}

/// With what is left of the wall at the limits of size, where that is less: the part is cut anew for it.
fn at_worst(view: &PartView<'_>, wall: &Wall, message: SizedText) -> SizedText {
    match wall.worst(view.part, &Hand::at(view.bench)) {
        none if !none.is_positive() => message.then("; nothing at the limits of size"),
        less if less < wall.least => {
            message.then(text!("; {} at the limits of size", Size::Rounded(less, 2)))
        }
        _ => message,
    }
}

/// What would leave the wall that is wanted: a larger thread, a smaller hole, or more outside.
fn advice(view: &PartView<'_>, wall: &Wall, wanted: &Wanted) -> SizedText {
    let units = view.design.units_at(view.part.span);
    // What the two places are apart along the axis stays.
    let along = (wall.at - wall.outer_at).to_mm();
    let across = Length::mm(
        (wanted.warn.to_mm().powi(2) - along.powi(2))
            .max(0.0)
            .sqrt(),
    );
    let more = across.twice() - (wall.outer_dia - wall.inner_dia);
    if let Some((on, way)) = propose::pitch(view.part, wall, wanted.warn, units) {
        return text!(
            "a circle of {} or {} leaves {}",
            words::dia(on),
            way,
            wanted.warn
        );
    }
    let feature = |origin: Origin| origin.feature().and_then(|at| view.part.features.get(at));
    if let Some((thread, _)) = feature(wall.outer).and_then(|outer| outer.thread()) {
        let major = units.up(thread.thread.major() + more);
        return text!(
            "an outside thread of {} or more leaves {}",
            words::dia(major),
            wanted.warn
        );
    }
    let hole = feature(wall.inner).filter(|hole| hole.thread().is_none());
    let smaller = hole.and_then(|hole| Some(units.down(hole.dia()? - more)));
    match smaller.filter(|dia| dia.is_positive()) {
        Some(dia) => text!(
            "a hole of {} or less leaves {}",
            words::dia(dia),
            wanted.warn
        ),
        None => text!(
            "{} outside leaves {}",
            words::dia(units.up(wall.outer_dia + more)),
            wanted.warn
        ),
    }
}
