//! What is said of a name, a word or a size, wherever it is asked.

use super::{Analysis, DocumentationKey, Sheet, thread};
use crate::rules;
use crate::sheet::as_written;
use crate::sizes::Sizes;
use crate::value::value_of;
use quillet_check::PartView;
use quillet_geometry::Length;
use quillet_model::{DefinitionId, DefinitionKind, Quantity, Units};
use quillet_standards::drill::{self, Drill, DrillSeries};
use quillet_standards::fit::Fit;
use quillet_standards::material::{self, Material};
use quillet_standards::thread::ThreadForm;
use quillet_syntax::Span;
use quillet_syntax::ast::Text;
use quillet_syntax::grammar::{WORDS, Word};

/// The documentation of a choice, in Markdown.
pub(crate) fn about(analysis: &Analysis, about: &DocumentationKey) -> Option<String> {
    let mut sheet = Sheet::new(analysis.sizes());
    match about {
        DocumentationKey::Word(index) => word(&mut sheet, WORDS.get(*index)?),
        DocumentationKey::Name(name) => {
            let names = &analysis.design.names.definitions;
            let index = names.position(|it| it.owner.is_none() && *it.name == **name)?;
            definition(&mut sheet, analysis, index, true);
        }
        DocumentationKey::Thread(designation) => {
            let form: ThreadForm = designation.parse().ok()?;
            thread::sizes(&mut sheet, &form, None);
        }
        DocumentationKey::Drill(nm) => drill_size(&mut sheet, Length::from_nm(*nm)),
        DocumentationKey::Kind(kind) => material_kind(&mut sheet, kind)?,
        DocumentationKey::Fit(fit) => fit_limits(&mut sheet, fit)?,
        DocumentationKey::Rule(code) => {
            sheet.paragraph(rules::page(code)?);
        }
        DocumentationKey::Nothing => return None,
    }
    (!sheet.is_empty()).then(|| sheet.finish())
}

/// What a word of the language means, with a line that uses it.
pub(super) fn word(sheet: &mut Sheet, word: &Word) {
    sheet.paragraph(word.help).code(word.example);
}

/// What a name stands for, with its sizes where they are wanted.
#[expect(
    clippy::too_many_lines,
    reason = "an arm a kind of name: it is read as a table"
)]
pub(super) fn definition(sheet: &mut Sheet, analysis: &Analysis, index: DefinitionId, sizes: bool) {
    let design = &analysis.design;
    let definition = &design.names.definitions[index];
    let owner = definition.owner.as_ref();
    let owner = owner
        .map(|owner| format!(" of {owner}"))
        .unwrap_or_default();
    sheet.paragraph(format!(
        "**{}**, {}{owner}",
        definition.name,
        definition.kind.word()
    ));
    let of_item = |span: Span| span == definition.item;
    match definition.kind {
        DefinitionKind::Thread => {
            sheet.code(design.text(definition.item));
            let found = design.threads.iter().find(|it| of_item(it.span));
            if let Some(found) = found.filter(|_| sizes) {
                thread::sizes(sheet, &found.thread, None);
            }
        }
        DefinitionKind::Part | DefinitionKind::Bought => {
            if let Some(part) = design.parts.iter().find(|it| of_item(it.span)) {
                titled(sheet, part.title(), part.note.as_ref());
                super::part::facts(sheet, &PartView::new(design, None, part));
            }
        }
        DefinitionKind::Pen | DefinitionKind::Made => {
            if let Some(pen) = design.pens.iter().find(|it| of_item(it.span)) {
                titled(sheet, pen.title.as_ref(), pen.note.as_ref());
                super::pen::facts(sheet, pen);
            }
        }
        DefinitionKind::Material => {
            if let Some(found) = design
                .materials
                .iter()
                .find(|it| it.name == definition.name)
            {
                titled(sheet, found.title.as_ref(), None);
                sheet.row(
                    "density",
                    &format!("{} g/cm³", quillet_geometry::number(found.density_g_cm3, 3)),
                );
                kind_words(sheet, found.kind);
            }
        }
        DefinitionKind::Face => {
            let owner = definition
                .owner
                .as_deref()
                .and_then(|owner| design.part(owner));
            if let Some((part, face)) = owner.and_then(|it| Some((it, it.face(&definition.name)?)))
            {
                super::part::from_ends(sheet, part, face.at);
            }
        }
        DefinitionKind::Let => {
            sheet.code(design.text(definition.item));
            if let Some(length) = value_of(design, index).and_then(Quantity::as_length) {
                sheet.size("comes to", length).fraction(length);
            }
        }
        DefinitionKind::Blank => drop(sheet.code(design.text(definition.item))),
        DefinitionKind::Bench => {
            if let Some(bench) = design.benches.iter().find(|it| of_item(it.span)) {
                titled(sheet, bench.title.as_ref(), None);
                sheet.row("drills", &bench.drills.len().to_string());
                sheet.row("taps", &bench.taps.len().to_string());
                sheet.row("dies", &bench.dies.len().to_string());
            }
        }
    }
}

/// A title and a note, where there are any.
fn titled(sheet: &mut Sheet, title: Option<&Text>, note: Option<&Text>) {
    for text in [title, note].into_iter().flatten() {
        sheet.paragraph(as_written(&text.text));
    }
}

/// A drill: its size in every way it is called, and the next ones.
pub(super) fn drill_size(sheet: &mut Sheet, dia: Length) {
    sheet.size("diameter", dia).fraction(dia);
    let sizes = sheet.sizes();
    let exact = drill::neighbours(dia, &DrillSeries::ALL).exact;
    let near = drill::neighbours(dia, sizes.units().drills());
    for exact in exact
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
            sheet.row(what, &named(drill, sizes));
        }
    }
    if let Some(flute) = drill::jobber(dia).and_then(Drill::flute) {
        sheet.size("flutes of a jobber drill", flute);
    }
}

/// A drill by its name, with its diameter where the name does not say it.
fn named(drill: &Drill, sizes: Sizes) -> String {
    let dia = sizes.one(drill.diameter());
    match drill.series() == DrillSeries::Metric && sizes.units() == Units::Millimetres {
        true => dia,
        false => format!("{drill} ({dia})"),
    }
}

/// A built-in kind of material.
pub(super) fn material_kind(sheet: &mut Sheet, kind: &str) -> Option<()> {
    let kind = material::named(kind)?;
    let density = kind.density().typical_kg_m3 / 1000.0;
    sheet.row("density", &format!("{density:.2} g/cm³"));
    kind_words(sheet, kind);
    Some(())
}

fn kind_words(sheet: &mut Sheet, kind: &Material) {
    sheet.paragraph(format!("**{}**, {}", kind.title(), kind.family().word()));
    if !kind.note().is_empty() {
        sheet.paragraph(kind.note());
    }
    sheet.paragraph(kind.caution());
}

/// A fit's clearance at diameters that pens have.
pub(super) fn fit_limits(sheet: &mut Sheet, fit: &str) -> Option<()> {
    let fit: Fit = fit.parse().ok()?;
    let units = sheet.sizes().units();
    let dias = match units {
        Units::Millimetres => [6.0, 8.0, 10.0, 12.0, 16.0].map(Length::mm),
        Units::Inches => [0.25, 0.3125, 0.375, 0.5, 0.625].map(Length::inches),
    };
    for dia in dias {
        let limits = fit.at(dia).ok()?;
        let what = format!("clearance at ⌀ {}", units.plain(dia));
        sheet.limits(&what, limits.clearance);
    }
    Some(())
}
