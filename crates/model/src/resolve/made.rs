//! What was made of a pen: the pen again, with what the caliper read in place of what is drawn.

mod along;
mod beside;
mod cuts;
mod outside;
mod part;
mod side;
mod told;

use super::Resolver;
use super::frame::Frame;
use super::lines::{Lines, stated_twice};
use super::want::WantScope;
use crate::made_faces::{MadeFaces, SAME_PLANE};
use crate::{DefinitionKind, Made, MadeSize, MadeStatement, Measured, Part, PartId, Pen};
use quillet_geometry::Length;
use quillet_syntax::ast::{self, ItemKind, MadeLineKind};
use quillet_syntax::{RuleId, Span};
use std::sync::Arc;
use told::not_in_drawing;

/// What is being made while a pen is put together again.
pub(super) struct Making<'a> {
    /// The pen as it is drawn.
    pub(super) drawn: Pen,
    parts: Vec<&'a ast::MadePart>,
    statements: Vec<Pending>,
}

/// A statement that is made, of a part that is not yet in its pen.
struct Pending {
    part: Arc<str>,
    span: Span,
    drawn: Option<Span>,
    what: PendingSize,
}

enum PendingSize {
    Length,
    /// The drawn cut.
    Cut(crate::CutId),
    /// The drawn station, and which of a statement's two it is.
    Station(crate::StationId, bool),
    /// A cut from the side; what is made has the number of what is drawn.
    Side(crate::SideId),
    /// Holes beside the axis, likewise.
    Beside(crate::CircleId),
    Between {
        at: Length,
        dia: Length,
    },
}

/// A part in the making: what is drawn of it, and what is known of it to the caliper.
struct Bench<'p, 'a> {
    drawn: Arc<Part>,
    lines: &'p Lines<'a>,
    faces: MadeFaces,
    /// Planes that were measured: whether of the inside, where they are drawn and where they are,
    /// stations of the drawn part and of the made one.
    moved: Vec<(bool, Length, Length)>,
    statements: Vec<Pending>,
}

impl<'a> Resolver<'a> {
    /// All pens that were made; those that are drawn are resolved before.
    pub(super) fn made_pens(&mut self) {
        for item in self.scope.items.clone() {
            let ItemKind::Made(made) = &item.kind else {
                continue;
            };
            if !self.scope.is_first(item, &made.name) {
                continue;
            }
            // Against a drawing that does not go together nothing is held, even what is as it was.
            let drawn = self.design.pen(&made.of.text).is_some_and(Pen::is_settled);
            let pen = self.kept_made(item, &made.name.text).filter(|_| drawn);
            if let Some(pen) = pen.or_else(|| self.made_pen(item, made)) {
                self.design.pens.push(pen);
            }
        }
    }

    fn made_pen(&mut self, item: &'a ast::Item, made: &'a ast::Made) -> Option<Pen> {
        let frame = Frame::default();
        if !self.refer_to(&made.of, &[DefinitionKind::Pen], &frame) {
            return None;
        }
        let of = self.scope.get(&made.of.text)?.item;
        let ItemKind::Pen(ast) = &of.kind else {
            return None;
        };
        let drawn = self.design.pen(&made.of.text).cloned();
        let Some(drawn) = drawn.filter(Pen::is_settled) else {
            self.emit(told::cannot_be_judged(&made.of));
            return None;
        };
        let parts = self.made_parts(made, &drawn, &frame);
        self.making = Some(Making {
            drawn,
            parts,
            statements: Vec::new(),
        });
        let pen = self.pen(of, ast);
        let making = self.making.take()?;
        let mut pen = pen?;
        pen.name = made.name.clone();
        pen.note = item.note.as_deref().cloned();
        pen.span = item.span;
        pen.block = made.block.unwrap_or(made.name.span);
        let mut title = pen.title.take();
        if let Some(title) = &mut title {
            title.text = format!("{}, {}", title.text, made.name.text).into();
        }
        pen.title = title;
        let statements = making.statements.iter();
        let statements = statements.filter_map(|it| it.settled(&pen, &making.drawn));
        let mut statements: Vec<MadeStatement> = statements.collect();
        statements.sort_by_key(|it| it.span);
        let measured = self.measured_of(made, &mut pen);
        pen.made = Some(Arc::new(Made {
            on: made.on.clone(),
            of: made.of.clone(),
            drawn: making.drawn.parts.to_vec(),
            statements,
            measured,
        }));
        Some(pen)
    }

    /// The parts of which something is made, each once.
    fn made_parts(
        &mut self,
        made: &'a ast::Made,
        drawn: &Pen,
        frame: &Frame<'a>,
    ) -> Vec<&'a ast::MadePart> {
        let mut parts: Vec<&'a ast::MadePart> = Vec::new();
        for line in &made.lines {
            let MadeLineKind::Part(part) = &line.kind else {
                continue;
            };
            let kinds = [DefinitionKind::Part, DefinitionKind::Bought];
            if !self.refer_to(&part.name, &kinds, frame) {
                continue;
            }
            if let Some(first) = parts.iter().find(|it| it.name.text == part.name.text) {
                self.emit(stated_twice(line.span, first.name.span));
                continue;
            }
            match drawn.parts.iter().find(|it| it.name.text == part.name.text) {
                None => self.emit(told::no_such_part(part, drawn)),
                Some(drawn) if drawn.is_bought() => self.emit(told::is_bought(part)),
                Some(_) => parts.push(part),
            }
        }
        parts
    }

    /// What was measured of the whole, and what is accepted in it.
    fn measured_of(&mut self, made: &'a ast::Made, pen: &mut Pen) -> Vec<Measured> {
        let mut frame = Frame::default();
        let mut measured = Vec::new();
        let scope = pen.block;
        for line in &made.lines {
            match &line.kind {
                MadeLineKind::Measured { measure, value } => {
                    let among = WantScope::Pen(pen, None);
                    let found = self.measured_figure(measure, value, among, &mut frame);
                    measured.extend(found.map(|(measure, value)| Measured {
                        span: line.span,
                        measure,
                        value,
                    }));
                }
                MadeLineKind::Accept(accept) => {
                    let acceptance = self.acceptance(accept, scope, &mut frame);
                    pen.accepts.push(acceptance);
                }
                MadeLineKind::Part(_) | MadeLineKind::Bad => {}
            }
        }
        measured
    }
}

impl Pending {
    /// The statement in its pen.
    fn settled(&self, pen: &Pen, drawn: &Pen) -> Option<MadeStatement> {
        let part: PartId = pen.part_id(&self.part)?;
        let made = pen.parts.get(part)?;
        // Both are put together alike.
        debug_assert_eq!(drawn.part_id(&self.part), Some(part));
        let what = match self.what {
            PendingSize::Length => MadeSize::Length,
            PendingSize::Between { at, dia } => MadeSize::Between { at, dia },
            PendingSize::Side(id) => MadeSize::Side(id),
            PendingSize::Beside(id) => MadeSize::Beside(id),
            PendingSize::Cut(id) => MadeSize::Cut {
                drawn: id,
                made: made.features.position(|it| it.span == self.span)?,
            },
            PendingSize::Station(id, second) => {
                let mut same = made.stations.with_ids().filter(|it| it.1.span == self.span);
                let made = if second { same.nth(1) } else { same.next() };
                MadeSize::Station {
                    drawn: id,
                    made: made?.0,
                }
            }
        };
        Some(MadeStatement {
            part,
            span: self.span,
            drawn: self.drawn,
            what,
        })
    }
}

/// A rule of this file's findings.
const NOT_IN_DRAWING: RuleId = RuleId::new("not-in-drawing");
/// The caliper's depth of a made cut and the drawn one's are no further apart.
const NEAREST_CUT: Length = Length::from_nm(1_000_000);
/// A measured station and the drawn one are no further apart.
const NEAREST_STATION: Length = Length::from_nm(500_000);
/// No diameter comes out further from the drawn one.
const MOST_OFF_DIA: Length = Length::from_nm(2_000_000);
/// No length comes out further from the drawn one.
const MOST_OFF_LENGTH: Length = Length::from_nm(5_000_000);
