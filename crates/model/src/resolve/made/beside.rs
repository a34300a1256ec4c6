//! Holes on a pitch circle that were made, each statement in the place of the drawn one; and how often and
//! where round the axis a cut is, where what was made does not say.

use super::super::Resolver;
use super::super::frame::Frame;
use super::cuts::same_roles;
use super::{Bench, MOST_OFF_DIA, NEAREST_CUT, Pending, PendingSize, not_in_drawing, told};
use crate::{Around, CircleHoles, CircleId, Feature, Part, PartKind};
use quillet_geometry::{Angle, Length};
use quillet_syntax::ast::{self, FeatureKind};
use quillet_syntax::{Span, text};

impl<'a> Resolver<'a> {
    /// Puts holes beside the axis that were measured in the place of those that are drawn.
    pub(super) fn made_circle(
        &mut self,
        statement: &'a ast::Feature,
        read: &Feature,
        part: &mut Part,
        bench: &mut Bench<'_, 'a>,
        frame: &mut Frame<'a>,
    ) {
        let size_span = read.size_span;
        let Some(around) = around(&statement.kind) else {
            return;
        };
        let Some(Some(read)) = self.circle_holes(statement, read, frame) else {
            return;
        };
        let nearest = bench.nearest_circle(around, &read);
        let Some((id, _)) = nearest.filter(|it| it.1 <= NEAREST_CUT) else {
            let (part, end) = (&part.name.text, bench.drawn.end_name(read.end));
            let message = text!("no such holes are drawn from {}'s {}", part, end);
            let finding = not_in_drawing(statement.span, message);
            let near = nearest.and_then(|(id, _)| bench.drawn.circle(id));
            return self.tell(match near {
                Some(near) => finding
                    .label(near.span, "the nearest")
                    .hint("write them as they are drawn, with what was measured"),
                None => finding.hint("take the line out, or draw them"),
            });
        };
        let Some(drawn) = bench.drawn.circle(id).cloned() else {
            return;
        };
        let alike = bench.statement(drawn.span);
        let alike = alike.is_none_or(|it| same_roles(&it.kind, &statement.kind));
        let counted = around.indexed.is_some();
        if !alike || counted && read.around.count != drawn.around.count {
            let written = self.design.text(drawn.span);
            return self.tell(told::in_other_words(statement.span, written, drawn.span));
        }
        let near = self.is_near(read.dia, drawn.dia, MOST_OFF_DIA, size_span)
            && self.is_near(read.on, drawn.on, MOST_OFF_DIA, read.on_span);
        if near {
            bench.put_circle(id, &drawn, (around, size_span), read, part);
        }
    }
}

impl Bench<'_, '_> {
    /// The drawn holes that are nearest in depth and circle and not made yet, and how far off.
    fn nearest_circle(
        &self,
        around: &ast::Around,
        read: &CircleHoles,
    ) -> Option<(CircleId, Length)> {
        let drawn = self.drawn.circles().iter().enumerate();
        let drawn = drawn.map(|(nth, it)| (CircleId::nth(nth), it));
        let clock = around.clock.as_ref().map(|_| read.around.clock);
        let alike = drawn.filter(|(id, it)| {
            it.end == read.end
                && it.through == read.through
                && it.point.is_some() == read.point.is_some()
                && clock.is_none_or(|clock| clock_apart(clock, &it.around).is_some())
                && !self.is_circle_made(*id)
        });
        let off = alike.map(|(id, it)| {
            let deep = match it.through {
                true => Length::ZERO,
                false => (it.to - read.to).abs(),
            };
            let turned = clock.and_then(|clock| clock_apart(clock, &it.around));
            let far = deep + (it.on - read.on).abs().half();
            (id, deep, far, turned.unwrap_or_default())
        });
        let nearest = off.min_by(|a, b| a.2.cmp(&b.2).then(a.3.total_cmp(&b.3)));
        nearest.map(|(id, deep, ..)| (id, deep))
    }

    fn is_circle_made(&self, id: CircleId) -> bool {
        let is = |it: &Pending| matches!(it.what, PendingSize::Beside(made) if made == id);
        self.statements.iter().any(is)
    }

    fn put_circle(
        &mut self,
        id: CircleId,
        drawn: &CircleHoles,
        (said, size_span): (&ast::Around, Span),
        read: CircleHoles,
        part: &mut Part,
    ) {
        let PartKind::Cut(cut) = &mut part.kind else {
            return;
        };
        let Some(here) = cut.circles.get_mut(id.index()) else {
            return;
        };
        self.faces.statements.push(read.span);
        self.faces.sizes.extend([size_span, read.on_span]);
        self.statements.push(Pending {
            part: part.name.text.clone(),
            span: read.span,
            drawn: Some(drawn.span),
            what: PendingSize::Beside(id),
        });
        *here = CircleHoles {
            point: drawn.point,
            around: laid_around(&drawn.around, said, &read.around),
            ..read
        };
    }
}

/// How often and where round the axis a cut on a pitch circle is; none of one on the axis.
pub(super) fn around(kind: &FeatureKind) -> Option<&ast::Around> {
    match kind {
        FeatureKind::Drill {
            circle: Some(circle),
            ..
        }
        | FeatureKind::Bore {
            circle: Some(circle),
            ..
        } => Some(&circle.around),
        _ => None,
    }
}

/// How often, where round and what goes in: as drawn, but for where what was made says where.
pub(super) fn laid_around(drawn: &Around, said: &ast::Around, read: &Around) -> Around {
    Around {
        clock: match said.clock {
            Some(_) => read.clock,
            None => drawn.clock,
        },
        ..drawn.clone()
    }
}

/// By how much a measured place round the axis is off the nearest of those drawn, degrees; none where no
/// slip explains it.
pub(super) fn clock_apart(clock: Angle, drawn: &Around) -> Option<f64> {
    let step = 360.0 / f64::from(drawn.count.max(1));
    let off = (clock.to_deg() - drawn.clock.to_deg()).rem_euclid(step);
    let off = off.min(step - off);
    (off <= MOST_OFF_DEG).then_some(off)
}

/// A place round the axis and the drawn one are no further apart.
const MOST_OFF_DEG: f64 = 10.0;
