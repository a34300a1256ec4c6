//! What a part or pen comes to, told above it.

use crate::facts::{configurations, state_in_short};
use crate::sizes::Sizes;
use crate::{Analysis, Settings};
use quillet_check::measure::Verdict;
use quillet_check::{JudgedWant, PartView};
use quillet_geometry::number;
use quillet_model::{Part, SourceFile};
use quillet_syntax::Span;
use std::collections::BTreeSet;

/// A line above an item.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lens {
    /// The item's name, above which it stands.
    pub span: Span,
    /// What it says.
    pub text: String,
    /// What happens when it is followed.
    pub opens: LensTarget,
}

/// What a lens opens.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LensTarget {
    /// Nothing.
    Nothing,
    /// The picture of a part or pen, by name.
    Preview(String),
    /// The drawing of a part or pen, by name.
    Drawing(String),
    /// What is taken to the lathe for a pen, by name.
    Sheet(String),
    /// How many of a pen, by name, pass that the maker's hand makes; worked out when it is followed.
    Spread(String),
    /// What has changed in the file.
    Comparison,
}

/// The lenses of a file, in order; none where `called_off` said so in the meantime.
pub fn lenses(
    analysis: &Analysis,
    settings: &Settings,
    file: &SourceFile,
    called_off: &dyn Fn() -> bool,
) -> Option<Vec<Lens>> {
    let design = &analysis.design;
    let sizes = Sizes::of(settings, file);
    let examined = analysis.examined_until(called_off)?;
    let mut lenses = Vec::new();
    for part in design
        .parts
        .iter()
        .filter(|part| part.name.span.file == file.id)
    {
        let view = PartView::new(design, None, part);
        let name = part.name.text.to_string();
        lenses.push(Lens {
            span: part.name.span,
            text: of_part(part, &view, sizes),
            opens: LensTarget::Preview(name.clone()),
        });
        if let Some(text) = wants(once(examined.wants_of_part(&name))) {
            lenses.push(Lens {
                span: part.name.span,
                text,
                opens: LensTarget::Nothing,
            });
        }
        if !part.is_bought() && part.profiles.is_some() {
            let opens = LensTarget::Drawing(name);
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
        let mut render = |text: String, opens| {
            lenses.push(Lens {
                span: pen.name.span,
                text,
                opens,
            })
        };
        for (which, it) in configurations(pen) {
            let text = format!("{}: {}", which.word(), state_in_short(it, sizes));
            render(text, LensTarget::Preview(name.clone()));
        }
        if let Some(text) = wants(examined.wants_of_pen(&name)) {
            render(text, LensTarget::Nothing);
        }
        render("drawing".into(), LensTarget::Drawing(name.clone()));
        render("sheet".into(), LensTarget::Sheet(name.clone()));
        render("spread".into(), LensTarget::Spread(name));
    }
    lenses.sort_by_key(|lens| lens.span);
    Some(lenses)
}

/// A part's mass and least wall.
fn of_part(part: &Part, view: &PartView<'_>, sizes: Sizes) -> String {
    let mass = match part.weigh() {
        Some(mass) => format!("{} g", number(mass.mass_g, 1)),
        None => "mass not known".to_owned(),
    };
    let walls = if part.is_bought() {
        &[]
    } else {
        view.reported_walls()
    };
    let least = walls.iter().map(|wall| wall.least).min();
    let wall = least.map(|least| match least.is_positive() {
        true => format!("least wall {}", sizes.worked_out(least.to_mm(), 2)),
        false => "broken through".to_owned(),
    });
    let reported: Vec<String> = [mass].into_iter().chain(wall).collect();
    reported.join(", ")
}

/// A part's wants as the first that sees it has them: several pens may see it alike.
fn once<'a>(judged: impl Iterator<Item = &'a JudgedWant>) -> impl Iterator<Item = &'a JudgedWant> {
    let mut seen = BTreeSet::new();
    judged.filter(move |want| seen.insert(want.span))
}

/// How many wants are met, and how many there are besides; none where there is none.
fn wants<'a>(judged: impl Iterator<Item = &'a JudgedWant>) -> Option<String> {
    let verdicts: Vec<Verdict> = judged.map(|want| want.measured.verdict).collect();
    let of = |verdict: Verdict| verdicts.iter().filter(|it| **it == verdict).count();
    let met = format!("{} of {} wants met", of(Verdict::Met), verdicts.len());
    let others = [Verdict::TooClose, Verdict::Unknown].map(|it| (of(it), it.words()));
    let others = others.iter().filter(|(count, _)| *count > 0);
    let others: String = others
        .map(|(count, what)| format!(", {count} {what}"))
        .collect();
    (!verdicts.is_empty()).then(|| met + &others)
}
