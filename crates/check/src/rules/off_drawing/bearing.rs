//! On what a tenon bears that came out thin.

use crate::compared::{ComparedSize, MeasuredAs};
use crate::{PenView, shape};
use quillet_geometry::Length;
use quillet_model::{Cut, End, MadeSize, PartId, Pen};
use quillet_standards::material::Family;
use quillet_standards::thread::{ThreadForm, percent_practice};
use quillet_syntax::ast::Side;
use quillet_syntax::{SizedText, text};

/// On what of the thread's height a tenon that came out thin bears in the hole that it goes into.
pub(super) fn thin(view: &PenView<'_>, size: &ComparedSize) -> Option<SizedText> {
    let MadeSize::Cut { drawn, made } = size.statement.what else {
        return None;
    };
    let (part, pen) = (view.pen.parts.get(size.part)?, view.pen);
    let tenon = part.features.get(made)?;
    let turned = matches!(tenon.cut, Cut::Tenon { .. }) && size.how == MeasuredAs::Turned;
    if !turned || size.measured >= size.asked.min() {
        return None;
    }
    let as_drawn = pen.made.as_deref()?.drawn(size.part)?.features.get(drawn)?;
    let mut threads = shape::threads(part, Side::Outside);
    let thread = threads.find(|it| it.feature.end == tenon.end && it.feature.from < tenon.to)?;
    let form = &thread.thread.thread;
    let (now, family) = hole(pen, size.part, tenon.end, form)?;
    let of = view.design.pen(&pen.made.as_deref()?.of.text)?;
    let (before, _) = hole(of, size.part, tenon.end, form)?;
    // (tenon - hole) / (1.0825 P) is the share of 5H/8: a full crest's, less what the tenon lacks of it.
    let share = |tenon: Length, hole: Length| {
        form.percent_of_thread(hole).of_5h8 - form.percent_of_thread(tenon).of_5h8
    };
    let (is, was) = (share(size.measured, now), share(as_drawn.dia()?, before));
    let enough = percent_practice(family)?.least;
    // The same depth as a share of 3H/4, of which the practice speaks: 5/8 is 1.2 times less.
    let held = is / 1.2;
    let least = format!("{enough:.0} %");
    let verdict = match held >= enough {
        true => text!("{} is enough, so there is nothing to do", least),
        false => text!(
            "{} holds: turn another, or make what it goes into narrower if that is not cut yet",
            least
        ),
    };
    Some(text!(
        "the threads bear on {} of their basic height, {} as drawn; of 3H/4 that is {}, where {}",
        format!("{is:.0} %"),
        format!("{was:.0} %"),
        format!("{held:.0} %"),
        verdict
    ))
}

/// The hole that a thread goes into at an end of a part, and what it is cut in.
fn hole(pen: &Pen, part: PartId, end: End, form: &ThreadForm) -> Option<(Length, Family)> {
    let mut joints = pen.joints.iter();
    let joint = joints.find(|it| (it.male.part, it.male.end) == (part, end))?;
    let female = pen.parts.get(joint.female.part)?;
    let mut threads = shape::threads(female, Side::Inside);
    let inside =
        threads.find(|it| it.feature.end == joint.female.end && it.thread.thread == *form)?;
    let hole = shape::tapped_hole(female, &inside)?;
    let material = female.thread_materials(inside.feature).first().copied()?;
    Some((hole.dia()?, material.kind.family()))
}
