//! How many pens of those that a hand makes pass, and what they come to.

mod words;

use super::super::SCHEMA_VERSION;
use super::super::rows::csv;
use super::super::table::{Cell, table};
use super::{bar, called, lines};
use quillet_check::measure::rendered;
use quillet_model::{Design, Dimension, Pen, Quantity, Size, Units};
use quillet_room::spread::{Case, Cause, Failure, Hands, MeasureSpread, Share, Spread};
use quillet_syntax::Severity;
use serde::Serialize;
use words::{of_100, size_words, way, where_it_comes};

/// What comes of each pen that a hand makes many times.
#[derive(Serialize)]
pub struct Spreads {
    schema_version: u32,
    /// Findings below this fail no pen.
    until: &'static str,
    cases: u32,
    seed: u64,
    pens: Vec<PenSpread>,
}

/// What comes of one pen.
#[derive(Serialize)]
struct PenSpread {
    pen: String,
    passing: ShareOf,
    failures: Vec<FailureOf>,
    measures: Vec<MeasureOf>,
    #[serde(skip)]
    rows: Vec<Vec<String>>,
    #[serde(skip)]
    head: Vec<String>,
}

/// A share, from 0 to 1, and between what it lies in 19 of 20 such counts.
#[derive(Serialize)]
struct ShareOf {
    count: u32,
    share: f64,
    wilson: [f64; 2],
}

#[derive(Serialize)]
struct FailureOf {
    severity: &'static str,
    rule: &'static str,
    /// Where, in the file asked for; none in another.
    line: Option<u32>,
    #[serde(flatten)]
    share: ShareOf,
    most_from: Option<From>,
    #[serde(skip)]
    called: String,
    #[serde(skip)]
    where_it_comes: Option<String>,
}

#[derive(Serialize)]
struct MeasureOf {
    measure: String,
    unit: &'static str,
    known: u32,
    least: f64,
    mean: f64,
    most: f64,
    sd: f64,
    /// How many lie in each of equal stretches from the least to the most.
    bins: Vec<u32>,
    most_from: Option<From>,
    #[serde(skip)]
    rendered: [String; 4],
}

/// The size that something goes with most.
#[derive(Serialize)]
struct From {
    size: String,
    /// The square of the rank correlation.
    share: f64,
    /// `over`, `under`, or `either`: far from what is drawn whichever way.
    way: &'static str,
}

impl Spreads {
    /// Of pens of a design, each with what came of it.
    pub fn of(design: &Design, until: Severity, pens: &[(&Pen, &Hands<'_>, Vec<Case>)]) -> Self {
        let all: Vec<(PenSpread, Spread)> = pens
            .iter()
            .map(|(pen, hands, cases)| {
                let spread = Spread::of(hands, cases);
                (PenSpread::of(design, pen, (hands, cases), &spread), spread)
            })
            .collect();
        let first = all.first().map(|it| &it.1);
        Spreads {
            schema_version: SCHEMA_VERSION,
            until: until.word(),
            cases: first.map_or(0, |it| it.passing.of),
            seed: first.map_or(0, |it| it.seed),
            pens: all.into_iter().map(|it| it.0).collect(),
        }
    }

    /// In a maker's words, pen by pen.
    pub fn text(&self) -> String {
        let pens: Vec<String> = self.pens.iter().map(|it| self.pen(it)).collect();
        pens.join("\n")
    }

    fn pen(&self, pen: &PenSpread) -> String {
        let ShareOf { share, wilson, .. } = pen.passing;
        let [low, high] = wilson.map(|it| format!("{:.1}", 100.0 * it));
        let mut text = format!(
            "{}: {} pens by this hand pass ({low} to {high}; {} made, seed {})\n",
            pen.pen,
            of_100(share, pen.passing.count == self.cases),
            self.cases,
            self.seed
        );
        for it in &pen.failures {
            let share = of_100(it.share.share, false);
            text += &match &it.where_it_comes {
                Some(place) => format!("  {share} fail by {}, {place}\n", it.called),
                None => format!("  {share} fail by {}\n", it.called),
            };
        }
        if !pen.measures.is_empty() {
            text.push('\n');
            let row = |it: &MeasureOf| {
                let [least, mean, most, sd] = &it.rendered;
                let from = it.most_from.as_ref();
                vec![
                    Cell::left(&it.measure),
                    Cell::right(least),
                    Cell::right(mean),
                    Cell::right(most),
                    Cell::right(sd),
                    Cell::left(bar::histogram(&it.bins)),
                    Cell::left(from.map_or("", |it| &it.size)),
                ]
            };
            let rows: Vec<Vec<Cell>> = pen.measures.iter().map(row).collect();
            let head = ["measure", "least", "mean", "most", "sd", "", "mostly from"];
            text += &table(2, &head, &rows);
        }
        text
    }

    /// One row a pen made: what is found, what its wants measure, and how far each size is off.
    pub fn csv(&self) -> String {
        let all = self.pens.iter().map(|pen| csv(&pen.head, pen.rows.clone()));
        all.collect::<Vec<_>>().join("\n")
    }
}

impl PenSpread {
    fn of(
        design: &Design,
        pen: &Pen,
        (hands, cases): (&Hands<'_>, &[Case]),
        spread: &Spread,
    ) -> Self {
        let (units, lines) = (design.units(), lines(design));
        let from = |cause: &Cause| From {
            size: size_words(pen, &hands.sizes()[cause.size].link, units),
            share: cause.share,
            way: way(cause.way),
        };
        let failure = |it: &Failure| {
            let cause = it.cause.as_ref();
            FailureOf {
                severity: it.severity.word(),
                rule: it.at.rule.code(),
                line: called::line(design, it.at.span, &lines),
                share: ShareOf::of(it.share),
                most_from: cause.map(from),
                called: called::rule(design, it.at.rule, it.at.span, &lines),
                where_it_comes: cause.map(|cause| {
                    let link = &hands.sizes()[cause.size].link;
                    where_it_comes(pen, link, units, cause, it)
                }),
            }
        };
        PenSpread {
            pen: pen.name.text.to_string(),
            passing: ShareOf::of(spread.passing),
            failures: spread.failures.iter().map(failure).collect(),
            measures: spread
                .measures
                .iter()
                .map(|it| MeasureOf::of(it, units, it.cause.as_ref().map(from)))
                .collect(),
            head: head(pen, hands, units),
            rows: cases
                .iter()
                .zip(hands.cases())
                .map(|(case, nth)| row(case, nth, hands))
                .collect(),
        }
    }
}

impl ShareOf {
    fn of(share: Share) -> Self {
        let (low, high) = share.wilson();
        ShareOf {
            count: share.count,
            share: share.value(),
            wilson: [low, high],
        }
    }
}

impl MeasureOf {
    fn of(it: &MeasureSpread, units: Units, most_from: Option<From>) -> Self {
        let shown = |amount: f64| {
            let quantity = Quantity::measured(amount, it.dimension);
            rendered(quantity).in_units(units).to_string()
        };
        let shown_sd = match it.dimension {
            Dimension::LENGTH if units == Units::Inches => format!("{:.5} in", it.sd / 25.4),
            of => format!("{:.4} {}", it.sd, of.unit()).trim_end().to_owned(),
        };
        MeasureOf {
            measure: it.asked.clone(),
            unit: it.dimension.unit(),
            known: it.known,
            least: it.range.0,
            mean: it.mean,
            most: it.range.1,
            sd: it.sd,
            bins: it.bins.clone(),
            most_from,
            rendered: [
                shown(it.range.0),
                shown(it.mean),
                shown(it.range.1),
                shown_sd,
            ],
        }
    }
}

fn head(pen: &Pen, hands: &Hands<'_>, units: Units) -> Vec<String> {
    let measures = hands.asked().map(|(asked, dimension)| {
        let unit = dimension.map_or("", Dimension::unit);
        format!("{asked} {unit}").trim_end().to_owned()
    });
    let sizes = hands.sizes().iter().map(|it| {
        let half = match it.link.size {
            Size::Radius { .. } | Size::Root { .. } => "half of ",
            _ => "",
        };
        format!("{half}{} mm over", size_words(pen, &it.link, units))
    });
    let first = ["pen", "found"].map(str::to_owned).into_iter();
    first.chain(measures).chain(sizes).collect()
}

fn row(case: &Case, nth: u32, hands: &Hands<'_>) -> Vec<String> {
    let found: Vec<&str> = case.found.keys().map(|it| it.rule.code()).collect();
    let measured = case.measured.iter().map(|it| {
        let rounded = it.map(|it| (it * 1e6).round() / 1e6);
        rounded.map_or_else(String::new, |it| it.to_string())
    });
    let off = hands.off_mm(nth).into_iter().map(|it| it.to_string());
    let first = [(nth + 1).to_string(), found.join("; ")].into_iter();
    first.chain(measured).chain(off).collect()
}
