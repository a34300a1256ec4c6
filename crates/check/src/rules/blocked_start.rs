//! `blocked-start`: a land ahead of an outside thread, too fat to enter its mate.

use crate::propose::{self, Proposal};
use crate::shape::{self, Threaded};
use crate::{Findings, PartView, Rule, Run, words};
use quillet_geometry::Length;
use quillet_model::{End, Origin, Part};
use quillet_syntax::ast::Side;
use quillet_syntax::{Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "blocked-start",
    severity: Severity::Error,
    limit: None,
    page: include_str!("blocked-start.md"),
    run: Run::Part(run),
};

/// Room for a land in the mate's crests; common practice, no published source.
const ROOM: Length = Length::from_nm(100_000);

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    for threaded in shape::threads(part, Side::Outside) {
        let Some((dia, origin)) = fattest_ahead(part, &threaded) else {
            continue;
        };
        let form = &threaded.thread.thread;
        let most = form.minor_diameter() - ROOM;
        let Some(land) = origin.feature().and_then(|at| part.features.get(at)) else {
            continue;
        };
        if dia <= most {
            continue;
        }
        let relief = view.design.units_at(part.span).down(most);
        let statement = text!(
            "relief {} for {}",
            Size::Written(relief),
            Size::Written(threaded.feature.from)
        );
        let finding = RULE
            .at(
                threaded.feature.span,
                text!("the {} ahead of {} is {}; neither die nor mate starts over more than {} (D1 {} less {})", land.called(), threaded.thread.called(), words::dia(dia), words::dia(most), words::dia(form.minor_diameter()), ROOM),
            )
            .label(land.span, text!("{} here", words::dia(dia)))
            .hint(text!("add {}, or let the thread begin at the end", statement));
        let before = crate::edits::before(view.design, threaded.feature.span, &statement);
        let ahead = (text!("add {}", statement), vec![before]);
        let finding = propose::with(finding, cures(view, &threaded, ahead));
        findings.push_at(finding, Length::ZERO, threaded.feature.from);
    }
}

/// A relief ahead; where the joint would then run onto what stands behind the thread, a relief
/// there too; and a tenon that suits the die.
fn cures(view: &PartView<'_>, threaded: &Threaded<'_>, ahead: Proposal) -> Vec<Proposal> {
    let (design, part) = (view.design, view.part);
    let behind = propose::relieved(design, part, threaded.index);
    let tenon = shape::tenon_under(part, threaded).and_then(|tenon| {
        let fits = threaded.thread.thread.tenon().ok()?;
        let dia = design.units_at(part.span).fine_down(fits.default);
        propose::turned_to(part, tenon, dia)
    });
    let with_behind = behind.map(|behind| propose::both(ahead.clone(), behind));
    let both = with_behind.clone().unwrap_or_else(|| ahead.clone());
    let with_tenon = tenon.map(|tenon| propose::both(both, tenon));
    [Some(ahead), with_behind, with_tenon]
        .into_iter()
        .flatten()
        .collect()
}

/// The fattest place between the end and a thread that is not the thread, and what made it.
pub(super) fn fattest_ahead(part: &Part, threaded: &Threaded<'_>) -> Option<(Length, Origin)> {
    let profiles = part.profiles.as_ref()?;
    let just_before = threaded.feature.from.to_mm() - 1e-6;
    if just_before <= 0.0 {
        return None;
    }
    let length = part.length.to_mm();
    let (from, to) = match threaded.feature.end {
        End::First => (0.0, just_before),
        End::Second => (length - just_before, length),
    };
    let (place, tag) = profiles.crest.outer.fattest(from, to)?;
    Some((Length::mm(place.r).twice(), profiles.origin(tag)))
}
