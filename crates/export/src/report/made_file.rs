//! A file in which what the caliper reads of a pen is written down: every row that the sheet measures, as a
//! comment to be uncommented.

mod side;

use quillet_geometry::{Length, Limits};
use quillet_model::{
    Bench, Cut, CutId, Design, End, Feature, Part, PartId, Pen, Station, StationId, Units,
};
use quillet_plan::AskedLimits;
use quillet_syntax::Span;
use std::fmt::Write;

/// The file's text; `used` is the path by which the pen's own file is named in it.
pub fn made_file(design: &Design, pen: &Pen, name: &str, used: &str) -> String {
    let units = design.units();
    let bench = design.bench(pen.bench.as_ref()).map(AsRef::as_ref);
    let mut out = String::new();
    if units == Units::Inches {
        out += "dimensions in inches\n\n";
    }
    let of = &pen.name.text;
    let _ = write!(
        out,
        "-- One {of} as it comes out. When a size is cut, take the -- before its line away and write what\n\
         -- the caliper reads; what the sheet asks stands behind it. A line that is left is not made yet.\n\n\
         use \"{used}\"\n\nmade {name} of {of} {{\n"
    );
    for id in pen.parts.ids() {
        out += &part(design, pen, id, bench).unwrap_or_default();
    }
    out += "  -- measured mass(uncapped) 0\n  -- measured length(capped) 0\n}\n";
    out
}

/// What of a part is measured; none of one that is bought.
fn part(design: &Design, pen: &Pen, id: PartId, bench: Option<&Bench>) -> Option<String> {
    let part = pen.parts.get(id).filter(|it| !it.is_bought())?;
    let asked = AskedLimits::of(pen, id, bench)?;
    let rows = PartRows {
        design,
        part,
        asked,
        units: design.units(),
    };
    Some(rows.text())
}

struct PartRows<'p> {
    design: &'p Design,
    part: &'p Part,
    asked: AskedLimits<'p>,
    units: Units,
}

impl PartRows<'_> {
    fn text(&self) -> String {
        let mut out = format!("  part {} {{\n", self.part.name.text);
        let length = format!("length {}", self.written(self.part.length));
        out += &row(4, &length, &self.long(self.asked.length()));
        let stations = self.part.stations.with_ids();
        let stations = stations.filter(|(_, it)| it.dia.is_positive());
        let round = stations.clone().find(|(_, it)| self.is_all_round(it));
        let rows: String = match round {
            Some(_) => String::new(),
            None => stations.map(|(id, it)| self.station(id, it)).collect(),
        };
        if let Some((_, round)) = round {
            let line = format!("outside dia {}", self.written(round.dia));
            out += &row(4, &line, &self.dia(self.asked.turned(round.dia)));
        }
        out += &block("outside", &rows);
        out += &block("side", &self.sides());
        for end in [End::First, End::Second] {
            let cuts = self.part.features.with_ids();
            let cuts = cuts.filter(|(_, it)| it.end == end);
            let rows: String = cuts.filter_map(|(id, it)| self.cut(id, it)).collect();
            let rows = rows + &self.circles(end);
            out += &block(&format!("from {}", self.part.end_name(end)), &rows);
        }
        out + "  }\n"
    }

    /// A station of `outside dia …`, which stands at both ends.
    fn is_all_round(&self, station: &Station) -> bool {
        self.design.text(station.span).starts_with("outside")
    }

    fn station(&self, id: StationId, it: &Station) -> String {
        let place = match it.from {
            End::First => self.written(it.at),
            End::Second => {
                let end = self.part.end_name(End::Second);
                match self.part.length - it.at {
                    Length::ZERO => end.to_owned(),
                    inward => format!("{} from {end}", self.written(inward)),
                }
            }
        };
        let step = it.step.map(|dia| format!(" step {}", self.written(dia)));
        let line = format!(
            "at {place} dia {}{}",
            self.written(it.dia),
            step.unwrap_or_default()
        );
        row(6, &line, &self.dia(self.asked.outside(id, it.dia)))
    }

    /// A cut, by the words it is drawn in; none of what no caliper reads.
    fn cut(&self, id: CutId, cut: &Feature) -> Option<String> {
        let dia = self.asked.dia(id)?;
        let reach = self.asked.reach(id);
        let size = self.written(cut.dia()?);
        let drawn = self.design.text(cut.span);
        let assumed = matches!(
            &cut.cut,
            Cut::Drill {
                assumed_for: Some(_),
                ..
            }
        );
        let verb = match assumed {
            true => "drill",
            false => drawn.split_whitespace().next()?,
        };
        let reach = reach.map(|it| match cut.is_inside() {
            true => format!("{} deep", self.long(it)),
            false => format!("ends at {}", self.long(it)),
        });
        let asked = [Some(self.dia(dia)), reach];
        let asked: Vec<String> = asked.into_iter().flatten().collect();
        let place = match &cut.cut {
            Cut::Countersink { .. } => String::new(),
            Cut::Tenon { .. } => format!(" for {}", self.written(cut.to)),
            _ if assumed && cut.through => " through".to_owned(),
            _ if assumed => format!(" to {}", self.written(cut.to)),
            _ => format!(" {}", self.reach(cut, cut.reach_span)),
        };
        Some(row(6, &format!("{verb} {size}{place}"), &asked.join(", ")))
    }

    /// Where a cut lies, said by the words that its drawing says it by.
    fn reach(&self, cut: &Feature, span: Span) -> String {
        let drawn = self.design.text(span);
        let at = match cut.from.is_positive() || drawn.split_whitespace().any(|it| it == "at") {
            true => format!(" at {}", self.written(cut.from)),
            false => String::new(),
        };
        let reach = match drawn.split_whitespace().next() {
            Some("for") => format!("for {}", self.written(cut.to - cut.from)),
            Some("through") => "through".to_owned(),
            _ => format!("to {}", self.written(cut.to)),
        };
        reach + &at
    }

    fn written(&self, length: Length) -> String {
        self.units.written(length)
    }

    fn dia(&self, limits: Limits) -> String {
        format!(
            "{} to {}",
            self.units.dia(limits.min()),
            self.units.dia(limits.max())
        )
    }

    fn long(&self, limits: Limits) -> String {
        format!(
            "{} to {}",
            self.units.number(limits.min()),
            self.units.number(limits.max())
        )
    }
}

/// Lines within a block of their own; nothing where there are none.
fn block(head: &str, rows: &str) -> String {
    match rows.is_empty() {
        true => String::new(),
        false => format!("    {head} {{\n{rows}    }}\n"),
    }
}

/// A statement as a comment, with what is asked behind it.
fn row(indent: usize, statement: &str, asked: &str) -> String {
    let blanks = " ".repeat(indent);
    format!("{blanks}-- {statement:<26} -- {asked}\n")
}
