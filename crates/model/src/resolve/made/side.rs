//! Cuts from the side that were made, each in the place of the drawn one.

use super::super::Resolver;
use super::super::frame::Frame;
use super::beside::{clock_apart, laid_around};
use super::{Bench, MOST_OFF_DIA, NEAREST_CUT, Pending, PendingSize, told};
use crate::{Part, PartKind, SideCut, SideCutKind, SideId, SideSize};
use quillet_geometry::Length;
use quillet_syntax::ast::{self, LineKind, SideLineKind};
use quillet_syntax::{Span, text};
use std::mem::discriminant;

impl<'a> Resolver<'a> {
    /// Lays what was measured of the cuts from the side over those that are drawn.
    pub(super) fn made_sides(
        &mut self,
        made: &'a ast::MadePart,
        part: &mut Part,
        bench: &mut Bench<'_, 'a>,
        frame: &mut Frame<'a>,
    ) {
        let said = made.lines.iter().filter_map(|line| match &line.kind {
            LineKind::Side(said) => Some(said),
            _ => None,
        });
        for line in said.flatten() {
            if let SideLineKind::Cut(cut) = &line.kind {
                let lost = self.lost;
                if let Some(read) = self.side_cut(line.span, cut, part, frame) {
                    self.made_side((line.span, cut), read, part, bench);
                }
                self.lost = lost;
            }
        }
    }

    fn made_side(
        &mut self,
        (at, said): (Span, &ast::SideCut),
        read: SideCut,
        part: &mut Part,
        bench: &mut Bench<'_, 'a>,
    ) {
        let nearest = bench.nearest_side(said, &read, part);
        let Some((id, _)) = nearest.filter(|it| it.1 <= NEAREST_CUT) else {
            let verb = read.called();
            let message = match nearest {
                Some((_, off)) => text!(
                    "no {} is drawn on {} within {} of this place; the nearest is {} off",
                    verb,
                    part.name.text,
                    NEAREST_CUT,
                    off
                ),
                None => text!("no such {} is drawn on {}", verb, part.name.text),
            };
            let near = nearest.and_then(|(id, _)| bench.drawn.side(id));
            return self.tell(told::not_drawn(at, message, near.map(|it| it.span)));
        };
        let Some(drawn) = bench.drawn.side(id).cloned() else {
            return;
        };
        let alike = bench.side_statement(drawn.span);
        let alike = alike.is_none_or(|it| same_words(&it.kind, &said.kind));
        let counted = said.around.indexed.is_some();
        if !alike || counted && read.around.count != drawn.around.count {
            let written = self.design.text(drawn.span);
            return self.tell(told::in_other_words(at, written, drawn.span));
        }
        let sizes = read.sizes().into_iter().zip(drawn.sizes());
        let mut across = sizes.filter(|((of, _), _)| !matches!(of, SideSize::From | SideSize::To));
        let near = across
            .all(|((_, made), (_, drawn))| self.is_near(made, drawn, MOST_OFF_DIA, read.size_span));
        if near {
            bench.put_side(id, &drawn, said, read, part);
        }
    }
}

impl<'a> Bench<'_, 'a> {
    /// The drawn cut of the same kind that is nearest and not made yet, and how far off it lies: in the
    /// part as long as it came out.
    fn nearest_side(
        &self,
        said: &ast::SideCut,
        read: &SideCut,
        part: &Part,
    ) -> Option<(SideId, Length)> {
        let drawn = self.drawn.sides().iter().enumerate();
        let drawn = drawn.map(|(nth, it)| (SideId::nth(nth), it));
        let clock = said.around.clock.as_ref().map(|_| read.around.clock);
        let alike = drawn.filter(|(id, it)| {
            discriminant(&it.kind) == discriminant(&read.kind)
                && clock.is_none_or(|clock| clock_apart(clock, &it.around).is_some())
                && !self.is_side_made(*id)
        });
        let off = alike.filter_map(|(id, it)| {
            let here = part.side(id)?.stretch;
            let ends = [(here.from, read.stretch.from), (here.to, read.stretch.to)];
            let off = ends.map(|(drawn, made)| (drawn - made).abs());
            let turned = clock.and_then(|clock| clock_apart(clock, &it.around));
            Some((id, off[0].max(off[1]), turned.unwrap_or_default()))
        });
        let nearest = off.min_by(|a, b| a.1.cmp(&b.1).then(a.2.total_cmp(&b.2)));
        nearest.map(|(id, off, _)| (id, off))
    }

    fn is_side_made(&self, id: SideId) -> bool {
        let is = |it: &Pending| matches!(it.what, PendingSize::Side(made) if made == id);
        self.statements.iter().any(is)
    }

    /// The statement of a cut from the side that is drawn at a place.
    fn side_statement(&self, at: Span) -> Option<&'a ast::SideCut> {
        let said = self
            .lines
            .single
            .iter()
            .filter_map(|line| match &line.kind {
                LineKind::Side(said) => Some(said),
                _ => None,
            });
        let line = said.flatten().find(|it| it.span == at)?;
        match &line.kind {
            SideLineKind::Cut(cut) => Some(cut),
            _ => None,
        }
    }

    /// Puts what was measured in the place of what is drawn; what only the drawing says stays.
    fn put_side(
        &mut self,
        id: SideId,
        drawn: &SideCut,
        said: &ast::SideCut,
        read: SideCut,
        part: &mut Part,
    ) {
        let PartKind::Cut(cut) = &mut part.kind else {
            return;
        };
        let Some(here) = cut.sides.get_mut(id.index()) else {
            return;
        };
        let kind = match (&drawn.kind, read.kind) {
            (
                SideCutKind::Pattern {
                    name, share: was, ..
                },
                SideCutKind::Pattern { deep, share, .. },
            ) => SideCutKind::Pattern {
                name: name.clone(),
                deep,
                share: match &said.kind {
                    ast::SideCutKind::Pattern { share: Some(_), .. } => share,
                    _ => *was,
                },
            },
            (_, kind) => kind,
        };
        self.faces.statements.push(read.span);
        self.faces.sizes.push(read.size_span);
        self.statements.push(Pending {
            part: part.name.text.clone(),
            span: read.span,
            drawn: Some(drawn.span),
            what: PendingSize::Side(id),
        });
        *here = SideCut {
            kind,
            around: laid_around(&drawn.around, &said.around, &read.around),
            face: drawn.face.clone(),
            ..read
        };
    }
}

/// Whether both say a cut by the same words.
fn same_words(drawn: &ast::SideCutKind, made: &ast::SideCutKind) -> bool {
    use ast::SideCutKind::{Across, Drill, Slot};
    let depth = |it: &Option<ast::SideDepth>| it.as_ref().map(discriminant);
    match (drawn, made) {
        (Across { to, .. }, Across { to: other, .. }) => to.is_some() == other.is_some(),
        (Drill { depth: one, .. }, Drill { depth: other, .. })
        | (Slot { depth: one, .. }, Slot { depth: other, .. }) => depth(one) == depth(other),
        (one, other) => discriminant(one) == discriminant(other),
    }
}
