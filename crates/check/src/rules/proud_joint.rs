//! `proud-joint`: a step that a finger finds where two outsides meet.

use crate::view::end_name;
use crate::{Findings, JointView, Rule, Run, Threshold, propose, words};
use quillet_geometry::{Chain, Length};
use quillet_model::{Part, PartId, Placement, Profiles};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "proud-joint",
    severity: Severity::Note,
    limit: Some(Threshold::Length),
    page: include_str!("proud-joint.md"),
    run: Run::Joint(run),
};

/// Steps from this, in radius, are felt; those beyond the second are meant.
const FELT: Length = Length::from_nm(50_000);
const MEANT: Length = Length::from_nm(250_000);
/// What `flush` allows.
const FLUSH: Length = Length::from_nm(5_000);

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest() else { return };
    // What is turned as one has the step that is drawn: it is its shape.
    let shaped = view.joint.before_turning.is_some() && view.joint.flush.is_none();
    if shaped || matches!(view.joint.verb, Verb::Post | Verb::Push | Verb::Rest) {
        return;
    }
    let place = |members: &[(PartId, Placement)], part: PartId| {
        members
            .iter()
            .find(|(index, _)| *index == part)
            .map(|(_, place)| *place)
    };
    // The outsides are those of the work: what lines a part lies within it.
    let pen = view.pen.pen;
    let ends = [view.joint.male, view.joint.female].map(|it| pen.around(it));
    let [male, female] = ends.map(|it| &pen.parts[it.part]);
    let (Some(inner), Some(outer)) = (
        place(&rest.males, ends[0].part),
        place(&rest.females, ends[1].part),
    ) else {
        return;
    };
    // The outsides meet where the male leaves the female's face.
    let meets = rest.touches.iter().any(|it| {
        it.female.part == ends[1].part
            && it.male.part == ends[0].part
            && outer.of(it.female.station_mm).abs() < 1e-6
    });
    let (Some(behind), Some(at)) = (radius(male, inner, false), radius(female, outer, true)) else {
        return;
    };
    let step = Length::mm((behind - at).abs());
    let flush = view.joint.flush;
    let felt = step >= view.length_limit(&RULE, FELT) && step <= MEANT;
    if !meets || !(felt || flush.is_some() && step > FLUSH) {
        return;
    }
    let names = [(male, ends[0]), (female, ends[1])];
    let [male_name, female_name] = names.map(|(part, it)| end_name(part, it.end));
    let (proud, other) = match behind > at {
        true => (male_name, female_name),
        false => (female_name, male_name),
    };
    let message = text!(
        "{} stands {} proud of {} where their outsides meet ({} against {})",
        proud,
        words::against(step, FELT),
        other,
        words::dia(Length::mm(behind).twice()),
        words::dia(Length::mm(at).twice())
    );
    let mut finding = RULE.at(view.joint.head, message);
    if let Some(span) = flush {
        finding.severity = Severity::Warning;
        finding = finding.label(span, "to be flush");
    }
    let finding = finding.hint("give both one diameter there, or blend them together on the lathe");
    let to = [(female, outer, behind), (male, inner, at)];
    let level = to.into_iter().filter_map(|(part, place, radius)| {
        let dia = Length::mm(radius).twice();
        propose::station_at(view.pen.design, part, Length::mm(place.station(0.0)), dia)
    });
    findings.push(propose::with(finding, level));
}

/// The outside's radius beside the female's face, on the male's side or the female's, broken
/// corners passed over.
fn radius(part: &Part, place: Placement, inward: bool) -> Option<f64> {
    let profiles = part.profiles.as_ref()?;
    let outer: &Chain = &profiles.crest.outer;
    let station = place.station(0.0);
    // The way away from the face, along the part's stations.
    let up = inward != place.reversed;
    let just = if up { 1e-6 } else { -1e-6 };
    let piece = outer.segment_at(station + just)?;
    let is_edge = |profiles: &Profiles| profiles.origin(piece.tag).is_edge();
    let place = match (is_edge(profiles), up) {
        (true, true) => piece.curve.end(),
        (true, false) => piece.curve.start(),
        (false, _) => return Some(piece.curve.radius_at(station)),
    };
    Some(place.r)
}
