//! Cuts from the side, holes on a pitch circle.

mod coat;

use super::Resolver;
use super::clash::out_of_range;
use super::frame::Frame;
use super::lines::Lines;
use crate::{
    Around, CircleHoles, Cut, DefinitionKind, Feature, Part, Quantity, SideCut, SideCutKind,
    SideDepth, SideStretch,
};
use quillet_geometry::Angle;
use quillet_syntax::ast::{self, FeatureKind, LineKind, SideLineKind};
use quillet_syntax::{Span, text};

/// No cut is made more often round a part.
const MOST_AROUND: f64 = 360.0;
/// Fewer flats do not meet.
const LEAST_SHARP: u32 = 3;
/// The share of its ring that a pattern takes where nothing is said.
const HALF: f64 = 0.5;

impl<'a> Resolver<'a> {
    /// What is cut from the side of a part of known length.
    pub(super) fn side_cuts(
        &mut self,
        lines: &Lines<'a>,
        part: &Part,
        frame: &mut Frame<'a>,
    ) -> Vec<SideCut> {
        let said = lines.single.iter().filter_map(|line| match &line.kind {
            LineKind::Side(said) => Some(said),
            _ => None,
        });
        let mut cuts = Vec::new();
        for line in said.flatten() {
            if let SideLineKind::Cut(cut) = &line.kind {
                match self.side_cut(line.span, cut, part, frame) {
                    Some(cut) => cuts.push(cut),
                    None => self.lost += 1,
                }
            }
        }
        cuts
    }

    pub(super) fn side_cut(
        &mut self,
        span: Span,
        said: &ast::SideCut,
        part: &Part,
        frame: &mut Frame<'a>,
    ) -> Option<SideCut> {
        let stretch = self.stretch(said, part, frame);
        let around = self.around(&said.around, frame);
        let what = self.side_kind(said, frame);
        let (stretch, around, (kind, size_span)) = (stretch?, around?, what?);
        if matches!(kind, SideCutKind::Sharp) && around.count < LEAST_SHARP {
            let at = said.around.indexed.as_ref().map_or(size_span, |it| it.span);
            self.emit(
                out_of_range(
                    at,
                    text!("sharp flats meet from 3 on, not {}", around.count),
                )
                .hint("write how many, as in: flat sharp at 3..30 indexed 12"),
            );
            return None;
        }
        Some(SideCut {
            span,
            kind,
            stretch,
            around,
            size_span,
            face: said.face.clone(),
        })
    }

    fn side_kind(
        &mut self,
        said: &ast::SideCut,
        frame: &mut Frame<'a>,
    ) -> Option<(SideCutKind, Span)> {
        Some(match &said.kind {
            ast::SideCutKind::Across { dia, to } => {
                let first = self.positive(dia, "a flat", frame);
                let last = to.as_ref().map(|to| self.positive(to, "a flat", frame));
                let first = first?;
                let last = last.unwrap_or(Some(first))?;
                let across = SideCutKind::Across {
                    from_dia: first,
                    to_dia: last,
                };
                (across, dia.span)
            }
            ast::SideCutKind::Deep(sum) => {
                let deep = self.positive(sum, "a flat", frame)?;
                (SideCutKind::Deep(deep), sum.span)
            }
            ast::SideCutKind::Sharp { span } => (SideCutKind::Sharp, *span),
            ast::SideCutKind::Drill { size, depth } => {
                let found = self.tool_size(size, frame);
                let depth = self.side_depth(depth.as_ref(), frame)?;
                let (dia, tool) = found?;
                (SideCutKind::Drill { dia, tool, depth }, size.span)
            }
            ast::SideCutKind::Slot { width, depth } => {
                let found = self.positive(width, "a slot", frame);
                let depth = self.side_depth(depth.as_ref(), frame)?;
                let slot = SideCutKind::Slot {
                    width: found?,
                    depth,
                };
                (slot, width.span)
            }
            ast::SideCutKind::Pattern { name, deep, share } => {
                let depth = self.positive(deep, "a pattern", frame);
                let share = share.as_ref().map(|share| self.share(share, frame));
                let pattern = SideCutKind::Pattern {
                    name: name.clone(),
                    deep: depth?,
                    share: share.unwrap_or(Some(HALF))?,
                };
                (pattern, deep.span)
            }
        })
    }

    fn side_depth(
        &mut self,
        depth: Option<&ast::SideDepth>,
        frame: &mut Frame<'a>,
    ) -> Option<SideDepth> {
        Some(match depth {
            None => SideDepth::Void,
            Some(ast::SideDepth::Through) => SideDepth::Through,
            Some(ast::SideDepth::To(sum)) => SideDepth::To {
                deep: self.positive(sum, "a depth", frame)?,
                span: sum.span,
            },
        })
    }

    fn share(&mut self, sum: &ast::Expr, frame: &mut Frame<'a>) -> Option<f64> {
        let share = self.amount(sum, "a number", Quantity::as_number, frame)?;
        if (0.0..=1.0).contains(&share) {
            return Some(share);
        }
        let message = text!(
            "a pattern takes a share of {}; from 0 to 1 is expected",
            quillet_geometry::number(share, 3)
        );
        self.emit(out_of_range(sum.span, message).hint("half of its ring is 0.5"));
        None
    }

    /// Where it lies, the lower station first.
    fn stretch(
        &mut self,
        said: &ast::SideCut,
        part: &Part,
        frame: &mut Frame<'a>,
    ) -> Option<SideStretch> {
        let span = said.stretch.span;
        let from = self.position(&said.stretch.from, part, frame);
        let to = said.stretch.to.as_ref();
        let to = to.map(|to| self.position(to, part, frame));
        let from = from?;
        let is_hole = matches!(said.kind, ast::SideCutKind::Drill { .. });
        let Some(to) = to else {
            if !is_hole {
                self.emit(
                    out_of_range(
                        span,
                        "this cut lies at one place; it runs from one to another",
                    )
                    .hint("write both stations, as in: at 10..60"),
                );
            }
            let (to, whole) = (from, is_hole);
            return whole.then_some(SideStretch { from, to, span });
        };
        let to = to?;
        if is_hole {
            self.emit(
                out_of_range(
                    span,
                    "a hole from the side lies at one place, not on a stretch",
                )
                .hint("write its middle alone, or a slot in place of the hole"),
            );
            return None;
        }
        if from < to {
            return Some(SideStretch { from, to, span });
        }
        let message = match from == to {
            true => text!("this cut runs from {} to the same place", from),
            false => text!(
                "this cut runs from {} back to {}, from the first end",
                from,
                to
            ),
        };
        self.emit(out_of_range(span, message).hint(
            "write first the station nearer the first end; a place may run from the other: 6 from tail",
        ));
        None
    }

    /// How often, and what goes in; none where that could not be read.
    fn around(&mut self, said: &ast::Around, frame: &mut Frame<'a>) -> Option<Around> {
        let count = said.indexed.as_ref().map(|sum| self.count(sum, frame));
        let clock = said.clock.as_ref().map(|sum| self.bearing(sum, frame));
        let takes = said.takes.as_ref().map(|name| {
            let kinds = [DefinitionKind::Bought, DefinitionKind::Part];
            self.refer_to(name, &kinds, frame).then(|| name.clone())
        });
        Some(Around {
            count: count.unwrap_or(Some(1))?,
            clock: clock.unwrap_or(Some(Angle::deg(0.0)))?,
            takes: match takes {
                Some(takes) => Some(takes?),
                None => None,
            },
        })
    }

    /// How many: a whole number.
    pub(super) fn count(&mut self, sum: &ast::Expr, frame: &mut Frame<'a>) -> Option<u32> {
        let count = self.amount(sum, "a number", Quantity::as_number, frame)?;
        if count.fract() == 0.0 && (1.0..=MOST_AROUND).contains(&count) {
            return Some(count as u32);
        }
        let message = text!(
            "{} is no count; a whole number from 1 to {} is expected",
            quillet_geometry::number(count, 3),
            quillet_geometry::number(MOST_AROUND, 0)
        );
        self.emit(out_of_range(sum.span, message));
        None
    }

    /// A cut from an end that lies on a pitch circle; none where it lies on the axis.
    pub(super) fn circle_holes(
        &mut self,
        said: &ast::Feature,
        feature: &Feature,
        frame: &mut Frame<'a>,
    ) -> Option<Option<CircleHoles>> {
        let (FeatureKind::Drill {
            circle: Some(circle),
            ..
        }
        | FeatureKind::Bore {
            circle: Some(circle),
            ..
        }) = &said.kind
        else {
            return None;
        };
        let on = self.positive(&circle.dia, "a pitch circle", frame);
        let around = self.around(&circle.around, frame);
        let (dia, tool, point) = match feature.cut {
            Cut::Drill {
                dia, tool, point, ..
            } => (dia, tool, Some(point)),
            Cut::Bore { dia, tool } => (dia, tool, None),
            _ => return None,
        };
        Some(on.zip(around).map(|(on, around)| CircleHoles {
            span: feature.span,
            end: feature.end,
            from: feature.from,
            to: feature.to,
            through: feature.through,
            dia,
            tool,
            point,
            on,
            around,
            on_span: circle.dia.span,
        }))
    }
}
