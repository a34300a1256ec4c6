//! `quillet material`: density, speeds, walls and cautions of a built-in kind.

use std::process::ExitCode;

use quillet_geometry::Length;
use quillet_standards::material::{self, Cutting, Family, Material, Operation, Range};
use serde_json::{Value, json};

use crate::answer::{Answer, Page, Show, print};

/// What `quillet material` may be asked.
#[derive(clap::Args)]
pub(crate) struct Args {
    /// The kind: acrylic, ebonite, black-walnut, brass; without it, all kinds are listed
    name: Vec<String>,
    #[command(flatten)]
    show: Show,
}

/// Answers the question on the terminal.
pub(crate) fn run(args: &Args) -> ExitCode {
    let answer = if args.name.is_empty() {
        Ok(kinds())
    } else {
        named(&args.name.join(" ")).map(answer)
    };
    print(answer, &args.show)
}

/// The family of a kind.
pub(crate) fn family(name: &str) -> Result<Family, String> {
    named(name).map(Material::family)
}

fn named(name: &str) -> Result<&'static Material, String> {
    let plain = name.trim().to_lowercase().replace([' ', '_'], "-");
    material::named(&plain).ok_or_else(|| {
        let near: Vec<&str> = material::all()
            .map(Material::kind)
            .filter(|kind| {
                kind.split('-')
                    .any(|word| plain.split('-').any(|asked| word == asked))
            })
            .collect();
        if near.is_empty() {
            format!("`{name}` is no built-in material; `quillet material` lists them")
        } else {
            format!(
                "`{name}` is no built-in material; there is {}",
                near.join(", ")
            )
        }
    })
}

fn kinds() -> Answer {
    let mut page = Page::new("built-in kinds of material");
    let mut json = Vec::new();
    for family in Family::ALL {
        let of_family = || material::all().filter(move |kind| kind.family() == family);
        if of_family().next().is_none() {
            continue;
        }
        page.heading(family.word());
        for kind in of_family() {
            let density = kind.density();
            page.sourced(kind.kind(), grams(density.typical_kg_m3), density.source);
            json.push(json!({
                "kind": kind.kind(),
                "family": family.word(),
                "density_kg_m3": density.typical_kg_m3,
            }));
        }
    }
    Answer {
        page,
        json: Value::Array(json),
    }
}

fn answer(kind: &'static Material) -> Answer {
    let density = kind.density();
    let mut page = Page::new(format!(
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
    page.row("caution", kind.caution());
    Answer {
        page,
        json: json(kind),
    }
}

fn cutting_rows(page: &mut Page, heading: &str, cutting: &'static Cutting) {
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

fn json(kind: &'static Material) -> Value {
    let density = kind.density();
    let walls = kind.least_walls();
    let cutting = |operation| {
        kind.cutting(operation).map(|cutting| {
            json!({
                "tool": cutting.tool(),
                "speed_m_min": cutting.speed_m_min().map(ends),
                "most_rev_min": cutting.most_rev_min(),
                "feed_mm_rev": cutting.feed_mm_rev().map(ends),
                "source": cutting.source().text(),
            })
        })
    };
    json!({
        "kind": kind.kind(),
        "title": kind.title(),
        "family": kind.family().word(),
        "density_kg_m3": {
            "low": density.low_kg_m3,
            "typical": density.typical_kg_m3,
            "high": density.high_kg_m3,
            "source": density.source.text(),
        },
        "turning": cutting(Operation::Turning),
        "drilling": cutting(Operation::Drilling),
        "least_wall_mm": walls.plain.to_mm(),
        "bending_mpa": kind.bending_mpa().map(|(stress, _)| stress),
        "expansion_um_m_k": kind.expansion_per_million_k().map(|(expansion, _)| expansion),
        "ink_attacks": kind.ink_attacks(),
        "finest_pitch_mm": kind.finest_pitch(Length::ZERO).map(Length::to_mm),
    })
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_kind_is_found_by_name_alias_and_words() {
        for (asked, kind) in [
            ("acrylic", "acrylic"),
            ("Black Walnut", "black-walnut"),
            ("aluminum", "aluminium"),
        ] {
            assert_eq!(named(asked).map(Material::kind), Ok(kind));
        }
        let fault = named("red walnut").map(Material::kind).unwrap_err();
        assert!(
            fault.contains("there is black-walnut, red-maple"),
            "{fault}"
        );
        assert!(named("marzipan").is_err_and(|fault| fault.contains("lists them")));
    }

    #[test]
    fn a_kind_is_told_with_units_and_sources() {
        let found = answer(named("acrylic").unwrap_or_else(|fault| panic!("{fault}")));
        let text = found.page.text(true);
        for wanted in ["1.19 g/cm³", "15 to 45 m/min", "never under 0.5 mm", "[1] "] {
            assert!(text.contains(wanted), "{wanted}\n{text}");
        }
        assert_eq!(found.json["density_kg_m3"]["typical"], 1190.0);
        assert!(
            kinds()
                .json
                .as_array()
                .is_some_and(|all| all.len() == material::all().count())
        );
    }
}
