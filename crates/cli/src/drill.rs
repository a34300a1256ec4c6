//! `quillet drill`: a drill's size, the drills either side of it, its point.

use std::process::ExitCode;

use quillet_geometry::{Angle, Length};
use quillet_standards::Source;
use quillet_standards::drill::{
    Drill, DrillSeries, DrillSize, gauge, jobber, neighbours, point_length,
};
use quillet_standards::fit::drilled_hole;
use serde_json::{Value, json};

use crate::answer::{Answer, Page, Show, print};

/// What `quillet drill` may be asked.
#[derive(clap::Args)]
pub(crate) struct Args {
    /// The size: 11.2, 7/16in, "#7", "letter F"
    #[arg(required = true)]
    size: Vec<String>,
    /// Included angle of the point, in degrees
    #[arg(long, value_name = "DEGREES", default_value = "118")]
    point: String,
    #[command(flatten)]
    show: Show,
}

/// Answers the question on the terminal.
pub(crate) fn run(args: &Args) -> ExitCode {
    print(answer(&args.size.join(" "), &args.point), &args.show)
}

fn answer(text: &str, point: &str) -> Result<Answer, String> {
    let DrillSize(size) = text.parse().map_err(|fault| format!("{fault}"))?;
    let angle = Angle::parse_deg(point)
        .filter(|angle| *angle > Angle::ZERO && *angle <= Angle::deg(180.0))
        .ok_or_else(|| format!("--point {point}: degrees over 0 and up to 180 were expected"))?;
    let all = neighbours(size, &DrillSeries::ALL);
    let names: Vec<String> = all.exact.iter().map(ToString::to_string).collect();
    let tip = point_length(size, angle);

    let mut page = Page::new(format!("⌀ {size} ({} in)", size.inch_text(4)));
    page.heading("size");
    match all.exact.first() {
        Some(drill) => page.sourced("drill", names.join(", "), drill.source()),
        None => page.row("drill", "of no series"),
    }
    // `7` is 7 mm, and may have been meant as a number drill.
    let number = text.trim().parse::<u8>().ok();
    if let Some(gauge) = number.and_then(|number| gauge(&format!("#{number}"))) {
        page.row(
            format!("if #{} was meant", text.trim()),
            format!(
                "{gauge} ({} in); ask for \"#{}\"",
                gauge.inch_text(4),
                text.trim()
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
        format!("{tip} beyond full diameter"),
    );
    let jobber = jobber(size);
    if let Some((drill, flute)) = jobber.and_then(|drill| Some((drill, drill.flute()?))) {
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
        series.push(json!({
            "series": one.word(),
            "below": near.below.map(brief),
            "above": near.above.map(brief),
        }));
    }
    let json = json!({
        "diameter_mm": size.to_mm(),
        "diameter_in": (size.to_inches() * 1e6).round() / 1e6,
        "names": names,
        "point_deg": angle.to_deg(),
        "point_mm": tip.to_mm(),
        "flute_mm": jobber.and_then(Drill::flute).map(Length::to_mm),
        "below": all.below.map(brief),
        "above": all.above.map(brief),
        "series": series,
        "source": sources(&all.exact),
    });
    Ok(Answer { page, json })
}

fn brief(drill: &'static Drill) -> Value {
    json!({ "name": drill.to_string(), "diameter_mm": drill.diameter().to_mm() })
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drill_has_its_names_and_neighbours() {
        let found = answer("6.35", "118")
            .unwrap_or_else(|fault| panic!("{fault}"))
            .json;
        assert_eq!(found["names"], json!(["letter E", "1/4 in"]));
        assert_eq!(found["below"]["name"], "6.3 mm");
        assert_eq!(found["above"]["name"], "6.4 mm");
        let number = answer("#7", "90")
            .unwrap_or_else(|fault| panic!("{fault}"))
            .json;
        assert_eq!(number["diameter_mm"], 5.1054);
        assert_eq!(number["point_mm"], 2.5527);
    }

    #[test]
    fn an_absurd_question_says_what_was_expected() {
        assert!(answer("#99", "118").is_err_and(|fault| fault.contains("#80 to #1")));
        assert!(answer("8", "0").is_err_and(|fault| fault.contains("up to 180")));
    }
}
