//! The numbers of an item, each named after the words before it.

use crate::{Grain, Number};
use quillet_model::{Design, SourceFile};
use quillet_syntax::ast::{
    Expr, ExprKind, Feature, Let, LineKind, Part, Pen, PenLineKind, SideLine, SideLineKind, Station,
};
use quillet_syntax::visit::{Node, path_at};
use quillet_syntax::{Span, Token, TokenKind};
use std::collections::{BTreeMap, BTreeSet};

/// An item of the file asked for, and where its numbers go.
pub(super) struct Within<'a> {
    pub(super) design: &'a Design,
    pub(super) root: &'a SourceFile,
    /// Where a word is a name, not one of the language's.
    pub(super) names: &'a BTreeSet<Span>,
    pub(super) all: &'a mut Vec<Number>,
}

/// A statement, and what its numbers are named after.
struct Statement<'a> {
    /// What stands before the word of the number: `cap.mouth.drill`.
    name: String,
    span: Span,
    part: Option<&'a str>,
    /// What the number right behind the statement's first word is called; empty of a `let`.
    first: &'a str,
}

impl<'a> Within<'a> {
    pub(super) fn a_let(&mut self, it: &Let, owner: &str) {
        let name = match owner {
            "" => it.name.text.to_string(),
            owner => format!("{owner}.{}", it.name.text),
        };
        self.numbers(&Statement {
            name,
            span: it.value.span,
            part: None,
            first: "",
        });
    }

    pub(super) fn a_part(&mut self, part: &Part) {
        let own = &*part.name.text;
        for line in &part.lines {
            match &line.kind {
                LineKind::Let(it) => self.a_let(it, own),
                LineKind::Length(_) => self.line(own.to_owned(), own, line.span, "length"),
                LineKind::OutsideDia(_) => {
                    self.line(format!("{own}.outside"), own, line.span, "dia");
                }
                LineKind::Outside(stations) => self.stations(own, stations),
                LineKind::From { end, features } => self.cuts(own, &end.text, features),
                LineKind::Side(lines) => self.side(own, lines),
                _ => {}
            }
        }
    }

    fn line(&mut self, name: String, part: &str, span: Span, first: &str) {
        self.numbers(&Statement {
            name,
            span,
            part: Some(part),
            first,
        });
    }

    /// Stations count from the part's first end; a named one goes by its name.
    fn stations(&mut self, part: &str, stations: &[Station]) {
        let resolved = self.design.part(part);
        let along = |span: Span| {
            let known = resolved.map(|it| it.stations.iter());
            known.and_then(|mut known| known.position(|it| it.span == span))
        };
        for (at, station) in stations.iter().enumerate() {
            let face = station.content.as_ref().and_then(|it| it.face.as_ref());
            let which = match face {
                Some(face) => face.text.to_string(),
                None => (along(station.span).unwrap_or(at) + 1).to_string(),
            };
            self.line(format!("{part}.outside.{which}"), part, station.span, "at");
        }
    }

    /// Cuts of one verb count from their end inward.
    fn cuts(&mut self, part: &str, end: &str, features: &[Feature]) {
        let resolved = self.design.part(part);
        let reach = |span: Span| {
            let found = resolved?.features.iter().find(|it| it.span == span)?;
            Some((found.from, found.to))
        };
        let mut inward: Vec<&Feature> = features.iter().collect();
        inward.sort_by_key(|it| reach(it.span));
        let mut ordinals: BTreeMap<Span, usize> = BTreeMap::new();
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        for cut in inward {
            let count = counts.entry(self.verb(cut.span)).or_default();
            *count += 1;
            ordinals.insert(cut.span, *count);
        }
        for cut in features {
            let verb = self.verb(cut.span);
            let first = match verb {
                "accept" => continue,
                "chamfer" => "leg",
                "round" => "radius",
                _ => "dia",
            };
            let name = format!("{part}.{end}.{}", ordered(verb, ordinals[&cut.span]));
            self.line(name, part, cut.span, first);
        }
    }

    fn side(&mut self, part: &str, lines: &[SideLine]) {
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        for line in lines {
            let SideLineKind::Cut(_) = &line.kind else {
                continue;
            };
            let verb = self.verb(line.span);
            let count = counts.entry(verb).or_default();
            *count += 1;
            let name = format!("{part}.side.{}", ordered(verb, *count));
            self.line(name, part, line.span, "dia");
        }
    }

    pub(super) fn a_pen(&mut self, pen: &Pen) {
        let own = &*pen.name.text;
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        for line in &pen.lines {
            match &line.kind {
                PenLineKind::Let(it) => self.a_let(it, own),
                PenLineKind::Joint(joint) => {
                    let verb = self.verb(joint.verb_span);
                    let count = counts.entry(verb).or_default();
                    *count += 1;
                    for option in &joint.options {
                        self.numbers(&Statement {
                            name: format!("{own}.{}", ordered(verb, *count)),
                            span: option.span,
                            part: None,
                            first: self.verb(option.span),
                        });
                    }
                }
                _ => {}
            }
        }
    }

    /// The word that begins a statement.
    fn verb(&self, span: Span) -> &'a str {
        let text = self.root.text.get(span.range()).unwrap_or("");
        let word = |it: char| it.is_ascii_alphanumeric() || it == '-';
        text.split(|it| !word(it)).next().unwrap_or("")
    }

    /// The numbers of a statement, each named after the word before it.
    fn numbers(&mut self, statement: &Statement<'_>) {
        let all = &self.root.parsed.tokens;
        let from = all.partition_point(|it| it.span.start < statement.span.start);
        let own = all[from..]
            .iter()
            .take_while(|it| it.span.end <= statement.span.end);
        let own: Vec<&Token> = own.filter(|it| !it.kind.is_trivia()).collect();
        let mut word = None;
        for (at, token) in own.iter().enumerate() {
            match token.kind {
                TokenKind::Name if !self.names.contains(&token.span) => word = Some(at),
                TokenKind::Quantity => {
                    let around = [at.checked_sub(1), Some(at + 1)];
                    let mut around = around.into_iter().flatten().filter_map(|it| own.get(it));
                    let is_whole = around.all(|it| !joins(it.kind));
                    let role = match word {
                        Some(0) | None => statement.first,
                        Some(word) => &self.root.text[own[word].span.range()],
                    };
                    self.number(statement, role, token.span, is_whole);
                }
                _ => {}
            }
        }
    }

    fn number(&mut self, statement: &Statement<'_>, role: &str, span: Span, is_whole: bool) {
        let path = path_at(&self.root.parsed.tree, span.range().start);
        let found = path.iter().rev().find_map(|node| match node {
            Node::Expr(Expr {
                kind: ExprKind::Quantity { value, unit },
                span: at,
            }) if *at == span => Some((*value, *unit)),
            _ => None,
        });
        let Some((value, unit)) = found.filter(|_| !COUNTS.contains(&role)) else {
            return;
        };
        let text = &self.root.text[span.range()];
        let bare = text.trim_end_matches(|it: char| it.is_ascii_alphabetic());
        let is_angle = ANGLES.contains(&role);
        self.all.push(Number {
            name: match role {
                "" => statement.name.clone(),
                role => format!("{}.{role}", statement.name),
            },
            span,
            value: *value.numer() as f64 / *value.denom() as f64,
            unit: text[bare.len()..].to_owned(),
            grain: Grain::of(unit, self.root.units(), is_angle),
            part: statement.part.map(str::to_owned),
            statement: statement.span,
            role: role.to_owned(),
            is_whole,
        });
    }
}

/// Whether what stands beside a number makes it a part of something larger.
fn joins(kind: TokenKind) -> bool {
    use TokenKind::{CloseParen, Comma, DotDot, Minus, OpenParen, Plus, Slash, Star};
    matches!(
        kind,
        Plus | Minus | Star | Slash | OpenParen | CloseParen | Comma | DotDot
    )
}

/// The words before whole numbers, which do not move.
const COUNTS: [&str; 2] = ["indexed", "starts"];
/// The words before angles, which are degrees whatever the file's unit.
const ANGLES: [&str; 3] = ["point", "angle", "clock"];

/// A verb with which it is of its like, where it is not the first.
fn ordered(verb: &str, nth: usize) -> String {
    match nth {
        1 => verb.to_owned(),
        nth => format!("{verb}{nth}"),
    }
}
