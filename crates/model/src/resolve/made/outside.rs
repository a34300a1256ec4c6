//! Diameters of the outside that were measured.

use super::super::Resolver;
use super::super::frame::Frame;
use super::{Bench, MOST_OFF_DIA, NEAREST_STATION, Pending, PendingSize, not_in_drawing};
use crate::{Part, Station, StationId};
use quillet_geometry::Length;
use quillet_syntax::ast::{self, LineKind};

impl<'a> Resolver<'a> {
    pub(super) fn made_stations(
        &mut self,
        made: &'a ast::MadePart,
        part: &mut Part,
        bench: &mut Bench<'_, 'a>,
        frame: &mut Frame<'a>,
    ) {
        for line in &made.lines {
            match &line.kind {
                LineKind::OutsideDia(sum) => {
                    let drawn = bench.lines.single.iter();
                    let mut drawn = drawn.filter(|it| matches!(it.kind, LineKind::OutsideDia(_)));
                    let Some(drawn) = drawn.next().map(|it| it.span) else {
                        let message = "the outside is drawn by stations";
                        let finding = not_in_drawing(line.span, message);
                        self.tell(
                            finding.hint("write each station that was measured: at 8 dia 14.4"),
                        );
                        continue;
                    };
                    let Some(dia) = self.positive(sum, "a diameter", frame) else {
                        continue;
                    };
                    let near = bench.drawn.stations.first().map(|it| it.dia);
                    if near.is_some_and(|it| self.is_near(dia, it, MOST_OFF_DIA, sum.span)) {
                        bench.all_round(drawn, line.span, sum.span, dia, part);
                    }
                }
                LineKind::Outside(stations) => {
                    for station in stations {
                        let lost = self.lost;
                        if let Some(read) = self.station(station, part, frame) {
                            self.made_station(read, part, bench);
                        }
                        self.lost = lost;
                    }
                }
                _ => {}
            }
        }
        part.stations.sort_by_key(|it| it.at);
    }

    fn made_station(&mut self, read: Station, part: &mut Part, bench: &mut Bench<'_, 'a>) {
        bench.faces.statements.push(read.span);
        let note = |drawn, what| Pending {
            part: part.name.text.clone(),
            span: read.span,
            drawn,
            what,
        };
        let Some((id, here)) = bench.drawn_station(&read, part) else {
            let (at, dia) = (read.at, read.dia);
            let between = note(None, PendingSize::Between { at, dia });
            bench.statements.push(between);
            return;
        };
        let drawn = bench.drawn.stations[id].clone();
        if !self.is_near(read.dia, drawn.dia, MOST_OFF_DIA, read.dia_span) {
            return;
        }
        bench
            .statements
            .push(note(Some(drawn.span), PendingSize::Station(id, false)));
        bench.faces.sizes.push(read.dia_span);
        // A cut that ends in its plane was measured from the face; a station is where the caliper was held.
        let with = bench.moved.iter().find(|it| !it.0 && it.1 == drawn.at);
        let at = with.map_or(read.at, |it| it.2);
        let pole = part.station(drawn.from, Length::ZERO);
        if drawn.at != Length::ZERO && drawn.at != bench.drawn.length && read.at != pole {
            bench.moved.push((false, drawn.at, at));
            bench.faces.planes.push((false, at));
        }
        let was = &mut part.stations[here];
        *was = Station {
            span: read.span,
            dia_span: read.dia_span,
            at,
            dia: read.dia,
            step: read.step.or(was.step),
            ..was.clone()
        };
    }
}

impl Bench<'_, '_> {
    /// The drawn station that a measured one stands for, and where it is in the part that is made.
    fn drawn_station(&self, read: &Station, part: &Part) -> Option<(StationId, StationId)> {
        let drawn = self.drawn.stations.with_ids();
        let each = drawn.filter_map(|(id, drawn)| {
            let is = |it: &Station| it.span == drawn.span && it.face == drawn.face;
            let here = part.stations.position(is)?;
            Some((id, here, (part.stations[here].at - read.at).abs()))
        });
        let nearest = each.min_by_key(|it| it.2)?;
        (nearest.2 <= NEAREST_STATION).then_some((nearest.0, nearest.1))
    }

    /// One diameter from end to end.
    fn all_round(
        &mut self,
        drawn: quillet_syntax::Span,
        span: quillet_syntax::Span,
        dia_span: quillet_syntax::Span,
        dia: Length,
        part: &mut Part,
    ) {
        for station in part.stations.iter_mut().filter(|it| it.span == drawn) {
            (station.span, station.dia_span, station.dia) = (span, dia_span, dia);
        }
        self.faces.statements.push(span);
        self.faces.sizes.push(dia_span);
        let ids = self.drawn.stations.with_ids();
        let ids = ids.filter(|it| it.1.span == drawn);
        for (nth, (id, _)) in ids.enumerate() {
            self.statements.push(Pending {
                part: part.name.text.clone(),
                span,
                drawn: Some(drawn),
                what: PendingSize::Station(id, nth > 0),
            });
        }
    }
}
