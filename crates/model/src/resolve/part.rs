//! Parts, cut and bought, as one frame of `let`s gives them.

use super::eval::Frame;
use super::item::or_zero;
use super::scope::duplicate;
use super::{Resolver, feature, shared};
use crate::{BlankPiece, End, GivenMass, Limits, NameKind, Part, PartFace, Quantity, Ring, Spigot};
use quillet_geometry::Length;
use quillet_syntax::ast::{self, ItemKind, LineKind};
use quillet_syntax::{Finding, Severity, Span};
use std::sync::Arc;

impl<'a> Resolver<'a> {
    /// Resolves every part as the files' own `let`s give it.
    pub(super) fn parts(&mut self, frame: &mut Frame<'a>) {
        for item in self.scope.items.clone() {
            let (ItemKind::Part(ast) | ItemKind::Bought(ast)) = &item.kind else {
                continue;
            };
            if self.scope.is_first(item, &ast.name)
                && let Some((part, _)) = self.part(item, ast, frame)
            {
                self.design.parts.push(Arc::new(part));
            }
        }
    }

    /// One part, and whether a pen's `let` had a say in it.
    pub(super) fn part(
        &mut self,
        item: &'a ast::Item,
        ast: &'a ast::Part,
        frame: &Frame<'a>,
    ) -> Option<(Part, bool)> {
        let bought = matches!(item.kind, ItemKind::Bought(_));
        let lines = self.flattened(ast, bought, frame)?;
        let owner = shared(&ast.name);
        let definitions = lines
            .lets
            .iter()
            .map(|it| self.define_once(NameKind::Let, &it.name, it.span, &owner))
            .collect();
        let mut frame = frame.within(lines.lets.clone(), definitions);
        let frame = &mut frame;
        let mut part = Part {
            name: ast.name.clone(),
            title: lines.title.clone(),
            note: item.note.clone(),
            bought,
            span: item.span,
            block: ast.block.unwrap_or(ast.name.span),
            ends: lines.ends.clone(),
            length: Length::ZERO,
            length_free: Length::ZERO,
            length_span: ast.name.span,
            blanks: Vec::new(),
            stations: Vec::new(),
            features: Vec::new(),
            faces: Vec::new(),
            profiles: None,
            mass: None,
            holds_ml: None,
            ring: None,
            arm: None,
            bench: lines.bench.cloned(),
            limits: Limits::default(),
            accepts: Vec::new(),
            wants: lines.wants.iter().map(|it| (*it).clone()).collect(),
            lets: Vec::new(),
        };
        self.part_lets(&lines, &mut part, frame);
        self.measured(&lines, &mut part, frame);
        let complete = self.part_length(&lines, &mut part, frame);
        self.end_faces(&mut part, &owner);
        if complete {
            self.blank_pieces(&lines, &mut part, frame);
            part.stations = self.stations(&lines, &part, frame);
            self.features(&lines, &mut part, frame);
            self.named_faces(&mut part, &owner);
            self.shape(&mut part);
        }
        part.limits = self.limits(lines.limits.iter().copied(), frame);
        for (accept, scope) in &lines.accepts {
            let acceptance = self.acceptance(accept, *scope, frame);
            part.accepts.push(acceptance);
        }
        if let Some(bench) = &part.bench {
            self.refer_to(bench, &[NameKind::Bench], frame);
        }
        Some((part, frame.touched))
    }

    fn part_lets(&mut self, lines: &Lines<'a>, part: &mut Part, frame: &mut Frame<'a>) {
        for it in &lines.lets {
            if let Some(crate::Value::Quantity(quantity)) = self.eval_value(&it.value, frame) {
                part.lets.push((it.name.clone(), quantity));
            }
        }
    }

    fn measured(&mut self, lines: &Lines<'a>, part: &mut Part, frame: &mut Frame<'a>) {
        for line in &lines.single {
            match &line.kind {
                LineKind::Mass { mass, at } => {
                    let mass_g = self.amount(mass, "a mass", Quantity::as_grams, frame);
                    let at = at
                        .as_ref()
                        .and_then(|at| self.distance(at, "a place", frame));
                    part.mass = mass_g.map(|mass_g| GivenMass {
                        span: line.span,
                        mass_g,
                        at,
                    });
                }
                LineKind::Holds(sum) => {
                    part.holds_ml = self.amount(sum, "an ink capacity", Quantity::as_ml, frame);
                }
                LineKind::Ring { inside, cord } => {
                    let inside = self.positive(inside, "a ring", frame);
                    let cord = self.positive(cord, "a cord", frame);
                    part.ring = inside.zip(cord).map(|(inside, cord)| Ring {
                        span: line.span,
                        inside,
                        cord,
                    });
                }
                LineKind::Arm(sum) => part.arm = self.positive(sum, "an arm", frame),
                _ => {}
            }
        }
    }

    /// The part's length; false where it cannot be known.
    fn part_length(&mut self, lines: &Lines<'a>, part: &mut Part, frame: &mut Frame<'a>) -> bool {
        let length = lines.single.iter().find_map(|line| match &line.kind {
            LineKind::Length(span) => Some(span),
            _ => None,
        });
        match (length, &part.ring) {
            (Some(span), _) => {
                part.length_span = span.span;
                let Some(to) = &span.to else {
                    let length = self.positive(&span.from, "a length", frame);
                    part.length = or_zero(length);
                    part.length_free = part.length;
                    return length.is_some();
                };
                let range = self.range(&span.from, to, frame);
                let lengths = range.and_then(|(a, b)| a.as_length().zip(b.as_length()));
                let Some((least, free)) = lengths else {
                    return false;
                };
                (part.length, part.length_free) = (least, free);
                least.is_positive() && self.positive(to, "a length", frame).is_some()
            }
            (None, Some(ring)) => {
                (part.length, part.length_free) = (ring.cord, ring.cord);
                true
            }
            (None, None) => {
                self.say(incomplete(
                    part.name.span,
                    format!("{} says no length", part.name.text),
                    "add a line such as: length 60",
                ));
                false
            }
        }
    }

    fn end_faces(&mut self, part: &mut Part, owner: &Arc<str>) {
        let Some(ends) = part.ends.clone() else {
            return;
        };
        let places = [(End::First, Length::ZERO), (End::Second, part.length)];
        for ((end, at), name) in places.into_iter().zip(ends) {
            self.define_once(NameKind::Face, &name, name.span, owner);
            part.faces.push(PartFace {
                span: name.span,
                name,
                at,
                end: Some(end),
            });
        }
        if let [first, second] = &part.faces[..]
            && first.name.text == second.name.text
        {
            let finding = duplicate(
                &second.name,
                NameKind::Face,
                first.name.span,
                NameKind::Face,
            );
            self.say(finding);
        }
    }

    fn named_faces(&mut self, part: &mut Part, owner: &Arc<str>) {
        let of_stations = part.stations.iter().filter_map(|station| {
            station
                .face
                .clone()
                .map(|name| (name, station.span, station.at))
        });
        let of_features = part.features.iter().filter_map(|feature| {
            let at = part.station(feature.end, feature.to);
            feature.face.clone().map(|name| (name, feature.span, at))
        });
        let named: Vec<_> = of_stations.chain(of_features).collect();
        for (name, span, at) in named {
            self.define_once(NameKind::Face, &name, span, owner);
            if let Some(first) = part.face(&name.text) {
                let finding = duplicate(&name, NameKind::Face, first.name.span, NameKind::Face);
                self.say(finding);
                continue;
            }
            part.faces.push(PartFace {
                name,
                span,
                at,
                end: None,
            });
        }
    }

    fn blank_pieces(&mut self, lines: &Lines<'a>, part: &mut Part, frame: &mut Frame<'a>) {
        let mut from = Length::ZERO;
        for (index, line) in lines.blanks.iter().enumerate() {
            let last = index + 1 == lines.blanks.len();
            let (stock, named, to, spigot) = match &line.kind {
                LineKind::BlankNamed(name) => {
                    if !self.refer_to(name, &[NameKind::Blank], frame) {
                        continue;
                    }
                    let is_it = |it: &&Arc<crate::BlankDef>| it.name.text == name.text;
                    let Some(blank) = self.design.blanks.iter().find(is_it).cloned() else {
                        continue;
                    };
                    (Some(blank.stock.clone()), Some(blank), None, None)
                }
                LineKind::Blank(piece) => {
                    let stock = self.stock(&piece.stock, frame);
                    let to = piece
                        .to
                        .as_ref()
                        .and_then(|to| self.distance(to, "a place", frame));
                    let spigot = piece
                        .spigot
                        .as_ref()
                        .and_then(|spigot| self.spigot(spigot, frame));
                    (stock, None, to, spigot)
                }
                _ => continue,
            };
            let Some(stock) = stock else { continue };
            let to = to.unwrap_or(part.length).min(part.length);
            if to <= from || (to == part.length && !last) {
                self.say(
                    Finding::new(
                        "out-of-range",
                        Severity::Error,
                        line.span,
                        format!(
                            "this piece of the blank runs from {from} to {to} of a part {} long",
                            part.length
                        ),
                    )
                    .hint("say in each piece but the last where it ends, with to"),
                );
                continue;
            }
            part.blanks.push(BlankPiece {
                span: line.span,
                stock,
                named,
                from,
                to,
                spigot,
            });
            from = to;
        }
    }

    fn spigot(&mut self, spigot: &ast::Spigot, frame: &mut Frame<'a>) -> Option<Spigot> {
        let dia = self.positive(&spigot.dia, "a spigot", frame);
        let length = self.positive(&spigot.length, "a spigot", frame);
        let gap = spigot
            .gap
            .as_ref()
            .and_then(|gap| self.distance(gap, "a gap", frame));
        Some(Spigot {
            span: spigot.span,
            dia: dia?,
            length: length?,
            gap: or_zero(gap),
        })
    }

    /// Defines a name once, however often its part is resolved.
    pub(super) fn define_once(
        &mut self,
        kind: NameKind,
        name: &ast::Name,
        item: Span,
        owner: &Arc<str>,
    ) -> usize {
        let known = self
            .design
            .names
            .definitions
            .iter()
            .position(|it| it.span == name.span);
        known.unwrap_or_else(|| {
            self.design
                .names
                .define(kind, name, item, Some(owner.clone()))
        })
    }

    /// A part's lines with those of the parts it is like.
    fn flattened(
        &mut self,
        ast: &'a ast::Part,
        bought: bool,
        frame: &Frame<'a>,
    ) -> Option<Lines<'a>> {
        let mut chain = vec![ast];
        let mut at = ast;
        while let Some(like) = &at.like {
            let wanted = if bought {
                NameKind::Bought
            } else {
                NameKind::Part
            };
            if !self.refer_to(like, &[wanted], frame) {
                return None;
            }
            let (ItemKind::Part(base) | ItemKind::Bought(base)) =
                &self.scope.get(&like.text)?.item.kind
            else {
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
        let mut lines = Lines::default();
        for part in chain.into_iter().rev() {
            lines.lay_over(part, &mut self.design.findings);
        }
        Some(lines)
    }
}

/// The lines of a part, those of the part it is like overlaid by its own.
#[derive(Default)]
pub(super) struct Lines<'a> {
    title: Option<ast::Text>,
    ends: Option<[ast::Name; 2]>,
    lets: Vec<&'a ast::Let>,
    limits: Vec<&'a ast::Limit>,
    accepts: Vec<(&'a ast::Accept, Span)>,
    wants: Vec<&'a ast::Want>,
    bench: Option<&'a ast::Name>,
    /// Lines of which a part has one of each kind.
    pub(super) single: Vec<&'a ast::Line>,
    blanks: Vec<&'a ast::Line>,
    /// The `from END` blocks.
    pub(super) cuts: Vec<feature::Block<'a>>,
}

impl<'a> Lines<'a> {
    fn lay_over(&mut self, part: &'a ast::Part, findings: &mut Vec<Finding>) {
        if part.title.is_some() {
            self.title.clone_from(&part.title);
        }
        if part.ends.is_some() {
            self.ends.clone_from(&part.ends);
        }
        if part.lines.iter().any(is_blank) {
            self.blanks.clear();
        }
        let renewed: Vec<&str> = part.lines.iter().filter_map(cut_end).collect();
        self.cuts
            .retain(|block| !renewed.contains(&&*block.end.text));
        let mut own: Vec<&ast::Line> = Vec::new();
        for line in &part.lines {
            match &line.kind {
                LineKind::Let(it) => {
                    self.lets.retain(|old| old.name.text != it.name.text);
                    self.lets.push(it);
                }
                LineKind::Limit(it) => self.limits.push(it),
                LineKind::Want(it) => self.wants.push(it),
                LineKind::Accept(it) => {
                    self.accepts
                        .push((it, part.block.unwrap_or(part.name.span)));
                }
                LineKind::Bench(name) => self.bench = Some(name),
                LineKind::BlankNamed(_) | LineKind::Blank(_) => self.blanks.push(line),
                LineKind::From { end, features } => {
                    self.cuts.push(feature::Block {
                        span: line.span,
                        end,
                        features,
                    });
                    for feature in features {
                        if let ast::FeatureKind::Accept(it) = &feature.kind {
                            self.accepts.push((it, line.span));
                        }
                    }
                }
                LineKind::Bad => {}
                _ => {
                    if let Some(first) = own.iter().find(|old| same_line(old, line)) {
                        findings.push(said_twice(line, first));
                        continue;
                    }
                    own.push(line);
                    self.single.retain(|old| !same_line(old, line));
                    self.single.push(line);
                }
            }
        }
    }
}

fn is_blank(line: &ast::Line) -> bool {
    matches!(line.kind, LineKind::BlankNamed(_) | LineKind::Blank(_))
}

fn cut_end(line: &ast::Line) -> Option<&str> {
    match &line.kind {
        LineKind::From { end, .. } => Some(&end.text),
        _ => None,
    }
}

/// Whether two lines say the same kind of thing; the two ways to say the outside are one.
fn same_line(a: &ast::Line, b: &ast::Line) -> bool {
    let outside =
        |line: &ast::Line| matches!(line.kind, LineKind::Outside(_) | LineKind::OutsideDia(_));
    (outside(a) && outside(b)) || std::mem::discriminant(&a.kind) == std::mem::discriminant(&b.kind)
}

fn said_twice(line: &ast::Line, first: &ast::Line) -> Finding {
    Finding::new(
        "said-twice",
        Severity::Error,
        line.span,
        "this is said a second time; the first is taken",
    )
    .label(first.span, "said first here")
    .hint("keep one of the two")
    .fix("take this line out", line.span, "")
}

/// A finding for something a part cannot do without.
pub(super) fn incomplete(at: Span, message: String, hint: &str) -> Finding {
    Finding::new("incomplete", Severity::Error, at, message).hint(hint)
}
