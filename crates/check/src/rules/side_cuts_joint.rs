//! `side-cuts-joint`: a cut from the side takes from what a joint holds or seals by.

mod meeting;

use crate::shape::deepest_mm;
use crate::{Findings, PartView, Rule, Run, Threshold, propose, words};
use quillet_geometry::side::Floor;
use quillet_geometry::{Chain, Length, Tag};
use quillet_model::{
    Cut, Design, End, Feature, Part, Profiles, SideCut, SideCutKind, SideId, ThreadDef,
};
use quillet_syntax::ast::Side;
use quillet_syntax::{Edit, Finding, Severity, Size, SizedText, text};

pub(crate) static RULE: Rule = Rule {
    code: "side-cuts-joint",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("side-cuts-joint.md"),
    run: Run::PartAndJoint(run, meeting::run),
};

/// What may go of a thread's depth or a tenon's radius; common practice, no published source.
const TAKEN: Length = Length::from_nm(50_000);

/// What a cut takes of a turned surface, and between which stations.
#[derive(Clone, Copy, Debug)]
struct Taken {
    /// A side; none where it opens the surface into a room, or right through.
    deep: Option<Length>,
    from: Length,
    to: Length,
}

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    let Some(profiles) = &part.profiles else {
        return;
    };
    for id in (0..part.sides().len()).map(SideId::nth) {
        let Some(cut) = part.side(id) else { continue };
        for feature in part.features.iter() {
            let Some((finding, taken)) = judged(view, profiles, (id, cut), feature) else {
                continue;
            };
            findings.push_at(
                beside(view.design, part, cut, feature, finding),
                taken.from,
                taken.to,
            );
        }
    }
}

/// What is said of a cut over a turned one.
fn judged(
    view: &PartView<'_>,
    profiles: &Profiles,
    (id, cut): (SideId, &SideCut),
    feature: &Feature,
) -> Option<(Finding, Taken)> {
    let part = view.part;
    let stations = feature.stations(part.length);
    let opening = opened(profiles, id, stations);
    let spare = view.length_limit(&RULE, TAKEN);
    let outside = || {
        let surface = turned_to(part, feature);
        let taken = taken(profiles, id, stations, surface);
        opening.or(taken.filter(|it| it.deep.is_some_and(|deep| deep > spare)))
    };
    let (taken, what, severity) = match &feature.cut {
        Cut::Thread { thread, side } if *side == Side::Outside => {
            let taken = outside()?;
            let what = of_depth(thread, taken.deep);
            (taken, what, Severity::Warning)
        }
        Cut::Thread { thread, .. } => {
            let what = text!("opens {} from outside", thread.called());
            (opening?, what, Severity::Error)
        }
        Cut::Recess { takes: Some(_), .. } => (
            opening?,
            "opens the ring's recess from outside".into(),
            Severity::Error,
        ),
        Cut::Groove { takes: Some(_), .. } => (
            outside()?,
            "goes through the floor of the ring's groove".into(),
            Severity::Error,
        ),
        Cut::Tenon { dia, .. } if !is_meant(part, cut, stations) => {
            let taken = outside()?;
            let what = off_tenon(*dia, taken.deep);
            (taken, what, Severity::Warning)
        }
        _ => return None,
    };
    let message = text!(
        "the {} {}, from {} to {} from the {}",
        cut.called(),
        what,
        Size::Rounded(taken.from, 2),
        Size::Rounded(taken.to, 2),
        part.end_name(End::First)
    );
    let finding = RULE
        .at(cut.span, message)
        .label(feature.span, "what it takes from");
    Some((
        Finding {
            severity,
            ..finding
        },
        taken,
    ))
}

/// How much of a tenon is taken.
fn off_tenon(dia: Length, deep: Option<Length>) -> SizedText {
    match deep {
        Some(deep) => text!(
            "takes {} a side off the {} tenon",
            Size::Rounded(deep, 2),
            words::dia(dia)
        ),
        None => text!("goes through the {} tenon", words::dia(dia)),
    }
}

/// How much of a thread's depth is taken.
fn of_depth(thread: &ThreadDef, deep: Option<Length>) -> SizedText {
    let form = thread.thread;
    let depth = (form.major() - form.root_diameter()).half();
    match deep.filter(|deep| *deep < depth) {
        Some(deep) => text!(
            "takes {} of {}'s {} depth",
            Size::Rounded(deep, 2),
            thread.called(),
            Size::Rounded(depth, 2)
        ),
        None => text!(
            "takes all of {}'s {} depth",
            thread.called(),
            Size::Rounded(depth, 2)
        ),
    }
}

/// On a tenon: fingers are slit on purpose, what is pinned is drilled on purpose, and of what goes
/// through a thread the thread itself tells.
fn is_meant(part: &Part, cut: &SideCut, (from, to): (Length, Length)) -> bool {
    let open = matches!(cut.kind, SideCutKind::Slot { .. })
        && (!cut.stretch.from.is_positive() || cut.stretch.to >= part.length);
    let (first, last) = (cut.stretch.from.max(from), cut.stretch.to.min(to));
    let opens = matches!(
        cut.kind,
        SideCutKind::Slot { .. } | SideCutKind::Drill { .. }
    );
    let threaded = part.features.iter().any(|it| {
        let (start, end) = it.stations(part.length);
        matches!(it.thread(), Some((_, Side::Outside))) && start <= first && last <= end
    });
    open || (opens && threaded) || cut.around.takes.is_some()
}

/// Where a hole or a slot opens a stretch into a room inside, or right through.
fn opened(profiles: &Profiles, id: SideId, (from, to): (Length, Length)) -> Option<Taken> {
    let mut all = profiles.not_round.openings.iter();
    let (_, it) = all.find(|(of, it)| *of == id && !matches!(it.floor, Floor::Plane(_)))?;
    let first = from.max(Length::mm(it.from_mm));
    let last = to.min(Length::mm(it.to_mm));
    (first < last).then_some(Taken {
        deep: None,
        from: first,
        to: last,
    })
}

/// Whether a place of the outside, of a station and a radius in mm, is still the surface of a cut: of a
/// thread its crests as they are turned, of a tenon what no thread is cut on and no relief lies in.
fn turned_to<'p>(part: &'p Part, feature: &'p Feature) -> impl Fn(f64, f64) -> bool + 'p {
    let root = feature.thread().map(|(it, _)| it.thread.root_diameter());
    let root_mm = root.map(|root| root.half().to_mm());
    let radius_mm = feature.dia().map_or(0.0, |dia| dia.half().to_mm());
    move |z, r| {
        let in_it = |it: &Feature| {
            let (from, to) = it.stations(part.length);
            matches!(it.thread(), Some((_, Side::Outside))) && from.to_mm() < z && z < to.to_mm()
        };
        match root_mm {
            Some(root) => r > root,
            None => (r - radius_mm).abs() < 1e-6 && !part.features.iter().any(in_it),
        }
    }
}

/// The most that a flat, a pattern or a blind cut takes of the outside between two stations, where
/// that is the surface meant, and where it takes anything.
fn taken(
    profiles: &Profiles,
    id: SideId,
    (from, to): (Length, Length),
    is_meant: impl Fn(f64, f64) -> bool,
) -> Option<Taken> {
    let turned = profiles.turned();
    let mut most: Option<Taken> = None;
    for floor in floors(profiles, id) {
        for piece in floor.segments() {
            let start = piece.curve.start().z.max(from.to_mm());
            let end = piece.curve.end().z.min(to.to_mm());
            if end - start < 1e-6 {
                continue;
            }
            let deep = deepest_mm(turned, piece, (start, end), &is_meant);
            if deep < 1e-6 {
                continue;
            }
            let here = Taken {
                deep: Some(Length::mm(deep)),
                from: Length::mm(start),
                to: Length::mm(end),
            };
            most = Some(most.map_or(here, |known| Taken {
                deep: known.deep.max(here.deep),
                from: known.from.min(here.from),
                to: known.to.max(here.to),
            }));
        }
    }
    most
}

/// The outside at its least radius by one cut alone.
fn floors(profiles: &Profiles, id: SideId) -> Vec<Chain> {
    let untagged = |_| Tag::default();
    let all = profiles.not_round.floors(profiles.turned(), &untagged);
    all.filter(|it| it.0 == id).map(|it| it.1).collect()
}

/// What to do: begin the cut behind the surface, or end it before.
fn beside(
    design: &Design,
    part: &Part,
    cut: &SideCut,
    feature: &Feature,
    finding: Finding,
) -> Finding {
    let (from, to) = feature.stations(part.length);
    let stretch = cut.stretch;
    let first = part.end_name(End::First);
    if stretch.from == stretch.to {
        let hint = "drill it beside that, or leave it out";
        return finding.hint(hint);
    }
    let (hint, left) = match (stretch.to > to, stretch.from < from) {
        (true, false) => (
            text!("begin the {} at {}", cut.called(), to),
            Some((to, stretch.to)),
        ),
        (false, true) => (
            text!("end the {} at {}", cut.called(), from),
            Some((stretch.from, from)),
        ),
        _ => (
            text!("cut it beside {} to {} from the {}", from, to, first),
            None,
        ),
    };
    let hint: SizedText = match &feature.cut {
        Cut::Thread {
            side: Side::Inside, ..
        }
        | Cut::Recess { .. } => {
            text!("{}, or give it a depth that leaves a wall", hint)
        }
        _ => hint,
    };
    // Where flats slope, a shorter stretch is another slope.
    let sloped = matches!(cut.kind, SideCutKind::Across { from_dia, to_dia } if from_dia != to_dia);
    let plain = design
        .text(stretch.span)
        .chars()
        .all(|it| !it.is_alphabetic() || "at".contains(it));
    let shorter = left.filter(|_| plain && !sloped).map(|(from, to)| {
        let written = text!("at {}..{}", Size::Written(from), Size::Written(to));
        let title = text!(
            "cut it from {} to {}",
            Size::Written(from),
            Size::Written(to)
        );
        (title, vec![Edit::new(stretch.span, written)])
    });
    propose::with(finding.hint(hint), shorter)
}
