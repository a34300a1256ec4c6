//! Density, speeds, walls and cautions of the built-in kinds of material.

use super::{Answer, AnswerPage, SCHEMA_VERSION};
use quillet_geometry::Length;
use quillet_standards::material::{self, Cutting, Family, Material, Operation, Range};
use serde::Serialize;

/// All kinds by family, each with its density.
pub fn materials() -> Answer {
    let mut page = AnswerPage::new("built-in kinds of material");
    let mut kinds = Vec::new();
    for family in Family::ALL {
        let of_family = || material::all().filter(move |kind| kind.family() == family);
        if of_family().next().is_none() {
            continue;
        }
        page.heading(family.word());
        for kind in of_family() {
            let density = kind.density();
            page.sourced(kind.kind(), grams(density.typical_kg_m3), density.source);
            kinds.push(KindReport {
                kind: kind.kind(),
                family: family.word(),
                density_kg_m3: density.typical_kg_m3,
            });
        }
    }
    Answer::new(page, &kinds)
}

/// All that is known of a kind.
pub fn material(kind: &'static Material) -> Answer {
    let density = kind.density();
    let mut page = AnswerPage::new(format!(
        "{}: {}, {}",
        kind.kind(),
        kind.title(),
        kind.family().word()
    ));
    page.heading("weight");
    page.sourced(
        "density",
        format!(
            "{} ({} to {})",
            grams(density.typical_kg_m3),
            grams(density.low_kg_m3),
            grams(density.high_kg_m3)
        ),
        density.source,
    );
    if !kind.note().is_empty() {
        page.row("note", kind.note());
    }
    for (heading, operation) in [
        ("turning", Operation::Turning),
        ("drilling", Operation::Drilling),
    ] {
        if let Some(cutting) = kind.cutting(operation) {
            cutting_rows(&mut page, heading, cutting);
        }
    }
    in_a_pen(&mut page, kind);
    page.row("looks in pictures like", kind.colour().to_string());
    page.row("caution", kind.caution());
    Answer::new(page, &MaterialReport::of(kind))
}

/// What a material bears in a pen.
fn in_a_pen(page: &mut AnswerPage, kind: &Material) {
    page.heading("in a pen");
    let walls = kind.least_walls();
    page.sourced("plain wall at least", walls.plain.to_string(), walls.source);
    page.sourced("lip of a mouth", walls.lip.to_string(), walls.source);
    for (what, wall) in [
        ("thread over thread", walls.thread_over_thread),
        ("tenon's root over its bore", walls.tenon_over_bore),
    ] {
        let value = format!("{}, never under {}", wall.warn, wall.error);
        page.sourced(what, value, walls.source);
    }
    if let Some((stress, source)) = kind.bending_mpa() {
        page.sourced("bending stress up to", format!("{stress} MPa"), source);
    }
    if let Some((expansion, source)) = kind.expansion_per_million_k() {
        let per_30_k = Length::mm(expansion * 30.0 / 1e6 * 10.0);
        page.sourced(
            "expansion",
            format!("{expansion} µm/(m·K): {per_30_k} on ⌀ 10 mm over 30 K"),
            source,
        );
    }
    page.row(
        "ink attacks it",
        if kind.ink_attacks() { "yes" } else { "no" },
    );
    page.row(
        "finest pitch that holds",
        kind.finest_pitch(Length::ZERO)
            .map_or("any".to_owned(), |pitch| match kind.family() {
                Family::Wood => format!("{pitch} up to ⌀ 16 mm, more in proportion above"),
                _ => pitch.to_string(),
            }),
    );
}

fn cutting_rows(page: &mut AnswerPage, heading: &str, cutting: &'static Cutting) {
    page.heading(format!("{heading}, {}", cutting.tool()));
    if let (Some(speed), Some(turns)) = (
        cutting.speed_m_min(),
        cutting.spindle_rev_min(Length::mm(12.0)),
    ) {
        let round = |turns: f64| (turns / 10.0).round() * 10.0;
        page.sourced(
            "speed",
            format!(
                "{} m/min: {} rev/min at ⌀ 12 mm, within the lathe's and the chuck's limits",
                span(speed),
                span(Range {
                    low: round(turns.low),
                    high: round(turns.high),
                })
            ),
            cutting.source(),
        );
    }
    if let Some((speed, source)) = cutting.second() {
        let speed = format!("{} m/min", span(speed));
        page.sourced("a second source", speed, source);
    }
    if let Some(feed) = cutting.feed_mm_rev() {
        page.sourced(
            "feed",
            format!("{} mm a turn", span(feed)),
            cutting.source(),
        );
    }
    if !cutting.note().is_empty() {
        page.row("mind", cutting.note());
    }
}

/// A kind in the list of all.
#[derive(Serialize)]
struct KindReport {
    kind: &'static str,
    family: &'static str,
    density_kg_m3: f64,
}

/// A kind.
#[derive(Serialize)]
struct MaterialReport {
    schema_version: u32,
    kind: &'static str,
    title: &'static str,
    family: &'static str,
    density_kg_m3: DensityReport,
    turning: Option<CuttingReport>,
    drilling: Option<CuttingReport>,
    least_wall_mm: f64,
    bending_mpa: Option<f64>,
    expansion_um_m_k: Option<f64>,
    ink_attacks: bool,
    finest_pitch_mm: Option<f64>,
    colour: String,
}

#[derive(Serialize)]
struct DensityReport {
    low: f64,
    typical: f64,
    high: f64,
    source: &'static str,
}

#[derive(Serialize)]
struct CuttingReport {
    tool: &'static str,
    speed_m_min: Option<[f64; 2]>,
    most_rev_min: Option<f64>,
    feed_mm_rev: Option<[f64; 2]>,
    source: &'static str,
    second: Option<SecondReport>,
}

/// What another source gives for the cutting speed.
#[derive(Serialize)]
struct SecondReport {
    speed_m_min: [f64; 2],
    source: &'static str,
}

impl MaterialReport {
    fn of(kind: &'static Material) -> Self {
        let density = kind.density();
        let cutting = |operation| kind.cutting(operation).map(CuttingReport::of);
        Self {
            schema_version: SCHEMA_VERSION,
            kind: kind.kind(),
            title: kind.title(),
            family: kind.family().word(),
            density_kg_m3: DensityReport {
                low: density.low_kg_m3,
                typical: density.typical_kg_m3,
                high: density.high_kg_m3,
                source: density.source.text(),
            },
            turning: cutting(Operation::Turning),
            drilling: cutting(Operation::Drilling),
            least_wall_mm: kind.least_walls().plain.to_mm(),
            bending_mpa: kind.bending_mpa().map(|(stress, _)| stress),
            expansion_um_m_k: kind
                .expansion_per_million_k()
                .map(|(expansion, _)| expansion),
            ink_attacks: kind.ink_attacks(),
            finest_pitch_mm: kind.finest_pitch(Length::ZERO).map(Length::to_mm),
            colour: kind.colour().to_string(),
        }
    }
}

impl CuttingReport {
    fn of(cutting: &'static Cutting) -> Self {
        Self {
            tool: cutting.tool(),
            speed_m_min: cutting.speed_m_min().map(ends),
            most_rev_min: cutting.most_rev_min(),
            feed_mm_rev: cutting.feed_mm_rev().map(ends),
            source: cutting.source().text(),
            second: cutting.second().map(|(speed, source)| SecondReport {
                speed_m_min: ends(speed),
                source: source.text(),
            }),
        }
    }
}

fn ends(range: Range) -> [f64; 2] {
    [range.low, range.high]
}

fn span(range: Range) -> String {
    if range.low == range.high {
        range.low.to_string()
    } else {
        format!("{} to {}", range.low, range.high)
    }
}

/// Kilograms a cubic metre are shown as a maker weighs them.
fn grams(kg_m3: f64) -> String {
    format!("{:.2} g/cm³", kg_m3 / 1000.0)
}
