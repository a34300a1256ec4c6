//! Pens: their parts as they see them, their joints resolved to ends.

use super::Resolver;
use super::eval::Frame;
use super::item::offer;
use crate::{Assembly, FitAsked, Joint, JointEnd, Limits, NameKind, Part, Pen, PenFace, Seat};
use quillet_syntax::ast::{self, Direction, ItemKind, JointLineKind, JointOptionKind, PenLineKind};
use quillet_syntax::{Finding, Severity, Span};
use std::sync::Arc;

impl<'a> Resolver<'a> {
    pub(super) fn pens(&mut self) {
        for item in self.scope.items.clone() {
            let ItemKind::Pen(ast) = &item.kind else {
                continue;
            };
            if self.scope.is_first(item, &ast.name)
                && let Some(pen) = self.pen(item, ast)
            {
                self.design.pens.push(pen);
            }
        }
    }

    fn pen(&mut self, item: &'a ast::Item, ast: &'a ast::Pen) -> Option<Pen> {
        let chain = self.pen_chain(ast)?;
        let lines = self.pen_lines(&chain);
        let mut frame = Frame::of_pen(lines.lets.clone());
        for it in &lines.lets {
            self.overriding(it);
            self.eval_value(&it.value, &mut frame);
        }
        let title = chain.iter().find_map(|pen| pen.title.clone());
        let mut pen = Pen {
            name: ast.name.clone(),
            title,
            note: item.note.clone(),
            span: item.span,
            block: ast.block.unwrap_or(ast.name.span),
            parts: Vec::new(),
            joints: Vec::new(),
            wants: lines.wants.iter().map(|it| (*it).clone()).collect(),
            accepts: Vec::new(),
            limits: self.limits(lines.limits.iter().copied(), &mut frame),
            bench: lines.bench.cloned(),
            fill: None,
            assembly: Assembly::default(),
        };
        for (joint, span) in &lines.joints {
            if let Some(joint) = self.joint(joint, *span, &mut pen, &mut frame) {
                pen.joints.push(joint);
            }
        }
        if let Some(fill) = lines.fill {
            pen.fill = self
                .pen_part(fill, &mut pen, &mut frame)
                .map(|index| (index, fill.span));
        }
        for (accept, scope) in &lines.accepts {
            let acceptance = self.acceptance(accept, *scope, &mut frame);
            pen.accepts.push(acceptance);
        }
        for want in &lines.wants {
            self.refer_want(want, &frame);
        }
        if let Some(bench) = &pen.bench {
            self.refer_to(bench, &[NameKind::Bench], &frame);
        }
        Some(pen)
    }

    /// The pen and those it is like, itself first.
    fn pen_chain(&mut self, ast: &'a ast::Pen) -> Option<Vec<&'a ast::Pen>> {
        let mut chain = vec![ast];
        let mut at = ast;
        while let Some(like) = &at.like {
            if !self.refer_to(like, &[NameKind::Pen], &Frame::default()) {
                return None;
            }
            let ItemKind::Pen(base) = &self.scope.get(&like.text)?.item.kind else {
                return None;
            };
            if chain.iter().any(|seen| std::ptr::eq(*seen, base)) {
                self.say(
                    Finding::new(
                        "unknown-name",
                        Severity::Error,
                        like.span,
                        format!("{} is like itself", ast.name.text),
                    )
                    .hint("let one of them be written out"),
                );
                return None;
            }
            chain.push(base);
            at = base;
        }
        Some(chain)
    }

    /// The lines of a chain of pens, the nearest pen's over those of the pens it is like.
    fn pen_lines(&self, chain: &[&'a ast::Pen]) -> PenLines<'a> {
        let mut lines = PenLines::default();
        for pen in chain.iter().rev() {
            let scope = pen.block.unwrap_or(pen.name.span);
            let inherited = (lines.joints.len(), lines.wants.len());
            let (mut joints, mut wants) = (Vec::new(), Vec::new());
            for line in &pen.lines {
                match &line.kind {
                    PenLineKind::Joint(it) => joints.push((it, line.span)),
                    PenLineKind::Want(it) => wants.push(it),
                    PenLineKind::Accept(it) => lines.accepts.push((it, scope)),
                    PenLineKind::Let(it) => {
                        lines.lets.retain(|old| old.name.text != it.name.text);
                        lines.lets.push(it);
                    }
                    PenLineKind::Limit(it) => lines.limits.push(it),
                    PenLineKind::Bench(name) => lines.bench = Some(name),
                    PenLineKind::Fill(name) => lines.fill = Some(name),
                    PenLineKind::Bad => {}
                }
            }
            let mut keep = 0..inherited.0;
            lines.joints.retain(|(old, _)| {
                keep.next().is_none() || !joints.iter().any(|(new, _)| takes_place_of(new, old))
            });
            lines.wants.retain(|old| {
                !wants.iter().any(|new| {
                    self.design.text(new.measure.span) == self.design.text(old.measure.span)
                })
            });
            lines.joints.extend(joints);
            lines.wants.extend(wants);
        }
        lines
    }

    /// A pen's `let` must stand over one of the file's.
    fn overriding(&mut self, it: &'a ast::Let) {
        if let Some(entry) = self.scope.get(&it.name.text)
            && matches!(entry.item.kind, ItemKind::Let(_))
        {
            self.refer(it.name.span, entry.definition);
            return;
        }
        let near = quillet_syntax::nearest(&it.name.text, self.scope.names_of(&[NameKind::Let]))
            .map(str::to_owned);
        let finding = Finding::new(
            "unknown-name",
            Severity::Error,
            it.name.span,
            format!(
                "the file has no let {}, so this one changes nothing",
                it.name.text
            ),
        );
        let hint = "a let in a pen stands over one of the file's";
        self.say(offer(finding, it.name.span, near.as_deref(), hint));
    }

    /// The index in the pen of a part of a name, added where it is new.
    fn pen_part(
        &mut self,
        name: &ast::Name,
        pen: &mut Pen,
        frame: &mut Frame<'a>,
    ) -> Option<usize> {
        if !self.refer_to(name, &[NameKind::Part, NameKind::Bought], frame) {
            return None;
        }
        if let Some(index) = pen.part_index(&name.text) {
            return Some(index);
        }
        let part = self.part_as_seen(name, frame)?;
        pen.parts.push(part);
        Some(pen.parts.len() - 1)
    }

    /// A part as a pen's `let`s give it; the design's own where they change nothing.
    fn part_as_seen(&mut self, name: &ast::Name, frame: &mut Frame<'a>) -> Option<Arc<Part>> {
        let shared = self.design.part(&name.text).cloned();
        if frame.pen.is_empty() {
            return shared;
        }
        let item = self.scope.get(&name.text)?.item;
        let (ItemKind::Part(ast) | ItemKind::Bought(ast)) = &item.kind else {
            return None;
        };
        match self.part(item, ast, frame)? {
            (part, true) => Some(Arc::new(part)),
            (_, false) => shared,
        }
    }

    fn joint(
        &mut self,
        ast: &'a ast::Joint,
        span: Span,
        pen: &mut Pen,
        frame: &mut Frame<'a>,
    ) -> Option<Joint> {
        let first = self.joint_end(&ast.first, pen, frame);
        let second = self.joint_end(&ast.second, pen, frame);
        let (first, second) = (first?, second?);
        let (male, female) = match ast.direction {
            Direction::Into => (first, second),
            Direction::Onto => (second, first),
        };
        if male.part == female.part {
            self.say(
                Finding::new(
                    "joined-twice",
                    Severity::Error,
                    ast.first.span.to(ast.second.span),
                    format!("{} is joined to itself", pen.parts[male.part].name.text),
                )
                .hint("a second piece of one item is a like: part other like this"),
            );
            return None;
        }
        let head_end = ast
            .options
            .last()
            .map_or(ast.second.span, |option| option.span);
        let mut joint = Joint {
            span,
            head: ast.verb_span.to(head_end),
            verb: ast.verb,
            male,
            female,
            with: None,
            through: Vec::new(),
            by: None,
            asks: None,
            seat: None,
            flush: None,
            wants: Vec::new(),
            accepts: Vec::new(),
            limits: Limits::default(),
        };
        for option in &ast.options {
            self.joint_option(option, &mut joint, pen, frame);
        }
        let scope = ast.block.unwrap_or(span);
        for line in &ast.lines {
            match &line.kind {
                JointLineKind::Seat { first, second } => {
                    let first = self.pen_face(first, pen, frame);
                    let second = self.pen_face(second, pen, frame);
                    joint.seat = first.zip(second).map(|(first, second)| Seat {
                        span: line.span,
                        first,
                        second,
                    });
                }
                JointLineKind::Flush => joint.flush = Some(line.span),
                JointLineKind::Want(want) => {
                    self.refer_want(want, frame);
                    joint.wants.push(want.clone());
                }
                JointLineKind::Accept(accept) => {
                    joint.accepts.push(self.acceptance(accept, scope, frame));
                }
                JointLineKind::Limit(limit) => {
                    joint.limits.0.extend(self.limit(limit, frame));
                }
                JointLineKind::Bad => {}
            }
        }
        Some(joint)
    }

    fn joint_option(
        &mut self,
        option: &ast::JointOption,
        joint: &mut Joint,
        pen: &mut Pen,
        frame: &mut Frame<'a>,
    ) {
        match &option.kind {
            JointOptionKind::With(name) => joint.with = self.thread_named(name, frame),
            JointOptionKind::Through(names) => {
                for name in names {
                    joint.through.extend(self.pen_part(name, pen, frame));
                }
            }
            JointOptionKind::By(sum) => {
                joint.by = self
                    .positive(sum, "an overlap", frame)
                    .map(|by| (by, sum.span));
            }
            JointOptionKind::Fit(text) => match text.text.parse() {
                Ok(fit) => joint.asks = Some((FitAsked::Fit(fit), option.span)),
                Err(error) => {
                    let error: quillet_standards::fit::FitError = error;
                    self.say(Finding::new(
                        "bad-designation",
                        Severity::Error,
                        text.span,
                        error.to_string(),
                    ));
                }
            },
            JointOptionKind::Clearance(sum) => {
                let size = self.distance(sum, "a clearance", frame);
                joint.asks = size.map(|size| (FitAsked::Clearance(size), option.span));
            }
            JointOptionKind::Interference(sum) => {
                let size = self.distance(sum, "an interference", frame);
                joint.asks = size.map(|size| (FitAsked::Interference(size), option.span));
            }
            JointOptionKind::Gap(sum) => {
                let size = self.distance(sum, "a gap", frame);
                joint.asks = size.map(|size| (FitAsked::Gap(size), option.span));
            }
        }
    }

    fn joint_end(
        &mut self,
        face: &ast::Face,
        pen: &mut Pen,
        frame: &mut Frame<'a>,
    ) -> Option<JointEnd> {
        let part = self.pen_part(&face.part, pen, frame)?;
        let seen = pen.parts[part].clone();
        let end = self.part_end(&seen, &face.face)?;
        Some(JointEnd {
            part,
            end,
            span: face.span,
        })
    }

    fn pen_face(
        &mut self,
        face: &ast::Face,
        pen: &mut Pen,
        frame: &mut Frame<'a>,
    ) -> Option<PenFace> {
        let index = self.pen_part(&face.part, pen, frame)?;
        let part = pen.parts[index].clone();
        let Some(found) = part.face(&face.face.text) else {
            self.unknown_face(&part, &face.face);
            return None;
        };
        let (at, end) = (found.at, found.end);
        self.refer_face(&part, &face.face);
        Some(PenFace {
            part: index,
            face: face.face.clone(),
            at,
            end,
            span: face.span,
        })
    }

    fn unknown_face(&mut self, part: &Part, name: &ast::Name) {
        let known: Vec<&str> = part.faces.iter().map(|face| &*face.name.text).collect();
        let finding = Finding::new(
            "unknown-name",
            Severity::Error,
            name.span,
            format!("{} has no face called {}", part.name.text, name.text),
        )
        .label(
            part.name.span,
            format!("its faces are {}", known.join(", ")),
        );
        let near = quillet_syntax::nearest(&name.text, known);
        self.say(offer(
            finding,
            name.span,
            near,
            "name a face with as, at its station or cut",
        ));
    }
}

/// Whether a pen's joint stands in for one of the pen it is like: the same verb at one of
/// the same faces.
fn takes_place_of(new: &ast::Joint, old: &ast::Joint) -> bool {
    let same =
        |a: &ast::Face, b: &ast::Face| a.part.text == b.part.text && a.face.text == b.face.text;
    new.verb == old.verb && (same(&new.first, &old.first) || same(&new.second, &old.second))
}

/// The lines of a pen, those of the pens it is like overlaid by its own.
#[derive(Default)]
struct PenLines<'a> {
    joints: Vec<(&'a ast::Joint, Span)>,
    wants: Vec<&'a ast::Want>,
    accepts: Vec<(&'a ast::Accept, Span)>,
    lets: Vec<&'a ast::Let>,
    limits: Vec<&'a ast::Limit>,
    bench: Option<&'a ast::Name>,
    fill: Option<&'a ast::Name>,
}
