//! What a pen put together measures, held against what is wanted of it.

mod drivers;
mod margin;
mod missing;
mod value;

use margin::{is_enough, margin};
use quillet_model::{
    Configured, Dimension, Doubts, Measure, Part, PartId, Parts, Pen, Quantity, Sum, Test, Want,
    Weights,
};
use quillet_syntax::ast::Comparison;
use quillet_syntax::{Size, SizedText, text};
use std::cell::OnceCell;
use std::sync::Arc;

/// What a measure comes to, each part weighing what is given here: one of so many that it is no exact number.
type Weighed<'a> = dyn Fn(&Measure, &Weights) -> Option<Quantity<f64>> + 'a;

/// A want, measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// What the measure comes to; none where something that it rests on is missing.
    pub value: Option<Quantity>,
    /// From what to what it may lie, by the densities of the materials and the accuracy of the
    /// hand; none where neither enters.
    pub range: Option<(Quantity, Quantity)>,
    /// Whether it is as wanted.
    pub verdict: Verdict,
    /// What is wanted, in words: `at most 145 mm`.
    pub wanted: SizedText,
    /// What makes it so: `barrel is 8.45 g of it`.
    pub drivers: Vec<SizedText>,
    /// Where it is not known, what is missing: `converter says no mass`.
    pub missing: Vec<String>,
    /// What is missing is told of as an error of its own.
    pub is_reported: bool,
}

impl Measured {
    /// What it comes to, in words; none where that is not known.
    pub fn rendered(&self) -> Option<SizedText> {
        self.value.map(rendered)
    }

    /// What it comes to, with the range: `15.78 g (15.46 to 16.06 g)`.
    pub fn rendered_with_range(&self) -> Option<SizedText> {
        let reported = self.rendered()?;
        Some(match self.rendered_range() {
            Some(range) => text!("{} ({})", reported, range),
            None => reported,
        })
    }

    /// From what to what it may lie, in words: `15.46 to 16.06 g`; none where it tells nothing.
    pub fn rendered_range(&self) -> Option<SizedText> {
        let (low, high) = self.range?;
        if let (Dimension::LENGTH, Some(from), Some(to)) =
            (low.dimension, low.as_length(), high.as_length())
        {
            let range = text!("{} to {}", Size::Near(from, 2), Size::Plain(to));
            return (rendered(low) != rendered(high)).then_some(range);
        }
        let (low, high) = (rendered(low).to_string(), rendered(high).to_string());
        let unit = high.trim_start_matches(|letter: char| !letter.is_whitespace());
        (low != high).then(|| text!("{} to {}", low.trim_end_matches(unit), &high))
    }

    /// Holds a want against all that may be, where what it weighs is in doubt.
    fn doubted(
        &mut self,
        want: &Want,
        (doubts, enters): (&Doubts, &dyn Fn(PartId) -> bool),
        value: &Weighed<'_>,
    ) {
        let figures = |weights: &Weights| {
            let value = |it: &Measure| value(it, weights);
            let found = want.measure.value(&value).ok().flatten()?;
            Some([found, margin(want, found, &value)?].map(|it| it.amount))
        };
        let (Some(reckoned), Some([(low, high), (least, most)])) =
            (self.value, doubts.ranges(enters, &figures))
        else {
            return;
        };
        let like = |amount: f64| Quantity::measured(amount, reckoned.dimension);
        self.range = Some((like(low), like(high)));
        let enough = |amount: f64| is_enough(want, like(amount));
        self.verdict = match (enough(least), enough(most)) {
            (true, _) => Verdict::Met,
            (false, false) => Verdict::NotMet,
            (false, true) => Verdict::TooClose,
        };
    }
}

/// Whether a want is met.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// As wanted.
    Met,
    /// Other than wanted.
    NotMet,
    /// What is wanted ends within the range of what it may be.
    TooClose,
    /// Something that it rests on is missing.
    Unknown,
}

impl Verdict {
    /// Whether it is as wanted, where that can be said.
    pub fn met(self) -> Option<bool> {
        match self {
            Verdict::Met => Some(true),
            Verdict::NotMet => Some(false),
            Verdict::TooClose | Verdict::Unknown => None,
        }
    }

    /// In a maker's words.
    pub fn words(self) -> &'static str {
        match self {
            Verdict::Met => "met",
            Verdict::NotMet => "not met",
            Verdict::TooClose => "too close to call",
            Verdict::Unknown => "not known",
        }
    }

    /// The word in JSON.
    pub fn word(self) -> &'static str {
        match self {
            Verdict::Met => "met",
            Verdict::NotMet => "not-met",
            Verdict::TooClose => "too-close",
            Verdict::Unknown => "unknown",
        }
    }
}

/// What a figure that was measured comes to in a pen; none where something it rests on is missing.
pub fn figure(pen: &Pen, sum: &Sum) -> Option<Quantity> {
    let value = |measure: &Measure| value::of(measure, &pen.parts, Some(pen), None);
    sum.value(&value).ok().flatten()
}

/// A want of a pen, or of one of its joints; with the doubts of the pen, worked out where they
/// enter.
pub(crate) fn of_pen(pen: &Pen, want: &Want, doubts: &OnceCell<Doubts>) -> Measured {
    let drawn = |measure: &Measure| value::of(measure, &pen.parts, Some(pen), None);
    let mut measured = measured(want, &drawn);
    let weighed = |it: &Measure| match it {
        Measure::Mass(configured) | Measure::Balance(configured) => Some(*configured),
        _ => None,
    };
    let weighed: Vec<Configured> = all(want).filter_map(weighed).collect();
    if measured.verdict != Verdict::Unknown && !weighed.is_empty() {
        let doubts = doubts.get_or_init(|| pen.doubts());
        let there = |it: &Configured| pen.assembly.configuration(*it);
        let enters = |part| {
            let mut there = weighed.iter().filter_map(there);
            there.any(|it| it.holds(part))
        };
        let value =
            |it: &Measure, weights: &Weights| value::of(it, &pen.parts, Some(pen), Some(weights));
        measured.doubted(want, (doubts, &enters), &value);
    }
    let measures = || all(want);
    for driver in measures().flat_map(|it| drivers::of(it, pen)) {
        if !measured.drivers.contains(&driver) {
            measured.drivers.push(driver);
        }
    }
    if measured.verdict == Verdict::Unknown {
        for missing in measures().flat_map(|it| missing::of_pen(it, pen)) {
            measured.is_reported |= missing.is_reported;
            if !measured.missing.contains(&missing.words) {
                measured.missing.push(missing.words);
            }
        }
    }
    measured
}

/// A want of a part by itself.
pub(crate) fn of_part(part: &Arc<Part>, want: &Want) -> Measured {
    let alone = Parts::alone(part.clone());
    let mut measured = measured(want, &|measure| value::of(measure, &alone, None, None));
    if measured.verdict == Verdict::Unknown {
        measured.missing = all(want)
            .filter_map(|it| missing::of_part(it, part))
            .collect();
        measured.missing.dedup();
        measured.is_reported = part.lacks_shape().is_some();
    }
    measured
}

/// Every measure in a want, those it is held against too.
pub(crate) fn all(want: &Want) -> impl Iterator<Item = &Measure> {
    let against = match &want.test {
        Test::Compare(_, sum) => vec![sum],
        Test::About(one, other) | Test::Within(one, other) => vec![one, other],
    };
    let sums = [&want.measure].into_iter().chain(against);
    sums.flat_map(Sum::measures)
}

fn measured(want: &Want, value: &dyn Fn(&Measure) -> Option<Quantity>) -> Measured {
    let known = |sum: &Sum| sum.value(value).ok().flatten();
    let found = known(&want.measure);
    // What is wanted is told in the unit of what is measured.
    let reported = |sum: &Sum| {
        let wanted = known(sum);
        match found.zip(wanted) {
            Some((found, wanted)) => found.matched(wanted).ok().map(|(_, wanted)| wanted),
            None => wanted,
        }
    };
    let words = |quantity: Option<Quantity>| match quantity {
        Some(it) => match (it.dimension, it.as_length()) {
            (Dimension::LENGTH, Some(length)) => length.into(),
            _ => it.to_string().into(),
        },
        None => SizedText::from("?"),
    };
    let wanted = match &want.test {
        Test::Compare(comparison, sum) => {
            let word = match comparison {
                Comparison::Less => "less than",
                Comparison::AtMost => "at most",
                Comparison::More => "more than",
                Comparison::AtLeast => "at least",
            };
            text!("{} {}", word, words(reported(sum)))
        }
        Test::About(value, tolerance) => {
            text!(
                "{} ± {}",
                words(reported(value)),
                words(reported(tolerance))
            )
        }
        Test::Within(from, to) => text!("{} to {}", words(reported(from)), words(reported(to))),
    };
    let verdict = match found.and_then(|found| margin(want, found, value)) {
        None => Verdict::Unknown,
        Some(margin) => match is_enough(want, margin) {
            true => Verdict::Met,
            false => Verdict::NotMet,
        },
    };
    Measured {
        // Of a sum that is held against something unknown, the value is known all the same.
        value: found,
        range: None,
        verdict,
        wanted,
        drivers: Vec::new(),
        missing: Vec::new(),
        is_reported: false,
    }
}

/// From what to what a figure may lie, in words: `15.46 to 16.06`; none where it tells nothing at
/// so many places.
pub fn between(range: Option<(f64, f64)>, places: usize) -> Option<String> {
    let (low, high) = range?;
    let [low, high] = [low, high].map(|it| format!("{it:.places$}"));
    (low != high).then(|| format!("{low} to {high}"))
}

/// A ratio reads as a bare number, so that what is wanted and what is can be told alike.
pub fn rendered(quantity: Quantity) -> SizedText {
    match (quantity.dimension, quantity.as_length()) {
        (Dimension::LENGTH, Some(length)) => Size::Plain(length).into(),
        (Dimension::LENGTH | Dimension::MASS | Dimension::VOLUME, _) => {
            format!("{quantity:.2}").into()
        }
        // An estimate, good to a factor of two.
        (Dimension::Force, _) => format!("about {quantity:.1}").into(),
        _ => format!("{quantity:.3}").into(),
    }
}
