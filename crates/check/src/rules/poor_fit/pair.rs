//! The shaft and the hole of a plain joint.

use super::super::fitted::FitContact;
use super::LOOSEST;
use crate::{JointView, spots};
use quillet_geometry::Length;
use quillet_model::{Cut, End, Feature, Part, Station};
use quillet_syntax::Span;

/// The two surfaces that meet.
pub(super) struct Pair {
    pub(super) hole: Length,
    pub(super) hole_span: Span,
    pub(super) drilled: bool,
    pub(super) shaft: Length,
    pub(super) shaft_span: Span,
    /// Where the shaft's diameter stands, where an edit can change it.
    pub(super) shaft_size: Option<Span>,
}

impl Pair {
    /// The two surfaces that lie closest when the joint is home, where both are cut as such.
    pub(super) fn at_rest(view: &JointView<'_>) -> Option<Pair> {
        let fitted = FitContact::of(view)?;
        let hole = spots::feature(view.female, fitted.at.female.origin)?;
        let shaft = spots::feature(view.male, fitted.at.male.origin);
        let tenon =
            shaft.filter(|it| matches!(it.cut, Cut::Tenon { .. }) && !view.male.is_bought());
        Some(Pair {
            hole: fitted.hole,
            hole_span: hole.size_span,
            drilled: matches!(hole.cut, Cut::Drill { .. }),
            shaft: fitted.shaft,
            shaft_span: spots::span(view.pen.pen, &fitted.at.male),
            shaft_size: tenon.map(|it| it.size_span),
        })
    }

    /// What lies closest when the joint is home; where that is loose, or nothing lies in the other,
    /// the surfaces that were meant for each other: those nearest in size.
    pub(super) fn of(view: &JointView<'_>) -> Option<Pair> {
        let at_rest = Pair::at_rest(view);
        let fits = |it: &Pair| it.clearance() <= LOOSEST;
        if at_rest.as_ref().is_some_and(fits) {
            return at_rest;
        }
        let pairs = at_rest.into_iter().chain(Pair::meant(view));
        pairs.min_by_key(|it| it.clearance().abs())
    }

    /// Of what would lie in the bores of the female end, and these, what is nearest in size.
    fn meant(view: &JointView<'_>) -> Option<Pair> {
        let (male, female) = (view.male, view.female);
        let holes = female
            .features
            .iter()
            .filter(|it| is_hole(it, view.joint.female.end));
        let pairs = holes.flat_map(|hole| {
            let deep = if hole.through { female.length } else { hole.to };
            let pair = move |shaft: Shaft| {
                Some(Pair {
                    hole: hole.dia()?,
                    hole_span: hole.size_span,
                    drilled: matches!(hole.cut, Cut::Drill { .. }),
                    shaft: shaft.dia,
                    shaft_span: shaft.span,
                    shaft_size: shaft.size,
                })
            };
            shafts(male, view.joint.male.end, deep)
                .into_iter()
                .filter_map(pair)
        });
        pairs.min_by_key(|it| it.clearance().abs())
    }

    pub(super) fn clearance(&self) -> Length {
        self.hole - self.shaft
    }
}

struct Shaft {
    pub(super) dia: Length,
    pub(super) span: Span,
    pub(super) size: Option<Span>,
}

/// What of a part may lie in a hole this deep: its tenons, else its outside over that length.
fn shafts(part: &Part, end: End, deep: Length) -> Vec<Shaft> {
    let tenons = part.features.iter().filter(|it| it.end == end);
    let tenons: Vec<Shaft> = tenons
        .filter_map(|it| match &it.cut {
            Cut::Tenon {
                dia,
                assumed_for: None,
            } => Some(Shaft {
                dia: *dia,
                span: it.span,
                size: (!part.is_bought()).then_some(it.size_span),
            }),
            _ => None,
        })
        .collect();
    if !tenons.is_empty() {
        return tenons;
    }
    let from_end = |it: &Station| (it.at - part.station(end, Length::ZERO)).abs();
    let near = part.stations.iter().filter(|it| from_end(it) < deep);
    let dias = near.flat_map(|it| [Some(it.dia), it.step].map(|dia| (it, dia)));
    dias.filter_map(|(it, dia)| {
        Some(Shaft {
            dia: dia?,
            span: it.span,
            size: None,
        })
    })
    .collect()
}

fn is_hole(feature: &Feature, end: End) -> bool {
    let plain = matches!(
        feature.cut,
        Cut::Drill {
            assumed_for: None,
            ..
        } | Cut::Bore { .. }
            | Cut::Ream { .. }
    );
    plain && (feature.end == end || feature.through)
}
