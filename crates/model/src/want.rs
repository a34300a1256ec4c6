//! What is wanted of a pen, resolved.

use crate::{Amount, Configured, Dimension, JointId, PartId, PenFace, Quantity};
use quillet_geometry::Length;
use quillet_syntax::Span;
use quillet_syntax::ast::{Comparison, Operator};

/// `want sum test`, every name in it resolved.
#[derive(Clone, Debug)]
pub struct Want {
    /// The statement.
    pub span: Span,
    /// What is measured.
    pub measure: Sum,
    /// What it is held against.
    pub test: Test,
}

/// A sum of measures and quantities.
#[derive(Clone, Debug)]
pub struct Sum {
    /// Where it stands.
    pub span: Span,
    /// What it is.
    pub kind: SumKind,
}

/// The kinds of sum.
#[derive(Clone, Debug)]
pub enum SumKind {
    /// A quantity that the text gives.
    Known(Quantity),
    /// A measure of the pen.
    Measured(Measure),
    /// `-a`
    Negated(Box<Sum>),
    /// `a + b`
    Combined(Box<Sum>, Operator, Box<Sum>),
    /// `min(a, b)`
    Least(Vec<Sum>),
    /// `max(a, b)`
    Most(Vec<Sum>),
}

/// What a measure is held against.
#[derive(Clone, Debug)]
pub enum Test {
    /// `< <= > >= sum`
    Compare(Comparison, Sum),
    /// `= sum +- sum`
    About(Sum, Sum),
    /// `within a..b`
    Within(Sum, Sum),
}

/// Something measured on a pen put together.
#[derive(Clone, Debug)]
pub enum Measure {
    /// `length(capped)`
    Length(Configured),
    /// `mass(capped)`
    Mass(Configured),
    /// `balance(capped)`: from the foremost place.
    Balance(Configured),
    /// `turns` of a joint, until its threads let go.
    Turns(JointId),
    /// `travel` of a joint, until its threads let go.
    Travel(JointId),
    /// `overlap` of a joint's threads.
    Overlap(JointId),
    /// `hold` of a joint: what draws it apart, newtons, good to a factor of two.
    Hold(JointId),
    /// `wall(part)`: the least.
    Wall(PartId),
    /// `diameter(part, station)`
    Diameter(PartId, Length),
    /// `across(part, station)`
    Across(PartId, Length),
    /// `clearance(part, part, capped)`: the least true distance.
    Clearance(PartId, PartId, Configured),
    /// `distance(a.face, b.face)`: along the axis, positive where the second lies further back; in a
    /// state, where one is said, else open.
    Distance(Box<PenFace>, Box<PenFace>, Option<Configured>),
    /// `ink`: how much it holds.
    Ink,
}

/// The measures: each word, how it is written, and what it tells.
pub const MEASURES: [(&str, &str, &str); 13] = [
    (
        "length",
        "length(capped)",
        "how long the pen is, in a configuration",
    ),
    (
        "mass",
        "mass(uncapped)",
        "what the pen weighs, filled, in a configuration",
    ),
    (
        "balance",
        "balance(uncapped)",
        "where the pen balances, from its foremost place, in a configuration",
    ),
    ("turns", "turns", "turns until a joint's threads let go"),
    (
        "travel",
        "travel",
        "how far a joint comes out until its threads let go",
    ),
    (
        "overlap",
        "overlap",
        "how much of a joint's threads lies in each other",
    ),
    ("wall", "wall(barrel)", "a part's least wall"),
    (
        "diameter",
        "diameter(section, 12)",
        "a part's outside diameter at a station",
    ),
    (
        "across",
        "across(barrel, 20)",
        "a part's size across its flats at a station",
    ),
    (
        "hold",
        "hold",
        "the force that draws a joint apart, an estimate good to a factor of two",
    ),
    (
        "clearance",
        "clearance(nib-unit, cap, capped)",
        "the least distance between two parts in a configuration",
    ),
    (
        "distance",
        "distance(section.tip, barrel.mouth)",
        "how far one face lies behind another along the axis",
    ),
    ("ink", "ink", "how much ink the pen holds"),
];

impl Measure {
    /// What it is measured in.
    pub fn dimension(&self) -> Dimension {
        match self {
            Measure::Mass(_) => Dimension::MASS,
            Measure::Turns(_) => Dimension::RATIO,
            Measure::Hold(_) => Dimension::Force,
            Measure::Ink => Dimension::VOLUME,
            _ => Dimension::LENGTH,
        }
    }
}

impl Want {
    /// Does something with each face that it measures between.
    pub(crate) fn each_face(&mut self, with: &dyn Fn(&mut PenFace)) {
        self.measure.each_face(with);
        match &mut self.test {
            Test::Compare(_, sum) => sum.each_face(with),
            Test::About(a, b) | Test::Within(a, b) => {
                a.each_face(with);
                b.each_face(with);
            }
        }
    }
}

impl Sum {
    fn each_face(&mut self, with: &dyn Fn(&mut PenFace)) {
        match &mut self.kind {
            SumKind::Measured(Measure::Distance(a, b, _)) => {
                with(a);
                with(b);
            }
            SumKind::Known(_) | SumKind::Measured(_) => {}
            SumKind::Negated(sum) => sum.each_face(with),
            SumKind::Combined(a, _, b) => {
                a.each_face(with);
                b.each_face(with);
            }
            SumKind::Least(sums) | SumKind::Most(sums) => {
                sums.iter_mut().for_each(|it| it.each_face(with));
            }
        }
    }

    /// What it comes to, each measure as `measured` gives it; none where one is not known.
    ///
    /// # Errors
    /// When the dimensions do not go together; resolution has said so already.
    pub fn value<N: Amount>(
        &self,
        measured: &dyn Fn(&Measure) -> Option<Quantity<N>>,
    ) -> Result<Option<Quantity<N>>, crate::DimensionMismatch> {
        let all = |sums: &[Sum]| -> Result<Option<Vec<Quantity<N>>>, crate::DimensionMismatch> {
            sums.iter().map(|sum| sum.value(measured)).collect()
        };
        let extreme = |sums: &[Sum], least: bool| {
            let Some(values) = all(sums)? else {
                return Ok(None);
            };
            let mut values = values.into_iter();
            let Some(mut best) = values.next() else {
                return Ok(None);
            };
            for value in values {
                let (a, b) = best.matched(value)?;
                best = if (b.amount < a.amount) == least { b } else { a };
            }
            Ok(Some(best))
        };
        match &self.kind {
            SumKind::Known(quantity) => Ok(Some(Quantity {
                amount: N::of(quantity.amount),
                dimension: quantity.dimension,
            })),
            SumKind::Measured(measure) => Ok(measured(measure)),
            SumKind::Negated(sum) => Ok(sum.value(measured)?.map(Quantity::negated)),
            SumKind::Combined(a, operator, b) => match a.value(measured)?.zip(b.value(measured)?) {
                Some((a, b)) => a.combine(*operator, b).map(Some),
                None => Ok(None),
            },
            SumKind::Least(sums) => extreme(sums, true),
            SumKind::Most(sums) => extreme(sums, false),
        }
    }

    /// The measures in it, in the order written.
    pub fn measures(&self) -> Vec<&Measure> {
        match &self.kind {
            SumKind::Known(_) => Vec::new(),
            SumKind::Measured(measure) => vec![measure],
            SumKind::Negated(sum) => sum.measures(),
            SumKind::Combined(a, _, b) => [a.measures(), b.measures()].concat(),
            SumKind::Least(sums) | SumKind::Most(sums) => {
                sums.iter().flat_map(Sum::measures).collect()
            }
        }
    }
}
