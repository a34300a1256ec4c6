//! What only a part of one kind says: what it is cut from, or what was measured of it.

use super::Resolver;
use super::clash::out_of_range;
use super::frame::Frame;
use super::lines::Lines;
use crate::{BoughtPart, CutPart, GivenMass, PartKind, Quantity, Ring, RingPart};
use quillet_syntax::ast::{self, LineKind};
use quillet_syntax::{Finding, RuleId, Severity, Span};

impl<'a> Resolver<'a> {
    /// What kind of part it is, its blank still to come, and what of its lines belongs to another.
    pub(super) fn kind(
        &mut self,
        lines: &Lines<'a>,
        bought: bool,
        frame: &mut Frame<'a>,
    ) -> PartKind {
        let given = self.measured(lines, frame);
        let kind = match (bought, given.ring) {
            (false, _) => PartKind::Cut(CutPart {
                stocked: true,
                ..CutPart::default()
            }),
            (true, Some(size)) => PartKind::Ring(RingPart {
                title: lines.title.clone(),
                mass: given.mass,
                size,
            }),
            (true, None) => PartKind::Bought(BoughtPart {
                title: lines.title.clone(),
                mass: given.mass,
                holds_ml: given.holds_ml,
                arm: given.arm,
                throws: Vec::new(),
                pulls_n: given.pulls_n,
                grips: given.grips,
            }),
        };
        for line in lines
            .single
            .iter()
            .chain(&lines.blanks)
            .chain(&lines.throws)
        {
            if let Some((message, hint)) = misplaced(&kind, &line.kind) {
                let finding = Finding::new(RuleId::SYNTAX, Severity::Error, line.span, message);
                let finding = finding.hint(hint);
                self.emit(finding.fix("take this line out", line.span, ""));
            }
        }
        kind
    }

    fn measured(&mut self, lines: &Lines<'a>, frame: &mut Frame<'a>) -> Measured {
        let mut given = Measured::default();
        for line in &lines.single {
            match &line.kind {
                LineKind::Mass { mass, at } => {
                    let mass_g = self.amount(mass, "a mass", Quantity::as_grams, frame);
                    let mass_g = mass_g.filter(|it| self.is_a_weight(*it, line.span));
                    let at = at
                        .as_ref()
                        .and_then(|at| self.distance(at, "a place", frame));
                    given.mass = mass_g.map(|mass_g| GivenMass {
                        span: line.span,
                        mass_g,
                        at,
                    });
                }
                LineKind::Holds(sum) => {
                    given.holds_ml = self.amount(sum, "an ink capacity", Quantity::as_ml, frame);
                }
                LineKind::Ring { inside, cord } => {
                    let inside = self.positive(inside, "a ring", frame);
                    let cord = self.positive(cord, "a cord", frame);
                    given.ring = inside.zip(cord).map(|(inside, cord)| Ring {
                        span: line.span,
                        inside,
                        cord,
                    });
                }
                LineKind::Arm(sum) => {
                    let arm = self.positive(sum, "an arm", frame);
                    given.arm = arm.map(|arm| (arm, sum.span));
                }
                LineKind::Pulls(sum) => given.pulls_n = self.force(sum, frame),
                LineKind::Grips(range) => {
                    let range = self.range(&range.from, &range.to, frame);
                    given.grips = range.and_then(|(a, b)| a.as_length().zip(b.as_length()));
                }
                _ => {}
            }
        }
        given
    }

    /// Whether something weighs so much, else it is told of.
    fn is_a_weight(&mut self, mass_g: f64, line: Span) -> bool {
        if mass_g > 0.0 {
            return true;
        }
        let finding = out_of_range(line, "a mass of 0 g is no part's; more is expected")
            .hint("take the line out where it is not weighed: what it weighs is then not known");
        self.emit(finding.fix("take this line out", line, ""));
        false
    }
}

/// What the lines of a bought part say that those of a cut one do not.
#[derive(Default)]
struct Measured {
    mass: Option<GivenMass>,
    holds_ml: Option<f64>,
    ring: Option<Ring>,
    arm: Option<(quillet_geometry::Length, quillet_syntax::Span)>,
    pulls_n: Option<f64>,
    grips: Option<(quillet_geometry::Length, quillet_geometry::Length)>,
}

/// What is wrong with a line in a part of this kind, and what to do.
fn misplaced(kind: &PartKind, line: &ast::LineKind) -> Option<(&'static str, &'static str)> {
    let cut = "take the line out, or begin the item with bought";
    let ring = "take the line out, or say the outline in place of the ring";
    Some(match (kind, line) {
        (PartKind::Cut(_), LineKind::Mass { .. }) => (
            "only a bought part says its mass; what is cut is weighed by its material",
            cut,
        ),
        (PartKind::Cut(_), LineKind::Holds(_)) => ("only a bought part says what it holds", cut),
        (PartKind::Cut(_), LineKind::Ring { .. }) => ("only a bought part is a ring", cut),
        (PartKind::Cut(_), LineKind::Arm(_)) => ("only a bought part has an arm", cut),
        (PartKind::Cut(_), LineKind::Throw { .. }) => {
            ("only a bought mechanism throws what goes into it", cut)
        }
        (PartKind::Cut(_), LineKind::Pulls(_)) => ("only a bought magnet pulls", cut),
        (PartKind::Cut(_), LineKind::Grips(_)) => (
            "only a bought part grips; what is turned is slit into fingers from the side",
            cut,
        ),
        (PartKind::Ring(_), LineKind::Throw { .. }) => ("a ring throws nothing", ring),
        (PartKind::Ring(_), LineKind::Pulls(_)) => ("a ring pulls nothing", ring),
        (PartKind::Ring(_), LineKind::Grips(_)) => ("a ring grips by being squeezed", ring),
        (PartKind::Bought(_) | PartKind::Ring(_), LineKind::Side(_)) => (
            "a bought part is not cut from the side",
            "take the block out, or begin the item with part",
        ),
        (PartKind::Bought(_) | PartKind::Ring(_), LineKind::Finish { .. }) => (
            "a bought part comes finished",
            "take the line out, or begin the item with part",
        ),
        (PartKind::Ring(_), LineKind::Holds(_)) => ("a ring holds no ink", ring),
        (PartKind::Ring(_), LineKind::Arm(_)) => ("a ring has no arm", ring),
        (PartKind::Bought(_) | PartKind::Ring(_), LineKind::Blank(_) | LineKind::BlankNamed(_)) => {
            (
                "a bought part is cut from no blank",
                "take the line out, or begin the item with part",
            )
        }
        _ => return None,
    })
}
