//! Cuts that were made, each in the place of the drawn one.

mod alike;

use super::super::Resolver;
use super::super::frame::Frame;
use super::super::lines::{Block, Lines};
use super::beside::around;
use super::{Bench, MOST_OFF_DIA, NEAREST_CUT, Pending, PendingSize, told};
use crate::{Cut, CutId, End, Feature, Part};
pub(super) use alike::same_roles;
use alike::{is_alike, laid_over, verb, written_dia};
use quillet_geometry::Length;
use quillet_syntax::ast::{self, FeatureKind, LineKind};
use quillet_syntax::{Span, text};

impl<'a> Resolver<'a> {
    pub(super) fn made_cuts(
        &mut self,
        made: &'a ast::MadePart,
        part: &mut Part,
        bench: &mut Bench<'_, 'a>,
        frame: &mut Frame<'a>,
    ) {
        for line in &made.lines {
            let LineKind::From { end, features } = &line.kind else {
                continue;
            };
            let Some(at) = self.part_end(part, end) else {
                continue;
            };
            let block = Block {
                span: line.span,
                end,
                features,
            };
            for statement in features {
                if matches!(statement.kind, FeatureKind::Accept(_) | FeatureKind::Bad) {
                    continue;
                }
                let lost = self.lost;
                if let Some(read) = self.feature(statement, &block, at, part, frame) {
                    match around(&statement.kind) {
                        Some(_) => self.made_circle(statement, &read, part, bench, frame),
                        None => self.made_cut(statement, read, part, bench),
                    }
                }
                self.lost = lost;
            }
        }
    }

    fn made_cut(
        &mut self,
        statement: &ast::Feature,
        read: Feature,
        part: &mut Part,
        bench: &mut Bench<'_, 'a>,
    ) {
        let Some(id) = bench.drawn_cut(&read) else {
            let message = bench.no_such_cut(statement, &read);
            let nearest = bench.nearest(&read);
            let near = nearest.map(|(near, _)| bench.drawn.features[near].span);
            return self.tell(told::not_drawn(statement.span, message, near));
        };
        let drawn = bench.drawn.features[id].clone();
        let said = bench.statement(drawn.span);
        if let Some(said) = said.filter(|it| !same_roles(&it.kind, &statement.kind)) {
            let written = self.design.text(said.span);
            let finding = told::in_other_words(statement.span, written, said.span);
            return self.tell(finding);
        }
        let measured = written_dia(statement);
        if measured
            && let Some((made, drawn)) = read.dia().zip(drawn.dia())
            && !self.is_near(made, drawn, MOST_OFF_DIA, read.size_span)
        {
            return;
        }
        bench.put(id, &drawn, read, measured, part);
    }
}

impl<'a> Bench<'_, 'a> {
    /// The drawn cut that a made one stands for: the nearest in depth that is not made yet.
    fn drawn_cut(&self, read: &Feature) -> Option<CutId> {
        let (id, off) = self.nearest(read)?;
        (off <= NEAREST_CUT).then_some(id)
    }

    /// The nearest drawn cut of the same verb, end and side that is not made yet, and how far off.
    fn nearest(&self, read: &Feature) -> Option<(CutId, Length)> {
        let drawn = self.drawn.features.with_ids();
        let alike = drawn.filter(|(id, it)| is_alike(it, read) && !self.is_made(*id));
        let off = alike.map(|(id, it)| (id, (it.to - read.to).abs()));
        off.min_by_key(|it| it.1)
    }

    fn is_made(&self, id: CutId) -> bool {
        let is = |it: &Pending| matches!(it.what, PendingSize::Cut(made) if made == id);
        self.statements.iter().any(is)
    }

    fn no_such_cut(&self, statement: &ast::Feature, read: &Feature) -> quillet_syntax::SizedText {
        let verb = verb(&statement.kind);
        let (part, end) = (&self.drawn.name.text, self.drawn.end_name(read.end));
        match self.nearest(read) {
            Some((near, _)) => text!(
                "no {} near {} is drawn from {}'s {}; the nearest goes to {}",
                verb,
                read.to,
                part,
                end,
                self.drawn.features[near].to
            ),
            None => text!("no such {} is drawn from {}'s {}", verb, part, end),
        }
    }

    /// The statement that is drawn at a place.
    pub(super) fn statement(&self, at: Span) -> Option<&'a ast::Feature> {
        let lines: &Lines<'a> = self.lines;
        let mut all = lines.cuts.iter().flat_map(|it| it.features);
        all.find(|it| it.span == at)
    }

    /// Puts what was measured in the place of what is drawn.
    fn put(&mut self, id: CutId, drawn: &Feature, read: Feature, measured: bool, part: &mut Part) {
        let place = |it: &Feature| it.span == drawn.span && it.cut.is_written();
        let kept = part.features.position(place);
        let under = kept.filter(|_| drawn.cut.is_written());
        let station = |end: End, inward: Length| self.drawn.station(end, inward);
        let inside = drawn.is_inside();
        let ends = [(drawn.to, read.to), (drawn.from, read.from)];
        let ends = &ends[..if drawn.from.is_positive() { 2 } else { 1 }];
        if !drawn.is_edge() && !drawn.through {
            for (drawn_at, made_at) in ends {
                let at = part.station(read.end, *made_at);
                self.moved.push((inside, station(read.end, *drawn_at), at));
                self.faces.planes.push((inside, at));
            }
        }
        if measured {
            self.faces.sizes.push(read.size_span);
        }
        self.faces.statements.push(read.span);
        self.statements.push(Pending {
            part: part.name.text.clone(),
            span: read.span,
            drawn: Some(drawn.span),
            what: PendingSize::Cut(id),
        });
        match under {
            Some(under) => {
                let was = &part.features[under];
                part.features[under] = laid_over(was, drawn, read);
            }
            None => part.features.extend([read]),
        }
    }
}

impl Cut {
    /// Whether it is written, not worked out from a thread: a tenon that says no diameter is written.
    fn is_written(&self) -> bool {
        !matches!(
            self,
            Cut::Drill {
                assumed_for: Some(_),
                ..
            }
        )
    }
}
