//! What was worked out of a pen and of its joints.

use super::Sheet;
use crate::facts::{configurations, spot_in_short, state_in_short, why_not_at_rest};
use quillet_check::JudgedWant;
use quillet_check::chain;
use quillet_check::measure::Measured;
use quillet_geometry::number;
use quillet_model::{AtRest, ClearanceKind, Pen, StoppedBy};

/// A pen's length, weight and balance, as it is carried and held.
pub(super) fn facts(sheet: &mut Sheet, pen: &Pen) {
    for (which, it) in configurations(pen) {
        sheet.row(which.word(), &state_in_short(it, sheet.sizes()));
        for unknown in &it.unknown {
            sheet.row("missing", &unknown.words(pen));
        }
    }
}

/// What a want comes to, whether that will do, and what makes it so; of a part's, as each pen that
/// sees it otherwise has it.
pub(super) fn wants<'a>(sheet: &mut Sheet, judged: impl Iterator<Item = &'a JudgedWant>) {
    let units = sheet.sizes().units();
    let mut reported: Vec<&Measured> = Vec::new();
    for want in judged {
        let measured = &want.measured;
        if reported.contains(&measured) {
            continue;
        }
        if let Some(pen) = want.pen.as_ref().filter(|_| !reported.is_empty()) {
            sheet.row("in", pen);
        }
        reported.push(measured);
        let comes_to = measured.rendered().map(|it| it.in_units(units));
        sheet.row("comes to", comes_to.as_deref().unwrap_or("not known"));
        if let Some(range) = measured.rendered_range() {
            sheet.row("may come to", &range.in_units(units));
        }
        sheet.row("wanted", &measured.wanted.clone().in_units(units));
        sheet.row("so it is", &want.verdict());
        for driver in &measured.drivers {
            sheet.row("because", &driver.clone().in_units(units));
        }
    }
}

/// Where a joint comes to rest.
pub(super) fn joint(sheet: &mut Sheet, pen: &Pen, rest: &AtRest) {
    if let Some(why) = why_not_at_rest(pen, rest) {
        sheet.row("rests", &format!("not known: {why}"));
        return;
    }
    let sizes = sheet.sizes();
    sheet.row("goes in", &sizes.worked_out(rest.goes_in_mm, 3));
    let stopped = match rest.stopped_by {
        StoppedBy::Contact => "what touches",
        StoppedBy::Overlap => "the overlap that is written",
        StoppedBy::Level => "nothing: set level with the mouth",
        StoppedBy::Nothing => "nothing: it would slide right through",
    };
    sheet.row("stopped by", stopped);
    let held = quillet_check::held_by(pen, rest).map(|it| it.in_units(sizes.units()));
    sheet.row("held by", held.as_deref().unwrap_or("nothing"));
    for touch in &rest.touches {
        let (male, female) = (
            spot_in_short(pen, &touch.male),
            spot_in_short(pen, &touch.female),
        );
        sheet.row(
            "touches",
            &format!(
                "{male} on {female}, at ⌀ {}",
                sizes.figure(2.0 * touch.male.radius_mm, 2)
            ),
        );
    }
    if !rest.verdict.closes() {
        sheet.row("closes", "no: what is left between its parts is not told");
        return;
    }
    threads(sheet, rest);
    rooms(sheet, pen, rest);
}

/// What is told of a joint's threads.
fn threads(sheet: &mut Sheet, rest: &AtRest) {
    let sizes = sheet.sizes();
    // Threads that stop before they meet have no turns.
    for engaged in rest.engagements.iter().filter(|it| it.travel_mm > 0.0) {
        sheet.row(
            "thread",
            &crate::facts::thread_in_short(&engaged.form, sizes),
        );
        sheet.row("turns to take apart", &number(engaged.turns(), 2));
        sheet.row("release travel", &sizes.worked_out(engaged.travel_mm, 2));
        sheet.row("overlap", &sizes.worked_out(engaged.overlap_mm, 2));
        sheet.row(
            "catches within",
            &format!("{}°", number(engaged.catches_within().to_deg(), 0)),
        );
        if let Some(apart) = engaged.marks_apart {
            sheet.row("marks apart", &format!("{}°", number(apart.to_deg(), 0)));
        }
    }
}

/// What room is left in a joint, and what makes it less.
fn rooms(sheet: &mut Sheet, pen: &Pen, rest: &AtRest) {
    let sizes = sheet.sizes();
    for (kind, what) in [
        (ClearanceKind::Ahead, "room along the axis"),
        (
            ClearanceKind::Corner,
            "room to where the point begins, no metal",
        ),
        (ClearanceKind::RadialClearance, "room a side in passing"),
    ] {
        let Some((tightest, worse)) = rest.tightest(kind) else {
            continue;
        };
        for it in [tightest].into_iter().chain(worse) {
            let [nominal, worst] = [it.nominal_mm, it.least_mm].map(|mm| sizes.worked_out(mm, 2));
            // Where something else leaves less at worst, between what.
            let [one, other] = [&it.male, &it.female].map(|it| spot_in_short(pen, it));
            let between = match worse.is_some() {
                true => format!(", {one} to {other}"),
                false => String::new(),
            };
            sheet.row(what, &format!("{nominal}, {worst} at its worst{between}"));
            let chain = chain::words(pen, &it.chain).in_units(sizes.units());
            if !chain.is_empty() {
                sheet.row("less", &chain);
            }
        }
    }
}
