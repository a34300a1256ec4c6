//! Edges broken so far that no land is left behind them, or no face.

use super::RULE;
use crate::{Findings, PartView, propose, words};
use quillet_geometry::{Chain, Curve, Edge as Corner, Length, Point, Segment};
use quillet_model::{Cut, End, Feature, Origin, Part, Profiles};
use quillet_syntax::{Edit, Finding, Size, SizedText, text};

/// A corner turned no further than this is one that a broken edge leaves, whatever it was before: half
/// of what it took off stays on each side.
const SHARP_DEG: f64 = 89.5;
/// Turns of less are no corner.
const FLOWS_DEG: f64 = 1.0;
/// Nearer to the axis than this a cone comes to its point, mm.
const POINT_MM: f64 = 1e-6;

/// Tells of the edges of one outline that left no land; `land` is the least one.
pub(super) fn run(
    view: &PartView<'_>,
    profiles: &Profiles,
    chain: &Chain,
    outside: bool,
    land: Length,
    findings: &mut Findings,
) {
    for pair in chain.segments().windows(2) {
        let [before, after] = pair else { continue };
        let meeting = Meeting {
            before: profiles.origin(before.tag),
            after: profiles.origin(after.tag),
            at: before.curve.end(),
            turn_deg: before.turn_deg(after),
        };
        if meeting.is_landless(before, after, outside) {
            let at = Length::mm(meeting.at.z);
            findings.push_at(meeting.finding(view, land), at, at);
        }
    }
    let ends = [
        (End::First, chain.start(), chain.segments().first()),
        (End::Second, chain.end(), chain.segments().last()),
    ];
    for (end, tip, segment) in ends {
        let cone = segment.filter(|it| outside && matches!(it.curve, Curve::Line(_)));
        let edge = cone.map(|it| profiles.origin(it.tag));
        if let Some(edge) = edge.filter(|it| it.is_edge() && tip.r < POINT_MM) {
            let at = Length::mm(tip.z);
            findings.push_at(pointed(view, end, edge, land), at, at);
        }
    }
}

/// Where two pieces of an outline meet.
struct Meeting {
    before: Origin,
    after: Origin,
    at: Point,
    turn_deg: f64,
}

impl Meeting {
    /// An edge ends at a land, or where it breaks a step at the foot of that. It leaves no land where it
    /// meets another edge, where the corner is as sharp as one never broken, and where it ends at a step
    /// that rises.
    fn is_landless(&self, before: &Segment, after: &Segment, outside: bool) -> bool {
        let edges = (self.before.is_edge(), self.after.is_edge());
        let stands_out = if outside {
            -self.turn_deg
        } else {
            self.turn_deg
        };
        let step = match edges {
            (true, false) => after.curve.is_vertical(),
            (false, true) => before.curve.is_vertical(),
            (true, true) => return self.before != self.after && stands_out > FLOWS_DEG,
            (false, false) => return false,
        };
        stands_out > SHARP_DEG || step && stands_out < -FLOWS_DEG
    }

    fn finding(&self, view: &PartView<'_>, land: Length) -> Finding {
        let part = view.part;
        let (edge, other) = match self.before.is_edge() {
            true => (self.before, self.after),
            false => (self.after, self.before),
        };
        let at = Length::mm(self.at.z);
        let cut = edge.feature().and_then(|it| part.features.get(it));
        let end = cut.map_or(End::First, |it| it.end);
        let message = text!(
            "this {} leaves no land: it meets {}, {} from the {}; a tool leaves {} at the least",
            broken(part, edge),
            beside(part, other),
            part.station(end, at),
            part.end_name(end),
            land
        );
        let finding = RULE
            .at(words::span_of(part, edge), message)
            .label(words::span_of(part, other), "what it meets")
            .hint("break the edge less, or leave more for it to be broken from");
        propose::with(finding, cut.and_then(|it| smaller(part, it, land)))
    }
}

/// An outside broken down to the axis.
fn pointed(view: &PartView<'_>, end: End, edge: Origin, land: Length) -> Finding {
    let part = view.part;
    let message = text!(
        "this {} leaves no face at the {}: it comes to a point",
        broken(part, edge),
        part.end_name(end)
    );
    let finding = RULE
        .at(words::span_of(part, edge), message)
        .hint("break the edge less, or shape the end along its stations");
    let cut = edge.feature().and_then(|it| part.features.get(it));
    propose::with(finding, cut.and_then(|it| smaller(part, it, land)))
}

/// `chamfer`, `countersink`.
fn broken(part: &Part, edge: Origin) -> &'static str {
    let station = match edge {
        Origin::StationEdge(index) => part.stations.get(index).and_then(|it| it.edge),
        _ => None,
    };
    let cut = edge.feature().and_then(|it| part.features.get(it));
    let corner = match cut.map(|it| &it.cut) {
        Some(Cut::Edge(corner)) => Some(*corner),
        _ => station,
    };
    match corner {
        Some(Corner::Chamfer(_)) => "chamfer",
        Some(Corner::Round(_)) => "round",
        None => cut.map_or("broken corner", Feature::called),
    }
}

/// `the chamfer`, `the ⌀9.00 relief`, `the outside`.
fn beside(part: &Part, other: Origin) -> SizedText {
    let cut = other.feature().and_then(|it| part.features.get(it));
    match cut {
        Some(cut) if !other.is_edge() => text!("the {}", words::sized(cut)),
        _ if other.is_edge() => text!("the {}", broken(part, other)),
        _ => "the outside".into(),
    }
}

/// The edge broken so much less that the least land is left.
fn smaller(part: &Part, cut: &Feature, land: Length) -> Option<propose::Proposal> {
    let (to, size) = match cut.cut {
        Cut::Edge(Corner::Chamfer(leg) | Corner::Round(leg)) => ("break it by ", leg - land),
        Cut::Countersink { dia, angle } => {
            // What a cone one millimetre deep is wide.
            let slope = 2.0 / angle.cone_depth_mm(1.0);
            let narrower = dia - Length::mm(land.to_mm() * slope);
            // To the hundredth, and the land no less for it.
            let floor = Length::mm((narrower.to_mm() * 100.0).floor() / 100.0);
            ("make it ⌀", floor)
        }
        _ => return None,
    };
    let edit = Edit::new(cut.size_span, Size::Written(size));
    let title = text!("{}{}", to, Size::Written(size));
    (!part.is_bought() && size.is_positive()).then(|| (title, vec![edit]))
}
