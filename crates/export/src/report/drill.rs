//! A drill's size, the drills either side of it, its point.

use super::{Answer, AnswerPage, SCHEMA_VERSION};
use quillet_geometry::{Angle, Length};
use quillet_standards::Source;
use quillet_standards::drill::{
    Drill, DrillSeries, Neighbours, gauge, jobber, neighbours, point_length,
};
use quillet_standards::fit::drilled_hole;
use serde::Serialize;

/// What is asked of a drill.
pub struct DrillQuestion<'a> {
    /// Its diameter.
    pub size: Length,
    /// The same as it was asked for.
    pub written: &'a str,
    /// The included angle of its point.
    pub point: Angle,
}

/// Answers what is asked of a drill.
pub fn drill(asked: &DrillQuestion<'_>) -> Answer {
    let size = asked.size;
    let all = neighbours(size, &DrillSeries::ALL);
    let mut page = AnswerPage::new(format!("⌀ {size} ({} in)", size.inch_text(4)));
    size_rows(&mut page, asked, &all);
    let series = either_side(&mut page, size);
    let figures = DrillReport {
        schema_version: SCHEMA_VERSION,
        diameter_mm: size.to_mm(),
        diameter_in: (size.to_inches() * 1e6).round() / 1e6,
        names: all.exact.iter().map(ToString::to_string).collect(),
        point_deg: asked.point.to_deg(),
        point_mm: point_length(size, asked.point).to_mm(),
        flute_mm: jobber(size).and_then(Drill::flute).map(Length::to_mm),
        below: all.below.map(NearDrillReport::of),
        above: all.above.map(NearDrillReport::of),
        series,
        source: sources(&all.exact),
    };
    Answer::new(page, &figures)
}

/// What drill it is, and what hole it leaves.
fn size_rows(page: &mut AnswerPage, asked: &DrillQuestion<'_>, all: &Neighbours) {
    let (size, angle, written) = (asked.size, asked.point, asked.written.trim());
    let names: Vec<String> = all.exact.iter().map(ToString::to_string).collect();
    page.heading("size");
    match all.exact.first() {
        Some(drill) => page.sourced("drill", names.join(", "), drill.source()),
        None => page.row("drill", "of no series"),
    }
    // `7` is 7 mm, and may have been meant as a number drill.
    let number = written.parse::<u8>().ok();
    if let Some(gauge) = number.and_then(|number| gauge(&format!("#{number}"))) {
        page.row(
            format!("if #{} was meant", written),
            format!(
                "{gauge} ({} in); ask for \"#{}\"",
                gauge.inch_text(4),
                written
            ),
        );
    }
    let fraction = size.nearest_64th();
    page.row(
        "nearest 64th",
        format!("{fraction} ({})", fraction.length()),
    );
    page.row(
        format!("point at {angle}"),
        format!("{} beyond full diameter", point_length(size, angle)),
    );
    if let Some((drill, flute)) = jobber(size).and_then(|drill| Some((drill, drill.flute()?))) {
        page.sourced(
            "flutes, jobber",
            format!("{flute}; the hole must stay shorter, or chips jam"),
            drill.source(),
        );
    }
    if let Ok(hole) = drilled_hole(size) {
        page.sourced(
            "hole it leaves",
            format!("about {}", hole.over_size),
            hole.source,
        );
    }
}

/// The next drills of each series.
fn either_side(page: &mut AnswerPage, size: Length) -> Vec<NearInSeries> {
    page.heading("either side");
    let mut series = Vec::new();
    for one in DrillSeries::ALL {
        let near = neighbours(size, &[one]);
        for (what, drill) in [("below", near.below), ("above", near.above)] {
            if let Some(drill) = drill {
                page.sourced(
                    format!("{}, {what}", one.word()),
                    format!("{} ({} off)", shown(drill), (drill.diameter() - size).abs()),
                    drill.source(),
                );
            }
        }
        series.push(NearInSeries {
            series: one.word(),
            below: near.below.map(NearDrillReport::of),
            above: near.above.map(NearDrillReport::of),
        });
    }
    series
}

/// A drill's size, and the drills either side of it.
#[derive(Serialize)]
struct DrillReport {
    schema_version: u32,
    diameter_mm: f64,
    diameter_in: f64,
    names: Vec<String>,
    point_deg: f64,
    point_mm: f64,
    flute_mm: Option<f64>,
    below: Option<NearDrillReport>,
    above: Option<NearDrillReport>,
    series: Vec<NearInSeries>,
    source: Vec<&'static str>,
}

#[derive(Serialize)]
struct NearInSeries {
    series: &'static str,
    below: Option<NearDrillReport>,
    above: Option<NearDrillReport>,
}

#[derive(Serialize)]
struct NearDrillReport {
    name: String,
    diameter_mm: f64,
}

impl NearDrillReport {
    fn of(drill: &'static Drill) -> Self {
        Self {
            name: drill.to_string(),
            diameter_mm: drill.diameter().to_mm(),
        }
    }
}

/// Its name, and in millimetres where the name is in inches.
fn shown(drill: &Drill) -> String {
    let mm: Length = drill.diameter();
    match drill.series() {
        DrillSeries::Metric => drill.to_string(),
        _ => format!("{drill}, {mm}"),
    }
}

fn sources(drills: &[&'static Drill]) -> Vec<&'static str> {
    let mut all: Vec<&str> = drills
        .iter()
        .map(|drill| Source::text(drill.source()))
        .collect();
    all.dedup();
    all
}
