//! The sheet as a PDF at true scale.

use super::content::{Content, Line, PartSheet, Table, Want};
use super::flow::{BODY, Flow, HEADING, SUBHEADING};
use crate::draw::Paper;
use crate::scene::Scene;
use crate::write;

/// Writes a sheet as a PDF: words and lists on upright pages, each drawing on a page of its own.
pub fn pdf(content: &Content, paper: Paper) -> Vec<u8> {
    write::pdf(&content.title, &pages(content, paper))
}

/// The pages of a sheet.
pub fn pages(c: &Content, paper: Paper) -> Vec<Scene> {
    let mut flow = Flow::new(&c.title, paper, c.warning.as_deref());
    flow.words(HEADING, &c.title);
    if let Some(warning) = &c.warning {
        flow.words(BODY.bold(), warning);
    }
    let bench = c.bench.iter().map(|bench| format!("Made at the {bench}. "));
    let about: String = bench.chain(c.note.clone()).collect();
    flow.words(BODY, &about);
    if let Some(overview) = &c.overview {
        flow.picture(overview);
    }
    table(&mut flow, &c.measures);
    section(&mut flow, "Contacts and clearances", &c.callouts);
    let wants: Vec<String> = c.wants.iter().map(Want::line).collect();
    section(&mut flow, "What is wanted", &wants);
    flow.words(HEADING, "Tools");
    flow.words(BODY, &c.tools_note);
    table(&mut flow, &c.tools);
    flow.words(HEADING, "Blanks");
    table(&mut flow, &c.cuts);
    flow.words(BODY, &c.cuts_note);
    if !c.mandrels.rows.is_empty() {
        flow.words(HEADING, "Mandrels and plugs");
        table(&mut flow, &c.mandrels);
    }
    flow.words(HEADING, "Cautions");
    for it in &c.cautions {
        flow.words(BODY, it);
        flow.space(1.0);
    }
    if let Some(drawing) = &c.drawing {
        flow.page(drawing);
    }
    for it in &c.parts {
        part(&mut flow, it);
    }
    flow.break_page();
    if !c.accepted.is_empty() {
        flow.words(HEADING, "Accepted by the maker");
        let head = ["rule", "found", "because"].map(str::to_owned);
        let rows = c
            .accepted
            .iter()
            .map(|it| vec![it.rule.clone(), it.message.clone(), it.because.clone()]);
        flow.table(&head, &rows.collect::<Vec<_>>());
    }
    flow.words(HEADING, "At the end");
    for it in &c.finishing {
        flow.tick();
        flow.words(BODY.indented(5.0), it);
    }
    flow.finish()
}

fn part(flow: &mut Flow, part: &PartSheet) {
    flow.break_page();
    flow.words(HEADING, &part.name);
    flow.words(BODY, &part.facts.join(", "));
    if let Some(note) = &part.note {
        flow.words(BODY, note);
    }
    flow.words(SUBHEADING, "Route");
    for it in &part.route {
        line(flow, it);
    }
    flow.words(SUBHEADING, &format!("Calipers, from the {}", part.datum));
    table(flow, &part.calipers);
    if let Some(template) = &part.template {
        flow.ensure(template.height_mm + 20.0);
        flow.words(SUBHEADING, "Profile template, full size");
        flow.picture(template);
    }
    if let Some(drawing) = &part.drawing {
        flow.page(drawing);
    }
}

fn line(flow: &mut Flow, line: &Line) {
    if let Some(hold) = &line.hold {
        flow.ensure(14.0);
        flow.words(BODY.indented(5.0), &format!("– {hold}"));
    }
    flow.tick();
    let number = format!("{}  {}", line.number, line.what);
    flow.words(BODY.bold().indented(5.0), &number);
    let inner = BODY.indented(10.0);
    if !line.how.is_empty() {
        flow.words(inner, &line.how.join("; "));
    }
    for note in &line.notes {
        flow.words(inner, &format!("! {note}"));
    }
    for check in &line.checks {
        flow.words(inner, &format!("{}: {}", check.what, check.limits));
        flow.as_made();
    }
    if line.gate {
        flow.words(inner, "stop here until it is right");
        flow.as_made();
    }
    flow.space(1.0);
}

fn section(flow: &mut Flow, title: &str, lines: &[String]) {
    if !lines.is_empty() {
        flow.words(SUBHEADING, title);
        lines.iter().for_each(|line| flow.words(BODY, line));
    }
}

fn table(flow: &mut Flow, table: &Table) {
    flow.table(&table.head, &table.rows);
}
