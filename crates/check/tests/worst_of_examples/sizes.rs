//! The sizes that a design is written with, and its text with each at one end of its range.

use quillet_fixture::Random;
use quillet_geometry::{Length, Shape};
use quillet_model::{Cut, Design, End, Feature, Hand, Part, Pen, Texts};
use quillet_syntax::Span;
use quillet_syntax::ast::ToleranceKind;
use std::collections::BTreeMap;

/// A size that comes out otherwise than drawn.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Size {
    /// A plane, by its distance in nanometres from the end it is written from.
    Plane(String, bool, End, i64),
    Whole(String),
    /// A diameter, by where its statement begins; or a step's.
    Dia(Span, bool),
    By(Span),
}

/// The sizes of a design as they are written.
#[derive(Default)]
pub(super) struct Sizes {
    /// From how much under to how much over each comes out, mm.
    ranges: BTreeMap<Size, (f64, f64)>,
    /// The written quantities: where, and the sum of sizes by which each differs.
    written: BTreeMap<Span, Vec<(Size, f64)>>,
    /// Where a diameter is left out after the word that ends here, with what it is, mm.
    assumed: BTreeMap<Span, f64>,
}

impl Sizes {
    pub(super) fn of(design: &Design) -> Sizes {
        let mut sizes = Sizes::default();
        for pen in &design.pens {
            for (id, part) in pen.parts.with_ids() {
                sizes.part(design, part, &pen.hands[id]);
            }
            sizes.joints(design, pen);
        }
        sizes
    }

    fn part(&mut self, design: &Design, part: &Part, hand: &Hand) {
        let range = |kind, of| either(kept(part, hand, kind, of));
        let name = part.name.text.to_string();
        let words = words_of(design, part.length_span);
        let length = words.iter().find(|it| is_number(design.text(**it)));
        if let Some(length) = length {
            let whole = Size::Whole(name);
            self.ranges
                .insert(whole.clone(), range(ToleranceKind::Length, part.length));
            self.written.insert(*length, vec![(whole, 1.0)]);
        }
        let mut before: Option<(Length, Size)> = None;
        for station in &part.stations {
            let reported = words_of(design, station.span);
            let mut put = |sizes: &mut Sizes, word: &str, dia: Length, second: bool| {
                let arrived = before.take().filter(|_| !second);
                let same = arrived.filter(|it| it.0 == dia && station.shape == Shape::Straight);
                let size = same.map_or(Size::Dia(station.span, second), |it| it.1);
                let within = range(ToleranceKind::Dia, dia);
                sizes.ranges.entry(size.clone()).or_insert(within);
                if let Some(at) = after(design, &reported, word).filter(|_| dia.is_positive()) {
                    sizes.written.insert(at, vec![(size.clone(), 1.0)]);
                }
                before = Some((dia, size));
            };
            put(self, "dia", station.dia, false);
            if let Some(step) = station.step {
                put(self, "step", step, true);
            }
            let at = after(design, &reported, "at").filter(|at| is_number(design.text(*at)));
            let at = at.filter(|_| inward(part, station.from, station.at).is_positive());
            if let Some(at) = at {
                let plane = self.plane(
                    part,
                    hand,
                    false,
                    station.from,
                    inward(part, station.from, station.at),
                );
                self.written.insert(at, plane);
            }
        }
        for cut in &part.features {
            self.cut(design, part, hand, cut);
        }
    }

    fn cut(&mut self, design: &Design, part: &Part, hand: &Hand, cut: &Feature) {
        let reported = words_of(design, cut.span);
        let Some(word) = reported.first().copied() else {
            return;
        };
        if matches!(cut.cut, Cut::Edge(_)) {
            return;
        }
        if let (Some(dia), false) = (cut.dia(), cut.thread().is_some()) {
            let size = Size::Dia(cut.span, false);
            let limits = part.tenon(cut).filter(|_| !part.is_bought());
            let range = match (&cut.cut, limits) {
                (_, Some((limits, _))) => {
                    let from = |limit: Length| (limit - dia).to_mm();
                    (from(limits.min()), from(limits.max()))
                }
                (Cut::Drill { .. }, _) if !part.is_bought() => {
                    (0.0, hand.keeps(ToleranceKind::Drill, dia).to_mm())
                }
                _ => {
                    let kind = match cut.is_inside() {
                        true => ToleranceKind::Bore,
                        false => ToleranceKind::Dia,
                    };
                    either(kept(part, hand, kind, dia))
                }
            };
            self.ranges.insert(size.clone(), range);
            match reported
                .get(1)
                .filter(|at| !["for", "to"].contains(&design.text(**at)))
            {
                Some(at) => self.written.insert(*at, vec![(size, 1.0)]),
                None => {
                    self.assumed.insert(word.after(), dia.to_mm());
                    self.written.insert(word.after(), vec![(size, 1.0)])
                }
            };
        }
        let inside = cut.is_inside();
        let from = match cut.from.is_positive() {
            true => self.plane(part, hand, inside, cut.end, cut.from),
            false => Vec::new(),
        };
        if let Some(at) = after(design, &reported, "at") {
            self.written.insert(at, from.clone());
        }
        let length = after(design, &reported, "for");
        let Some(at) = length.or_else(|| after(design, &reported, "to")) else {
            return;
        };
        let mut sum = self.plane(part, hand, inside, cut.end, cut.to);
        if length.is_some() {
            sum.extend(from.into_iter().map(|(size, factor)| (size, -factor)));
        }
        self.written.insert(at, sum);
    }

    /// A plane as the sum of sizes that it is written by: where two statements write it from both
    /// ends, the outside's own stations and then what is written first.
    fn plane(
        &mut self,
        part: &Part,
        hand: &Hand,
        inside: bool,
        end: End,
        at: Length,
    ) -> Vec<(Size, f64)> {
        let station = part.station(end, at);
        let here = |it: Length| (it - station).abs() <= Length::from_nm(2);
        if here(part.length) {
            return vec![(Size::Whole(part.name.text.to_string()), 1.0)];
        }
        let stations = part.stations.iter().filter(|_| !inside);
        let first = stations.filter(|it| here(it.at)).map(|it| it.from).next();
        let cuts = part.features.iter().filter(|it| {
            let (a, b) = it.stations(part.length);
            let edge = matches!(it.cut, Cut::Edge(_) | Cut::Countersink { .. });
            it.is_inside() == inside && !edge && (here(a) || here(b))
        });
        let from = first
            .or_else(|| cuts.map(|it| it.end).next())
            .unwrap_or(end);
        let distance = inward(part, from, station);
        let name = || part.name.text.to_string();
        let nm = (distance.to_mm() * 1e6).round() as i64;
        let size = Size::Plane(name(), inside, from, nm);
        let kind = match inside {
            true => ToleranceKind::Depth,
            false => ToleranceKind::Shoulder,
        };
        let within = kept(part, hand, kind, distance);
        self.ranges.insert(size.clone(), either(within));
        match from == end {
            true => vec![(size, 1.0)],
            false => vec![(Size::Whole(name()), 1.0), (size, -1.0)],
        }
    }

    fn joints(&mut self, design: &Design, pen: &Pen) {
        for joint in &pen.joints {
            let Some((by, span)) = joint.by else { continue };
            let parts = [joint.male.part, joint.female.part];
            let hand = &pen.hands[joint.male.part];
            let within = match parts.iter().all(|it| pen.parts[*it].is_bought()) {
                true => hand.caliper(),
                false => hand.keeps(ToleranceKind::Length, by),
            };
            let reported = words_of(design, span);
            let at = reported.iter().find(|it| is_number(design.text(**it)));
            self.ranges.insert(Size::By(span), either(within));
            let at = at.expect("a number after by");
            self.written.insert(*at, vec![(Size::By(span), 1.0)]);
        }
    }

    /// The files with every size at one end of its range.
    pub(super) fn sample(&self, design: &Design, random: &mut Random) -> Texts {
        let drawn: BTreeMap<&Size, f64> = self
            .ranges
            .iter()
            .map(|(size, (under, over))| (size, if random.share() < 0.5 { *under } else { *over }))
            .collect();
        design.files.iter().fold(Texts::default(), |texts, file| {
            let mut text = file.text.to_string();
            for (span, sum) in self.written.iter().rev().filter(|it| it.0.file == file.id) {
                let off = sum
                    .iter()
                    .map(|(size, factor)| factor * drawn.get(size).copied().unwrap_or(0.0));
                let off: f64 = off.sum();
                let sign = if off < 0.0 { '-' } else { '+' };
                let was = match self.assumed.get(span) {
                    Some(dia) => format!("{dia}"),
                    None => design.text(*span).to_owned(),
                };
                // To the nanometre, as lengths are kept.
                let now = format!(" ({was} {sign} {:.6})", off.abs());
                text.replace_range(span.range(), &now);
            }
            texts.with(&*file.path.to_string_lossy(), &text)
        })
    }
}

fn either(within: Length) -> (f64, f64) {
    (-within.to_mm(), within.to_mm())
}

fn kept(part: &Part, hand: &Hand, kind: ToleranceKind, of: Length) -> Length {
    match part.is_bought() {
        true => hand.caliper(),
        false => hand.keeps(kind, of),
    }
}

fn inward(part: &Part, end: End, station: Length) -> Length {
    match end {
        End::First => station,
        End::Second => part.length - station,
    }
}

fn is_number(text: &str) -> bool {
    text.parse::<f64>().is_ok()
}

/// The words of a stretch of a text.
fn words_of(design: &Design, span: Span) -> Vec<Span> {
    let text = design.text(span);
    let start = text.as_ptr() as usize;
    let place = |word: &str| {
        let from = span.range().start + (word.as_ptr() as usize - start);
        Span::new(span.file, from, from + word.len())
    };
    text.split_whitespace().map(place).collect()
}

/// What follows a word.
fn after(design: &Design, words: &[Span], word: &str) -> Option<Span> {
    let at = words.iter().position(|it| design.text(*it) == word)?;
    words.get(at + 1).copied()
}
