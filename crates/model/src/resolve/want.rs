//! What is wanted: names resolved and dimensions matched; the pen put together gives the values.

mod asked;

use super::Resolver;
use super::clash::{clashed, mismatch};
use super::frame::Frame;
use super::name::offer;
use crate::{
    DefinitionKind, Dimension, JointId, Measure, Part, PartId, Pen, Quantity, Sum, SumKind, Test,
    Want, want::MEASURES,
};
use quillet_syntax::ast::{self, Arg, Expr, ExprKind};
use quillet_syntax::{Finding, Severity, Span};
use std::sync::Arc;

/// What a want may speak of.
#[derive(Clone, Copy)]
pub(super) enum WantScope<'p> {
    /// A pen, and the joint in whose block the want stands.
    Pen(&'p Pen, Option<JointId>),
    /// A part by itself.
    Part(&'p Part),
}

impl<'a> Resolver<'a> {
    /// Resolves a want; none where something in it makes no sense, which is told of.
    pub(super) fn want(
        &mut self,
        want: &'a ast::Want,
        among: WantScope<'_>,
        frame: &mut Frame<'a>,
    ) -> Option<Want> {
        let sums = [&want.measure].into_iter().chain(want.tested());
        if let Some(sum) = sums.into_iter().find(|sum| long(sum)) {
            self.emit(mismatch(sum.span, "this sum is too long to be measured"));
            return None;
        }
        let measure = self.sum(&want.measure, among, frame);
        let test = match &want.test {
            ast::Test::Compare(comparison, sum) => self
                .sum(sum, among, frame)
                .map(|sum| Test::Compare(*comparison, sum)),
            ast::Test::About { value, tolerance } => {
                let value = self.sum(value, among, frame);
                let tolerance = self.sum(tolerance, among, frame);
                value
                    .zip(tolerance)
                    .map(|(value, tolerance)| Test::About(value, tolerance))
            }
            ast::Test::Within(range) => {
                let from = self.sum(&range.from, among, frame);
                let to = self.sum(&range.to, among, frame);
                from.zip(to).map(|(from, to)| Test::Within(from, to))
            }
        };
        let (measure, test) = (measure?, test?);
        let value = self.dimension(&measure)?;
        let against: Vec<&Sum> = match &test {
            Test::Compare(_, sum) => vec![sum],
            Test::About(one, other) | Test::Within(one, other) => vec![one, other],
        };
        for sum in against {
            let other = self.dimension(sum)?;
            if let Err(clash) = value.matched(other) {
                self.emit(clashed(clash, want.span_of_test(), measure.span, sum.span));
                return None;
            }
        }
        Some(Want {
            span: want.span,
            measure,
            test,
        })
    }

    /// A figure that was measured, and its value; none where it makes no sense, which is told of.
    pub(super) fn measured_figure(
        &mut self,
        measure: &'a Expr,
        value: &'a Expr,
        among: WantScope<'_>,
        frame: &mut Frame<'a>,
    ) -> Option<(Sum, Quantity)> {
        let sum = self.sum(measure, among, frame);
        let value_of = self.eval(value, frame);
        let (sum, found) = (sum?, value_of?);
        let of = self.dimension(&sum)?;
        match of.matched(found) {
            Ok((_, found)) => Some((sum, found)),
            Err(clash) => {
                self.emit(clashed(clash, value.span, measure.span, value.span));
                None
            }
        }
    }

    /// A sum whose measures all are one of their unit: what is left is its dimension.
    fn dimension(&mut self, sum: &Sum) -> Option<Quantity> {
        let one = |measure: &Measure| Some(Quantity::measured(1.0, measure.dimension()));
        match sum.value(&one) {
            Ok(value) => value,
            // What is nothing only because every measure is one is no fault.
            Err(crate::DimensionMismatch::ByZero) => {
                Some(Quantity::measured(1.0, Dimension::RATIO))
            }
            Err(clash) => {
                self.emit(clashed(clash, sum.span, sum.span, sum.span));
                None
            }
        }
    }

    fn sum(&mut self, expr: &'a Expr, among: WantScope<'_>, frame: &mut Frame<'a>) -> Option<Sum> {
        let all = |this: &mut Self, args: &'a [Arg], frame: &mut Frame<'a>| {
            let sums = args.iter().map(|arg| match arg {
                Arg::Sum(sum) => this.sum(sum, among, frame),
                Arg::Face(face) => {
                    this.emit(mismatch(face.span, "min and max take sizes, not faces"));
                    None
                }
            });
            sums.collect::<Option<Vec<Sum>>>()
        };
        let kind = match &expr.kind {
            ExprKind::Group(inner) => return self.sum(inner, among, frame),
            ExprKind::Negate(inner) => SumKind::Negated(Box::new(self.sum(inner, among, frame)?)),
            ExprKind::Binary(a, operator, b) => {
                let (a, b) = (self.sum(a, among, frame), self.sum(b, among, frame));
                SumKind::Combined(Box::new(a?), *operator, Box::new(b?))
            }
            ExprKind::Call { name, args } => match &*name.text {
                "min" => SumKind::Least(all(self, args, frame)?),
                "max" => SumKind::Most(all(self, args, frame)?),
                _ => SumKind::Measured(self.measure(name, args, among, frame)?),
            },
            ExprKind::Name(text) if self.means_measure(text, frame) => {
                let name = ast::Name {
                    text: text.clone(),
                    span: expr.span,
                };
                SumKind::Measured(self.measure(&name, &[], among, frame)?)
            }
            ExprKind::Quantity { .. } | ExprKind::Name(_) | ExprKind::Bad => {
                SumKind::Known(self.eval(expr, frame)?)
            }
        };
        Some(Sum {
            span: expr.span,
            kind,
        })
    }

    /// Whether a bare name is that of a measure, or of nothing else and nearly that of one.
    fn means_measure(&self, text: &str, frame: &Frame<'a>) -> bool {
        let is_let = frame.local.iter().any(|it| &*it.0.name.text == text);
        if is_let || bare_measure(text) || self.scope.get(text).is_some() {
            return bare_measure(text) && self.scope.get(text).is_none();
        }
        let nearer = self.scope.names_of(&[DefinitionKind::Let]).chain(BARE);
        let nearest = quillet_syntax::nearest(text, nearer);
        nearest.is_some_and(bare_measure)
    }

    fn measure(
        &mut self,
        name: &ast::Name,
        args: &'a [Arg],
        among: WantScope<'_>,
        frame: &mut Frame<'a>,
    ) -> Option<Measure> {
        let Some((_, written, _)) = MEASURES.iter().find(|(word, ..)| *word == &*name.text) else {
            let finding = Finding::new(
                "unknown-name",
                Severity::Error,
                name.span,
                format!("nothing that is measured is called {}", name.text),
            );
            let words: Vec<&str> = MEASURES.iter().map(|(word, ..)| *word).collect();
            let near = quillet_syntax::nearest(&name.text, words.iter().copied());
            let hint = format!("measures are {}", words.join(", "));
            self.emit(offer(finding, name.span, near, &hint));
            return None;
        };
        let joint = |make: fn(JointId) -> Measure, this: &mut Self, frame: &mut Frame<'a>| {
            this.joint_asked(name, args, among, frame).map(make)
        };
        match (&*name.text, args) {
            ("length", [Arg::Sum(it)]) => self.configured(it).map(Measure::Length),
            ("mass", [Arg::Sum(it)]) => self.configured(it).map(Measure::Mass),
            ("balance", [Arg::Sum(it)]) => self.configured(it).map(Measure::Balance),
            ("turns", [] | [_, _]) => joint(Measure::Turns, self, frame),
            ("travel", [] | [_, _]) => joint(Measure::Travel, self, frame),
            ("overlap", [] | [_, _]) => joint(Measure::Overlap, self, frame),
            ("hold", [] | [_, _]) => joint(Measure::Hold, self, frame),
            ("wall", [Arg::Sum(part)]) => self.part_asked(part, among, frame).map(Measure::Wall),
            ("diameter", [Arg::Sum(part), Arg::Sum(at)]) => {
                let part = self.part_asked(part, among, frame);
                let at = self.distance(at, "a station", frame);
                Some(Measure::Diameter(part?, at?))
            }
            ("across", [Arg::Sum(part), Arg::Sum(at)]) => {
                let part = self.part_asked(part, among, frame);
                let at = self.distance(at, "a station", frame);
                Some(Measure::Across(part?, at?))
            }
            ("clearance", [Arg::Sum(one), Arg::Sum(other), Arg::Sum(configured)]) => {
                let one = self.part_asked(one, among, frame);
                let other = self.part_asked(other, among, frame);
                let configured = self.configured(configured);
                Some(Measure::Clearance(one?, other?, configured?))
            }
            ("distance", [Arg::Face(one), Arg::Face(other)]) => {
                let one = self.face_asked(one, among, frame);
                let other = self.face_asked(other, among, frame);
                Some(Measure::Distance(Box::new(one?), Box::new(other?), None))
            }
            ("distance", [Arg::Face(one), Arg::Face(other), Arg::Sum(configured)]) => {
                let one = self.face_asked(one, among, frame);
                let other = self.face_asked(other, among, frame);
                let configured = self.configured(configured)?;
                let pair = (Box::new(one?), Box::new(other?));
                Some(Measure::Distance(pair.0, pair.1, Some(configured)))
            }
            ("ink", []) => Some(Measure::Ink),
            _ => {
                let message = format!("{} is written as in {written}", name.text);
                self.emit(mismatch(name.span, message));
                None
            }
        }
    }
}

impl WantScope<'_> {
    /// The names of its parts.
    fn names(self) -> Vec<String> {
        let name = |part: &Part| part.name.text.to_string();
        match self {
            WantScope::Pen(pen, _) => pen.parts.iter().map(|part| name(part)).collect(),
            WantScope::Part(part) => vec![name(part)],
        }
    }

    /// A part of a pen; one that stands by itself has no faces to measure between.
    fn part(self, index: PartId) -> Option<Arc<Part>> {
        match self {
            WantScope::Pen(pen, _) => pen.parts.get(index).cloned(),
            WantScope::Part(_) => None,
        }
    }
}

/// Whether a sum has more terms than anyone writes: each is a step deeper.
fn long(sum: &Expr) -> bool {
    let mut left = sum;
    let mut terms = 0;
    while let ExprKind::Binary(a, ..) = &left.kind {
        left = a;
        terms += 1;
    }
    terms > 200
}

/// A measure that may stand without parentheses.
fn bare_measure(word: &str) -> bool {
    BARE.contains(&word)
}

/// The measures that may stand without parentheses.
const BARE: [&str; 5] = ["turns", "travel", "overlap", "hold", "ink"];

/// What a want is tested against, and where.
trait WantTest {
    fn tested(&self) -> Vec<&Expr>;
    fn span_of_test(&self) -> Span;
}

impl WantTest for ast::Want {
    fn tested(&self) -> Vec<&Expr> {
        match &self.test {
            ast::Test::Compare(_, sum) => vec![sum],
            ast::Test::About { value, tolerance } => vec![value, tolerance],
            ast::Test::Within(range) => vec![&range.from, &range.to],
        }
    }

    fn span_of_test(&self) -> Span {
        match &self.test {
            ast::Test::Compare(_, sum) => sum.span,
            ast::Test::About { value, tolerance } => value.span.to(tolerance.span),
            ast::Test::Within(range) => range.span,
        }
    }
}
