//! The figures of a thread for people.

mod words;

use quillet_geometry::Length;
use quillet_standards::Source;
use quillet_standards::drill;
use quillet_standards::material::Family;
use quillet_standards::thread::{TapDrillRule, percent_practice};
use words::{between, computed, listed, pitch, size, suits, title};

use super::ThreadFigures;
use crate::report::AnswerPage;

/// The page: what is cut first, then size, outside, inside, drills, and what a shoulder asks.
pub(super) fn page(figures: &ThreadFigures) -> AnswerPage {
    let mut page = AnswerPage::new(title(&figures.form));
    figures.cut(&mut page);
    figures.size(&mut page);
    figures.outside(&mut page);
    figures.inside(&mut page);
    figures.drills(&mut page);
    figures.shoulder(&mut page);
    page
}

impl ThreadFigures {
    /// What is needed at the lathe: drill, tenon, starts.
    fn cut(&self, page: &mut AnswerPage) {
        let form = &self.form;
        page.heading("to cut it");
        let hole = self.hole();
        let drill = match hole.drill {
            Some(drill) => drill.to_string(),
            None => size(hole.diameter, form),
        };
        page.add(
            "tap drill",
            format!("{drill}, {}, {}", hole.percent, hole.why),
            hole.source,
        );
        match form.tenon() {
            Ok(tenon) => page.sourced(
                "tenon",
                format!("{} in plastics", between(tenon.in_plastic, form)),
                tenon.practice,
            ),
            Err(_) => page.sourced(
                "tenon",
                between(self.outside.major, form),
                self.outside.source,
            ),
        }
        let starts = match form.starts() {
            1 => "one".to_owned(),
            starts => format!("{starts}, {} apart", form.start_spacing()),
        };
        page.row(
            "starts",
            format!("{starts}; lead {}", size(form.lead(), form)),
        );
    }

    fn size(&self, page: &mut AnswerPage) {
        let form = &self.form;
        page.heading("size");
        page.row("major ⌀ d", size(form.major(), form));
        page.row("pitch", pitch(form));
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

    fn outside(&self, page: &mut AnswerPage) {
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
        let wires = &self.wires;
        page.row("best wire", size(wires.best, form));
        page.sourced(
            format!("over wires of {}", size(wires.wire, form)),
            format!(
                "{}; {} at the basic pitch ⌀",
                between(self.wire_limits, form),
                size(Length::mm(wires.over_mm), form)
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

    fn inside(&self, page: &mut AnswerPage) {
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
            match tap.rule {
                TapDrillRule::Listed => "drill by the table",
                TapDrillRule::MajorMinusPitch => "major ⌀ less pitch",
                TapDrillRule::Clipped => "major ⌀ less pitch, clipped",
            },
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
    fn drills(&self, page: &mut AnswerPage) {
        let form = &self.form;
        let series = self.units().drills();
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

    fn shoulder(&self, page: &mut AnswerPage) {
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
                    format!(
                        "⌀ {}, {} wide",
                        size(groove.diameter, form),
                        between(groove.width, form)
                    ),
                    relief.source,
                );
            }
            page.sourced(
                "run-out outside",
                format!(
                    "{}, short {}",
                    size(relief.run_out.normal, form),
                    size(relief.run_out.short, form)
                ),
                relief.source,
            );
            page.sourced(
                "run-out in a blind hole",
                format!(
                    "{}, short {}",
                    size(relief.blind.normal, form),
                    size(relief.blind.short, form)
                ),
                relief.source,
            );
        }
        if let Some(normal) = engagement {
            page.sourced(
                "engagement N",
                format!(
                    "over {} up to {}; it chooses tolerances, not strength",
                    size(normal.length.min(), form),
                    size(normal.length.max(), form)
                ),
                normal.source,
            );
        }
    }
}

const BASIC: Source = Source::new("ISO 68-1 profile, ISO 724 formulas");
