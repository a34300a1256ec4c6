//! Each operation as it changes the stock.

use super::Lathe;
use quillet_geometry::Length;
use quillet_model::{End, SideCutKind};
use quillet_plan::{InsideShape, Pass, Threading, Work};

impl<'a> Lathe<'a> {
    #[expect(
        clippy::too_many_lines,
        reason = "an arm an operation: it is read as a table"
    )]
    pub(super) fn cut(&mut self, work: &Work) {
        let part = self.part();
        match work {
            Work::Face { end, to } => {
                self.clip(*end, *to);
                self.faced[end.index()] = *to == part.station(*end, Length::ZERO);
            }
            Work::Support { plug } => {
                let served = &self.plan.mandrels[*plug].serves;
                let own = served.iter().filter(|it| it.0 == part.name.text);
                for (_, end) in own {
                    self.plugged[end.index()] = Some(*plug);
                }
            }
            Work::Centre { end, in_nub } => self.centred[end.index()] |= *in_nub,
            Work::Round { dia } => {
                let (from, to) = (self.crest.from, self.crest.to);
                self.outside(self.shape.level(from, to, *dia));
            }
            Work::Inside(cut) => {
                match cut.shape {
                    InsideShape::Drill { .. } | InsideShape::Ream { .. } => {
                        self.check_way_in(cut.end, Length::ZERO, Length::ZERO, true);
                    }
                    InsideShape::Bore { .. } | InsideShape::Recess { .. }
                        if cut.from.is_positive() =>
                    {
                        self.check_way_in(cut.end, cut.from, Length::mm(1.0), true);
                    }
                    _ => self.check_way_in(cut.end, Length::ZERO, Length::ZERO, true),
                }
                let made = self.shape.hole(cut);
                self.crest.bore(made.clone());
                self.root.bore(made);
            }
            Work::Turn(cut) => self.outside(self.shape.turned(cut)),
            Work::BreakCorner { end, edge } => {
                let work = self.crest.clone();
                let own = self
                    .members
                    .iter_mut()
                    .filter(|it| it.stands_at(*end, &work));
                let own = own.flat_map(|it| {
                    let end = it.own_end(*end);
                    [(&mut it.crest, end), (&mut it.root, end)]
                });
                let all = [(&mut self.crest, *end), (&mut self.root, *end)];
                for (stock, end) in all.into_iter().chain(own) {
                    if let Err(flaw) = stock.break_corner(end, *edge) {
                        self.wrong
                            .push(format!("a corner cannot be broken: {flaw:?}"));
                    }
                }
            }
            Work::Thread(cut) => {
                let form = &cut.thread.thread;
                let (crest, root) = self.shape.thread(cut);
                if cut.inside {
                    let passes = form.major() - form.pitch() * 2;
                    self.check_way_in(cut.end, cut.from, passes, true);
                    self.crest.bore(crest);
                    self.root.bore(root);
                } else {
                    if cut.method == Threading::Die {
                        let passes = form.root_diameter() + Length::mm(1e-5);
                        self.check_way_in(cut.end, cut.from, passes, false);
                        self.check_die(cut);
                    }
                    for it in &mut self.members {
                        it.thread(&crest, &root);
                    }
                    crest.into_iter().for_each(|made| self.crest.turn(made));
                    root.into_iter().for_each(|made| self.root.turn(made));
                }
                self.threaded.push((cut.end, cut.inside));
            }
            Work::Outside(pass) if pass.pass != Pass::Blend => {
                let core = pass.core.map(|core| (core.end, core.dia));
                for made in self.shape.outline(&pass.spans, pass.over, core) {
                    self.outside(made);
                }
                // A stub is gripped and keeps its size; a nub is turned.
                if let Some(nub) = pass.core.and_then(|core| core.nub) {
                    let made = self.shape.nub(nub, self.crest.from, self.crest.to);
                    self.outside(made);
                }
            }
            Work::PartOff {
                end, at, shaping, ..
            } => {
                self.clip(*end, *at);
                if *shaping {
                    self.shaped(Length::ZERO);
                    self.faced[end.index()] = true;
                }
            }
            Work::RemoveNub { end, over } => {
                let at = part.station(*end, Length::ZERO);
                self.clip(*end, at);
                self.shaped(*over);
            }
            // What is left of the roots round the turn, as the design has it; in space the strokes tell.
            Work::Side { cut, .. } => {
                let Some(cut) = part.side(*cut) else { return };
                let wide = match cut.kind {
                    SideCutKind::Drill { dia, .. } => dia.to_mm() / 2.0,
                    _ => 0.0,
                };
                let (from, to) = (
                    cut.stretch.from.to_mm() - wide,
                    cut.stretch.to.to_mm() + wide,
                );
                let profiles = part.profiles.as_ref();
                let made = profiles.and_then(|it| it.root.outer.between(from, to));
                if let Some(made) = made {
                    for it in &mut self.members {
                        it.thread(&[], std::slice::from_ref(&made));
                    }
                    self.root.turn(made);
                }
            }
            Work::Polish { core, .. } => {
                let strategy = self.route.strategy;
                let stub = strategy
                    .on_stub
                    .then_some((strategy.first.other(), quillet_plan::NUB_DIA));
                let kept = core.map(|it| (it.end, it.dia)).or(stub);
                for made in self
                    .shape
                    .outline(&self.shape.spans(self.route), Length::ZERO, kept)
                {
                    self.outside(made);
                }
            }
            _ => {}
        }
    }

    fn shaped(&mut self, over: Length) {
        for made in self
            .shape
            .outline(&self.shape.spans(self.route), over, None)
        {
            self.outside(made);
        }
    }

    fn outside(&mut self, made: quillet_geometry::Chain) {
        for it in &mut self.members {
            it.turn(&made);
        }
        self.crest.turn(made.clone());
        self.root.turn(made);
    }

    fn clip(&mut self, end: End, at: Length) {
        self.centred[end.index()] = false;
        for it in &mut self.members {
            it.clip(end, at);
        }
        self.crest.clip(end, at);
        self.root.clip(end, at);
    }
}
