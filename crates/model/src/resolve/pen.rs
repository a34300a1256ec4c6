//! Pens: their parts as they see them, their joints resolved to ends.

use super::Resolver;
use super::frame::Frame;
use super::name::offer;
use super::want::WantScope;
use crate::{Assembly, ById, DefinitionKind, Hand, JointId, Part, PartId, Pen};
use quillet_syntax::ast::{self, ItemKind, JointLineKind, PenLineKind};
use quillet_syntax::{Finding, Severity, Span};
use std::sync::Arc;

impl<'a> Resolver<'a> {
    pub(super) fn pens(&mut self) {
        for item in self.scope.items.clone() {
            let ItemKind::Pen(ast) = &item.kind else {
                continue;
            };
            if self.scope.is_first(item, &ast.name)
                && let Some(pen) = self.kept_pen(item).or_else(|| self.pen(item, ast))
            {
                self.design.pens.push(pen);
            }
        }
    }

    #[expect(
        clippy::too_many_lines,
        reason = "the order in which the lines of a pen are resolved"
    )]
    pub(super) fn pen(&mut self, item: &'a ast::Item, ast: &'a ast::Pen) -> Option<Pen> {
        let chain = self.like_chain(ast, DefinitionKind::Pen, &Frame::default())?;
        let lines = self.pen_lines(&chain);
        let before = self.lost;
        let mut frame = Frame::of_pen(lines.lets.clone());
        for it in &lines.lets {
            self.overriding(it);
            self.eval_value(&it.value, &mut frame);
        }
        let lost_lets = self.lost - before;
        let title = chain.iter().find_map(|pen| pen.title.clone());
        let mut pen = Pen {
            name: ast.name.clone(),
            title,
            note: item.note.as_deref().cloned(),
            span: item.span,
            block: ast.block.unwrap_or(ast.name.span),
            parts: ById::default(),
            joints: ById::default(),
            wants: Vec::new(),
            accepts: Vec::new(),
            limits: self.limits(lines.limits.iter().copied(), &mut frame),
            bench: lines.bench.cloned(),
            hands: ById::default(),
            fill: None,
            whole: false,
            made: None,
            assembly: Assembly::default(),
        };
        let before = self.lost;
        let mut asked: Vec<(Option<JointId>, &'a ast::Want)> = Vec::new();
        for (statement, span) in &lines.joints {
            if let Some(joint) = self.joint(statement, *span, &mut pen, &mut frame) {
                let joint = pen.joints.push(joint);
                let wants = statement.lines.iter().filter_map(|line| match &line.kind {
                    JointLineKind::Want(want) => Some((Some(joint), want)),
                    _ => None,
                });
                asked.extend(wants);
            }
        }
        asked.extend(lines.wants.iter().map(|want| (None, *want)));
        if let Some(fill) = lines.fill {
            pen.fill = self
                .pen_part(fill, &mut pen, &mut frame)
                .map(|index| (index, fill.span));
        }
        let blocks = chain.iter().map(|pen| pen.block.unwrap_or(pen.name.span));
        let sound = blocks.fold(self.is_sound(item.span), |sound, block| {
            sound && self.is_sound(block)
        });
        pen.whole = sound && lost_lets == 0 && self.lost == before;
        for (accept, scope) in &lines.accepts {
            let acceptance = self.acceptance(accept, *scope, &mut frame);
            pen.accepts.push(acceptance);
        }
        for (joint, statement) in asked {
            let Some(want) = self.want(statement, WantScope::Pen(&pen, joint), &mut frame) else {
                continue;
            };
            match joint {
                Some(joint) => pen.joints[joint].wants.push(want),
                None => pen.wants.push(want),
            }
        }
        if let Some(bench) = &pen.bench {
            self.refer_to(bench, &[DefinitionKind::Bench], &frame);
        }
        let hand = |part: &Arc<Part>| {
            let bench = part.bench.as_ref().or(pen.bench.as_ref());
            Hand::at(self.design.bench(bench).map(AsRef::as_ref))
        };
        pen.hands = pen.parts.iter().map(hand).collect();
        let known = |name: &str| self.known.parts.get(name).map(|it| it.part.clone());
        pen.assembly = Assembly::of(&pen, 0.0, &known, self.earlier(item, ast));
        self.standing_out(&pen);
        Some(pen)
    }

    /// A pen with joints that may rest alike: what a made one is held against, the same as it is drawn where it is
    /// drawn again, or the one that it is like.
    fn earlier(&self, item: &ast::Item, ast: &ast::Pen) -> Option<&Pen> {
        let making = self.making.as_ref().map(|it| &it.drawn);
        let like = || {
            let like = &ast.like.as_ref()?.text;
            self.design.pens.iter().find(|it| it.name.text == *like)
        };
        making.or_else(|| self.drawn_pen(item)).or_else(like)
    }

    /// Tells of joints made before turning of which both outsides cannot be turned as one.
    fn standing_out(&mut self, pen: &Pen) {
        let works = pen.turned_as_one();
        for (id, joint) in pen.joints.with_ids() {
            let Some(at) = joint.before_turning.filter(|_| pen.lining(id).is_none()) else {
                continue;
            };
            let both = [joint.male.part, joint.female.part];
            let holds = |part: &PartId| {
                let mut members = works.iter().flat_map(|it| &it.members);
                members.any(|it| it.part == *part)
            };
            if !both.iter().all(holds) {
                self.not_reckoned(
                    at,
                    "one turning of both outsides here",
                    "the route turns each by itself: what is bought, or cut where the other hides it, is \
                     joined later",
                );
            }
        }
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
        let near =
            quillet_syntax::nearest(&it.name.text, self.scope.names_of(&[DefinitionKind::Let]))
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
        self.emit(offer(finding, it.name.span, near.as_deref(), hint));
    }

    /// A part of the pen of a name, added where it is new.
    pub(super) fn pen_part(
        &mut self,
        name: &ast::Name,
        pen: &mut Pen,
        frame: &mut Frame<'a>,
    ) -> Option<PartId> {
        if !self.refer_to(name, &[DefinitionKind::Part, DefinitionKind::Bought], frame) {
            return None;
        }
        if let Some(index) = pen.part_id(&name.text) {
            return Some(index);
        }
        let part = self.part_as_seen(name, pen, frame)?;
        Some(pen.parts.push(part))
    }

    /// A part as a pen's `let`s give it; the design's own where they change nothing.
    fn part_as_seen(
        &mut self,
        name: &ast::Name,
        pen: &Pen,
        frame: &mut Frame<'a>,
    ) -> Option<Arc<Part>> {
        let making = self.making_of(&name.text).is_some();
        if let Some(known) = self.known.parts.get(&name.text)
            && !making
            && !frame
                .pen
                .iter()
                .any(|it| known.names.contains(&it.name.text))
        {
            return Some(known.part.clone());
        }
        let item = self.scope.get(&name.text)?.item;
        if !making && let Some(kept) = self.kept_in(pen, item) {
            return Some(kept);
        }
        let (ItemKind::Part(ast) | ItemKind::Bought(ast)) = &item.kind else {
            return None;
        };
        let lost = self.lost;
        let (part, _) = self.part(item, ast, frame)?;
        // What could not be read of a part is the part's own, and it says so.
        self.lost = lost;
        Some(Arc::new(part))
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
