//! Every format that is written: plan, sheet, drawings, solids, the watched page; what is text in
//! them holds no number that is none.

use super::check::design;
use super::{no_nan, none_in, text_of};
use quillet_check::{CheckReport, examine};
use quillet_export::draw::{self, Paper, PartTitle};
use quillet_export::sheet;
use quillet_export::solid::{self, Body};
use quillet_export::write::{self, Background};
use quillet_export::{live, scene::Scene};
use quillet_model::{Design, Part};
use quillet_plan::{CutList, ToolList, plan_parts, plan_pen};

pub(super) fn run(bytes: &[u8]) {
    let text = &*text_of(bytes);
    // Of a text that names it, it may be told.
    if none_in(text).is_some() {
        return;
    }
    let Some(design) = design(text) else { return };
    if design.parts.is_empty() && design.pens.is_empty() {
        return;
    }
    no_nan(&live::body(&design, &[]));
    let judged = examine(&design);
    let own = design.root().map(|root| root.id);
    let parts = design
        .parts
        .iter()
        .filter(|part| Some(part.span.file) == own)
        .take(3);
    for part in parts.clone() {
        drawings(part);
        solids(part);
    }
    let parts: Vec<_> = parts.filter(|part| !part.is_bought()).cloned().collect();
    let plan = plan_parts(&parts, None);
    drop((ToolList::of(&plan, None), CutList::of(&plan, None)));
    for pen in design
        .pens
        .iter()
        .filter(|pen| Some(pen.span.file) == own)
        .take(2)
    {
        let bench = design.bench(pen.bench.as_ref()).map(AsRef::as_ref);
        let plan = plan_pen(pen, bench);
        drop((ToolList::of(&plan, bench), CutList::of(&plan, bench)));
        if let Some(scene) = draw::pen(pen, Paper::A4, &PartTitle::default()) {
            written(&scene);
        }
        sheets(&design, pen, &judged);
    }
}

fn sheets(design: &Design, pen: &quillet_model::Pen, judged: &CheckReport) {
    let content = sheet::content(design, pen, judged, design.units());
    no_nan(&sheet::html(&content, Paper::Letter));
    no_nan(&sheet::text(&content));
    // What has no value becomes null in JSON, and no list of ours holds one.
    let json = sheet::json(&content);
    assert!(serde_json::from_str::<serde_json::Value>(&json).is_ok());
    drop(sheet::pdf(&content, Paper::Letter));
}

fn drawings(part: &Part) {
    if let Some(scene) = draw::part(part, Paper::A4, &PartTitle::default()) {
        written(&scene);
    }
    if let Some(scene) = draw::preview(part, 160.0) {
        written(&scene);
    }
}

fn written(scene: &Scene) {
    no_nan(&write::svg(scene, Background::Paper));
    no_nan(&write::dxf(scene));
    drop(write::pdf("pen", std::slice::from_ref(scene)));
}

fn solids(part: &Part) {
    let Some(profiles) = &part.profiles else {
        return;
    };
    let metal = &profiles.metal;
    let Ok(body) = Body::new(part.name.text.to_string(), &metal.outer, &metal.inner) else {
        return;
    };
    let bodies = [body];
    let mut text = Vec::new();
    solid::step("pen", &bodies, &mut text).expect("it is only memory");
    no_nan(&String::from_utf8_lossy(&text));
    let mesh = solid::mesh(&bodies[0], 0.2);
    assert!(mesh.volume_mm3().is_finite());
    let named = solid::NamedMesh {
        name: part.name.text.to_string(),
        colour: None,
        mesh,
    };
    drop(solid::threemf("pen", [], [named], &mut Vec::new()));
}
