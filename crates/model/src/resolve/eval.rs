//! Sums evaluated where they stand.

use super::Resolver;
use super::clash::{clashed, mismatch, too_large};
use super::frame::Frame;
use crate::{Quantity, Units, Value};
use quillet_syntax::ast::{self, Arg, Expr, ExprKind, Operator, Unit};
use quillet_syntax::{Finding, Severity, Span};

impl<'a> Resolver<'a> {
    /// What a sum comes to.
    pub(super) fn eval(&mut self, expr: &Expr, frame: &mut Frame<'a>) -> Option<Quantity> {
        match self.eval_value(expr, frame)? {
            Value::Quantity(quantity) => Some(quantity),
            Value::Material(material) => {
                self.emit(mismatch(
                    expr.span,
                    format!("{} is a material; a size is expected here", material.name),
                ));
                None
            }
        }
    }

    /// What a sum or the name of a material comes to.
    pub(super) fn eval_value(&mut self, expr: &Expr, frame: &mut Frame<'a>) -> Option<Value> {
        match &expr.kind {
            ExprKind::Bad => None,
            ExprKind::Name(name) => self.named_value(name, expr.span, frame),
            ExprKind::Quantity { value, unit } => {
                let bare = self.scope.units(expr.span);
                let value = self.changed(expr.span).unwrap_or(*value);
                let written = Quantity::written(value, *unit, bare);
                if written.is_none() {
                    self.emit(too_large(expr.span));
                }
                written.map(Value::Quantity)
            }
            ExprKind::Group(inner) => self.eval_value(inner, frame),
            ExprKind::Negate(inner) => Some(Value::Quantity(self.eval(inner, frame)?.negated())),
            ExprKind::Binary(..) => self.binary(expr, frame).map(Value::Quantity),
            ExprKind::Call { name, args } => {
                self.call(expr, name, args, frame).map(Value::Quantity)
            }
        }
    }

    /// A chain of operators is walked along its left side, which a long sum makes deep.
    fn binary(&mut self, expr: &Expr, frame: &mut Frame<'a>) -> Option<Quantity> {
        let mut chain = Vec::new();
        let mut left = expr;
        while let ExprKind::Binary(a, operator, b) = &left.kind {
            chain.push((left.span, a, *operator, b));
            left = a;
        }
        let mut total = self.eval(left, frame);
        for (span, a, operator, b) in chain.into_iter().rev() {
            let right = self.eval(b, frame);
            if matches!(operator, Operator::Add | Operator::Subtract) {
                self.mixed_units(a, b);
            }
            total = match (total, right) {
                (Some(left), Some(right)) => match left.combine(operator, right) {
                    Ok(quantity) => Some(quantity),
                    Err(clash) => {
                        self.emit(clashed(clash, span, a.span, b.span));
                        None
                    }
                },
                _ => None,
            };
        }
        total
    }

    fn call(
        &mut self,
        expr: &Expr,
        name: &ast::Name,
        args: &[Arg],
        frame: &mut Frame<'a>,
    ) -> Option<Quantity> {
        let least = match &*name.text {
            "min" => true,
            "max" => false,
            _ => {
                self.emit(mismatch(expr.span, format!(
                    "{} is measured on the finished pen, so it belongs in a want; here min and max may stand",
                    name.text
                )));
                return None;
            }
        };
        let mut best: Option<(Quantity, Span)> = None;
        for arg in args {
            let Arg::Sum(arg) = arg else {
                self.emit(mismatch(expr.span, "min and max take sizes, not faces"));
                return None;
            };
            let value = self.eval(arg, frame)?;
            best = Some(match best {
                None => (value, arg.span),
                Some((so_far, at)) => match so_far.matched(value) {
                    Ok((a, b)) if (b.amount < a.amount) == least && a.amount != b.amount => {
                        (b, arg.span)
                    }
                    Ok((a, _)) => (a, at),
                    Err(clash) => {
                        self.emit(clashed(clash, expr.span, at, arg.span));
                        return None;
                    }
                },
            });
        }
        best.map(|(value, _)| value)
    }

    /// A bare number beside one written in inches, or in millimetres in a file of inches.
    pub(super) fn mixed_units(&mut self, a: &Expr, b: &Expr) {
        for (bare, other) in [(a, b), (b, a)] {
            let ExprKind::Quantity { unit: None, .. } = bare.kind else {
                continue;
            };
            let ExprKind::Quantity {
                unit: Some(unit), ..
            } = other.kind
            else {
                continue;
            };
            let (reads_as, suffix) = match (self.scope.units(bare.span), unit) {
                (Units::Millimetres, Unit::In) => ("millimetres", "in"),
                (Units::Inches, Unit::Mm) => ("inches", "mm"),
                _ => continue,
            };
            let text = self.design.text(bare.span).to_owned();
            let beside = match suffix {
                "in" => "inches",
                other => other,
            };
            self.emit(
                Finding::new(
                    "mixed-units",
                    Severity::Warning,
                    bare.span,
                    format!("{text} is read as {reads_as} beside a size in {beside}"),
                )
                .label(other.span, format!("written in {suffix}"))
                .hint("write the unit at both numbers")
                .fix(
                    format!("write {text}{suffix}"),
                    bare.span,
                    format!("{text}{suffix}"),
                ),
            );
        }
    }
}
