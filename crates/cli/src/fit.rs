//! `quillet fit`: limits, clearance and kind of an ISO 286 fit.

use crate::answer::{Show, print};
use quillet_export::report::{self, Answer};
use std::process::ExitCode;

/// What `quillet fit` may be asked.
#[derive(clap::Args)]
pub(crate) struct FitArgs {
    /// Size and fit: "10 H7/g6"
    #[arg(required = true)]
    fit: Vec<String>,
    #[command(flatten)]
    show: Show,
}

/// Answers the question on the terminal.
pub(crate) fn run(args: &FitArgs) -> ExitCode {
    print(answer(&args.fit.join(" ")), &args.show)
}

fn answer(text: &str) -> Result<Answer, String> {
    let fault = |fault: quillet_standards::fit::FitError| fault.to_string();
    report::fit(text.parse().map_err(fault)?).map_err(fault)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn deviations_leave_the_program_as_the_standard_prints_them() {
        for row in quillet_reference::rows("iso286_limits.csv") {
            let (class, hole) = (row.text("class"), row.text("kind") == "hole");
            let size = row.text("up_to_mm");
            let asked = if hole {
                format!("{size} {class}/h6")
            } else {
                format!("{size} H7/{class}")
            };
            let found = answer(&asked)
                .unwrap_or_else(|fault| panic!("{row}: {fault}"))
                .json;
            let side = &found[if hole { "hole" } else { "shaft" }];
            assert_eq!(side["class"], class, "{row}");
            assert_eq!(
                side["lower_um"].as_f64(),
                row.optional("rule_lower_um"),
                "{row}"
            );
            assert_eq!(
                side["upper_um"].as_f64(),
                row.optional("rule_upper_um"),
                "{row}"
            );
        }
    }

    #[test]
    fn a_fit_is_told_by_its_kind() {
        for (asked, wanted) in [
            ("10 H7/g6", "clearance        5 to 29 µm"),
            ("10 H7/k6", "10 µm of interference and 14 µm of clearance"),
            ("10 H7/p6", "interference     0 to 24 µm"),
            ("10 H7/g6", "ream or bore it"),
        ] {
            let text = answer(asked)
                .unwrap_or_else(|fault| panic!("{fault}"))
                .page
                .text(true);
            assert!(text.contains(wanted), "{wanted}\n{text}");
        }
        assert!(answer("10").is_err_and(|fault| fault.contains("as in 10 H7/g6")));
    }
}
