//! What a part or pen comes to, told above it.

use crate::facts::{configurations, round};
use crate::{Analysis, Settings, Units};
use quillet_check::PartView;
use quillet_geometry::Length;
use quillet_model::{Part, Pen, SourceFile};
use quillet_syntax::{RuleId, Span};

/// A line above an item.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lens {
    /// The item's name, above which it stands.
    pub span: Span,
    /// What it says.
    pub text: String,
    /// What happens when it is followed.
    pub opens: Opens,
}

/// What a lens opens.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Opens {
    /// Nothing.
    Nothing,
    /// The picture of a part or pen, by name.
    Preview(String),
    /// The drawing of a part or pen, by name.
    Drawing(String),
    /// What is taken to the lathe for a pen, by name.
    Sheet(String),
}

/// The lenses of a file, in order; none where `called_off` said so in the meantime.
pub fn lenses(
    analysis: &Analysis,
    settings: &Settings,
    file: &SourceFile,
    called_off: &dyn Fn() -> bool,
) -> Option<Vec<Lens>> {
    let design = &analysis.design;
    let mut lenses = Vec::new();
    for part in design
        .parts
        .iter()
        .filter(|part| part.name.span.file == file.id)
    {
        let view = PartView::new(design, None, part);
        let name = part.name.text.to_string();
        if let Some(text) = of_part(part, &view, settings.units) {
            lenses.push(Lens {
                span: part.name.span,
                text,
                opens: Opens::Preview(name.clone()),
            });
        }
        if !part.bought && part.profiles.is_some() {
            let opens = Opens::Drawing(name);
            lenses.push(Lens {
                span: part.name.span,
                text: "drawing".into(),
                opens,
            });
        }
    }
    for pen in design
        .pens
        .iter()
        .filter(|pen| pen.name.span.file == file.id)
    {
        let name = pen.name.text.to_string();
        let mut say = |text: String, opens| {
            lenses.push(Lens {
                span: pen.name.span,
                text,
                opens,
            })
        };
        for (which, it) in configurations(pen) {
            let filled = it.filled;
            let balance = round(100.0 * filled.centre_mm / it.length_mm, 1);
            let text = format!(
                "{}: {}, {} g, balance {} ({balance} %)",
                which.word(),
                size(Length::mm(it.length_mm), settings.units, 1),
                round(filled.mass_g, 1),
                size(Length::mm(filled.centre_mm), settings.units, 1),
            );
            say(text, Opens::Preview(name.clone()));
        }
        if let Some(text) = wants(analysis, pen, called_off)? {
            say(text, Opens::Nothing);
        }
        say("drawing".into(), Opens::Drawing(name.clone()));
        say("sheet".into(), Opens::Sheet(name));
    }
    lenses.sort_by_key(|lens| lens.span);
    Some(lenses)
}

/// A part's mass and least wall.
fn of_part(part: &Part, view: &PartView<'_>, units: Units) -> Option<String> {
    let mass = part
        .weigh()
        .map(|mass| format!("{} g", round(mass.mass_g, 1)));
    let walls = if part.bought { &[] } else { view.walls() };
    let least = walls.iter().map(|wall| wall.least).min();
    let wall = least.map(|least| match least.is_positive() {
        true => format!("least wall {}", size(least, units, 2)),
        false => "broken through".to_owned(),
    });
    let told: Vec<String> = mass.into_iter().chain(wall).collect();
    (!told.is_empty()).then(|| told.join(", "))
}

/// A size in the unit chosen, in few words.
fn size(size: Length, units: Units, mm_places: usize) -> String {
    match units {
        Units::Inches => format!("{} in", size.inch_text(3)),
        Units::Millimetres | Units::Both => format!("{} mm", size.mm_text(mm_places)),
    }
}

/// How many of a pen's wants are met; none where it has none.
fn wants(analysis: &Analysis, pen: &Pen, called_off: &dyn Fn() -> bool) -> Option<Option<String>> {
    let own = pen
        .wants
        .iter()
        .chain(pen.joints.iter().flat_map(|joint| &joint.wants));
    let wants: Vec<Span> = own.map(|want| want.span).collect();
    let findings = analysis.findings(called_off)?;
    let unmet = wants.iter().filter(|want| {
        let of_want =
            |it: &&quillet_syntax::Finding| it.rule == RuleId::WANT_UNMET && want.contains(it.span);
        findings
            .iter()
            .filter(of_want)
            .any(|it| it.pens.is_empty() || it.pens.iter().any(|name| **name == *pen.name.text))
    });
    let met = wants.len() - unmet.count();
    Some((!wants.is_empty()).then(|| format!("{met} of {} wants met", wants.len())))
}
