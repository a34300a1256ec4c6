//! Cuts made from an end.

use super::Resolver;
use super::assume::assume_tap_drills;
use super::clash::out_of_range;
use super::frame::Frame;
use super::lines::{Block, Lines};
use super::reach::AxialRange;
use crate::{Cut, End, Feature, Part, PartKind};
use quillet_geometry::{Angle, Length};
use quillet_syntax::Span;
use quillet_syntax::ast::{self, FeatureKind};

impl<'a> Resolver<'a> {
    /// Resolves every cut, then works out the tenons and tap drills left unsaid.
    pub(super) fn features(&mut self, lines: &Lines<'a>, part: &mut Part, frame: &mut Frame<'a>) {
        let (lost, mut thread_lost) = (self.lost, false);
        for block in &lines.cuts {
            let Some(end) = self.part_end(part, block.end) else {
                continue;
            };
            for statement in block.features {
                match self.feature(statement, block, end, part, frame) {
                    Some(feature) => self.on_axis_or_beside(statement, feature, part, frame),
                    None if matches!(statement.kind, FeatureKind::Accept(_)) => {}
                    None => {
                        thread_lost |= matches!(statement.kind, FeatureKind::Thread { .. });
                        part.outside_known &= !may_be_outside(&statement.kind);
                        self.lost += 1;
                    }
                }
            }
        }
        if let Some(made) = self.making_of(&part.name.text) {
            self.as_made(made, lines, part, frame);
        }
        part.features.sort_by_key(|feature| feature.end);
        part.whole &= self.lost == lost;
        self.assume_tenons(part, thread_lost);
        assume_tap_drills(part, self.scope.units(part.name.span));
    }

    /// A cut on the axis is one of the part's features; holes on a pitch circle stand by themselves.
    fn on_axis_or_beside(
        &mut self,
        said: &ast::Feature,
        feature: Feature,
        part: &mut Part,
        frame: &mut Frame<'a>,
    ) {
        match self.circle_holes(said, &feature, frame) {
            None => part.features.extend([feature]),
            Some(None) => self.lost += 1,
            Some(Some(holes)) => match &mut part.kind {
                PartKind::Cut(cut) => cut.circles.push(holes),
                _ => self.emit(
                    out_of_range(holes.on_span, "a bought part has no holes beside its axis")
                        .hint("leave them out: what it weighs is said by mass"),
                ),
            },
        }
    }

    pub(super) fn feature(
        &mut self,
        statement: &ast::Feature,
        block: &Block<'a>,
        end: End,
        part: &Part,
        frame: &mut Frame<'a>,
    ) -> Option<Feature> {
        let (cut, size_span, along) = self.cut(statement, part, frame)?;
        let along = self.within(along, part)?;
        let clock = match &statement.kind {
            FeatureKind::Thread { clock, .. } => clock.as_ref(),
            _ => None,
        };
        let clock = clock.and_then(|sum| self.bearing(sum, frame));
        Some(Feature {
            span: statement.span,
            block: block.span,
            end,
            from: along.from,
            to: along.to,
            through: along.through,
            cut,
            clock,
            size_span,
            reach_span: along.span,
            face: statement.face.clone(),
        })
    }

    #[expect(clippy::too_many_lines, reason = "an arm a cut: it is read as a table")]
    fn cut(
        &mut self,
        statement: &ast::Feature,
        part: &Part,
        frame: &mut Frame<'a>,
    ) -> Option<(Cut, Span, AxialRange)> {
        let here = statement.span;
        Some(match &statement.kind {
            FeatureKind::Tenon { dia, length } => {
                let size = dia.as_ref().map(|sum| self.positive(sum, "a tenon", frame));
                let to = self.positive(length, "a tenon", frame);
                let dia_span = dia.as_ref().map_or(here, |sum| sum.span);
                let size = match size {
                    None => Length::ZERO,
                    Some(size) => size?,
                };
                let cut = Cut::Tenon {
                    dia: size,
                    assumed_for: None,
                };
                let along = AxialRange {
                    from: Length::ZERO,
                    to: to?,
                    through: false,
                    span: length.span,
                };
                (cut, dia_span, along)
            }
            FeatureKind::Drill {
                size, reach, point, ..
            } => {
                let found = self.tool_size(size, frame);
                let along = self.reach(reach, part, frame);
                let point = point.as_ref().map(|sum| self.point(sum, frame));
                let (dia, tool) = found?;
                let point = match point {
                    None => Angle::deg(118.0),
                    Some(point) => point?,
                };
                (
                    Cut::Drill {
                        dia,
                        tool,
                        point,
                        assumed_for: None,
                    },
                    size.span,
                    along?,
                )
            }
            FeatureKind::Bore { size, reach, .. } => {
                let found = self.tool_size(size, frame);
                let along = self.reach(reach, part, frame);
                let (dia, tool) = found?;
                (Cut::Bore { dia, tool }, size.span, along?)
            }
            FeatureKind::Ream { size, reach } => {
                let found = self.tool_size(size, frame);
                let along = self.reach(reach, part, frame);
                let (dia, tool) = found?;
                (Cut::Ream { dia, tool }, size.span, along?)
            }
            FeatureKind::Thread {
                thread,
                side,
                reach,
                ..
            } => {
                let span = match thread {
                    ast::ThreadRef::Named(name) => name.span,
                    ast::ThreadRef::Written(form) => form.span,
                };
                let thread = self.thread(thread, frame);
                let along = self.reach(reach, part, frame);
                (
                    Cut::Thread {
                        thread: thread?,
                        side: *side,
                    },
                    span,
                    along?,
                )
            }
            FeatureKind::Relief { dia, reach } => {
                let size = self.positive(dia, "a relief", frame);
                let along = self.reach(reach, part, frame);
                (Cut::Relief { dia: size? }, dia.span, along?)
            }
            FeatureKind::Groove { dia, reach, takes } => {
                let size = self.positive(dia, "a groove", frame);
                let along = self.reach(reach, part, frame);
                let takes = self.taken(takes.as_ref(), frame);
                (Cut::Groove { dia: size?, takes }, dia.span, along?)
            }
            FeatureKind::Recess { dia, reach, takes } => {
                let size = self.positive(dia, "a recess", frame);
                let along = self.reach(reach, part, frame);
                let takes = self.taken(takes.as_ref(), frame);
                (Cut::Recess { dia: size?, takes }, dia.span, along?)
            }
            FeatureKind::Taper { from, to, reach } => {
                let from_dia = self.positive(from, "a taper", frame);
                let to_dia = self.positive(to, "a taper", frame);
                let along = self.reach(reach, part, frame);
                let cut = Cut::Taper {
                    from_dia: from_dia?,
                    to_dia: to_dia?,
                };
                (cut, from.span.to(to.span), along?)
            }
            FeatureKind::Countersink { dia, angle } => {
                let size = self.positive(dia, "a countersink", frame);
                let angle = angle.as_ref().map(|sum| self.angle(sum, frame));
                let angle = match angle {
                    None => Angle::deg(90.0),
                    Some(angle) => angle?,
                };
                let size = size?;
                let depth = Length::mm(angle.cone_depth_mm(size.to_mm() / 2.0));
                let along = AxialRange {
                    from: Length::ZERO,
                    to: depth.min(part.length),
                    through: false,
                    span: dia.span,
                };
                (Cut::Countersink { dia: size, angle }, dia.span, along)
            }
            FeatureKind::Edge(edge) => {
                let broken = self.edge(edge, frame)?;
                let (quillet_geometry::Edge::Round(leg) | quillet_geometry::Edge::Chamfer(leg)) =
                    broken;
                let along = AxialRange {
                    from: Length::ZERO,
                    to: leg,
                    through: false,
                    span: edge.size.span,
                };
                (Cut::Edge(broken), edge.size.span, along)
            }
            FeatureKind::Accept(_) | FeatureKind::Bad => return None,
        })
    }

    fn taken(&mut self, takes: Option<&ast::Name>, frame: &Frame<'a>) -> Option<ast::Name> {
        let name = takes?;
        self.refer_to(name, &[crate::DefinitionKind::Bought], frame)
            .then(|| name.clone())
    }
}

/// Whether a cut that could not be read may be one of the outside.
fn may_be_outside(kind: &FeatureKind) -> bool {
    use FeatureKind::{Groove, Relief, Tenon, Thread};
    matches!(
        kind,
        Tenon { .. } | Relief { .. } | Groove { .. } | Thread { .. }
    )
}
