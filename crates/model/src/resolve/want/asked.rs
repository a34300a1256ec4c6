//! The configuration, the joint, the part and the face that a measure asks for.

use super::super::Resolver;
use super::super::clash::mismatch;
use super::super::frame::Frame;
use super::super::name::offer;
use super::WantScope;
use crate::{Configured, DefinitionKind, JointId, PartId, PenFace};
use quillet_syntax::ast::{self, Arg, Expr, ExprKind};
use quillet_syntax::{Finding, Severity};

impl<'a> Resolver<'a> {
    pub(super) fn configured(&mut self, expr: &Expr) -> Option<Configured> {
        let text = match &expr.kind {
            ExprKind::Name(text) => text,
            _ => "",
        };
        let found = Configured::named(text);
        if found.is_none() {
            let finding = Finding::new(
                "unknown-name",
                Severity::Error,
                expr.span,
                "capped, uncapped, posted, retracted or resting is expected here",
            );
            let words = Configured::ALL.iter().map(|it| it.word());
            let near = quillet_syntax::nearest(text, words);
            self.emit(offer(
                finding,
                expr.span,
                near,
                "say in which configuration",
            ));
        }
        found
    }

    /// The joint a measure is of: the one in whose block it stands, or that of two faces.
    pub(super) fn joint_asked(
        &mut self,
        name: &ast::Name,
        args: &'a [Arg],
        among: WantScope<'_>,
        frame: &mut Frame<'a>,
    ) -> Option<JointId> {
        let (pen, own) = match among {
            WantScope::Pen(pen, own) => (Some(pen), own),
            WantScope::Part(_) => (None, None),
        };
        if let ([], Some(own)) = (args, own) {
            return Some(own);
        }
        if let ([Arg::Face(one), Arg::Face(other)], Some(pen)) = (args, pen) {
            let one = self.face_asked(one, among, frame)?;
            let other = self.face_asked(other, among, frame)?;
            let pair = [(one.part, one.end), (other.part, other.end)];
            let found = pen.joints.position(|joint| {
                let ends = [joint.male, joint.female].map(|it| (it.part, Some(it.end)));
                ends == pair || ends == [pair[1], pair[0]]
            });
            if found.is_none() {
                self.emit(mismatch(
                    one.span.to(other.span),
                    "the pen has no joint of these two",
                ));
            }
            return found;
        }
        // The joint it stands in may be what could not be read.
        let mut items = self.scope.items.iter();
        let item = items.find(|item| item.span.contains(name.span));
        if item.is_some_and(|item| !self.is_sound(item.span)) {
            self.lost += 1;
            return None;
        }
        self.emit(
            mismatch(name.span, format!("{} is measured of a joint", name.text)).hint(format!(
                "write it in the joint's block, or as {}(part.end, part.end)",
                name.text
            )),
        );
        None
    }

    pub(super) fn part_asked(
        &mut self,
        expr: &Expr,
        among: WantScope<'_>,
        frame: &mut Frame<'a>,
    ) -> Option<PartId> {
        let ExprKind::Name(text) = &expr.kind else {
            self.emit(mismatch(expr.span, "the name of a part is expected here"));
            return None;
        };
        let name = ast::Name {
            text: text.clone(),
            span: expr.span,
        };
        self.part_named(&name, among, frame)
    }

    fn part_named(
        &mut self,
        name: &ast::Name,
        among: WantScope<'_>,
        frame: &mut Frame<'a>,
    ) -> Option<PartId> {
        if !self.refer_to(name, &[DefinitionKind::Part, DefinitionKind::Bought], frame) {
            return None;
        }
        let (found, of) = match among {
            WantScope::Pen(pen, _) => (pen.part_id(&name.text), &pen.name.text),
            WantScope::Part(part) => (
                (part.name.text == name.text).then_some(PartId::ALONE),
                &part.name.text,
            ),
        };
        if found.is_none() {
            let message = format!("{} is no part of {of}", name.text);
            let finding = Finding::new("unknown-name", Severity::Error, name.span, message);
            let known = among.names();
            let near = quillet_syntax::nearest(&name.text, known.iter().map(|it| &**it));
            let hint = format!("its parts are {}", known.join(", "));
            self.emit(offer(finding, name.span, near, &hint));
        }
        found
    }

    pub(super) fn face_asked(
        &mut self,
        face: &ast::Face,
        among: WantScope<'_>,
        frame: &mut Frame<'a>,
    ) -> Option<PenFace> {
        let index = self.part_named(&face.part, among, frame)?;
        let part = among.part(index)?;
        self.face_of(index, &part, face)
    }
}
