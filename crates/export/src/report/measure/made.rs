//! What was made of a pen beside what is drawn.

use crate::report::sized::SizedWords;
use crate::report::table::{Cell, table};
use quillet_check::measure::{figure, rendered};
use quillet_check::{ComparedSize, compared};
use quillet_geometry::Length;
use quillet_model::{Design, Pen, Units};
use quillet_syntax::ast::Operator;
use serde::Serialize;

/// What was made: size by size, then what was measured of the whole.
#[derive(Serialize)]
pub(super) struct MadeMeasures {
    /// The pen it is one of.
    of: String,
    /// The day, as it is written.
    on: Option<String>,
    sizes: Vec<MadeSizeMeasures>,
    figures: Vec<MadeFigure>,
}

/// A size that was measured.
#[derive(Serialize)]
struct MadeSizeMeasures {
    part: String,
    /// What it is a size of.
    what: SizedWords,
    /// `diameter`, `depth`, `shoulder`, …
    kind: &'static str,
    #[serde(skip)]
    is_dia: bool,
    drawn_mm: f64,
    made_mm: f64,
    difference_mm: f64,
    asked_mm: [f64; 2],
    /// What it was asked to suit in place of what is drawn: `cap's ⌀10.06`.
    suits: Option<SizedWords>,
    within: bool,
}

/// A figure of the whole pen.
#[derive(Serialize)]
struct MadeFigure {
    /// What was measured, as it is written.
    what: String,
    drawn: Option<SizedWords>,
    /// As it is reckoned with what was measured of the parts.
    reckoned: Option<SizedWords>,
    measured: SizedWords,
    difference: Option<SizedWords>,
}

impl MadeMeasures {
    /// Of a pen that is one that was made.
    pub(super) fn of(design: &Design, pen: &Pen) -> Option<Self> {
        let made = pen.made.as_deref()?;
        let drawn = design.pen(&made.of.text)?;
        let sizes = compared(design, pen);
        let figures = made.measured.iter().map(|it| {
            let was = figure(drawn, &it.measure);
            let words = |value| SizedWords::from(rendered(value));
            MadeFigure {
                what: design.text(it.measure.span).to_owned(),
                drawn: was.map(words),
                reckoned: figure(pen, &it.measure).map(words),
                measured: words(it.value),
                difference: was
                    .and_then(|was| it.value.combine(Operator::Subtract, was).ok())
                    .map(words),
            }
        });
        Some(Self {
            of: made.of.text.to_string(),
            on: made.on.as_ref().map(|it| it.text.to_string()),
            sizes: sizes
                .iter()
                .map(|it| MadeSizeMeasures::of(pen, it))
                .collect(),
            figures: figures.collect(),
        })
    }

    /// For people: drawn, made, difference.
    pub(super) fn text(&self, units: Units) -> String {
        let on = self.on.as_ref().map(|it| format!(", {it}"));
        let head = format!("  made of {}{}\n", self.of, on.unwrap_or_default());
        let rows: Vec<Vec<Cell>> = self.sizes.iter().map(|it| it.row(units)).collect();
        let sizes = match rows.is_empty() {
            true => String::new(),
            false => {
                let head = ["made", "of", "drawn", "made", "difference", "asked", ""];
                table(2, &head, &rows)
            }
        };
        let rows: Vec<Vec<Cell>> = self.figures.iter().map(|it| it.row(units)).collect();
        let figures = match rows.is_empty() {
            true => String::new(),
            false => {
                let head = ["measured", "drawn", "as made", "measured", "difference"];
                table(2, &head, &rows)
            }
        };
        let tables = [head, sizes, figures].into_iter();
        let tables: Vec<String> = tables.filter(|it| !it.is_empty()).collect();
        tables.join("\n")
    }
}

impl MadeSizeMeasures {
    fn of(pen: &Pen, it: &ComparedSize) -> Self {
        let part = pen.parts.get(it.part);
        Self {
            part: part.map_or(String::new(), |part| part.name.text.to_string()),
            what: it.of.clone().into(),
            kind: it.how.name(),
            is_dia: it.how.is_dia(),
            drawn_mm: it.drawn.to_mm(),
            made_mm: it.measured.to_mm(),
            difference_mm: (it.measured - it.drawn).to_mm(),
            asked_mm: [it.asked.min().to_mm(), it.asked.max().to_mm()],
            suits: it.suits().map(SizedWords::from),
            within: it.is_within(),
        }
    }

    fn row(&self, units: Units) -> Vec<Cell> {
        let size = |mm: f64| match self.is_dia {
            true => units.dia(Length::mm(mm)),
            false => units.length(Length::mm(mm)),
        };
        let [least, most] = self.asked_mm;
        let difference = match self.difference_mm == 0.0 {
            true => String::new(),
            false => {
                let sign = if self.difference_mm > 0.0 { "+" } else { "-" };
                format!(
                    "{sign}{}",
                    units.number(Length::mm(self.difference_mm.abs()))
                )
            }
        };
        vec![
            Cell::left(&self.part),
            Cell::left(self.what.in_units(units)),
            Cell::right(size(self.drawn_mm)),
            Cell::right(size(self.made_mm)),
            Cell::right(difference),
            Cell::left(format!("{} to {}", size(least), size(most))),
            Cell::left(match (&self.suits, self.within) {
                (Some(hole), true) => format!("to suit {}", hole.in_units(units)),
                (Some(hole), false) => format!("off what suits {}", hole.in_units(units)),
                (None, true) => String::new(),
                (None, false) => "off the drawing".to_owned(),
            }),
        ]
    }
}

impl MadeFigure {
    fn row(&self, units: Units) -> Vec<Cell> {
        let words = |it: &Option<SizedWords>| {
            Cell::right(
                it.as_ref()
                    .map_or(super::text::figures::UNKNOWN.to_owned(), |it| {
                        it.in_units(units)
                    }),
            )
        };
        vec![
            Cell::left(&self.what),
            words(&self.drawn),
            words(&self.reckoned),
            Cell::right(self.measured.in_units(units)),
            words(&self.difference),
        ]
    }
}
