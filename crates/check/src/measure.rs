//! What a pen put together measures, held against what is wanted of it.

use crate::walls;
use quillet_model::{Configured, Dimension, Measure, Part, Pen, Quantity, Sum, Test, Want};
use quillet_syntax::Span;
use quillet_syntax::ast::Comparison;
use std::sync::Arc;

/// A want, measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// What the measure comes to; none where a part of it is not known.
    pub value: Option<Quantity>,
    /// Whether it is as wanted; none where it is not known.
    pub met: Option<bool>,
    /// What is wanted, in words: `at most 145 mm`.
    pub wanted: String,
    /// What makes it so: `barrel is 8.45 g of it`.
    pub drivers: Vec<String>,
}

/// What the measure of each want of a pen and of its joints comes to, in words, by where the want
/// stands; those that are not known left out.
pub fn wants(pen: &Pen) -> Vec<(Span, String)> {
    let of_joints = pen.joints.iter().flat_map(|joint| &joint.wants);
    let found = pen.wants.iter().chain(of_joints).filter_map(|want| {
        let value = of_pen(pen, want).value?;
        Some((want.span, told(value)))
    });
    found.collect()
}

/// A want of a pen, or of one of its joints.
pub fn of_pen(pen: &Pen, want: &Want) -> Measured {
    measured(
        want,
        &|measure| value(measure, &pen.parts, Some(pen)),
        &|measure| drives(measure, pen),
    )
}

/// A want of a part by itself.
pub fn of_part(part: &Arc<Part>, want: &Want) -> Measured {
    let alone = std::slice::from_ref(part);
    measured(want, &|measure| value(measure, alone, None), &|_| {
        Vec::new()
    })
}

fn measured(
    want: &Want,
    value: &dyn Fn(&Measure) -> Option<Quantity>,
    drives: &dyn Fn(&Measure) -> Vec<String>,
) -> Measured {
    let known = |sum: &Sum| sum.value(value).ok().flatten();
    let found = known(&want.measure);
    // What is wanted is told in the unit of what is measured.
    let told = |sum: &Sum| {
        let wanted = known(sum);
        match found.zip(wanted) {
            Some((found, wanted)) => found.matched(wanted).ok().map(|(_, wanted)| wanted),
            None => wanted,
        }
    };
    let below = |a: Quantity, b: Quantity| a.matched(b).is_ok_and(|(a, b)| a.amount < b.amount);
    let text = |quantity: Option<Quantity>| quantity.map_or("?".to_owned(), |it| it.to_string());
    let (wanted, met) = match &want.test {
        Test::Compare(comparison, sum) => {
            let limit = told(sum);
            let met = found.zip(limit).map(|(found, limit)| match comparison {
                Comparison::Less => below(found, limit),
                Comparison::AtMost => !below(limit, found),
                Comparison::More => below(limit, found),
                Comparison::AtLeast => !below(found, limit),
            });
            let word = match comparison {
                Comparison::Less => "less than",
                Comparison::AtMost => "at most",
                Comparison::More => "more than",
                Comparison::AtLeast => "at least",
            };
            (format!("{word} {}", text(limit)), met)
        }
        Test::About(value, tolerance) => {
            let (value, tolerance) = (told(value), told(tolerance));
            let ends = value.zip(tolerance).and_then(|(value, tolerance)| {
                use quillet_syntax::ast::Operator::{Add, Subtract};
                let low = value.combine(Subtract, tolerance).ok()?;
                Some((low, value.combine(Add, tolerance).ok()?))
            });
            let met = found.zip(ends);
            let met = met.map(|(it, (low, high))| !below(it, low) && !below(high, it));
            (format!("{} ± {}", text(value), text(tolerance)), met)
        }
        Test::Within(from, to) => {
            let (from, to) = (told(from), told(to));
            let met = found.zip(from.zip(to));
            let met = met.map(|(it, (low, high))| !below(it, low) && !below(high, it));
            (format!("{} to {}", text(from), text(to)), met)
        }
    };
    let mut drivers: Vec<String> = Vec::new();
    for driver in want.measure.measures().into_iter().flat_map(drives) {
        if !drivers.contains(&driver) {
            drivers.push(driver);
        }
    }
    Measured {
        value: found,
        met,
        wanted,
        drivers,
    }
}

/// What a measure comes to.
fn value(measure: &Measure, parts: &[Arc<Part>], pen: Option<&Pen>) -> Option<Quantity> {
    let configuration = |configured: &Configured| pen?.assembly.configuration(*configured);
    // Threads that never reach each other have no turns to speak of.
    let threads = |joint: &usize| {
        let threads = pen?.assembly.joints.get(*joint)?.engagements.first();
        threads.filter(|it| it.overlap_mm > 0.0)
    };
    let amount = match measure {
        Measure::Length(configured) => configuration(configured)?.length_mm,
        Measure::Mass(configured) => configuration(configured)?.filled.mass_g,
        Measure::Balance(configured) => configuration(configured)?.filled.centre_mm,
        Measure::Turns(joint) => threads(joint)?.turns(),
        Measure::Travel(joint) => threads(joint)?.travel_mm,
        Measure::Overlap(joint) => threads(joint)?.overlap_mm,
        Measure::Wall(part) => {
            let walls = walls::walls(parts.get(*part)?);
            walls.iter().map(|wall| wall.least).min()?.to_mm()
        }
        Measure::Diameter(part, at) => {
            let profiles = parts.get(*part)?.profiles.as_ref()?;
            let (_, after) = profiles.crest.outer.radii_at(at.to_mm())?;
            2.0 * after
        }
        Measure::Clearance(one, other, configured) => {
            configuration(configured)?.apart_mm(parts, *one, *other)?
        }
        Measure::Distance(one, other) => {
            let at = |configured: Configured| {
                let configuration = configuration(&configured)?;
                let z =
                    |face: &quillet_model::PenFace| configuration.z_mm(face.part, face.at.to_mm());
                Some(z(other)? - z(one)?)
            };
            at(Configured::Uncapped)
                .or_else(|| at(Configured::Capped))
                .or_else(|| at(Configured::Posted))?
        }
        Measure::Ink => pen?.assembly.ink.as_ref()?.capacity_ml * 1000.0,
    };
    Some(Quantity::measured(amount, measure.dimension()))
}

/// What makes a measure what it is: the heaviest part, the longest, the threads.
fn drives(measure: &Measure, pen: &Pen) -> Vec<String> {
    let assembly = &pen.assembly;
    let driver = match measure {
        Measure::Mass(configured) => {
            let there = assembly.configuration(*configured);
            let heaviest = (0..pen.parts.len())
                .filter(|part| there.is_some_and(|it| it.places[*part].is_some()))
                .filter_map(|part| Some((part, assembly.weights[part]?.mass_g)))
                .max_by(|a, b| a.1.total_cmp(&b.1));
            heaviest.map(|(part, mass_g)| {
                format!("{} is {mass_g:.1} g of it", pen.parts[part].name.text)
            })
        }
        Measure::Length(configured) => {
            let there = assembly.configuration(*configured);
            let longest = (0..pen.parts.len())
                .filter(|part| there.is_some_and(|it| it.places[*part].is_some()))
                .filter(|part| !pen.parts[*part].bought)
                .max_by_key(|part| pen.parts[*part].length);
            longest.map(|part| {
                format!(
                    "{} is {} long",
                    pen.parts[part].name.text, pen.parts[part].length
                )
            })
        }
        Measure::Balance(configured) => assembly.configuration(*configured).and_then(|there| {
            let moment = |part: usize| {
                let (mass, place) = (assembly.weights[part]?, there.places[part]?);
                let apart = place.of(mass.centre_mm) - there.filled.centre_mm;
                Some((part, mass.mass_g, apart))
            };
            let all = (0..pen.parts.len()).filter_map(moment);
            let most = all.max_by(|a, b| (a.1 * a.2.abs()).total_cmp(&(b.1 * b.2.abs())))?;
            let way = if most.2 > 0.0 { "behind" } else { "before" };
            Some(format!(
                "{}, {:.1} g, balances {:.1} mm {way} it",
                pen.parts[most.0].name.text,
                most.1,
                most.2.abs()
            ))
        }),
        Measure::Turns(joint) => assembly.joints.get(*joint).and_then(|rest| {
            let threads = rest.engagements.first()?;
            Some(format!(
                "{:.2} mm of travel over a lead of {}",
                threads.travel_mm,
                threads.form.lead()
            ))
        }),
        _ => None,
    };
    driver.into_iter().collect()
}

/// A ratio reads as a bare number, so that what is wanted and what is can be told alike.
pub fn told(quantity: Quantity) -> String {
    match quantity.dimension {
        Dimension::LENGTH | Dimension::MASS | Dimension::VOLUME => format!("{quantity:.2}"),
        _ => format!("{quantity:.3}"),
    }
}
