//! `quillet thread`: sizes, limits, tap drill, tenon and wires of a thread.

use std::process::ExitCode;

use quillet_geometry::{Length, Limits};
use quillet_standards::Source;
use quillet_standards::drill::{self, DrillSeries, DrillSize};
use quillet_standards::material::Family;
use quillet_standards::thread::{
    ExternalLimits, Hand, InternalLimits, KnownThread, LimitsFrom, OverWires, PercentOfThread,
    Side, Standing, Suits, TapDrill, ThreadClass, ThreadForm, ThreadSize, percent_practice,
};
use serde_json::json;

use crate::answer::{Answer, Page, Show, print};

/// What `quillet thread` may be asked.
#[derive(clap::Args)]
pub(crate) struct Args {
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
pub(crate) fn run(args: &Args) -> ExitCode {
    print(answer(args), &args.show)
}

fn answer(args: &Args) -> Result<Answer, String> {
    let question = Question::read(args)?;
    Ok(Answer {
        page: question.page(),
        json: question.json(),
    })
}

/// A thread with all that is answered of it.
struct Question {
    form: ThreadForm,
    outside: ExternalLimits,
    inside: InternalLimits,
    tap: TapDrill,
    asked: Option<Length>,
    wires: OverWires,
    wire_limits: Limits,
    family: Option<Family>,
}

impl Question {
    fn read(args: &Args) -> Result<Question, String> {
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
        let outside = form
            .external_limits(form.class(Side::External))
            .map_err(|fault| fault.to_string())?;
        let inside = form
            .internal_limits(form.class(Side::Internal))
            .map_err(|fault| fault.to_string())?;
        let wire = diameter("--wire", &args.wire)?;
        Ok(Question {
            form,
            outside,
            inside,
            tap: form.tap_drill(),
            asked: diameter("--drill", &args.drill)?,
            wires: form.over_wires(wire),
            wire_limits: form.over_wires_limits(&outside, wire),
            family: args
                .material
                .as_deref()
                .map(crate::material::family)
                .transpose()?,
        })
    }

    /// The hole to be tapped: the one asked about, else the tap drill.
    fn hole(&self) -> (Length, PercentOfThread, &'static str) {
        match self.asked {
            None => (self.tap.diameter, self.tap.percent, self.tap.source.text()),
            Some(size) => (size, self.form.percent_of_thread(size), "as asked"),
        }
    }

    fn limits_from(&self) -> LimitsFrom {
        self.outside.from.and(self.inside.from)
    }

    fn json(&self) -> serde_json::Value {
        let (form, outside, inside) = (&self.form, &self.outside, &self.inside);
        let (diameter, percent, source) = self.hole();
        json!({
            "designation": form.to_string(),
            "major_mm": form.major().to_mm(),
            "pitch_mm": form.pitch_mm(),
            "starts": form.starts(),
            "lead_mm": form.lead_mm(),
            "lead_angle_deg": form.lead_angle().to_deg(),
            "pitch_diameter_mm": form.pitch_diameter().to_mm(),
            "minor_mm": form.minor_diameter().to_mm(),
            "root_mm": form.root_diameter().to_mm(),
            "external": {
                "class": outside.class.to_string(),
                "major_mm": pair(outside.major),
                "pitch_mm": pair(outside.pitch),
            },
            "internal": {
                "class": inside.class.to_string(),
                "minor_mm": pair(inside.minor),
                "pitch_mm": pair(inside.pitch),
            },
            "limits_from": self.limits_from().word(),
            "tap_drill": {
                "diameter_mm": diameter.to_mm(),
                "percent_3h4": rounded(percent.of_3h4, 1e4),
                "percent_5h8": rounded(percent.of_5h8, 1e4),
                "source": source,
            },
            "tenon_mm": pair(outside.major),
            "wires": {
                "best_mm": self.wires.best.to_mm(),
                "wire_mm": self.wires.wire.to_mm(),
                "over_mm": rounded(self.wires.over_mm, 1e6),
            },
        })
    }

    fn page(&self) -> Page {
        let mut page = Page::new(title(&self.form));
        self.size(&mut page);
        self.outside(&mut page);
        self.inside(&mut page);
        self.drills(&mut page);
        self.shoulder(&mut page);
        page
    }

    fn size(&self, page: &mut Page) {
        let form = &self.form;
        page.heading("size");
        page.row("major ⌀ d", size(form.major(), form));
        page.row("pitch", pitch(form));
        if form.starts() > 1 {
            page.row(
                "lead",
                format!(
                    "{}, {} starts {} apart",
                    size(form.lead(), form),
                    form.starts(),
                    form.start_spacing()
                ),
            );
        }
        page.row(
            "lead angle",
            format!("{} at the pitch ⌀", form.lead_angle()),
        );
        for (what, value) in [
            ("pitch ⌀ d2", form.pitch_diameter()),
            ("minor ⌀ D1", form.minor_diameter()),
            ("root ⌀ d3", form.root_diameter()),
        ] {
            page.sourced(what, size(value, form), BASIC);
        }
        match form.known() {
            Some(known) => page.sourced("listed", listed(known), known.source()),
            None => {
                let near: Vec<_> = form
                    .nearest_known(3)
                    .iter()
                    .map(|known| known.designation())
                    .collect();
                page.row(
                    "listed",
                    format!(
                        "in no series, and not usual on pens; nearest {}",
                        near.join(", ")
                    ),
                );
            }
        }
    }

    fn outside(&self, page: &mut Page) {
        let (form, outside) = (&self.form, &self.outside);
        page.heading(format!(
            "outside, {}{}",
            outside.class,
            computed(outside.from)
        ));
        page.sourced(
            "major ⌀, the tenon",
            between(outside.major, form),
            outside.source,
        );
        page.sourced("pitch ⌀", between(outside.pitch, form), outside.source);
        page.row("root ⌀ at least", size(outside.root_min, form));
        if let Ok(tenon) = form.tenon() {
            page.sourced(
                "tenon in plastics",
                between(tenon.in_plastic, form),
                tenon.practice,
            );
        }
        let wires = &self.wires;
        page.row("best wire", size(wires.best, form));
        page.sourced(
            format!("over wires of {}", wires.wire),
            format!(
                "{}; {} at the basic pitch ⌀",
                between(self.wire_limits, form),
                Length::mm(wires.over_mm)
            ),
            wires.source,
        );
        page.row(
            "lead correction in it",
            format!("{:.1} µm", wires.lead_correction_mm * 1000.0),
        );
        if !wires.wire_is_usable() {
            page.row(
                "this wire is no use",
                format!("from {} was expected", between(wires.usable, form)),
            );
        }
    }

    fn inside(&self, page: &mut Page) {
        let (form, inside, tap) = (&self.form, &self.inside, &self.tap);
        page.heading(format!("inside, {}{}", inside.class, computed(inside.from)));
        page.sourced(
            "minor ⌀, the hole",
            between(inside.minor, form),
            inside.source,
        );
        page.sourced("pitch ⌀", between(inside.pitch, form), inside.source);
        page.row("major ⌀ at least", size(inside.major_min, form));
        page.sourced(
            "tap drill",
            format!("{}, {}", size(tap.diameter, form), tap.percent),
            tap.source,
        );
        if let Some(asked) = self.asked {
            let percent = form.percent_of_thread(asked);
            let within = if inside.minor.contains(asked) {
                "within the limits"
            } else {
                "outside the limits"
            };
            page.row(
                "hole asked about",
                format!("{}, {percent}, {within}", size(asked, form)),
            );
        }
    }

    /// Drills of the shops either side of the tap drill.
    fn drills(&self, page: &mut Page) {
        let form = &self.form;
        let series: &[DrillSeries] = if form.is_inch() {
            &DrillSeries::INCH
        } else {
            &[DrillSeries::Metric]
        };
        let at_hand = || {
            drill::all()
                .iter()
                .filter(|drill| series.contains(&drill.series()))
        };
        let sizes = at_hand().map(drill::Drill::diameter);
        let mut choices = form.tap_drill_choices(sizes, self.family);
        choices.sort_by_key(|choice| (choice.diameter - self.tap.diameter).abs());
        choices.truncate(5);
        choices.sort_by_key(|choice| choice.diameter);
        if choices.is_empty() {
            return;
        }
        page.heading("drills near it");
        for choice in choices {
            let named = at_hand().find(|drill| drill.diameter() == choice.diameter);
            let mut value = choice.percent.to_string();
            if let Some(family) = self.family {
                value += &format!(", {} in {}", suits(choice.suits), family.word());
            }
            if !choice.in_window {
                value += &format!(", outside {}", self.inside.class);
            }
            page.row(named.map(ToString::to_string).unwrap_or_default(), value);
        }
        let families = match self.family {
            Some(family) => vec![family],
            None => vec![Family::Resin, Family::Wood, Family::Metal],
        };
        for family in families {
            if let Some(practice) = percent_practice(family) {
                page.sourced(
                    format!("kind to {}", family.word()),
                    format!(
                        "{} to {} % of 3H/4; {} to {} % at the outside",
                        practice.kind_low, practice.kind_high, practice.least, practice.most
                    ),
                    practice.source,
                );
            }
        }
    }

    fn shoulder(&self, page: &mut Page) {
        let form = &self.form;
        let (relief, engagement) = (form.relief(), form.normal_engagement());
        if relief.is_none() && engagement.is_none() {
            return;
        }
        page.heading("for information");
        if let Some(relief) = relief {
            for (what, groove) in [
                ("undercut outside", relief.outside),
                ("undercut inside", relief.inside),
            ] {
                page.sourced(
                    what,
                    format!("⌀ {}, {} wide", size(groove.diameter, form), groove.width),
                    relief.source,
                );
            }
            page.sourced(
                "run-out outside",
                format!("{}, short {}", relief.run_out.normal, relief.run_out.short),
                relief.source,
            );
            page.sourced(
                "run-out in a blind hole",
                format!("{}, short {}", relief.blind.normal, relief.blind.short),
                relief.source,
            );
        }
        if let Some(normal) = engagement {
            page.sourced(
                "engagement N",
                format!(
                    "over {} up to {}; it chooses tolerances, not strength",
                    normal.length.min(),
                    normal.length.max()
                ),
                normal.source,
            );
        }
    }
}

const BASIC: Source = Source::new("ISO 68-1 profile, ISO 724 formulas");

fn title(form: &ThreadForm) -> String {
    let system = if form.is_inch() {
        "unified inch"
    } else {
        "ISO metric"
    };
    let hand = match form.hand() {
        Hand::Right => "",
        Hand::Left => ", left hand",
    };
    format!("{form}: {system} thread{hand}")
}

fn pitch(form: &ThreadForm) -> String {
    match form.size() {
        ThreadSize::Metric { pitch, .. } => pitch.to_string(),
        ThreadSize::Inch { tpi, .. } => format!("{tpi} threads per inch ({})", form.pitch()),
    }
}

fn listed(known: &KnownThread) -> String {
    match known.standing() {
        Standing::Iso261 {
            coarse,
            choice,
            iso262,
        } => {
            let choice = ["first", "second", "third"][usize::from(choice.clamp(&1, &3) - 1)];
            let pitch = if *coarse { "coarse" } else { "fine" };
            let also = if *iso262 { ", and ISO 262" } else { "" };
            format!("ISO 261, {pitch}, {choice} choice{also}")
        }
        Standing::Unified(series) => format!("ASME B1.1, {}", series.letters()),
        Standing::Trade { used_for } => {
            format!("in no series, but usual on pens: {used_for}")
        }
    }
}

fn computed(from: LimitsFrom) -> &'static str {
    match from {
        LimitsFrom::Table => "",
        LimitsFrom::Formula => " (limits computed by formula)",
    }
}

fn suits(suits: Suits) -> &'static str {
    match suits {
        Suits::Well => "good",
        Suits::Fairly => "fair",
        Suits::TooShallow => "strips",
        Suits::TooDeep => "binds",
    }
}

/// In millimetres, and in inches too for an inch thread.
fn size(length: Length, form: &ThreadForm) -> String {
    if form.is_inch() {
        format!("{length} ({} in)", length.inch_text(4))
    } else {
        length.to_string()
    }
}

fn between(limits: Limits, form: &ThreadForm) -> String {
    if form.is_inch() {
        let (min, max) = (limits.min().inch_text(4), limits.max().inch_text(4));
        format!("{limits} ({min} to {max} in)")
    } else {
        limits.to_string()
    }
}

fn pair(limits: Limits) -> [f64; 2] {
    [limits.min().to_mm(), limits.max().to_mm()]
}

fn rounded(value: f64, parts: f64) -> f64 {
    (value * parts).round() / parts
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
        args: Args,
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
            "2.4 mm, 3 starts 120° apart",
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
