//! What a place in the text expects of a sum: a length, an angle, an amount, a range.

use super::Resolver;
use super::clash::{clashed, mismatch, out_of_range, too_large};
use super::frame::Frame;
use crate::{Dimension, Quantity};
use quillet_geometry::{Angle, Length};
use quillet_syntax::ast::{Expr, ExprKind};
use quillet_syntax::{Finding, Span, text};

impl<'a> Resolver<'a> {
    /// A length.
    pub(super) fn length(&mut self, expr: &Expr, frame: &mut Frame<'a>) -> Option<Length> {
        let quantity = self.eval(expr, frame)?;
        let length = quantity.as_length();
        match length {
            Some(length) if length.abs() <= LONGEST => Some(length),
            Some(_) => {
                self.emit(too_large(expr.span));
                None
            }
            None if quantity.dimension == Dimension::LENGTH
                || matches!(quantity.dimension, Dimension::Bare(_)) =>
            {
                self.emit(too_large(expr.span));
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
        let finding = out_of_range(
            expr.span,
            text!(
                "{} of {} cannot be cut; more than {} is expected",
                what,
                length,
                Length::ZERO
            ),
        );
        self.emit(match length.is_negative() {
            true => self.without_minus(finding, expr),
            false => finding.hint("write how much, or leave the line out"),
        });
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
        let finding = out_of_range(
            expr.span,
            text!(
                "{} of {} is negative; {} or more is expected",
                what,
                length,
                Length::ZERO
            ),
        );
        self.emit(self.without_minus(finding, expr));
        None
    }

    /// The minus of a size that cannot have one, taken out where it stands before it.
    fn without_minus(&self, finding: Finding, expr: &Expr) -> Finding {
        let finding = finding.hint("write it without the minus");
        match &expr.kind {
            ExprKind::Negate(inner) => {
                let without = self.design.text(inner.span);
                finding.fix("write it without the minus", expr.span, without)
            }
            _ => finding,
        }
    }

    /// The angle of a tool, over 0° and up to 180°.
    pub(super) fn angle(&mut self, expr: &Expr, frame: &mut Frame<'a>) -> Option<Angle> {
        let wanted = "is no tool's; more than 0° and at most 180° is expected";
        self.angle_that(expr, frame, |deg| deg > 0.0 && deg <= 180.0, wanted)
    }

    /// The angle of a drill's point: none is more pointed than 60°, as ground for plastics and wood
    /// (common practice, no published source).
    pub(super) fn point(&mut self, expr: &Expr, frame: &mut Frame<'a>) -> Option<Angle> {
        let wanted = "is no drill's point; 60° to 180° is expected, 118° where nothing is said";
        self.angle_that(expr, frame, |deg| (60.0..=180.0).contains(&deg), wanted)
    }

    /// A place round the part, from 0° to less than 360°.
    pub(super) fn bearing(&mut self, expr: &Expr, frame: &mut Frame<'a>) -> Option<Angle> {
        let wanted =
            "goes round more than once, or the wrong way; 0° to less than 360° is expected";
        self.angle_that(expr, frame, |deg| (0.0..360.0).contains(&deg), wanted)
    }

    fn angle_that(
        &mut self,
        expr: &Expr,
        frame: &mut Frame<'a>,
        fits: impl Fn(f64) -> bool,
        wanted: &str,
    ) -> Option<Angle> {
        let quantity = self.eval(expr, frame)?;
        let Some(angle) = quantity.as_angle() else {
            self.wrong_dimension(expr.span, quantity, "an angle");
            return None;
        };
        if fits(angle.to_deg()) {
            return Some(angle);
        }
        self.emit(out_of_range(
            expr.span,
            format!("an angle of {quantity} {wanted}"),
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
        let wanted = match quantity.is_negative() {
            true => "is less than nothing: 0 or more is expected",
            false => "is more than 1000000000, the most there is room for",
        };
        let finding = out_of_range(expr.span, text!("{} of {} {}", what, quantity, wanted));
        self.emit(match quantity.is_negative() {
            true => self.without_minus(finding, expr),
            false => finding,
        });
        None
    }

    /// A force, newtons.
    pub(super) fn force(&mut self, expr: &Expr, frame: &mut Frame<'a>) -> Option<f64> {
        self.amount(expr, "a force", Quantity::as_newtons, frame)
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
                let whole = from.span.to(to.span);
                let reported = text!(
                    "the range runs from {} down to {}; the smaller is written first",
                    a,
                    b
                );
                let (low, high) = (self.design.text(to.span), self.design.text(from.span));
                let turned = format!("{low}..{high}");
                let title = format!("write {turned}");
                self.emit(out_of_range(whole, reported).fix(title, whole, turned));
                None
            }
            Err(clash) => {
                self.emit(clashed(clash, from.span.to(to.span), from.span, to.span));
                None
            }
        }
    }

    fn wrong_dimension(&mut self, at: Span, quantity: Quantity, wanted: &str) {
        let finding = mismatch(
            at,
            text!(
                "{} is {}; {} is expected here",
                quantity,
                quantity.dimension.called(),
                wanted
            ),
        );
        self.emit(finding.hint(match wanted {
            "an angle" => "write degrees, as in: 82 or 82deg",
            "a force" => "write newtons, as in: 9 or 9N",
            "a mass" => "write grams, as in: 3.1 or 3.1g",
            "an ink capacity" => "write millilitres, as in: 0.8 or 0.8ml",
            wanted if wanted.starts_with("a number") => "write a bare number",
            wanted if wanted.contains("g/cm") => "write a bare number, as in: 1.21",
            _ => "write millimetres or inches, as in: 12.5 or 1/2in",
        }));
    }
}

/// Three metres: longer than any bench lathe's bed.
const LONGEST: Length = Length::from_nm(3_000_000_000);
