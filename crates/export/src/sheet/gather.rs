//! Gathers what stands on the sheet of a pen.

use super::content::{Accepted, Content, MadeOf, PartSheet, PenPictures, WantRow};
use super::words::capital;
use super::{
    cautions, ending, first, holdings, identity, labels, lists, pockets, route_lines, start, strip,
    turning,
};
use crate::draw;
use quillet_check::measure::between;
use quillet_check::{CheckReport, JudgedWant, assumed, unstated};
use quillet_model::{Bench, Configured, Design, End, Pen, Units};
use quillet_pen::Planned;
use quillet_plan::{Plan, Route};
use quillet_syntax::{Severity, ast};

/// The widest that a picture of the pen may be, mm.
const LIVE_MM: f64 = 174.0;

/// The sheet of a pen of a design, of which the rules found what `judged` says.
#[expect(
    clippy::too_many_lines,
    reason = "one literal, a field a part of the sheet"
)]
pub fn content(design: &Design, pen: &Pen, judged: &CheckReport, units: Units) -> Content {
    let judged = &judged.of_pen(&pen.name.text);
    let Planned {
        title, plan, bench, ..
    } = Planned::of_pen(design, pen);
    let (tools, tools_note) = lists::tools(&plan, bench, units);
    let (cuts, cuts_note) = lists::cuts(&plan, bench, units);
    let settled = pen.is_settled().then_some(pen);
    let overview = settled.and_then(|pen| draw::overview(pen, 180.0, units));
    let callouts = overview.iter().flat_map(|it| &it.callouts);
    let looks = PenPictures {
        capped: settled.and_then(|it| draw::outside(it, Configured::Capped, LIVE_MM)),
        uncapped: settled.and_then(|it| draw::outside(it, Configured::Uncapped, LIVE_MM)),
        cutaway: settled.and_then(|it| {
            // In its stand a pen shows all it has.
            let whole = [Configured::Resting, Configured::Capped];
            let known = |state: &Configured| it.assembly.configuration(*state).is_some();
            let whole = whole.into_iter().find(known);
            draw::cutaway(it, whole.unwrap_or(Configured::Uncapped), LIVE_MM)
        }),
        section: settled.and_then(|it| draw::section(it, LIVE_MM, units)),
        exploded: settled.and_then(|it| draw::exploded(it, LIVE_MM + 4.0)),
    };
    let parts = plan.routes.iter();
    let doubts = pen.doubts();
    let range = |route: &Route| doubts.of_part(pen.part_id(&route.part.name.text)?);
    let (saws, mut saw_notes) = start::saws(&plan, bench, units);
    let unstated = unstated::words(bench, pen.bench.is_none(), units);
    saw_notes.extend(unstated.map(|it| format!("Assumed: {it}.")));
    let (lay_out, lacking) = start::tools(&plan, bench, units);
    let mut listed = first::listed(pen, &plan, looks.cutaway.as_ref(), units);
    listed.extend(pockets::listed(pen));
    Content {
        title: title.clone(),
        name: pen.name.text.to_string(),
        note: text(&pen.note),
        bench: bench.map(|it| it.title_or_name().to_owned()),
        made: pen.made.as_deref().map(|it| MadeOf {
            of: it.of.text.to_string(),
            on: text(&it.on),
        }),
        warning: warning(pen, judged),
        callouts: callouts
            .map(|it| match it.less.is_empty() {
                true => format!("{}  {}", it.number, it.caption),
                false => format!("{}  {}: {}", it.number, it.caption, it.less),
            })
            .collect(),
        file: identity::file(design),
        design_mark: identity::design_mark(design),
        speeds: match bench.is_some_and(|it| it.lathe.is_some()) {
            true => "rev/min".into(),
            false => "speed".into(),
        },
        figures: first::figures(pen, units),
        listed,
        saws,
        saw_notes,
        lay_out,
        lacking,
        turning: turning::turning(&plan, units),
        contacts: ending::contacts(&looks),
        order: ending::order(pen, units),
        tests: cautions::tests(pen),
        looks,
        measures: lists::measures(pen, units),
        wants: wants(design, judged, units),
        tools,
        tools_note,
        cuts,
        cuts_note,
        mandrels: lists::mandrels(&plan, units),
        parts: parts
            .map(|route| {
                let facts = facts(route, units, range(route));
                part_sheet(&plan, route, (pen, bench), (facts, units))
            })
            .collect(),
        accepted: accepted(judged),
        finishing: cautions::finishing(pen),
        cautions: cautions::cautions(pen, &plan),
    }
}

fn part_sheet(
    plan: &Plan,
    route: &Route,
    (pen, bench): (&Pen, Option<&Bench>),
    (facts, units): (Vec<String>, Units),
) -> PartSheet {
    let part = &route.part;
    let name = part.name.text.to_string();
    let pieces: Vec<String> = route
        .blank
        .pieces
        .iter()
        .map(|it| units.plain(*it))
        .collect();
    let assumed = part
        .features
        .iter()
        .filter_map(|it| assumed::text(it, units));
    let note = text(&part.note);
    PartSheet {
        title: capital(&name),
        about: match &route.turns {
            Some(_) => format!("{}: joined, then turned as one", pen.title_or_name()),
            None => format!(
                "{}: {}, sawn {}, {}",
                pen.title_or_name(),
                first::stock(part, units),
                pieces.join(" + "),
                first::mass(part)
            ),
        },
        length: units.plain(part.length),
        notes: note
            .clone()
            .into_iter()
            .chain(assumed.map(|it| format!("assumed: {it}")))
            .chain(
                route
                    .outside_in
                    .as_ref()
                    .map(|it| format!("its outside is turned when it is joined: {it}")),
            )
            .collect(),
        part: part.clone(),
        labels: labels::labels(part, units),
        holdings: holdings::holdings(plan, route, bench, units),
        strip: strip::strip(route, units),
        note,
        name,
        facts,
        route: route_lines::route(plan, route, bench, units),
        calipers: lists::calipers(route, units),
        datum: part.end_name(End::First).to_owned(),
    }
}

fn facts(route: &Route, units: Units, range: Option<(f64, f64)>) -> Vec<String> {
    let part = &route.part;
    if route.turns.is_some() {
        return vec![format!("{} long", units.short(part.length))];
    }
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
            .filter_map(|feature| assumed::text(feature, units))
            .map(|it| format!("assumed: {it}")),
    );
    facts
}

fn warning(pen: &Pen, judged: &CheckReport) -> Option<String> {
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
fn wants(design: &Design, judged: &CheckReport, units: Units) -> Vec<WantRow> {
    let render = |want: &JudgedWant| {
        let words = design.text(want.span).split_whitespace().skip(1);
        let caption = words.collect::<Vec<_>>().join(" ");
        WantRow {
            caption: match &want.part {
                Some(part) => format!("{part}: {caption}"),
                None => caption,
            },
            asks: first::asks(
                want.part.as_deref(),
                &want.asked,
                &want.measured.wanted.clone().in_units(units).to_string(),
            ),
            comes_to: want.measured.rendered().map(|it| {
                let outcome = it.in_units(units).to_string();
                let outcome = match want.asked.contains('/') && outcome.parse::<f64>().is_ok() {
                    true => first::percent(&outcome),
                    false => first::hundredths(&outcome),
                };
                first::signed(&outcome)
            }),
            found: want
                .measured
                .rendered_with_range()
                .map(|it| it.in_units(units).to_string()),
            judged: want.measured.verdict.word(),
            verdict: want.verdict(),
        }
    };
    judged.wants.iter().map(render).collect()
}

fn accepted(judged: &CheckReport) -> Vec<Accepted> {
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
