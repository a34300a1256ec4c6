//! Tools at hand and standard sizes.

use super::{Choice, ChoiceKind, CompletionContext, DocumentationKey};
use quillet_geometry::Length;
use quillet_model::Units;
use quillet_standards::drill::{self, Drill, DrillSeries};
use quillet_standards::thread::{self, Standing};

/// Sizes at hand for the cut that is written: reamers for a reamed hole, none for a bored one,
/// drills for all else.
pub(super) fn sizes(at: CompletionContext<'_>) -> Vec<Choice> {
    let benches = &at.cursor.analysis.design.benches;
    let units = at.cursor.file.units();
    match at.verb() {
        Some("bore") => Vec::new(),
        Some("ream" | "reamers") => {
            let owned = benches.iter().flat_map(|bench| &bench.reamers);
            owned
                .map(|dia| {
                    let detail = format!("⌀ {}, a reamer on the bench", units.short(*dia));
                    Choice::plain(
                        units.written(*dia),
                        ChoiceKind::Size,
                        detail,
                        DocumentationKey::Drill(dia.nm()),
                    )
                })
                .collect()
        }
        _ if at.cursor.text(at.expected.word).starts_with('#') => numbers(units),
        _ => drills(at),
    }
}

/// Drills on the bench, smallest first; where there is no bench, those that makers buy who count
/// as the file does, numbers and letters aside.
fn drills(at: CompletionContext<'_>) -> Vec<Choice> {
    let design = &at.cursor.analysis.design;
    let units = at.cursor.file.units();
    let mut choices: Vec<Choice> = Vec::new();
    for bench in &design.benches {
        for owned in &bench.drills {
            let name = owned.name.name();
            let label = name.unwrap_or_else(|| units.written(owned.dia));
            choices.push(drill_choice(label, owned.dia, units, "on the bench"));
        }
    }
    if choices.is_empty() {
        let (series, source) = match units {
            Units::Millimetres => (DrillSeries::Metric, "ISO 235"),
            Units::Inches => (DrillSeries::Fraction, "ASME B94.11M"),
        };
        choices.extend(of_series(series).map(|drill| {
            let dia = drill.diameter();
            drill_choice(units.written(dia), dia, units, source)
        }));
    }
    choices
}

/// Number drills.
fn numbers(units: Units) -> Vec<Choice> {
    of_series(DrillSeries::Number)
        .map(|drill| drill_choice(drill.to_string(), drill.diameter(), units, "number drill"))
        .collect()
}

fn of_series(series: DrillSeries) -> impl Iterator<Item = &'static Drill> {
    drill::all()
        .iter()
        .filter(move |drill| drill.series() == series)
}

/// Letter drills.
pub(super) fn letters(at: CompletionContext<'_>) -> Vec<Choice> {
    let units = at.cursor.file.units();
    ('A'..='Z')
        .filter_map(|letter| {
            let dia = drill::gauge(&format!("letter {letter}"))?;
            Some(drill_choice(letter.to_string(), dia, units, "letter drill"))
        })
        .collect()
}

/// Threads the bench has taps or dies for, then those usual on pens, then the standards' others.
pub(super) fn threads(at: CompletionContext<'_>) -> Vec<Choice> {
    let design = &at.cursor.analysis.design;
    let tools = design
        .benches
        .iter()
        .flat_map(|bench| bench.taps.iter().chain(&bench.dies));
    let owned = tools.map(|tool| {
        let starts = match tool.thread.thread.starts() {
            1 => String::new(),
            starts => format!(" starts {starts}"),
        };
        let label = format!("{}{starts}", tool.thread.designation.text);
        thread_choice(label, "on the bench").ranked(1)
    });
    // What is usual on pens before what only a standard lists.
    let standard = thread::known().map(|known| {
        let usual = matches!(known.standing(), Standing::Trade { .. });
        let choice = thread_choice(known.designation().to_owned(), known.source().text());
        choice.ranked(if usual { 2 } else { 3 })
    });
    owned.chain(standard).collect()
}

/// Fits that pens use, with what they are like to the hand.
pub(super) fn fits() -> Vec<Choice> {
    const FITS: [(&str, &str); 6] = [
        ("H7/g6", "slides without play"),
        ("H7/h6", "slides, just"),
        ("H8/f7", "runs freely"),
        ("H7/k6", "located, tapped home"),
        ("H7/p6", "pressed, stays"),
        ("H7/s6", "pressed hard; metal only"),
    ];
    FITS.iter()
        .map(|(fit, meaning)| {
            Choice::plain(
                *fit,
                ChoiceKind::Fit,
                *meaning,
                DocumentationKey::Fit((*fit).to_owned()),
            )
        })
        .collect()
}

fn drill_choice(label: String, dia: Length, units: Units, where_from: &str) -> Choice {
    let detail = format!("⌀ {}, {where_from}", units.short(dia));
    Choice::plain(
        label,
        ChoiceKind::Size,
        detail,
        DocumentationKey::Drill(dia.nm()),
    )
}

fn thread_choice(label: String, where_from: &str) -> Choice {
    let about = DocumentationKey::Thread(label.clone());
    Choice::plain(label, ChoiceKind::Thread, where_from, about)
}
