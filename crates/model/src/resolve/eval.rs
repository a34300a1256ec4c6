//! Sums evaluated where they stand.

use super::Resolver;
use super::scope::Entry;
use crate::{BareUnit, Clash, Dimension, Material, NameKind, Quantity, Value};
use quillet_geometry::{Angle, Length};
use quillet_syntax::ast::{self, Arg, Expr, ExprKind, ItemKind, Operator, Unit};
use quillet_syntax::{Finding, Severity, Span};
use std::collections::HashMap;
use std::sync::Arc;

/// The `let`s in sight of a block, nearest first, and what they came to.
#[derive(Default)]
pub(super) struct Frame<'a> {
    /// Local `let`s: a part's own.
    pub(super) local: Vec<&'a ast::Let>,
    /// A pen's `let`s, over the file's.
    pub(super) pen: Vec<&'a ast::Let>,
    /// Definitions of the local `let`s in `Names`, in step with `local`.
    pub(super) local_definitions: Vec<usize>,
    /// Whether a pen's `let` was used.
    pub(super) touched: bool,
    /// Looked up by name only, never walked.
    known: HashMap<Arc<str>, Known>,
}

enum Known {
    Underway,
    Done(Option<Value>, bool),
}

impl<'a> Frame<'a> {
    /// A frame in which a pen's `let`s stand over the file's.
    pub(super) fn of_pen(lets: Vec<&'a ast::Let>) -> Self {
        Frame {
            pen: lets,
            ..Frame::default()
        }
    }

    /// A frame within this one, with a part's own `let`s.
    pub(super) fn within(&self, local: Vec<&'a ast::Let>, local_definitions: Vec<usize>) -> Self {
        Frame {
            pen: self.pen.clone(),
            local,
            local_definitions,
            ..Frame::default()
        }
    }
}

impl<'a> Resolver<'a> {
    /// What a sum comes to.
    pub(super) fn eval(&mut self, expr: &Expr, frame: &mut Frame<'a>) -> Option<Quantity> {
        match self.eval_value(expr, frame)? {
            Value::Quantity(quantity) => Some(quantity),
            Value::Material(material) => {
                self.say(mismatch(
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
                let bare = match self.scope.in_inches(expr.span) {
                    true => BareUnit::Inch,
                    false => BareUnit::Millimetre,
                };
                let written = Quantity::written(*value, *unit, bare);
                if written.is_none() {
                    self.say(too_large(expr.span));
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
                        self.say(clashed(clash, span, a.span, b.span));
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
                self.say(mismatch(expr.span, format!(
                    "{} is measured on the finished pen, so it belongs in a want; here min and max may stand",
                    name.text
                )));
                return None;
            }
        };
        let mut best: Option<(Quantity, Span)> = None;
        for arg in args {
            let Arg::Sum(arg) = arg else {
                self.say(mismatch(expr.span, "min and max take sizes, not faces"));
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
                        self.say(clashed(clash, expr.span, at, arg.span));
                        return None;
                    }
                },
            });
        }
        best.map(|(value, _)| value)
    }

    /// The value of a `let`, or a material's name; records the reference.
    fn named_value(&mut self, name: &Arc<str>, at: Span, frame: &mut Frame<'a>) -> Option<Value> {
        if let Some(index) = frame.local.iter().position(|it| it.name.text == *name) {
            self.refer(at, frame.local_definitions[index]);
        } else if let Some(entry) = self.scope.get(name) {
            self.refer(at, entry.definition);
        }
        match frame.known.get(name) {
            Some(Known::Done(value, touched)) => {
                frame.touched |= touched;
                return value.clone();
            }
            Some(Known::Underway) => {
                self.say(
                    Finding::new(
                        "unknown-name",
                        Severity::Error,
                        at,
                        format!("{name} is worked out from itself"),
                    )
                    .hint("give one of the sums a number"),
                );
                return None;
            }
            None => {}
        }
        let outer = std::mem::replace(&mut frame.touched, false);
        frame.known.insert(name.clone(), Known::Underway);
        let value = self.find_value(name, at, frame);
        frame
            .known
            .insert(name.clone(), Known::Done(value.clone(), frame.touched));
        frame.touched |= outer;
        value
    }

    fn find_value(&mut self, name: &Arc<str>, at: Span, frame: &mut Frame<'a>) -> Option<Value> {
        let local = frame
            .local
            .iter()
            .rev()
            .find(|it| it.name.text == *name)
            .copied();
        if let Some(it) = local {
            return self.eval_value(&it.value, frame);
        }
        let entry = self.scope.get(name);
        if let Some(Entry { item, .. }) = entry
            && let ItemKind::Let(file_let) = &item.kind
        {
            let over = frame
                .pen
                .iter()
                .rev()
                .find(|it| it.name.text == *name)
                .copied();
            frame.touched |= over.is_some();
            return self.eval_value(&over.unwrap_or(file_let).value, frame);
        }
        if let Some(material) = self.material_called(name) {
            return Some(Value::Material(material));
        }
        self.unknown(name, at, &[NameKind::Let, NameKind::Material], frame);
        None
    }

    fn material_called(&self, name: &str) -> Option<Arc<Material>> {
        let defined = self.design.materials.iter().find(|it| &*it.name == name);
        defined
            .cloned()
            .or_else(|| Material::built_in(name).map(Arc::new))
    }

    /// The material a name stands for, through a `let` where there is one.
    pub(super) fn material(
        &mut self,
        name: &ast::Name,
        frame: &mut Frame<'a>,
    ) -> Option<Arc<Material>> {
        match self.named_value(&name.text, name.span, frame)? {
            Value::Material(material) => Some(material),
            Value::Quantity(quantity) => {
                self.say(mismatch(
                    name.span,
                    format!(
                        "{} is {}; a material is expected here",
                        name.text,
                        quantity.dimension.called()
                    ),
                ));
                None
            }
        }
    }

    /// A length.
    pub(super) fn length(&mut self, expr: &Expr, frame: &mut Frame<'a>) -> Option<Length> {
        let quantity = self.eval(expr, frame)?;
        let length = quantity.as_length();
        match length {
            Some(length) if length.abs() <= LONGEST => Some(length),
            Some(_) => {
                self.say(too_large(expr.span));
                None
            }
            None if quantity.dimension == Dimension::LENGTH
                || matches!(quantity.dimension, Dimension::Bare(_)) =>
            {
                self.say(too_large(expr.span));
                None
            }
            None => {
                self.wrong_dimension(expr.span, quantity, "a length");
                None
            }
        }
    }

    /// A length above zero; `what` names it in the finding ("a diameter").
    pub(super) fn positive(
        &mut self,
        expr: &Expr,
        what: &str,
        frame: &mut Frame<'a>,
    ) -> Option<Length> {
        let length = self.length(expr, frame)?;
        if length.is_positive() {
            return Some(length);
        }
        self.say(out_of_range(
            expr.span,
            format!("{what} of {length} cannot be cut; more than 0 mm is expected"),
        ));
        None
    }

    /// A length of zero or more.
    pub(super) fn distance(
        &mut self,
        expr: &Expr,
        what: &str,
        frame: &mut Frame<'a>,
    ) -> Option<Length> {
        let length = self.length(expr, frame)?;
        if !length.is_negative() {
            return Some(length);
        }
        self.say(out_of_range(
            expr.span,
            format!("{what} of {length} is negative; 0 mm or more is expected"),
        ));
        None
    }

    /// An angle between 0° and 180°.
    pub(super) fn angle(&mut self, expr: &Expr, frame: &mut Frame<'a>) -> Option<Angle> {
        let quantity = self.eval(expr, frame)?;
        let Some(angle) = quantity.as_angle() else {
            self.wrong_dimension(expr.span, quantity, "an angle");
            return None;
        };
        let degrees = angle.to_deg();
        if degrees > 0.0 && degrees <= 180.0 {
            return Some(angle);
        }
        self.say(out_of_range(
            expr.span,
            format!(
                "an angle of {quantity} is no tool's; more than 0° and at most 180° is expected"
            ),
        ));
        None
    }

    /// A number, mass or volume read by `as_what`; negative ones are out of range.
    pub(super) fn amount(
        &mut self,
        expr: &Expr,
        what: &str,
        as_what: fn(Quantity) -> Option<f64>,
        frame: &mut Frame<'a>,
    ) -> Option<f64> {
        let quantity = self.eval(expr, frame)?;
        let Some(amount) = as_what(quantity) else {
            self.wrong_dimension(expr.span, quantity, what);
            return None;
        };
        if (0.0..=1e9).contains(&amount) {
            return Some(amount);
        }
        self.say(out_of_range(
            expr.span,
            format!("{what} of {quantity} is not to be had"),
        ));
        None
    }

    /// A range, lower bound first.
    pub(super) fn range(
        &mut self,
        from: &Expr,
        to: &Expr,
        frame: &mut Frame<'a>,
    ) -> Option<(Quantity, Quantity)> {
        self.mixed_units(from, to);
        let (a, b) = (self.eval(from, frame)?, self.eval(to, frame)?);
        match a.matched(b) {
            Ok((a, b)) if a.amount <= b.amount => Some((a, b)),
            Ok((a, b)) => {
                self.say(out_of_range(
                    from.span.to(to.span),
                    format!("the range runs from {a} down to {b}; the smaller is written first"),
                ));
                None
            }
            Err(clash) => {
                self.say(clashed(clash, from.span.to(to.span), from.span, to.span));
                None
            }
        }
    }

    fn wrong_dimension(&mut self, at: Span, quantity: Quantity, wanted: &str) {
        self.say(mismatch(
            at,
            format!(
                "{quantity} is {}; {wanted} is expected here",
                quantity.dimension.called()
            ),
        ));
    }

    /// A bare number beside one written in inches, or in millimetres in a file of inches.
    fn mixed_units(&mut self, a: &Expr, b: &Expr) {
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
            let (reads_as, suffix) = match (self.scope.in_inches(bare.span), unit) {
                (false, Unit::In) => ("millimetres", "in"),
                (true, Unit::Mm) => ("inches", "mm"),
                _ => continue,
            };
            let text = self.design.text(bare.span).to_owned();
            self.say(
                Finding::new(
                    "mixed-units",
                    Severity::Warning,
                    bare.span,
                    format!("{text} is read as {reads_as} beside a size in {suffix}"),
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

/// A kilometre: nothing a lathe turns is longer.
const LONGEST: Length = Length::from_nm(1_000_000_000_000);

fn mismatch(at: Span, message: impl Into<String>) -> Finding {
    Finding::new("unit-mismatch", Severity::Error, at, message)
}

fn out_of_range(at: Span, message: impl Into<String>) -> Finding {
    Finding::new("out-of-range", Severity::Error, at, message)
}

fn too_large(at: Span) -> Finding {
    out_of_range(at, "this size is beyond anything that can be turned")
        .hint("see whether a decimal point or a unit is missing")
}

fn clashed(clash: Clash, whole: Span, a: Span, b: Span) -> Finding {
    match clash {
        Clash::Dimensions(left, right) => mismatch(
            whole,
            format!(
                "{} and {} do not go together here",
                left.called(),
                right.called()
            ),
        )
        .label(a, left.called())
        .label(b, right.called()),
        Clash::ByZero => out_of_range(b, "this comes to nothing, and nothing can be divided by it"),
        Clash::TooLarge => too_large(whole),
    }
}
