//! A larger thread, with all that belongs to it grown along.

use super::{Proposal, literal};
use crate::PartView;
use crate::shape::{self, Threaded};
use quillet_geometry::Length;
use quillet_model::{Cut, Feature, Part, ThreadDef, Units};
use quillet_standards::thread::ThreadForm;
use quillet_syntax::{Edit, Size, text};
use std::collections::BTreeMap;

/// The thread of a joint made the next one of the bench that is at least so thick, on all parts
/// that bear it, their tenons, tap drills, reliefs and mouths with it.
pub(crate) fn larger(view: &PartView<'_>, thread: &ThreadDef, least: Length) -> Option<Proposal> {
    let form = &thread.thread;
    let bench = view.bench?;
    let alike = |other: &ThreadForm| {
        let same = other.starts() == form.starts() && other.hand() == form.hand();
        same && other.is_inch() == form.is_inch() && other.major() >= least
    };
    let has_die = |other: &ThreadForm| {
        let mut dies = bench.dies.iter();
        dies.any(|die| die.thread.thread.mates_with(other))
    };
    let new = bench
        .taps
        .iter()
        .map(|tap| &*tap.thread)
        .filter(|it| alike(&it.thread) && has_die(&it.thread))
        .min_by_key(|it| {
            let apart = (it.thread.pitch() - form.pitch()).abs();
            (it.thread.major(), apart)
        })?;
    let mut edits: BTreeMap<_, Edit> = BTreeMap::new();
    for part in view.design.parts.iter().filter(|part| !part.is_bought()) {
        for cut in part.features.with_ids() {
            let threaded = Threaded::of(cut);
            let Some(bears) = threaded.filter(|it| it.thread.thread.mates_with(form)) else {
                continue;
            };
            let renamed = Edit::new(bears.thread.designation.span, &*new.designation.text);
            edits.insert(renamed.span, renamed);
            let beside = part
                .features
                .iter()
                .filter(|it| it.end == bears.feature.end);
            for cut in beside {
                let grown = grown(
                    part,
                    &bears,
                    cut,
                    &new.thread,
                    view.design.units_at(part.span),
                );
                let written = literal(view.design, cut.size_span) == cut.dia();
                if let Some(dia) = grown.filter(|_| written) {
                    let text = Size::Drill(dia).into();
                    let span = cut.size_span;
                    edits.insert(span, Edit { span, text });
                }
            }
        }
    }
    let title = text!("make {} {}", thread.called(), new.designation.text);
    Some((title, edits.into_values().collect()))
}

/// What goes with a thread is about as thick as it.
const NEAR: Length = Length::from_nm(1_200_000);

/// The size of a cut beside a thread that suits another thread in its place; none where it has
/// nothing to do with it.
fn grown(
    part: &Part,
    bears: &Threaded<'_>,
    cut: &Feature,
    new: &ThreadForm,
    units: Units,
) -> Option<Length> {
    let old = &bears.thread.thread;
    let dia = cut.dia().filter(|dia| (*dia - old.major()).abs() <= NEAR)?;
    let more = new.major() - old.major();
    let tapped = || {
        let hole = shape::tapped_hole(part, bears).filter(|_| bears.feature.is_inside());
        hole.is_some_and(|it| std::ptr::eq(it, cut))
    };
    match &cut.cut {
        Cut::Tenon { .. } => Some(units.fine_down(new.tenon().ok()?.default)),
        Cut::Drill { .. } if tapped() => {
            let family = part.material_at(cut.stations(part.length).0)?.kind.family();
            let (drill, _) = new.kind_drill(Some(family), units.drills())?;
            Some(drill.diameter())
        }
        Cut::Relief { .. } => Some(units.down(new.root_diameter().min(dia + more))),
        Cut::Countersink { .. } | Cut::Bore { .. } if dia >= old.major() => Some(dia + more),
        _ => None,
    }
}
