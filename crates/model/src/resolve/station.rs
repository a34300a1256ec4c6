//! Stations of the outside.

use super::Resolver;
use super::clash::out_of_range;
use super::frame::Frame;
use super::lines::Lines;
use crate::{End, Part, Station};
use quillet_geometry::{Edge, Length, Shape};
use quillet_syntax::ast::{self, ExprKind, LineKind, ShapeKind};
use quillet_syntax::{Edit, Finding, Severity, Span, text};

impl<'a> Resolver<'a> {
    /// The stations in the order of their places, and whether all could be read.
    pub(super) fn stations(
        &mut self,
        lines: &Lines<'a>,
        part: &Part,
        frame: &mut Frame<'a>,
    ) -> (Vec<Station>, bool) {
        let mut stations = Vec::new();
        let mut all_read = true;
        for line in &lines.single {
            match &line.kind {
                LineKind::OutsideDia(sum) => {
                    if let Some(dia) = self.positive(sum, "a diameter", frame) {
                        let plain = |at| plain_station(line.span, sum, at, dia);
                        stations.extend([plain(Length::ZERO), plain(part.length)]);
                    }
                }
                LineKind::Outside(content) => {
                    for station in content {
                        let read = self.station(station, part, frame);
                        all_read &= read.is_some();
                        stations.extend(read);
                    }
                }
                _ => {}
            }
        }
        (self.put_in_order(stations), all_read)
    }

    pub(super) fn station(
        &mut self,
        station: &ast::Station,
        part: &Part,
        frame: &mut Frame<'a>,
    ) -> Option<Station> {
        let content = station.content.as_ref()?;
        let at = self.position(&content.at, part, frame);
        let from = match (&content.at.from, &content.at.at.kind) {
            (Some(from), _) => part.end(&from.text),
            (None, ExprKind::Name(name)) => part.end(name),
            _ => None,
        };
        let dia = self.distance(&content.dia, "a diameter", frame);
        let step = content
            .step
            .as_ref()
            .and_then(|sum| self.distance(sum, "a diameter", frame));
        let shape = match &content.shape {
            None => Some(Shape::Straight),
            Some(shape) => match &shape.kind {
                ShapeKind::Smooth => Some(Shape::Smooth),
                ShapeKind::Dome => Some(Shape::Dome),
                ShapeKind::Bead(sum) => self.positive(sum, "a bead", frame).map(Shape::Bead),
                ShapeKind::Cove(sum) => self.positive(sum, "a cove", frame).map(Shape::Cove),
            },
        };
        let edge = content
            .edge
            .as_ref()
            .and_then(|edge| self.edge(edge, frame));
        Some(Station {
            span: station.span,
            dia_span: content.dia.span,
            at: at?,
            from: from.unwrap_or(End::First),
            dia: dia?,
            step,
            shape: shape?,
            edge,
            face: content.face.clone(),
        })
    }

    /// A broken corner.
    pub(super) fn edge(&mut self, edge: &ast::Edge, frame: &mut Frame<'a>) -> Option<Edge> {
        let size = self.positive(&edge.size, "a broken corner", frame)?;
        Some(match edge.kind {
            ast::EdgeKind::Round => Edge::Round(size),
            ast::EdgeKind::Chamfer => Edge::Chamfer(size),
        })
    }

    /// The station that a place along a part comes to; one beyond the part is told of.
    pub(super) fn position(
        &mut self,
        content: &ast::Position,
        part: &Part,
        frame: &mut Frame<'a>,
    ) -> Option<Length> {
        if let (ExprKind::Name(name), None) = (&content.at.kind, &content.from)
            && let Some(end) = part.end(name)
        {
            let name = ast::Name {
                text: name.clone(),
                span: content.at.span,
            };
            self.refer_face(part, &name);
            return Some(part.station(end, Length::ZERO));
        }
        // A name where the ends could not be read is likely one of them.
        if matches!(content.at.kind, ExprKind::Name(_)) && part.lacks_ends() {
            self.lost += 1;
            return None;
        }
        let distance = self.distance(&content.at, "a station", frame);
        let at = match &content.from {
            None => distance?,
            Some(from) => {
                let end = self.part_end(part, from);
                part.station(end?, distance?)
            }
        };
        let at = self.no_further(at, part);
        if at <= part.length && !at.is_negative() {
            return Some(at);
        }
        let name = &part.name.text;
        let lies = match at.is_negative() {
            true => text!("this station lies {} before {} begins", -at, name),
            false => text!(
                "this station lies at {}, beyond the {} of {}",
                at,
                part.length,
                name
            ),
        };
        let finding = out_of_range(content.at.span, lies)
            .label(part.length_span, "the length")
            .hint(text!("a station lies between 0 and {}", part.length));
        let end = part.end_name(End::Second);
        let past = content.from.is_none() && !part.lacks_ends();
        let finding = match past {
            true => finding.fix(format!("write {end}"), content.at.span, end),
            false => finding,
        };
        let from = content.from.as_ref().and_then(|from| part.end(&from.text));
        let to = match from {
            Some(End::Second) => part.length - at,
            _ => at,
        };
        self.lies_beyond(finding, to);
        None
    }

    /// Sorted by place; two at one place are told of, the first is taken.
    fn put_in_order(&mut self, mut stations: Vec<Station>) -> Vec<Station> {
        if let Some(pair) = stations.windows(2).find(|pair| pair[1].at < pair[0].at) {
            let finding = Finding::new(
                "unordered-stations",
                Severity::Note,
                pair[1].span,
                text!(
                    "the station at {} is written after the one at {}; they are read by place",
                    pair[1].at,
                    pair[0].at
                ),
            )
            .label(pair[0].span, "written before it")
            .hint("write stations in the order of the part, as calipers read");
            self.emit(match self.in_order(&stations) {
                None => finding,
                Some(edit) => finding.fix_all("write them in order", vec![edit]),
            });
        }
        stations.sort_by_key(|station| station.at);
        let mut kept: Vec<Station> = Vec::with_capacity(stations.len());
        for station in stations {
            match kept.last() {
                Some(first) if first.at == station.at => {
                    let finding = Finding::new(
                        "duplicate-station",
                        Severity::Error,
                        station.span,
                        text!("{} from the first end has two diameters", station.at),
                    )
                    .label(first.span, "the first one")
                    .hint("where the surface steps, write one station with step");
                    let finding = self.as_one(finding, first, &station);
                    self.emit(finding);
                }
                _ => kept.push(station),
            }
        }
        kept
    }
}

impl Resolver<'_> {
    /// The edit that writes stations in order, each in the place of another; none where a comment
    /// stands among them that may belong to one, or they are written at several places.
    fn in_order(&self, written: &[Station]) -> Option<Edit> {
        let mut sorted: Vec<&Station> = written.iter().collect();
        sorted.sort_by_key(|station| station.at);
        let mut text = String::new();
        for (index, station) in sorted.iter().enumerate() {
            text += self.design.text(station.span);
            let (Some(old), Some(next)) = (written.get(index), written.get(index + 1)) else {
                continue;
            };
            let (old, next) = (old.span, next.span);
            if old.file != next.file || old.end > next.start {
                return None;
            }
            let gap = self
                .design
                .text(Span::new(old.file, old.range().end, next.range().start));
            if !gap.trim().is_empty() {
                return None;
            }
            text += gap;
        }
        let (first, last) = (written.first()?, written.last()?);
        Some(Edit::new(first.span.to(last.span), text))
    }

    /// Two stations at one place as one that steps, or the second taken out where it says the same.
    fn as_one(&self, finding: Finding, first: &Station, second: &Station) -> Finding {
        let mut edits = vec![Edit::new(second.span, "")];
        if first.dia == second.dia {
            return finding.fix_all("take the second one out", edits);
        }
        let ends_with_dia = first.span.end == first.dia_span.end;
        let plain = second.span.end == second.dia_span.end;
        if !ends_with_dia || !plain || first.step.is_some() {
            return finding;
        }
        let step = format!(" step {}", self.design.text(second.dia_span));
        let after = first.dia_span.range().end;
        edits.push(Edit::new(
            Span::new(first.dia_span.file, after, after),
            step,
        ));
        finding.fix_all("write them as one station that steps", edits)
    }
}

fn plain_station(span: quillet_syntax::Span, dia: &ast::Expr, at: Length, size: Length) -> Station {
    Station {
        span,
        dia_span: dia.span,
        at,
        from: End::First,
        dia: size,
        step: None,
        shape: Shape::Straight,
        edge: None,
        face: None,
    }
}
