//! Where a measure comes to what is wanted.

use super::super::SCHEMA_VERSION;
use super::{NamedFinding, lines};
use quillet_check::measure::rendered;
use quillet_model::Design;
use quillet_room::Number;
use quillet_room::aim::Aimed;
use serde::Serialize;

/// The values of a number at which a measure comes to what is wanted.
#[derive(Serialize)]
pub struct Aims {
    schema_version: u32,
    measure: String,
    wanted: String,
    number: String,
    from: f64,
    to: f64,
    roots: Vec<Root>,
    /// From what to what the measure goes over the range; none where it is not known.
    goes: Option<[f64; 2]>,
    #[serde(skip)]
    goes_in_words: Option<String>,
}

#[derive(Serialize)]
struct Root {
    value: f64,
    findings: Vec<NamedFinding>,
}

impl Aims {
    /// Of what was found for a number between two values.
    pub fn of(
        design: &Design,
        (measure, wanted): (&str, &str),
        (number, (from, to)): (&Number, (f64, f64)),
        found: &Aimed,
    ) -> Self {
        let lines = lines(design);
        let units = design.units();
        let roots = found.roots.iter().map(|(value, values)| Root {
            value: *value,
            findings: NamedFinding::all(&values.findings, design, &lines),
        });
        Aims {
            schema_version: SCHEMA_VERSION,
            measure: measure.to_owned(),
            wanted: wanted.to_owned(),
            number: number.name.clone(),
            from,
            to,
            roots: roots.collect(),
            goes: found.goes.map(|it| [it.0.to_f64(), it.1.to_f64()]),
            goes_in_words: found.goes.map(|(least, most)| {
                let [least, most] =
                    [least, most].map(|it| rendered(it).in_units(units).to_string());
                format!("it goes from {least} to {most}")
            }),
        }
    }

    /// Whether there is any.
    pub fn is_met(&self) -> bool {
        !self.roots.is_empty()
    }

    /// A line a value; where there is none, from what to what it goes.
    pub fn text(&self) -> String {
        let Aims {
            measure,
            wanted,
            number,
            from,
            to,
            ..
        } = self;
        if !self.is_met() {
            return match &self.goes_in_words {
                Some(goes) => format!("none; over {number} {from}..{to} {goes}\n"),
                None => format!("none; {measure} is not known anywhere in {number} {from}..{to}\n"),
            };
        }
        let row = |root: &Root| {
            let found = NamedFinding::listed(&root.findings, "nothing found");
            format!(
                "{number} {:.2}: {measure} is {wanted}; {found}\n",
                root.value
            )
        };
        self.roots.iter().map(row).collect()
    }
}
