//! Cuts from the side, and holes beside the axis, by the words they are drawn in.

use super::{PartRows, row};
use quillet_geometry::{Length, Limits};
use quillet_model::{
    AcrossFlats, Around, CircleHoles, CircleId, End, SideCut, SideCutKind, SideDepth, SideId,
    SideSize,
};
use quillet_syntax::Span;
use std::f64::consts::PI;

impl PartRows<'_> {
    /// What is cut from the side, a row a statement.
    pub(super) fn sides(&self) -> String {
        let sides = self.part.sides().iter().enumerate();
        let rows = sides.map(|(nth, cut)| self.side(SideId::nth(nth), cut));
        rows.collect()
    }

    fn side(&self, id: SideId, cut: &SideCut) -> String {
        let what = match &cut.kind {
            SideCutKind::Across { from_dia, to_dia } => {
                let to = self.design.text(cut.span).contains(" to ");
                let to = to.then(|| format!(" to {}", self.written(*to_dia)));
                format!(
                    "flat across {}{}",
                    self.written(*from_dia),
                    to.unwrap_or_default()
                )
            }
            SideCutKind::Deep(deep) => format!("flat deep {}", self.written(*deep)),
            SideCutKind::Sharp => "flat sharp".to_owned(),
            SideCutKind::Drill { dia, depth, .. } => {
                format!("drill {}{}", self.written(*dia), self.depth(*depth))
            }
            SideCutKind::Slot { width, depth } => {
                format!("slot {}{}", self.written(*width), self.depth(*depth))
            }
            SideCutKind::Pattern { name, deep, .. } => {
                format!("pattern \"{}\" deep {}", name.text, self.written(*deep))
            }
        };
        let line = format!(
            "{what} {}{}",
            self.stretch(cut),
            self.around(&cut.around, cut.span)
        );
        let asked = self.asked.side(id);
        let mut all: Vec<String> = asked.iter().map(|it| self.asked_of(cut, it)).collect();
        all.extend(self.by_calipers(id, cut));
        row(6, &line, &all.join(", "))
    }

    /// Holes beside the axis that are cut from an end.
    pub(super) fn circles(&self, end: End) -> String {
        let circles = self.part.circles().iter().enumerate();
        let own = circles.filter(|(_, it)| it.end == end);
        let rows = own.map(|(nth, it)| self.circle(CircleId::nth(nth), it));
        rows.collect()
    }

    fn circle(&self, id: CircleId, holes: &CircleHoles) -> String {
        let verb = if holes.point.is_some() {
            "drill"
        } else {
            "bore"
        };
        let drawn = self.design.text(holes.span);
        let mut words = drawn.split_whitespace();
        let reach = match words.clone().any(|it| it == "for") {
            _ if holes.through => " through".to_owned(),
            true => format!(" for {}", self.written(holes.to - holes.from)),
            false => format!(" to {}", self.written(holes.to)),
        };
        let at = match words.any(|it| it == "at") {
            true => format!(" at {}", self.written(holes.from)),
            false => String::new(),
        };
        let line = format!(
            "{verb} {}{reach}{at} on {}{}",
            self.written(holes.dia),
            self.written(holes.on),
            self.around(&holes.around, holes.span)
        );
        let asked = self.asked.beside(id).into_iter();
        let asked = asked.map(|(size, _, limits)| match size {
            SideSize::Hole => self.dia(limits),
            SideSize::On => format!("on {}", self.dia(limits)),
            SideSize::From => format!("begins at {}", self.long(limits)),
            _ => format!("{} deep", self.long(limits)),
        });
        row(6, &line, &asked.collect::<Vec<_>>().join(", "))
    }

    fn depth(&self, depth: SideDepth) -> String {
        match depth {
            SideDepth::Void => String::new(),
            SideDepth::To { deep, .. } => format!(" to {}", self.written(deep)),
            SideDepth::Through => " through".to_owned(),
        }
    }

    /// How often and where round, where the drawing says so.
    fn around(&self, around: &Around, drawn: Span) -> String {
        let mut words = self.design.text(drawn).split_whitespace();
        let clock = words.any(|it| it == "clock");
        let clock = clock.then(|| format!(" clock {}", around.clock.deg_text(3)));
        let count = match around.count {
            1 => String::new(),
            count => format!(" indexed {count}"),
        };
        count + &clock.unwrap_or_default()
    }

    /// `at 9..6 from tail`: each place from the end that the drawing says it from.
    fn stretch(&self, cut: &SideCut) -> String {
        let drawn = self.design.text(cut.stretch.span);
        let mut places = drawn.trim_start_matches("at").split("..");
        let one = places.next().unwrap_or_default();
        let Some(other) = places.next() else {
            return format!("at {}", self.place(one, cut.stretch.from));
        };
        let from = self.place(one, cut.stretch.from);
        format!("at {from}..{}", self.place(other, cut.stretch.to))
    }

    fn place(&self, drawn: &str, at: Length) -> String {
        let second = self.part.end_name(End::Second);
        let is_name = [End::First, End::Second].map(|end| self.part.end_name(end) == drawn.trim());
        match is_name {
            [true, _] => self.part.end_name(End::First).to_owned(),
            [_, true] => second.to_owned(),
            _ if drawn.split_whitespace().last() == Some(second) => {
                format!("{} from {second}", self.written(self.part.length - at))
            }
            _ => self.written(at),
        }
    }

    fn asked_of(&self, cut: &SideCut, asked: &(SideSize, Length, Limits)) -> String {
        let limits = asked.2;
        let hole = cut.stretch.from == cut.stretch.to;
        match asked.0 {
            SideSize::From if hole => format!("at {}", self.long(limits)),
            SideSize::From => format!("begins at {}", self.long(limits)),
            SideSize::To => format!("ends at {}", self.long(limits)),
            SideSize::Across => format!("across {}", self.long(limits)),
            SideSize::AcrossAtEnd => format!("at its end {}", self.long(limits)),
            SideSize::Wide => format!("{} wide", self.long(limits)),
            SideSize::Deep => format!("{} deep", self.long(limits)),
            SideSize::Hole | SideSize::On => self.dia(limits),
        }
    }

    /// What calipers read of flats where they begin, where that is not what is written.
    fn by_calipers(&self, id: SideId, cut: &SideCut) -> Option<String> {
        let set = self.asked.flats(id)?;
        let even = set.count.is_multiple_of(2);
        let written = even && matches!(cut.kind, SideCutKind::Across { .. });
        if !cut.kind.is_flat() || written {
            return None;
        }
        let read = Length::mm(set.calipers_mm()[0]);
        let limits = self.long(self.asked.turned(read));
        Some(match (set.count, even) {
            (_, true) => format!("where it begins calipers read {limits}"),
            (1, _) => {
                let round = self.units.number(Length::mm(set.corners_mm[0]));
                let write = match cut.kind {
                    SideCutKind::Across { .. } => format!("write twice that less {round}"),
                    _ => format!("write {round} less that"),
                };
                format!("where it begins calipers read {limits} from flat to round: {write}")
            }
            _ => {
                let opposite = if corners_meet(&set) {
                    "corner"
                } else {
                    "round"
                };
                format!("where it begins calipers read {limits} from flat to {opposite}")
            }
        })
    }
}

/// Whether the flats meet in corners.
fn corners_meet(set: &AcrossFlats) -> bool {
    let meeting = set.across_mm[0] / (PI / f64::from(set.count)).cos();
    (meeting - set.corners_mm[0]).abs() < 1e-6
}
