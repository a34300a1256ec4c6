//! What makes a measure what it is.

use quillet_geometry::Length;
use quillet_model::{Configured, Measure, PartId, Pen};
use quillet_syntax::{Size, SizedText, text};

/// What makes a measure what it is: the heaviest part, the longest, the threads.
pub(super) fn of(measure: &Measure, pen: &Pen) -> Vec<SizedText> {
    let assembly = &pen.assembly;
    let driver = match measure {
        Measure::Mass(configured) => {
            let there = assembly.configuration(*configured);
            let heaviest = pen
                .parts
                .ids()
                .filter(|part| there.is_some_and(|it| it.places[*part].is_some()))
                .filter_map(|part| Some((part, assembly.weights[part]?.mass_g)))
                .max_by(|a, b| a.1.total_cmp(&b.1));
            heaviest.map(|(part, mass_g)| {
                text!(
                    "{} is {} g of it",
                    pen.parts[part].name.text,
                    format!("{mass_g:.1}")
                )
            })
        }
        Measure::Length(configured) => {
            let there = assembly.configuration(*configured);
            let longest = pen
                .parts
                .ids()
                .filter(|part| there.is_some_and(|it| it.places[*part].is_some()))
                .filter(|part| !pen.parts[*part].is_bought())
                .max_by_key(|part| pen.parts[*part].length);
            longest.map(|part| {
                text!(
                    "{} is {} long",
                    pen.parts[part].name.text,
                    pen.parts[part].length
                )
            })
        }
        Measure::Balance(configured) => off_balance(pen, *configured),
        Measure::Turns(joint) => assembly.joints.get(*joint).and_then(|rest| {
            let threads = rest.engagements.first()?;
            Some(text!(
                "{} of travel over a lead of {}",
                Size::Rounded(Length::mm(threads.travel_mm), 2),
                threads.form.lead()
            ))
        }),
        _ => None,
    };
    driver.into_iter().collect()
}

/// The part that moves the balance most.
fn off_balance(pen: &Pen, configured: Configured) -> Option<SizedText> {
    let assembly = &pen.assembly;
    let there = assembly.configuration(configured)?;
    let balance_mm = there.filled?.centre_mm;
    let moment = |part: PartId| {
        let (mass, place) = (assembly.weights[part]?, there.places[part]?);
        let apart = place.of(mass.centre_mm) - balance_mm;
        Some((part, mass.mass_g, apart))
    };
    let all = pen.parts.ids().filter_map(moment);
    let most = all.max_by(|a, b| (a.1 * a.2.abs()).total_cmp(&(b.1 * b.2.abs())))?;
    let way = if most.2 > 0.0 { "behind" } else { "before" };
    Some(text!(
        "{}, {} g, balances {} {} it",
        pen.parts[most.0].name.text,
        format!("{:.1}", most.1),
        Size::Rounded(Length::mm(most.2.abs()), 1),
        way
    ))
}
