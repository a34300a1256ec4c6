//! `mouth-splits`: an inside thread that begins at a thin lip.

use crate::shape::{self, Threaded};
use crate::{Findings, PartView, Rule, Run, Threshold, edits, words};
use quillet_geometry::Length;
use quillet_model::{Cut, End, Part};
use quillet_syntax::ast::Side;
use quillet_syntax::{Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "mouth-splits",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("mouth-splits.md"),
    run: Run::Part(run),
};

/// Common practice, no published source.
const USUAL: Length = Length::from_nm(1_500_000);

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    let wanted = view.length_limit(&RULE, USUAL);
    for threaded in shape::threads(part, Side::Inside) {
        let Some((begins, lip)) = lip(part, &threaded) else {
            continue;
        };
        let form = &threaded.thread.thread;
        if begins >= form.pitch() || lip >= wanted || !lip.is_positive() {
            continue;
        }
        if countersunk(part, &threaded) {
            continue;
        }
        let countersink = form.major() + Length::mm(0.4);
        let statement = text!("countersink {}", Size::Near(countersink, 1));
        let finding = RULE
            .at(
                threaded.feature.span,
                text!("{} begins {} from the {}, at a lip of {}; {} of wall, or one pitch ({}) of plain bore before it, is wanted", threaded.thread.called(), begins, part.end_name(threaded.feature.end), words::against(lip, wanted), wanted, form.pitch()),
            )
            .hint(text!("{}, or a plain bore of ⌀{} for one pitch or more", statement, Size::Near(form.major() + Length::mm(0.1), 2)))
            .fix_all(
                text!("add {}", statement),
                vec![edits::before(view.design, threaded.feature.span, &statement)],
            );
        let (from, to) = threaded.feature.stations(part.length);
        findings.push_at(finding, from, to);
    }
}

/// How far inward the thread's own surface begins, and the wall over it there.
fn lip(part: &Part, threaded: &Threaded<'_>) -> Option<(Length, Length)> {
    let profiles = part.profiles.as_ref()?;
    let (from, to) = shape::left_of(part, &profiles.root.inner, threaded.index)?;
    let (begins, at) = match threaded.feature.end {
        End::First => (from, from),
        End::Second => (part.length.to_mm() - to, to),
    };
    let (before, after) = profiles.root.outer.radii_at(at)?;
    let outside = if threaded.feature.end == End::First {
        after
    } else {
        before
    };
    let wall = Length::mm(outside) - threaded.thread.thread.major().half();
    Some((Length::mm(begins), wall))
}

fn countersunk(part: &Part, threaded: &Threaded<'_>) -> bool {
    part.features.iter().any(|cut| {
        cut.end == threaded.feature.end
            && matches!(cut.cut, Cut::Countersink { dia, .. } if dia >= threaded.thread.thread.major())
    })
}
