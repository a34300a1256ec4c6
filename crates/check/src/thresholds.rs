//! The thresholds that hold where a rule looks: the nearest `limit` around.

use crate::{JointView, PartView, PenView, Rule};
use quillet_geometry::Length;
use quillet_model::{Design, LimitLine, Limits};

impl<'a> PenView<'a> {
    /// The threshold set for a rule, by the pen, its bench or the file.
    pub fn limit(&self, rule: &Rule) -> Option<&'a LimitLine> {
        nearest(
            rule,
            &[
                Some(&self.pen.limits),
                self.bench.map(|bench| &bench.limits),
            ],
            self.design,
        )
    }
}

impl<'a> PartView<'a> {
    /// The threshold set for a rule, by the part, its pen, its bench or the file.
    pub fn limit(&self, rule: &Rule) -> Option<&'a LimitLine> {
        let around = [
            Some(&self.part.limits),
            self.pen.map(|pen| &pen.limits),
            self.bench.map(|bench| &bench.limits),
        ];
        nearest(rule, &around, self.design)
    }

    /// The threshold set for a rule as a length, or else the usual one.
    pub fn length_limit(&self, rule: &Rule, usual: Length) -> Length {
        length(self.limit(rule), usual)
    }

    /// The threshold set for a rule as a number, or else the usual one.
    pub fn number_limit(&self, rule: &Rule, usual: f64) -> f64 {
        number(self.limit(rule), usual)
    }
}

impl<'a> JointView<'a> {
    /// The threshold set for a rule, by the joint, its parts, the pen, the bench or the file.
    pub fn limit(&self, rule: &Rule) -> Option<&'a LimitLine> {
        let around = [
            Some(&self.joint.limits),
            Some(&self.male.limits),
            Some(&self.female.limits),
            Some(&self.pen.pen.limits),
            self.pen.bench.map(|bench| &bench.limits),
        ];
        nearest(rule, &around, self.pen.design)
    }

    /// The threshold set for a rule as a length, or else the usual one.
    pub fn length_limit(&self, rule: &Rule, usual: Length) -> Length {
        length(self.limit(rule), usual)
    }

    /// The threshold set for a rule as a number, or else the usual one.
    pub fn number_limit(&self, rule: &Rule, usual: f64) -> f64 {
        number(self.limit(rule), usual)
    }
}

/// The nearest threshold of those around, the file's last.
fn nearest<'a>(
    rule: &Rule,
    around: &[Option<&'a Limits>],
    design: &'a Design,
) -> Option<&'a LimitLine> {
    let blocks = around.iter().flatten().copied();
    Limits::nearest(rule.code, blocks.chain([&design.limits]))
}

fn length(set: Option<&LimitLine>, usual: Length) -> Length {
    set.and_then(|line| line.value.as_length()).unwrap_or(usual)
}

fn number(set: Option<&LimitLine>, usual: f64) -> f64 {
    set.and_then(|line| line.value.as_number()).unwrap_or(usual)
}
