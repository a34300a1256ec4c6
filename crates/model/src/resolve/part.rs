//! Parts, cut and bought, as one frame of `let`s gives them.

use super::clash::out_of_range;
use super::frame::Frame;
use super::known::KnownPart;
use super::lines::Lines;
use super::want::WantScope;
use super::{Resolver, shared};
use crate::part::worked::Worked;
use crate::{ById, CutPart, DefinitionKind, Limits, MadeFaces, Part, PartKind, Throw, Units};
use quillet_geometry::Length;
use quillet_syntax::ast::{self, ItemKind, LineKind};
use quillet_syntax::{Finding, RuleId, Severity, Span, text};
use std::collections::HashSet;
use std::sync::Arc;

impl<'a> Resolver<'a> {
    /// Resolves every part as the files' own `let`s give it.
    pub(super) fn parts(&mut self, frame: &mut Frame<'a>) {
        for item in self.scope.items.clone() {
            let (ItemKind::Part(ast) | ItemKind::Bought(ast)) = &item.kind else {
                continue;
            };
            if !self.scope.is_first(item, &ast.name) {
                continue;
            }
            let kept = self.kept_part(item);
            let made = || {
                let (part, names) = self.part(item, ast, frame)?;
                Some((Arc::new(part), names))
            };
            if let Some((part, names)) = kept.or_else(made) {
                let known = KnownPart {
                    part: part.clone(),
                    names,
                };
                self.known.parts.insert(part.name.text.clone(), known);
                self.design.parts.push(part);
            }
        }
    }

    /// One part, and the names that its sums look up.
    pub(super) fn part(
        &mut self,
        item: &'a ast::Item,
        ast: &'a ast::Part,
        frame: &Frame<'a>,
    ) -> Option<(Part, HashSet<Arc<str>>)> {
        let bought = matches!(item.kind, ItemKind::Bought(_));
        let lost = self.lost;
        let mut lines = self.flattened(ast, bought, frame)?;
        if let Some(made) = self.making_of(&ast.name.text) {
            self.lay_made_over(made, &mut lines);
        }
        let owner = shared(&ast.name);
        let lets = lines.lets.iter().map(|it| {
            let definition = self.define_once(DefinitionKind::Let, &it.name, it.span, &owner);
            (*it, definition)
        });
        let mut own = frame.within(lets.collect());
        let frame = &mut own;
        let mut part = unshaped(item, ast);
        part.ends = lines.ends.clone();
        part.whole = self.is_sound(item.span) && lines.sound;
        part.bench = lines.bench.cloned();
        self.part_lets(&lines, &mut part, frame);
        part.kind = self.kind(&lines, bought, frame);
        let complete = self.part_length(&lines, &mut part, frame);
        let complete = self.made_length(complete, &mut part);
        self.end_faces(&mut part, &owner);
        if complete {
            let sound = part.whole;
            let before = self.lost;
            if let PartKind::Cut(cut) = &mut part.kind {
                cut.blanks = self.blank_pieces(&lines, part.length, frame).into();
                cut.stocked = sound && self.lost == before;
            }
            self.thrown(&lines, &mut part, frame);
            let before = self.lost;
            let (stations, known) = self.stations(&lines, &part, frame);
            (part.stations, part.outside_known) = (stations.into(), known);
            self.sides(&lines, &mut part, frame);
            self.features(&lines, &mut part, frame);
            self.emit_beyond(&part);
            let cut = sound && part.outside_known && self.lost == before;
            self.named_faces(&mut part, &owner);
            part.whole &= self.lost == lost && part.outside_known;
            let before = self.lost;
            self.shape(&mut part);
            self.measured_soundly(&lines, &part);
            let left = part.is_left();
            part.shaped = cut && self.lost == before && left;
        }
        part.whole &= complete && self.lost == lost;
        part.limits = self.limits(lines.limits.iter().copied(), frame);
        for statement in &lines.wants {
            if let Some(want) = self.want(statement, WantScope::Part(&part), frame) {
                part.wants.push(want);
            }
        }
        for (accept, scope) in &lines.accepts {
            let acceptance = self.acceptance(accept, *scope, frame);
            part.accepts.push(acceptance);
        }
        if let Some(bench) = &part.bench {
            self.refer_to(bench, &[DefinitionKind::Bench], frame);
        }
        Some((part, own.into_names()))
    }

    /// What is cut from the side, and the coat; nothing of a bought part, which has said so.
    fn sides(&mut self, lines: &Lines<'a>, part: &mut Part, frame: &mut Frame<'a>) {
        if part.is_bought() {
            return;
        }
        let sides = self.side_cuts(lines, part, frame);
        let coat = self.coat(lines, frame);
        if let PartKind::Cut(cut) = &mut part.kind {
            (cut.sides, cut.coat) = (sides, coat);
        }
    }

    /// What a mechanism throws, one from an end.
    fn thrown(&mut self, lines: &Lines<'a>, part: &mut Part, frame: &mut Frame<'a>) {
        let mut throws: Vec<Throw> = Vec::new();
        for line in &lines.throws {
            let (LineKind::Throw { travel, from }, PartKind::Bought(_)) = (&line.kind, &part.kind)
            else {
                continue;
            };
            let travel = self.positive(travel, "a throw", frame);
            let from = self.part_end(part, from);
            let Some((travel, from)) = travel.zip(from) else {
                continue;
            };
            if let Some(first) = throws.iter().find(|it| it.from == from) {
                let finding = Finding::new(
                    RuleId::SYNTAX,
                    Severity::Error,
                    line.span,
                    format!("two throws from {}; one is expected", part.end_name(from)),
                );
                self.emit(
                    finding
                        .label(first.span, "said first here")
                        .hint("keep one of the two, or say the other end"),
                );
                continue;
            }
            let span = line.span;
            throws.push(Throw { span, travel, from });
        }
        if let PartKind::Bought(bought) = &mut part.kind {
            bought.throws = throws;
        }
    }

    fn part_lets(&mut self, lines: &Lines<'a>, part: &mut Part, frame: &mut Frame<'a>) {
        for it in &lines.lets {
            if let Some(crate::Value::Quantity(quantity)) = self.eval_value(&it.value, frame) {
                part.lets.push((it.name.clone(), quantity));
            }
        }
    }

    /// Whether a size is one that a pen may have, else it is told of.
    pub(super) fn is_a_pens(&mut self, size: Length, most: Length, at: Span) -> bool {
        if size > most {
            let hint = match self.scope.units(at) {
                Units::Inches => {
                    "this file's bare lengths are inches: write mm behind it, or take dimensions in inches out"
                }
                Units::Millimetres => "see whether a decimal point or a unit is missing",
            };
            let message = text!(
                "{} is more than any pen has; {} at most is expected",
                size,
                most
            );
            let written = self.design.text(at);
            let bare = written.ends_with(|last: char| last.is_ascii_digit());
            let in_mm = bare && self.scope.units(at) == Units::Inches;
            let finding = out_of_range(at, message).hint(hint);
            let in_mm = in_mm.then(|| format!("{written}mm"));
            self.emit(match in_mm {
                Some(text) => finding.fix(format!("write {text}"), at, text),
                None => finding,
            });
        }
        size <= most
    }
}

/// No part of a pen is longer.
pub(super) const LONGEST: Length = Length::from_nm(500_000_000);

/// A part of which no more is known than its name.
fn unshaped(item: &ast::Item, ast: &ast::Part) -> Part {
    Part {
        name: ast.name.clone(),
        note: item.note.as_deref().cloned(),
        kind: PartKind::Cut(CutPart::default()),
        span: item.span,
        block: ast.block.unwrap_or(ast.name.span),
        ends: None,
        length: Length::ZERO,
        length_free: Length::ZERO,
        length_span: ast.name.span,
        stations: ById::default(),
        outside_known: true,
        whole: false,
        shaped: false,
        features: ById::default(),
        faces: Vec::new(),
        profiles: None,
        bench: None,
        limits: Limits::default(),
        accepts: Vec::new(),
        wants: Vec::new(),
        lets: Vec::new(),
        made: MadeFaces::default(),
        worked: Worked::default(),
    }
}
