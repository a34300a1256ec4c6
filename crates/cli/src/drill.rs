//! `quillet drill`: a drill's size, the drills either side of it, its point.

use crate::answer::{Show, print};
use quillet_export::report::{self, Answer, DrillQuestion};
use quillet_geometry::Angle;
use quillet_standards::drill::DrillSize;
use std::process::ExitCode;

/// What `quillet drill` may be asked.
#[derive(clap::Args)]
pub(crate) struct DrillArgs {
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
pub(crate) fn run(args: &DrillArgs) -> ExitCode {
    print(answer(&args.size.join(" "), &args.point), &args.show)
}

fn answer(text: &str, point: &str) -> Result<Answer, String> {
    let DrillSize(size) = text.parse().map_err(|fault| format!("{fault}"))?;
    let point = Angle::parse_deg(point)
        .filter(|angle| *angle > Angle::ZERO && *angle <= Angle::deg(180.0))
        .ok_or_else(|| format!("--point {point}: degrees over 0 and up to 180 were expected"))?;
    Ok(report::drill(&DrillQuestion {
        size,
        written: text,
        point,
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

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
