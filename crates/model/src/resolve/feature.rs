//! Cuts made from an end.

use super::Resolver;
use super::eval::Frame;
use super::item::offer;
use super::part::{Lines, incomplete};
use crate::{Cut, DrillName, End, Feature, Part, ThreadDef};
use quillet_geometry::{Angle, Length};
use quillet_standards::drill;
use quillet_syntax::ast::{self, FeatureKind, ReachKind, SizeKind};
use quillet_syntax::{Finding, Severity, Span};

/// A `from END { … }` block.
#[derive(Clone, Copy)]
pub(super) struct Block<'a> {
    /// The whole block.
    pub(super) span: Span,
    /// The end.
    pub(super) end: &'a ast::Name,
    /// The cuts.
    pub(super) features: &'a [ast::Feature],
}

/// Where a cut lies, inward from its end's face.
#[derive(Clone, Copy)]
struct Along {
    from: Length,
    to: Length,
    through: bool,
    span: Span,
}

impl<'a> Resolver<'a> {
    /// Resolves every cut, then works out the tenons and tap drills left unsaid.
    pub(super) fn features(&mut self, lines: &Lines<'a>, part: &mut Part, frame: &mut Frame<'a>) {
        for block in &lines.cuts {
            let Some(end) = self.part_end(part, block.end) else {
                continue;
            };
            for said in block.features {
                if let Some(feature) = self.feature(said, block, end, part, frame) {
                    part.features.push(feature);
                }
            }
        }
        part.features.sort_by_key(|feature| feature.end);
        self.assume_tenons(part);
        assume_tap_drills(part);
    }

    fn feature(
        &mut self,
        said: &ast::Feature,
        block: &Block<'a>,
        end: End,
        part: &Part,
        frame: &mut Frame<'a>,
    ) -> Option<Feature> {
        let (cut, size_span, along) = self.cut(said, part, frame)?;
        let along = self.within(along, part)?;
        Some(Feature {
            span: said.span,
            block: block.span,
            end,
            from: along.from,
            to: along.to,
            through: along.through,
            cut,
            size_span,
            reach_span: along.span,
            face: said.face.clone(),
        })
    }

    fn cut(
        &mut self,
        said: &ast::Feature,
        part: &Part,
        frame: &mut Frame<'a>,
    ) -> Option<(Cut, Span, Along)> {
        let here = said.span;
        Some(match &said.kind {
            FeatureKind::Tenon { dia, length } => {
                let size = dia.as_ref().map(|sum| self.positive(sum, "a tenon", frame));
                let to = self.positive(length, "a tenon", frame);
                let dia_span = dia.as_ref().map_or(here, |sum| sum.span);
                let size = match size {
                    None => Length::ZERO,
                    Some(size) => size?,
                };
                let cut = Cut::Tenon {
                    dia: size,
                    assumed_for: None,
                };
                let along = Along {
                    from: Length::ZERO,
                    to: to?,
                    through: false,
                    span: length.span,
                };
                (cut, dia_span, along)
            }
            FeatureKind::Drill { size, reach, point } => {
                let found = self.tool_size(size, frame);
                let along = self.reach(reach, part, frame);
                let point = point.as_ref().map(|sum| self.angle(sum, frame));
                let (dia, tool) = found?;
                let point = match point {
                    None => Angle::deg(118.0),
                    Some(point) => point?,
                };
                (
                    Cut::Drill {
                        dia,
                        tool,
                        point,
                        assumed_for: None,
                    },
                    size.span,
                    along?,
                )
            }
            FeatureKind::Bore { size, reach } => {
                let found = self.tool_size(size, frame);
                let along = self.reach(reach, part, frame);
                let (dia, tool) = found?;
                (Cut::Bore { dia, tool }, size.span, along?)
            }
            FeatureKind::Ream { size, reach } => {
                let found = self.tool_size(size, frame);
                let along = self.reach(reach, part, frame);
                let (dia, tool) = found?;
                (Cut::Ream { dia, tool }, size.span, along?)
            }
            FeatureKind::Thread {
                thread,
                side,
                reach,
            } => {
                let span = match thread {
                    ast::ThreadRef::Named(name) => name.span,
                    ast::ThreadRef::Written(form) => form.span,
                };
                let thread = self.thread(thread, frame);
                let along = self.reach(reach, part, frame);
                (
                    Cut::Thread {
                        thread: thread?,
                        side: *side,
                    },
                    span,
                    along?,
                )
            }
            FeatureKind::Relief { dia, reach } => {
                let size = self.positive(dia, "a relief", frame);
                let along = self.reach(reach, part, frame);
                (Cut::Relief { dia: size? }, dia.span, along?)
            }
            FeatureKind::Groove { dia, reach, takes } => {
                let size = self.positive(dia, "a groove", frame);
                let along = self.reach(reach, part, frame);
                let takes = self.taken(takes.as_ref(), frame);
                (Cut::Groove { dia: size?, takes }, dia.span, along?)
            }
            FeatureKind::Recess { dia, reach, takes } => {
                let size = self.positive(dia, "a recess", frame);
                let along = self.reach(reach, part, frame);
                let takes = self.taken(takes.as_ref(), frame);
                (Cut::Recess { dia: size?, takes }, dia.span, along?)
            }
            FeatureKind::Taper { from, to, reach } => {
                let from_dia = self.positive(from, "a taper", frame);
                let to_dia = self.positive(to, "a taper", frame);
                let along = self.reach(reach, part, frame);
                let cut = Cut::Taper {
                    from_dia: from_dia?,
                    to_dia: to_dia?,
                };
                (cut, from.span.to(to.span), along?)
            }
            FeatureKind::Countersink { dia, angle } => {
                let size = self.positive(dia, "a countersink", frame);
                let angle = angle.as_ref().map(|sum| self.angle(sum, frame));
                let angle = match angle {
                    None => Angle::deg(90.0),
                    Some(angle) => angle?,
                };
                let size = size?;
                let depth = Length::mm(size.to_mm() / 2.0 / (angle.to_rad() / 2.0).tan());
                let along = Along {
                    from: Length::ZERO,
                    to: depth.min(part.length),
                    through: false,
                    span: dia.span,
                };
                (Cut::Countersink { dia: size, angle }, dia.span, along)
            }
            FeatureKind::Edge(edge) => {
                let broken = self.edge(edge, frame)?;
                let (quillet_geometry::Edge::Round(leg) | quillet_geometry::Edge::Chamfer(leg)) =
                    broken;
                let along = Along {
                    from: Length::ZERO,
                    to: leg,
                    through: false,
                    span: edge.size.span,
                };
                (Cut::Edge(broken), edge.size.span, along)
            }
            FeatureKind::Accept(_) | FeatureKind::Bad => return None,
        })
    }

    fn taken(&mut self, takes: Option<&ast::Name>, frame: &Frame<'a>) -> Option<ast::Name> {
        let name = takes?;
        self.refer_to(name, &[crate::NameKind::Bought], frame)
            .then(|| name.clone())
    }

    fn reach(&mut self, reach: &ast::Reach, part: &Part, frame: &mut Frame<'a>) -> Option<Along> {
        let from = match &reach.at {
            None => Length::ZERO,
            Some(at) => self.distance(at, "a start", frame)?,
        };
        let (to, through) = match &reach.kind {
            ReachKind::For(sum) => (from + self.positive(sum, "a length", frame)?, false),
            ReachKind::To(sum) => (self.positive(sum, "a depth", frame)?, false),
            ReachKind::Through => (part.length, true),
        };
        if from < to {
            return Some(Along {
                from,
                to,
                through,
                span: reach.span,
            });
        }
        self.say(
            Finding::new(
                "out-of-range",
                Severity::Error,
                reach.span,
                format!(
                    "this cut starts at {from} and ends at {to}; it must end deeper than it starts"
                ),
            )
            .hint("to says a place from the face, for says an amount"),
        );
        None
    }

    /// A cut that reaches past the part is told of and dropped.
    fn within(&mut self, along: Along, part: &Part) -> Option<Along> {
        if along.to <= part.length {
            return Some(along);
        }
        self.say(
            Finding::new(
                "out-of-range",
                Severity::Error,
                along.span,
                format!(
                    "this cut reaches {} into {}, which is {} long",
                    along.to, part.name.text, part.length
                ),
            )
            .label(part.length_span, "the length")
            .hint("write through to go right through, or a smaller depth"),
        );
        None
    }

    /// The diameter a tool's size comes to, and how it was named.
    pub(super) fn tool_size(
        &mut self,
        size: &ast::Size,
        frame: &mut Frame<'a>,
    ) -> Option<(Length, DrillName)> {
        match &size.kind {
            SizeKind::Sum(sum) => {
                let dia = self.positive(sum, "a hole", frame)?;
                Some((dia, DrillName::Diameter))
            }
            SizeKind::Gauge(number) => {
                let dia = drill::gauge(&format!("#{number}"));
                self.known_gauge(dia, size.span, "number drills run from #1 to #80")
                    .map(|dia| (dia, DrillName::Number(*number)))
            }
            SizeKind::Letter(letter) => {
                let dia = drill::gauge(&format!("letter {letter}"));
                self.known_gauge(dia, size.span, "letter drills run from A to Z")
                    .map(|dia| (dia, DrillName::Letter(*letter)))
            }
        }
    }

    fn known_gauge(&mut self, dia: Option<Length>, at: Span, expected: &str) -> Option<Length> {
        if dia.is_none() {
            let text = self.design.text(at).to_owned();
            self.say(Finding::new(
                "out-of-range",
                Severity::Error,
                at,
                format!("there is no drill {text}; {expected}"),
            ));
        }
        dia
    }

    /// The end of a name, recorded as used.
    pub(super) fn part_end(&mut self, part: &Part, name: &ast::Name) -> Option<End> {
        if let Some(end) = part.end(&name.text) {
            self.refer_face(part, name);
            return Some(end);
        }
        let ends: Vec<&str> = match &part.ends {
            Some(ends) => ends.iter().map(|end| &*end.text).collect(),
            None => Vec::new(),
        };
        let finding = Finding::new(
            "unknown-name",
            Severity::Error,
            name.span,
            format!("{} has no end called {}", part.name.text, name.text),
        );
        let hint = match ends.as_slice() {
            [a, b] => format!("its ends are {a} and {b}"),
            _ => "give it ends, as in: from mouth to crown".to_owned(),
        };
        let near = quillet_syntax::nearest(&name.text, ends);
        self.say(offer(finding, name.span, near, &hint));
        None
    }

    /// Records a reference to one of a part's faces.
    pub(super) fn refer_face(&mut self, part: &Part, name: &ast::Name) {
        let face = part.face(&name.text).map(|face| face.name.span);
        let end = part.ends.iter().flatten().find(|end| end.text == name.text);
        let Some(target) = face.or(end.map(|end| end.span)) else {
            return;
        };
        let definitions = &self.design.names.definitions;
        if let Some(definition) = definitions.iter().position(|it| it.span == target) {
            self.refer(name.span, definition);
        }
    }

    /// A tenon without a diameter takes the middle of the class's major limits of the
    /// thread on it.
    fn assume_tenons(&mut self, part: &mut Part) {
        let mut missing = Vec::new();
        for index in 0..part.features.len() {
            let Cut::Tenon { dia, .. } = &part.features[index].cut else {
                continue;
            };
            if dia.is_positive() {
                continue;
            }
            let tenon = &part.features[index];
            let on_it = part.features.iter().find_map(|other| match &other.cut {
                Cut::Thread {
                    thread,
                    side: ast::Side::Outside,
                } if other.end == tenon.end && other.from < tenon.to => Some(thread.clone()),
                _ => None,
            });
            match on_it {
                Some(thread) => {
                    let dia = middle_of_major_limits(&thread);
                    part.features[index].cut = Cut::Tenon {
                        dia,
                        assumed_for: Some(thread),
                    };
                }
                None => missing.push(index),
            }
        }
        for index in missing.into_iter().rev() {
            let tenon = part.features.remove(index);
            self.say(incomplete(
                tenon.span,
                "this tenon says no diameter, and no thread is cut on it".to_owned(),
                "write its diameter, as in: tenon 9.9 for 8",
            ));
        }
    }
}

/// The middle of the external major limits of a thread's class (ISO 965-1, ASME B1.1).
fn middle_of_major_limits(thread: &ThreadDef) -> Length {
    thread
        .thread
        .tenon()
        .map_or(thread.thread.major(), |tenon| tenon.default)
}

/// Adds the tap drill of every inside thread that no written cut opens: common practice
/// is to drill four pitches deeper than the full thread, for the tap's lead.
fn assume_tap_drills(part: &mut Part) {
    let mut assumed = Vec::new();
    for feature in &part.features {
        let Some((thread, ast::Side::Inside)) = feature.thread() else {
            continue;
        };
        let form = &thread.thread;
        let least = form.major() - form.pitch() * 2;
        let opened = part.features.iter().any(|other| {
            let (low, high) = other.stations(part.length);
            let bottom = part.station(feature.end, feature.to);
            other.is_inside()
                && other.thread().is_none()
                && other.dia().is_some_and(|dia| dia >= least)
                && low <= bottom
                && bottom <= high
        });
        if opened {
            continue;
        }
        let deep = feature.to + form.pitch() * 4;
        let to = if deep < part.length {
            deep
        } else {
            part.length
        };
        assumed.push(Feature {
            from: Length::ZERO,
            to,
            through: to == part.length,
            cut: Cut::Drill {
                dia: form.tap_drill().diameter,
                tool: DrillName::Diameter,
                point: Angle::deg(118.0),
                assumed_for: Some(thread.clone()),
            },
            face: None,
            ..feature.clone()
        });
    }
    part.features.extend(assumed);
    part.features.sort_by_key(|feature| feature.end);
}
