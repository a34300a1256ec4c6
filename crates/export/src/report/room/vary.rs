//! What a pen comes to, value by value.

use super::super::SCHEMA_VERSION;
use super::super::rows::csv;
use super::super::table::{Cell, table};
use super::{NamedFinding, lines, written};
use quillet_check::measure::rendered;
use quillet_model::{Design, Quantity};
use quillet_room::{Number, Values};
use quillet_syntax::LineIndex;
use serde::Serialize;

/// A case a row: the values that were given, what is found, what was measured.
#[derive(Serialize)]
pub struct Varied {
    schema_version: u32,
    numbers: Vec<String>,
    /// In mm, g, mm³, degrees or bare, as `units` says of each.
    measures: Vec<String>,
    units: Vec<Option<&'static str>>,
    cases: Vec<Case>,
}

#[derive(Serialize)]
struct Case {
    values: Vec<f64>,
    measured: Vec<Option<f64>>,
    findings: Vec<NamedFinding>,
    #[serde(skip)]
    written: Vec<String>,
    #[serde(skip)]
    rendered: Vec<String>,
}

impl Varied {
    /// Of cases of numbers of a design, each with its values in order; none where the numbers could not
    /// be moved together.
    pub fn of(
        design: &Design,
        numbers: &[&Number],
        measures: &[String],
        cases: Vec<(Vec<f64>, Values)>,
    ) -> Self {
        let lines = lines(design);
        let mut units: Vec<Option<&'static str>> = vec![None; measures.len()];
        for (_, values) in &cases {
            for (unit, found) in units.iter_mut().zip(&values.measured) {
                *unit = unit.or(found.map(|it| it.dimension.unit()));
            }
        }
        Varied {
            schema_version: SCHEMA_VERSION,
            numbers: numbers.iter().map(|it| it.name.clone()).collect(),
            measures: measures.to_vec(),
            units,
            cases: cases
                .into_iter()
                .map(|(values, found)| Case::of(design, &lines, numbers, values, &found))
                .collect(),
        }
    }

    /// A line a case.
    pub fn text(&self) -> String {
        let named = self
            .numbers
            .iter()
            .chain(&self.measures)
            .map(String::as_str);
        let head: Vec<&str> = named.chain(["found"]).collect();
        let row = |it: &Case| {
            let found = NamedFinding::listed(&it.findings, "nothing");
            let figures = it.written.iter().chain(&it.rendered).map(Cell::right);
            figures.chain([Cell::left(found)]).collect()
        };
        let rows: Vec<Vec<Cell>> = self.cases.iter().map(row).collect();
        table(0, &head, &rows)
    }

    /// A row a case, for a spreadsheet.
    pub fn csv(&self) -> String {
        let measures = self
            .measures
            .iter()
            .zip(&self.units)
            .map(|(measure, unit)| match unit {
                Some("") | None => measure.clone(),
                Some(unit) => format!("{measure} {unit}"),
            });
        let found = ["found".to_owned()];
        let head = self.numbers.iter().cloned().chain(measures).chain(found);
        let rows = self.cases.iter().map(|case| {
            let values = case.values.iter().map(|it| (it * 1e9).round() / 1e9);
            let values = values.map(|it| it.to_string());
            let measured = case
                .measured
                .iter()
                .map(|it| it.map_or_else(String::new, |it| ((it * 1e6).round() / 1e6).to_string()));
            let found: Vec<String> = case
                .findings
                .iter()
                .map(|it| format!("{} {}", it.severity, it.rule))
                .collect();
            let cells = values.chain(measured).chain([found.join("; ")]);
            cells.collect()
        });
        csv(&head.collect::<Vec<_>>(), rows)
    }
}

impl Case {
    fn of(
        design: &Design,
        lines: &LineIndex,
        numbers: &[&Number],
        values: Vec<f64>,
        found: &Values,
    ) -> Self {
        let mut findings = found.findings.clone();
        findings.sort_by_key(|it| std::cmp::Reverse(it.severity));
        let units = design.units();
        let shown = |it: &Option<Quantity>| match it {
            Some(it) => rendered(*it).in_units(units).to_string(),
            None => "not known".to_owned(),
        };
        let written = numbers
            .iter()
            .zip(&values)
            .map(|(number, value)| written(number, *value));
        Case {
            written: written.collect(),
            rendered: found.measured.iter().map(shown).collect(),
            measured: found
                .measured
                .iter()
                .map(|it| it.map(Quantity::to_f64))
                .collect(),
            findings: NamedFinding::all(&findings, design, lines),
            values,
        }
    }
}
