//! What is said of a name, a word or a size, wherever it is asked.

use super::{About, Analysis, Sheet, Snapshot, thread};
use crate::rules;
use crate::sheet::fraction;
use quillet_geometry::Length;
use quillet_model::NameKind;
use quillet_standards::drill::{self, Drill, DrillSeries};
use quillet_standards::fit::Fit;
use quillet_standards::material;
use quillet_standards::thread::ThreadForm;
use quillet_syntax::words::{WORDS, Word};

/// The documentation of a choice, in Markdown.
pub(crate) fn about(snapshot: &Snapshot, analysis: &Analysis, about: &About) -> Option<String> {
    let mut sheet = Sheet::new(snapshot.settings().units);
    match about {
        About::Word(index) => word(&mut sheet, WORDS.get(*index)?),
        About::Name(name) => {
            let names = &analysis.design.names.definitions;
            let index = names
                .iter()
                .position(|it| it.owner.is_none() && *it.name == **name)?;
            definition(&mut sheet, analysis, index);
        }
        About::Thread(designation) => {
            let form: ThreadForm = designation.parse().ok()?;
            thread::sizes(&mut sheet, &form, None);
        }
        About::Drill(nm) => drill_size(&mut sheet, Length::from_nm(*nm)),
        About::Kind(kind) => material_kind(&mut sheet, kind)?,
        About::Fit(fit) => fit_limits(&mut sheet, fit)?,
        About::Rule(code) => {
            sheet.say(rules::page(code)?);
        }
        About::Nothing => return None,
    }
    (!sheet.is_empty()).then(|| sheet.finish())
}

/// What a word of the language means, with a line that uses it.
pub(super) fn word(sheet: &mut Sheet, word: &Word) {
    sheet.say(word.help).code(word.example);
}

/// What a name stands for.
pub(super) fn definition(sheet: &mut Sheet, analysis: &Analysis, index: usize) {
    let names = &analysis.design.names;
    let definition = &names.definitions[index];
    let owner = definition.owner.as_ref();
    let owner = owner
        .map(|owner| format!(" of {owner}"))
        .unwrap_or_default();
    sheet.say(format!(
        "**{}**, {}{owner}",
        definition.name,
        definition.kind.word()
    ));
    if definition.kind == NameKind::Thread
        && let Some(found) = thread_of(analysis, &definition.name)
    {
        sheet.code(analysis.design.text(definition.item));
        thread::sizes(sheet, found, None);
    }
}

fn thread_of<'a>(analysis: &'a Analysis, name: &str) -> Option<&'a ThreadForm> {
    let mut threads = analysis.design.threads.iter();
    let named = |name_of: &quillet_syntax::ast::Name| *name_of.text == *name;
    let found = threads.find(|thread| thread.name.as_ref().is_some_and(named))?;
    Some(&found.thread)
}

/// A drill: its size in every way it is called, and the next ones.
pub(super) fn drill_size(sheet: &mut Sheet, dia: Length) {
    sheet
        .size("diameter", dia)
        .row("nearest fraction", &fraction(dia));
    let near = drill::neighbours(dia, &DrillSeries::ALL);
    for exact in near
        .exact
        .iter()
        .filter(|drill| drill.series() != DrillSeries::Metric)
    {
        sheet.row("also called", &exact.to_string());
    }
    for (what, drill) in [
        ("next drill down", near.below),
        ("next drill up", near.above),
    ] {
        if let Some(drill) = drill {
            sheet.row(what, &format!("{drill} ({})", drill.diameter()));
        }
    }
    if let Some(flute) = drill::jobber(dia).and_then(Drill::flute) {
        sheet.size("flutes of a jobber drill", flute);
    }
}

/// A built-in kind of material.
pub(super) fn material_kind(sheet: &mut Sheet, kind: &str) -> Option<()> {
    let kind = material::named(kind)?;
    let density = kind.density();
    sheet.say(format!("**{}**, {}", kind.title(), kind.family().word()));
    sheet.row(
        "density",
        &format!("{:.2} g/cm³", density.typical_kg_m3 / 1000.0),
    );
    if !kind.note().is_empty() {
        sheet.say(kind.note());
    }
    sheet.say(kind.caution());
    Some(())
}

/// A fit's clearance at diameters that pens have.
fn fit_limits(sheet: &mut Sheet, fit: &str) -> Option<()> {
    let fit: Fit = fit.parse().ok()?;
    for mm in [6.0, 8.0, 10.0, 12.0, 16.0] {
        let limits = fit.at(Length::mm(mm)).ok()?;
        sheet.limits(&format!("clearance at ⌀ {mm}"), limits.clearance);
    }
    Some(())
}
