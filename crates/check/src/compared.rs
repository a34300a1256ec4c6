//! What was made beside what is drawn, size by size.

mod side;
mod size;

use crate::words;
use quillet_geometry::{Length, Limits};
use quillet_model::{
    CutId, Design, Feature, MadeSize, MadeStatement, Part, Pen, Station, StationId,
};
use quillet_plan::AskedLimits;
use quillet_syntax::{Size, SizedText, Span, text};
pub use size::{ComparedSize, MeasuredAs};
use std::collections::BTreeMap;

/// Every size that was measured of a pen, in the order written; nothing of one that is not made.
pub fn compared(design: &Design, pen: &Pen) -> Vec<ComparedSize> {
    let Some(made) = pen.made.as_deref() else {
        return Vec::new();
    };
    let Some(drawn) = design.pen(&made.of.text) else {
        return Vec::new();
    };
    let bench = design.bench(pen.bench.as_ref()).map(AsRef::as_ref);
    let mut asked = BTreeMap::new();
    let mut sizes = Vec::new();
    for statement in &made.statements {
        let id = statement.part;
        let asked = asked
            .entry(id)
            .or_insert_with(|| Some(AskedLimits::of(drawn, id, bench)?.suiting(drawn, pen, id)));
        let parts = made.drawn(id).zip(pen.parts.get(id));
        if let (Some((was, is)), Some(asked)) = (parts, asked.as_ref()) {
            let pair = Pair {
                was,
                is,
                asked,
                statement,
            };
            sizes.extend(pair.sizes());
        }
    }
    sizes
}

/// A part as it is drawn and as it is made, and a statement of what is made.
struct Pair<'a> {
    was: &'a Part,
    is: &'a Part,
    asked: &'a AskedLimits<'a>,
    statement: &'a MadeStatement,
}

impl Pair<'_> {
    fn sizes(&self) -> Vec<ComparedSize> {
        match self.statement.what {
            MadeSize::Length => {
                let both = (self.was.length, self.is.length);
                let asked = self.asked.length();
                let of = "length".into();
                vec![self.size(self.is.length_span, of, both, asked, MeasuredAs::Long)]
            }
            MadeSize::Cut { drawn, made } => {
                let cuts = self.was.features.get(drawn).zip(self.is.features.get(made));
                cuts.map_or_else(Vec::new, |(was, is)| self.cut(drawn, was, is))
            }
            MadeSize::Station { drawn, made } => {
                let pair = self.was.stations.get(drawn).zip(self.is.stations.get(made));
                pair.map_or_else(Vec::new, |(was, is)| self.station(drawn, was, is))
            }
            MadeSize::Side(id) => self.side(id),
            MadeSize::Beside(id) => self.beside(id),
            MadeSize::Between { at, dia } => {
                let outer = self.was.profiles.as_ref().map(|it| &it.crest.outer);
                let radii = outer.and_then(|it| it.radii_at(at.to_mm()));
                let size = radii.map(|(low, high)| {
                    let drawn = Length::mm(low + high);
                    let (of, asked) = (outside_at(at), self.asked.turned(drawn));
                    self.size(
                        self.statement.span,
                        of,
                        (drawn, dia),
                        asked,
                        MeasuredAs::Turned,
                    )
                });
                size.into_iter().collect()
            }
        }
    }

    fn cut(&self, id: CutId, was: &Feature, is: &Feature) -> Vec<ComparedSize> {
        let mut sizes = Vec::new();
        let said_dia = is.size_span != is.span;
        if let (Some(both), Some(asked), true) =
            (was.dia().zip(is.dia()), self.asked.dia(id), said_dia)
        {
            let how = match was.is_inside() {
                true => MeasuredAs::Bored,
                false => MeasuredAs::Turned,
            };
            let size = self.size(is.size_span, words::sized(was), both, asked, how);
            sizes.push(size.or_suiting(self.asked.tenon_to_suit(id)));
        }
        if let Some(asked) = self.asked.reach(id) {
            let how = match was.is_inside() {
                true => MeasuredAs::Deep,
                false => MeasuredAs::Shoulder,
            };
            let of = words::sized(was);
            sizes.push(self.size(is.reach_span, of, (was.to, is.to), asked, how));
        }
        sizes
    }

    fn station(&self, id: StationId, was: &Station, is: &Station) -> Vec<ComparedSize> {
        let of = || outside_at(was.at);
        let turned = |both: (Length, Length)| {
            let asked = self.asked.outside(id, both.0);
            let size = self.size(is.dia_span, of(), both, asked, MeasuredAs::Turned);
            size.or_suiting(self.asked.outside_to_suit(id))
        };
        let mut sizes = vec![turned((was.dia, is.dia))];
        sizes.extend(was.step.zip(is.step).map(turned));
        // On a curve a place is where the caliper was held; a shoulder is a face.
        if was.face.is_some() || was.step.is_some() {
            let asked = self.asked.shoulder(was.at);
            sizes.push(self.size(is.span, of(), (was.at, is.at), asked, MeasuredAs::Shoulder));
        }
        sizes
    }

    fn size(
        &self,
        at: Span,
        of: SizedText,
        (drawn, measured): (Length, Length),
        asked: Limits,
        how: MeasuredAs,
    ) -> ComparedSize {
        ComparedSize {
            statement: *self.statement,
            part: self.statement.part,
            of,
            at,
            drawn,
            measured,
            asked,
            suits: None,
            how,
            stretch: self.stretch(),
        }
    }

    fn stretch(&self) -> (Length, Length) {
        let all = (Length::ZERO, self.is.length);
        match self.statement.what {
            MadeSize::Length => all,
            MadeSize::Between { at, .. } => (at, at),
            MadeSize::Side(id) => {
                let cut = self.is.side(id).map(|it| it.stretch);
                cut.map_or(all, |it| (it.from, it.to))
            }
            MadeSize::Beside(id) => {
                let holes = self.is.circle(id);
                let ends = holes.map(|it| [it.from, it.to].map(|at| self.is.station(it.end, at)));
                ends.map_or(all, |[one, other]| (one.min(other), one.max(other)))
            }
            MadeSize::Cut { made, .. } => {
                let cut = self.is.features.get(made);
                cut.map_or(all, |it| it.stations(self.is.length))
            }
            MadeSize::Station { made, .. } => {
                let station = self.is.stations.get(made);
                station.map_or(all, |it| (it.at, it.at))
            }
        }
    }
}

/// `outside at 8`
fn outside_at(at: Length) -> SizedText {
    text!("outside at {}", Size::Written(at))
}
