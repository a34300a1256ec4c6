//! `quillet thread`: sizes, limits, tap drill, tenon and wires of a thread.

use crate::answer::{Show, print};
use quillet_export::report::{Answer, ThreadQuestion, thread};
use quillet_standards::drill::DrillSize;
use quillet_standards::thread::{ThreadClass, ThreadForm};
use std::process::ExitCode;

/// What `quillet thread` may be asked.
#[derive(clap::Args)]
pub(crate) struct ThreadArgs {
    /// The thread: M13x0.8, M13xPh2.4P0.8, M10, 7/16-28UNEF, "#10-32UNF"
    designation: String,
    /// Starts, where the designation does not give them
    #[arg(long, value_name = "N")]
    starts: Option<u32>,
    /// Tolerance class of one side, or of both: 6g, 6H, 6H/6g, 2A
    #[arg(long, value_name = "CLASS")]
    class: Vec<String>,
    /// The hole that is meant to be tapped: 12.1, "#7", 7/16in
    #[arg(long, value_name = "DIAMETER")]
    drill: Option<String>,
    /// The measuring wire at hand: 0.455
    #[arg(long, value_name = "DIAMETER")]
    wire: Option<String>,
    /// The material, to judge drills by: acrylic, brass, black-walnut
    #[arg(long, value_name = "NAME")]
    material: Option<String>,
    #[command(flatten)]
    show: Show,
}

/// Answers the question on the terminal.
pub(crate) fn run(args: &ThreadArgs) -> ExitCode {
    print(answer(args), &args.show)
}

fn answer(args: &ThreadArgs) -> Result<Answer, String> {
    thread(read(args)?).map_err(|fault| fault.to_string())
}

fn read(args: &ThreadArgs) -> Result<ThreadQuestion, String> {
    let mut form: ThreadForm = args
        .designation
        .parse()
        .map_err(|fault| format!("`{}` cannot be read: {fault}", args.designation))?;
    if let Some(starts) = args.starts {
        if !(1..=ThreadForm::MOST_STARTS).contains(&starts) {
            let most = ThreadForm::MOST_STARTS;
            return Err(format!("--starts {starts}: from 1 to {most} was expected"));
        }
        if form.starts() > 1 && form.starts() != starts {
            return Err(format!(
                "--starts {starts}: {form} already has {} starts",
                form.starts()
            ));
        }
        form = form.with_starts(starts);
    }
    for class in args
        .class
        .iter()
        .flat_map(|classes| classes.split(['/', ',']))
    {
        let class: ThreadClass = class.parse().map_err(|fault| format!("--class: {fault}"))?;
        form = form.with_class(class);
    }
    let diameter = |flag: &str, text: &Option<String>| match text {
        None => Ok(None),
        Some(text) => match text.parse() {
            Ok(DrillSize(size)) => Ok(Some(size)),
            Err(fault) => Err(format!("{flag}: {fault}")),
        },
    };
    let wire = diameter("--wire", &args.wire)?;
    let drill = diameter("--drill", &args.drill)?;
    let family = args.material.as_deref().map(crate::material::family);
    Ok(ThreadQuestion {
        form,
        drill,
        wire,
        family: family.transpose()?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::Parser;
    use quillet_reference::rows;
    use serde_json::Value;

    #[derive(Parser)]
    struct Line {
        #[command(flatten)]
        args: ThreadArgs,
    }

    fn asked(line: &[&str]) -> Result<Answer, String> {
        answer(&Line::parse_from([&["thread"], line].concat()).args)
    }

    fn json(line: &[&str]) -> Value {
        asked(line)
            .unwrap_or_else(|fault| panic!("{line:?}: {fault}"))
            .json
    }

    fn near(found: &Value, wanted: f64, within: f64) -> bool {
        (found.as_f64().unwrap() - wanted).abs() <= within
    }

    #[test]
    fn limits_leave_the_program_as_the_standard_prints_them() {
        for row in rows("metric_thread_limits.csv") {
            let found = json(&[row.text("designation")]);
            for (path, column) in [
                ("/external/major_mm/0", "d_min"),
                ("/external/major_mm/1", "d_max"),
                ("/external/pitch_mm/0", "d2_min"),
                ("/external/pitch_mm/1", "d2_max"),
                ("/internal/minor_mm/0", "D1_min"),
                ("/internal/minor_mm/1", "D1_max"),
                ("/internal/pitch_mm/0", "D2_min"),
                ("/internal/pitch_mm/1", "D2_max"),
                ("/tenon_mm/0", "d_min"),
                ("/tenon_mm/1", "d_max"),
            ] {
                let value = found.pointer(path).unwrap();
                assert!(
                    near(value, row.number(column), 1e-9),
                    "{row}: {path} {value}"
                );
            }
            assert_eq!(found["limits_from"], row.text("basis"), "{row}");
        }
    }

    #[test]
    fn percents_and_wires_leave_the_program_to_their_tolerance() {
        for row in rows("percent_thread_examples.csv") {
            if row.text("designation").starts_with('M') {
                let found = json(&[row.text("designation"), "--drill", row.text("drill_mm")]);
                let tap = &found["tap_drill"];
                assert!(
                    near(&tap["percent_3h4"], row.number("computed_pct_76_98"), 0.01),
                    "{row}"
                );
                assert!(
                    near(&tap["percent_5h8"], row.number("pct_5H8"), 0.01),
                    "{row}"
                );
            }
        }
        for row in rows("three_wire.csv") {
            if row.text("unit") == "mm" {
                let name = row.text("designation").split(' ').next().unwrap();
                let starts = row.text("starts");
                let found = json(&[name, "--starts", starts, "--wire", row.text("wire")]);
                let over = &found["wires"]["over_mm"];
                assert!(near(over, row.number("M_corrected"), 1e-4), "{row}: {over}");
            }
        }
    }

    #[test]
    fn the_page_says_what_was_computed_and_where_it_is_from() {
        let page = asked(&["M13x0.8", "--starts", "3", "--material", "acrylic"])
            .unwrap()
            .page;
        let text = page.text(true);
        for wanted in [
            "M13xPh2.4P0.8: ISO metric thread\n",
            "3, 120° apart; lead 2.4 mm",
            "outside, 6g (limits computed by formula)",
            "12.826 to 12.976 mm [3]",
            "12.2 mm, 77 % of 3H/4 (92 % of 5H/8)",
            "good in resin",
            "usual on pens: caps",
            "the standard prints no row for this size",
        ] {
            assert!(text.contains(wanted), "{wanted}\n{text}");
        }
    }

    /// 76.98 · (D − d) / P by hand, and 64.95 · tpi · (D − d) in inches; the bounds of each family
    /// are common practice, no published source. Inch drills by ASME B94.11M.
    #[test]
    fn the_page_begins_with_a_drill_that_is_kind_and_sold() {
        for (line, wanted) in [
            (
                &["M10x0.75"][..],
                "9.3 mm, 72 % of 3H/4 (86 % of 5H/8), kind to resin",
            ),
            (
                &["M10x1", "--material", "brass"],
                "9.1 mm, 69 % of 3H/4 (83 % of 5H/8), kind to metal",
            ),
            (
                &["7/16-14"],
                "letter U, 75 % of 3H/4 (90 % of 5H/8), kind to resin",
            ),
            (&["M22x1"], "no drill of the series comes near"),
            (
                &["M10x0.75", "--drill", "9.4"],
                "9.4 mm, 62 % of 3H/4 (74 % of 5H/8), as asked",
            ),
        ] {
            let text = asked(line).unwrap().page.text(false);
            let mut lines = text.lines().skip(2);
            assert_eq!(lines.next(), Some("to cut it"), "{text}");
            let drill = lines.next().unwrap();
            assert!(drill.trim_start().starts_with("tap drill"), "{text}");
            assert!(drill.contains(wanted), "{line:?}: {text}");
            assert!(
                lines.next().unwrap().trim_start().starts_with("tenon"),
                "{text}"
            );
            assert!(
                lines.next().unwrap().trim_start().starts_with("starts"),
                "{text}"
            );
        }
        assert_eq!(json(&["M10x0.75"])["tap_drill"]["diameter_mm"], 9.3);
        assert_eq!(json(&["M10x0.75"])["tap_drill"]["standard_mm"], 9.2);
        assert_eq!(json(&["7/16-14"])["tap_drill"]["drill"], "letter U");
    }

    /// An inch thread is told in inches first.
    #[test]
    fn an_inch_thread_is_told_in_inches() {
        let text = asked(&["7/16-28"]).unwrap().page.text(false);
        assert!(text.contains("0.4375 in (11.113 mm)"), "{text}");
        let drills = text.lines().filter(|line| line.contains("% of 3H/4 ("));
        assert!(drills.clone().count() > 3);
        for line in drills.filter(|line| !line.contains("less pitch")) {
            assert!(!line.contains("mm"), "{text}");
        }
    }

    #[test]
    fn a_question_that_has_no_answer_says_what_was_expected() {
        for (line, wanted) in [
            (&["M13"][..], "write the pitch"),
            (&["M13x0.8", "--class", "2A"], "takes 6g"),
            (&["M13x0.8", "--class", "5h"], "no grade 5"),
            (&["M13xPh2.4P0.8", "--starts", "2"], "already has 3 starts"),
            (&["M13x0.8", "--starts", "0"], "from 1 to"),
            (&["M13x0.8", "--drill", "wide"], "expected millimetres"),
            (
                &["M13x0.8", "--material", "marzipan"],
                "no built-in material",
            ),
        ] {
            let Err(fault) = asked(line) else {
                panic!("{line:?} was answered");
            };
            assert!(fault.contains(wanted), "{line:?}: {fault}");
        }
    }
}
