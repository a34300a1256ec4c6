//! How far one number can move.

use crate::probe::NewFinding;
use crate::scan::scan;
use crate::{Number, Numbers, Probe, Setting, ladder, linked};

/// How far a number can move before something is found that was not there as drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Room {
    /// The number.
    pub number: Number,
    /// What passes.
    pub passing: Passing,
    /// The other numbers that were moved with it, since alone it has no room: those that put the same
    /// face where it is.
    pub with: Vec<String>,
    /// From where to where it was looked.
    pub looked: (f64, f64),
    /// Whether no part and no pen rests on it, so that nothing is moved.
    pub moves_nothing: bool,
    /// What is found just below.
    pub below: Option<NewFinding>,
    /// What is found just above.
    pub above: Option<NewFinding>,
}

/// The values that pass, in the number's own unit, from the least.
#[derive(Clone, Debug, PartialEq)]
pub enum Passing {
    /// Stretches, ends included.
    Stretches(Vec<(f64, f64)>),
    /// The sizes of a tool.
    Sizes(Vec<f64>),
}

impl Room {
    /// How far a number of a design can move.
    pub fn of(probe: &Probe<'_>, numbers: &Numbers, number: &Number) -> Self {
        Self::looked_for(probe, numbers, number, &|| false)
    }

    /// The same; none where `called_off` said so between two values.
    pub fn of_until(
        probe: &Probe<'_>,
        numbers: &Numbers,
        number: &Number,
        called_off: &dyn Fn() -> bool,
    ) -> Option<Self> {
        let room = Self::looked_for(probe, numbers, number, called_off);
        (!called_off()).then_some(room)
    }

    fn looked_for(
        probe: &Probe<'_>,
        numbers: &Numbers,
        number: &Number,
        called_off: &dyn Fn() -> bool,
    ) -> Self {
        // What is called off is not looked at to the end.
        let new = |settings: &[Setting<'_>]| match called_off() {
            true => None,
            false => probe.new_with(settings),
        };
        let alone = |value: f64| new(&[(number, value)]);
        if let Some(sizes) = ladder::sizes(probe.design(), number) {
            return Self::of_sizes(number, &sizes, &alone);
        }
        let own = Self::along(probe, number, &[], &alone);
        if own.has_room() {
            return own;
        }
        let linked = linked::with(probe.design(), numbers, number);
        if linked.is_empty() {
            return own;
        }
        let together = |value: f64| {
            let by = value - number.value;
            let others = linked.iter().map(|it| (*it, it.value + by));
            let all: Vec<_> = [(number, value)].into_iter().chain(others).collect();
            new(&all)
        };
        let moved = Self::along(probe, number, &linked, &together);
        if moved.has_room() { moved } else { own }
    }

    fn of_sizes(number: &Number, sizes: &[f64], new: &dyn Fn(f64) -> Option<NewFinding>) -> Self {
        let found: Vec<(f64, Option<NewFinding>)> = sizes
            .iter()
            .map(|it| (*it, new_at(number, *it, new)))
            .collect();
        let is_drawn = |it: f64| (it - number.value).abs() < 1e-6;
        let drawn = sizes.iter().position(|it| is_drawn(*it)).unwrap_or(0);
        let (lower, upper) = found.split_at(drawn);
        let below = lower.iter().rev().find_map(|it| it.1);
        let above = upper.iter().find_map(|it| it.1);
        let passing = found.iter().filter(|it| it.1.is_none()).map(|it| it.0);
        Room {
            number: number.clone(),
            passing: Passing::Sizes(passing.collect()),
            with: Vec::new(),
            looked: (sizes[0], sizes[sizes.len() - 1]),
            moves_nothing: false,
            below,
            above,
        }
    }

    fn along(
        probe: &Probe<'_>,
        number: &Number,
        with: &[&Number],
        new: &dyn Fn(f64) -> Option<NewFinding>,
    ) -> Self {
        let looked = within(probe, number);
        let found = scan(number.value, looked, &number.grain, new);
        Room {
            number: number.clone(),
            passing: Passing::Stretches(found.stretches),
            with: with.iter().map(|it| it.name.clone()).collect(),
            looked,
            moves_nothing: !probe.moves(number),
            below: found.below,
            above: found.above,
        }
    }

    /// Whether it may move by a tenth of a millimetre at least, one way or the other.
    pub fn has_room(&self) -> bool {
        let least = self.number.grain.least() / 10.0 - 1e-9;
        let value = self.number.value;
        match &self.passing {
            Passing::Sizes(sizes) => sizes.len() > 1,
            Passing::Stretches(all) => all
                .iter()
                .filter(|(from, to)| *from <= value && value <= *to)
                .any(|(from, to)| value - from >= least || to - value >= least),
        }
    }
}

fn new_at(
    number: &Number,
    value: f64,
    new: &dyn Fn(f64) -> Option<NewFinding>,
) -> Option<NewFinding> {
    if value == number.value {
        None
    } else {
        new(value)
    }
}

/// From where to where a number is looked at: half of itself either way, a millimetre at least, and
/// where it says how far along a part, to the part's end.
pub(crate) fn within(probe: &Probe<'_>, number: &Number) -> (f64, f64) {
    let value = number.value;
    let most = (value.abs() / 2.0).max(number.grain.least());
    let part = number
        .part
        .as_deref()
        .and_then(|it| probe.design().part(it));
    let along = ["to", "for", "at"].contains(&number.role.as_str());
    let end = part.filter(|_| along).map_or(f64::INFINITY, |it| {
        it.length.to_mm() / number.grain.unit_mm()
    });
    let least = if value >= 0.0 {
        (value - most).max(0.0)
    } else {
        value - most
    };
    (least, (value + most).min(end.max(value)))
}
