//! Edits that cures are made of: one size written otherwise, a joint the other way round.
//!
//! Each is a proposal, tried before it is offered; none where the text has no number there that an
//! edit could change.

mod deeper;
mod joint;
mod outside;
mod pitch;
mod point;
mod relief;
mod stock;
mod thread;
mod wall;

pub(crate) use deeper::{ROOM, deeper};
pub(crate) use joint::{direction, overlap, turned};
pub(crate) use outside::{fatter, slimmer, station_at};
pub(crate) use pitch::pitch;
pub(crate) use point::slipped;
pub(crate) use relief::relieved;
pub(crate) use stock::{longer, thicker};
pub(crate) use thread::larger;
pub(crate) use wall::{threaded, wall};

use crate::{PartView, words};
use quillet_geometry::Length;
use quillet_model::{ClearanceKind, Cut, CutId, Design, Feature, Part, Units};
use quillet_syntax::{Edit, Finding, Size, SizedText, Span, text};
use std::sync::Arc;

/// A cure that a rule proposes: its title and its edits.
pub(crate) type Proposal = (SizedText, Vec<Edit>);

/// Adds proposals to a finding, in their order.
pub(crate) fn with(finding: Finding, proposals: impl IntoIterator<Item = Proposal>) -> Finding {
    proposals
        .into_iter()
        .fold(finding, |finding, (title, edits)| {
            finding.fix_all(title, edits)
        })
}

/// Two proposals made together, called by the first; insertions at one place become one.
pub(crate) fn both(one: Proposal, other: Proposal) -> Proposal {
    let (title, mut edits) = one;
    let (also, more) = other;
    for edit in more {
        let same = |it: &&mut Edit| it.span == edit.span && edit.span.is_empty();
        match edits.iter_mut().find(same) {
            Some(first) => first.text = std::mem::take(&mut first.text).then(edit.text),
            None => edits.push(edit),
        }
    }
    (text!("{}, {}", title, also), edits)
}

/// A hole made of another diameter; not one that was worked out, nor that of a bought part.
pub(crate) fn hole(part: &Part, hole: &Feature, dia: Length) -> Option<Proposal> {
    let written = match &hole.cut {
        Cut::Drill { assumed_for, .. } => assumed_for.is_none(),
        Cut::Bore { .. } | Cut::Ream { .. } | Cut::Recess { .. } => true,
        _ => false,
    };
    let edit = Edit::new(hole.size_span, Size::Drill(dia));
    (written && !part.is_bought() && dia.is_positive())
        .then(|| (text!("make it ⌀{}", Size::Drill(dia)), vec![edit]))
}

/// A hole made narrower, as [`hole`] does; not where what goes through it would not pass.
pub(crate) fn narrower(view: &PartView<'_>, index: CutId, dia: Length) -> Option<Proposal> {
    let part = view.part;
    let clearances = view.pen.into_iter().flat_map(|pen| {
        let own = pen.parts.position(|it| Arc::ptr_eq(it, part));
        let all = pen
            .assembly
            .joints
            .iter()
            .flat_map(|rest| rest.clearances.iter());
        all.filter(move |it| Some(it.female.part) == own)
    });
    let stops = clearances
        .filter(|it| it.kind == ClearanceKind::RadialClearance)
        .filter(|it| it.female.origin.feature() == Some(index))
        .any(|it| dia < Length::mm(it.male.radius_mm).twice());
    (!stops).then(|| hole(part, part.features.get(index)?, dia))?
}

/// A turned diameter of a cut made another: a relief, a tenon, a groove.
pub(crate) fn turned_to(part: &Part, cut: &Feature, dia: Length) -> Option<Proposal> {
    let written = match &cut.cut {
        Cut::Tenon { assumed_for, .. } => assumed_for.is_none(),
        Cut::Relief { .. } | Cut::Groove { .. } => true,
        _ => false,
    };
    let edit = Edit::new(cut.size_span, Size::Written(dia));
    (written && !part.is_bought() && dia.is_positive())
        .then(|| (text!("turn it to {}", Size::Written(dia)), vec![edit]))
}

/// A cut that ends at another depth from its face.
pub(crate) fn reach(design: &Design, part: &Part, cut: &Feature, to: Length) -> Option<Proposal> {
    if part.is_bought() || cut.through || to <= cut.from || to > part.length {
        return None;
    }
    let (span, message) = reach_number(design, cut)?;
    let amount = match message {
        ReachKind::Depth => to,
        ReachKind::Amount => to - cut.from,
    };
    let edit = Edit::new(span, Size::Written(amount));
    let title = text!(
        "take {}'s {} to {}",
        part.name.text,
        words::sized(cut),
        Size::Written(to)
    );
    Some((title, vec![edit]))
}

/// What the number of a reach says.
#[derive(Clone, Copy, PartialEq)]
enum ReachKind {
    /// `to`: the depth from the face.
    Depth,
    /// `for`: how much from where it starts.
    Amount,
}

/// Where in `to 54`, `for 8 at 2` or the like the number stands, and what it says.
fn reach_number(design: &Design, cut: &Feature) -> Option<(Span, ReachKind)> {
    let reach = design.text(cut.reach_span);
    let (word, message) = [("to", ReachKind::Depth), ("for", ReachKind::Amount)]
        .into_iter()
        .find(|(word, _)| reach.starts_with(word))?;
    let after = &reach[word.len()..];
    let from = word.len() + (after.len() - after.trim_start().len());
    let rest = &reach[from..];
    let number = &rest[..rest.find(" at ").unwrap_or(rest.len())];
    let number = number.trim_end();
    let start = cut.reach_span.start as usize + from;
    let span = Span::new(cut.reach_span.file, start, start + number.len());
    let meant = match message {
        ReachKind::Depth => cut.to,
        ReachKind::Amount => cut.to - cut.from,
    };
    (literal(design, span)? == meant).then_some((span, message))
}

/// The length a span says, where it is a number alone: `54`, `0.35`, `7/16`, `12mm`.
pub(crate) fn literal(design: &Design, span: Span) -> Option<Length> {
    let reported = design.text(span).trim();
    let (number, units) = match (reported.strip_suffix("mm"), reported.strip_suffix("in")) {
        (Some(number), _) => (number, Units::Millimetres),
        (None, Some(number)) => (number, Units::Inches),
        (None, None) => (reported, design.units_at(span)),
    };
    match (units, number.split_once('/')) {
        (Units::Millimetres, _) => Length::parse_mm(number),
        (Units::Inches, None) => Length::parse_inches(number),
        (Units::Inches, Some((num, den))) => {
            Length::from_inches_ratio(num.trim().parse().ok()?, den.trim().parse().ok()?)
        }
    }
}
