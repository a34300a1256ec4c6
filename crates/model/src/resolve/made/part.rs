//! A part that is made: its lines, and what was measured in the place of what is drawn.

use super::super::Resolver;
use super::super::frame::Frame;
use super::super::lines::{Lines, stated_twice};
use super::{Bench, MOST_OFF_LENGTH, Pending, PendingSize, told};
use crate::{MadeFaces, Part};
use quillet_geometry::Length;
use quillet_syntax::Span;
use quillet_syntax::ast::{self, LineKind};

impl<'a> Resolver<'a> {
    /// What is made of a part, where the pen that is put together is one that was made.
    pub(in crate::resolve) fn making_of(&self, part: &str) -> Option<&'a ast::MadePart> {
        let parts = self.making.as_ref()?.parts.iter();
        parts.copied().find(|it| &*it.name.text == part)
    }

    /// Lays what was measured of the whole part over its lines; what no part that is made may say is
    /// told of.
    pub(in crate::resolve) fn lay_made_over(
        &mut self,
        made: &'a ast::MadePart,
        lines: &mut Lines<'a>,
    ) {
        let scope = made.block.unwrap_or(made.name.span);
        let mut length: Option<Span> = None;
        for line in &made.lines {
            match &line.kind {
                LineKind::Length(_) => {
                    if let Some(first) = length {
                        self.emit(stated_twice(line.span, first));
                        continue;
                    }
                    length = Some(line.span);
                    let is_length = |it: &&ast::Line| matches!(it.kind, LineKind::Length(_));
                    if let Some(drawn) = lines.single.iter_mut().find(|it| is_length(it)) {
                        let at = drawn.span;
                        *drawn = line;
                        self.note_made(made, line.span, Some(at), PendingSize::Length);
                    }
                }
                LineKind::Accept(accept) => lines.accepts.push((accept, scope)),
                LineKind::From { features, .. } => {
                    for feature in features {
                        if let ast::FeatureKind::Accept(accept) = &feature.kind {
                            lines.accepts.push((accept, line.span));
                        }
                    }
                }
                LineKind::Side(said) => {
                    for it in said {
                        if let ast::SideLineKind::Accept(accept) = &it.kind {
                            lines.accepts.push((accept, line.span));
                        }
                    }
                }
                LineKind::Outside(_) | LineKind::OutsideDia(_) | LineKind::Bad => {}
                _ => self.tell(told::not_measured(line.span)),
            }
        }
    }

    /// Puts what was measured in place of what is drawn: cuts, stations, and what lies in one plane
    /// with them.
    pub(in crate::resolve) fn as_made(
        &mut self,
        made: &'a ast::MadePart,
        lines: &Lines<'a>,
        part: &mut Part,
        frame: &mut Frame<'a>,
    ) {
        let Some(making) = &self.making else { return };
        let drawn = making.drawn.parts.iter();
        let Some(drawn) = drawn.into_iter().find(|it| it.name.text == part.name.text) else {
            return;
        };
        let mut bench = Bench {
            drawn: drawn.clone(),
            lines,
            faces: MadeFaces::default(),
            moved: Vec::new(),
            statements: Vec::new(),
        };
        let length = made.lines.iter();
        let mut length = length.filter(|it| matches!(it.kind, LineKind::Length(_)));
        if let Some(length) = length.next() {
            bench.faces.statements.push(length.span);
            bench.faces.sizes.push(length.span);
        }
        self.made_cuts(made, part, &mut bench, frame);
        self.made_stations(made, part, &mut bench, frame);
        self.made_sides(made, part, &mut bench, frame);
        bench.carry_along(part);
        part.made = bench.faces;
        if let Some(making) = &mut self.making {
            making.statements.extend(bench.statements);
        }
    }

    /// A place along a part; what is drawn up to the far end of one that came out shorter is there.
    pub(in crate::resolve) fn no_further(&self, at: Length, part: &Part) -> Length {
        let making = self.making.as_ref();
        let drawn = making.and_then(|it| {
            let mut parts = it.drawn.parts.iter();
            parts.find(|it| it.name.text == part.name.text)
        });
        match drawn {
            Some(drawn) if at > part.length && at <= drawn.length => part.length,
            _ => at,
        }
    }

    /// Takes the drawn length where the measured one could not be read, or is out of all proportion,
    /// which is told of; whether the length is known then.
    pub(in crate::resolve) fn made_length(&mut self, complete: bool, part: &mut Part) -> bool {
        let Some(making) = &self.making else {
            return complete;
        };
        let mut drawn = making.drawn.parts.iter();
        let Some(drawn) = drawn.find(|it| it.name.text == part.name.text).cloned() else {
            return complete;
        };
        let at = part.length_span;
        let far = complete
            && at != drawn.length_span
            && !self.is_near(part.length, drawn.length, MOST_OFF_LENGTH, at);
        if far || !complete {
            (part.length, part.length_free) = (drawn.length, drawn.length_free);
        }
        true
    }

    fn note_made(
        &mut self,
        made: &ast::MadePart,
        span: Span,
        drawn: Option<Span>,
        what: PendingSize,
    ) {
        if let Some(making) = &mut self.making {
            making.statements.push(Pending {
                part: made.name.text.clone(),
                span,
                drawn,
                what,
            });
        }
    }

    /// Tells of a line of what was made that stands for nothing; the rest is judged all the same.
    pub(super) fn tell(&mut self, finding: quillet_syntax::Finding) {
        let lost = self.lost;
        self.emit(finding);
        self.lost = lost;
    }

    /// Whether a size could have come of a drawn one; one out of all proportion is told of.
    pub(super) fn is_near(&mut self, made: Length, drawn: Length, most: Length, at: Span) -> bool {
        let near = (made - drawn).abs() <= most;
        if !near {
            self.tell(told::out_of_proportion(made, drawn, most, at));
        }
        near
    }
}
