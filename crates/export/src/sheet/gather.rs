//! Gathers what stands on the sheet of a pen.

use super::cautions::{CAUTIONS, FINISHING};
use super::content::{Accepted, Content, PartSheet, Want};
use super::{lists, words};
use crate::draw::{self, Paper, PartTitle};
use quillet_check::measure::between;
use quillet_check::{Examined, JudgedWant, assumed};
use quillet_model::{Design, End, Hand, Part, Pen, Units};
use quillet_pen::Planned;
use quillet_plan::{Plan, Route};
use quillet_syntax::{Severity, ast};
use std::sync::Arc;

/// The sheet of a pen of a design, of which the rules found what `judged` says.
pub fn content(
    design: &Design,
    pen: &Pen,
    judged: &Examined,
    (paper, units): (Paper, Units),
) -> Content {
    let judged = &judged.of_pen(&pen.name.text);
    let Planned { title, plan, bench } = Planned::of_pen(design, pen);
    let (tools, tools_note) = lists::tools(&plan, bench, units);
    let (cuts, cuts_note) = lists::cuts(&plan, bench, units);
    let settled = pen.is_settled().then_some(pen);
    let overview = settled.and_then(|pen| draw::overview(pen, paper.sides_mm().0 - 30.0, units));
    let callouts = overview.iter().flat_map(|it| &it.callouts);
    let sheets = plan.routes.len() + 1;
    let owner = bench
        .map(|it| it.title_or_name().to_owned())
        .unwrap_or_default();
    let titled = |sheet: usize| PartTitle {
        owner: owner.clone(),
        pen: title.clone(),
        sheet: (sheet, sheets),
        hand: Hand::at(bench),
        units,
        notes: Vec::new(),
    };
    let parts = plan.routes.iter().enumerate();
    let doubts = pen.doubts();
    let range = |route: &Route| {
        let own = |part: &Arc<Part>| Arc::ptr_eq(part, &route.part);
        doubts.of_part(pen.parts.position(own)?)
    };
    Content {
        title: title.clone(),
        name: pen.name.text.to_string(),
        note: text(&pen.note),
        bench: bench.map(|it| it.title_or_name().to_owned()),
        warning: warning(pen, judged),
        callouts: callouts
            .map(|it| match it.less.is_empty() {
                true => format!("{}  {}", it.number, it.says),
                false => format!("{}  {}: {}", it.number, it.says, it.less),
            })
            .collect(),
        drawing: draw::pen(pen, paper, &titled(1)),
        overview: overview.map(|it| it.scene),
        measures: lists::measures(pen, units),
        wants: wants(design, judged, units),
        tools,
        tools_note,
        cuts,
        cuts_note,
        mandrels: lists::mandrels(&plan, units),
        parts: parts
            .map(|(at, route)| {
                let facts = facts(route, units, range(route));
                part_sheet(&plan, route, paper, &titled(at + 2), (facts, units))
            })
            .collect(),
        accepted: accepted(judged),
        finishing: FINISHING.map(str::to_owned).to_vec(),
        cautions: CAUTIONS.map(str::to_owned).to_vec(),
    }
}

fn part_sheet(
    plan: &Plan,
    route: &Route,
    paper: Paper,
    title: &PartTitle,
    (facts, units): (Vec<String>, Units),
) -> PartSheet {
    let part = &route.part;
    PartSheet {
        name: part.name.text.to_string(),
        note: text(&part.note),
        facts,
        drawing: draw::part(part, paper, title),
        template: draw::template(part),
        route: words::route(plan, route, units),
        calipers: lists::calipers(route, units),
        datum: part.end_name(End::First).to_owned(),
    }
}

fn facts(route: &Route, units: Units, range: Option<(f64, f64)>) -> Vec<String> {
    let part = &route.part;
    let mut facts: Vec<String> = part
        .blanks()
        .iter()
        .map(|piece| {
            let material = &piece.stock.material;
            let name = material.title_or_name();
            format!("{name}, stock {}", units.short(piece.stock.size))
        })
        .collect();
    facts.push(format!(
        "{} long, blank {}",
        units.short(part.length),
        units.short(route.blank.length())
    ));
    facts.push(match (part.weigh(), part.lacks_mass()) {
        (Some(mass), _) => match between(range, 1) {
            Some(range) => format!("{:.1} g ({range} g)", mass.mass_g),
            None => format!("{:.1} g", mass.mass_g),
        },
        (None, Some(lacks)) => format!("mass not known: it {}", lacks.words()),
        (None, None) => "mass not known".to_owned(),
    });
    facts.extend(
        part.features
            .iter()
            .filter_map(|feature| assumed::says(feature, units))
            .map(|it| format!("assumed: {it}")),
    );
    facts
}

fn warning(pen: &Pen, judged: &Examined) -> Option<String> {
    let errors = judged.errors();
    let first = judged
        .findings
        .iter()
        .find(|it| it.severity == Severity::Error)?;
    let count = quillet_model::words::errors(errors);
    let left_out = pen.parts.iter().filter_map(|part| {
        let lacks = part.lacks_making()?.words();
        Some(format!(". {} {lacks} and is left out", part.name.text))
    });
    Some(format!(
        "This design has {count} and cannot be made as it stands. First: {}{}",
        first.message,
        left_out.collect::<String>()
    ))
}

/// The wants of a pen, of its joints and of its parts, as they were judged.
fn wants(design: &Design, judged: &Examined, units: Units) -> Vec<Want> {
    let say = |want: &JudgedWant| {
        let words = design.text(want.span).split_whitespace().skip(1);
        let says = words.collect::<Vec<_>>().join(" ");
        Want {
            says: match &want.part {
                Some(part) => format!("{part}: {says}"),
                None => says,
            },
            found: want
                .measured
                .told_with_range()
                .map(|it| it.in_units(units).to_string()),
            judged: want.measured.verdict.word(),
            verdict: want.verdict(),
        }
    };
    judged.wants.iter().map(say).collect()
}

fn accepted(judged: &Examined) -> Vec<Accepted> {
    let each = judged.accepted.iter().map(|it| Accepted {
        rule: it.finding.rule.to_string(),
        message: it.finding.message.to_string(),
        because: it.because.text.to_string(),
    });
    each.collect()
}

fn text(note: &Option<ast::Text>) -> Option<String> {
    note.as_ref().map(|note| note.text.to_string())
}
