//! Several parts as one: what of them shows.

use super::cuts::{cuts, sides};
use super::seen::{SAME_MM, laid, shows};
use super::{AsOneMember, Whose, level};
use crate::planes::CutPlanes;
use crate::side_shape::not_round;
use crate::{
    BlankPiece, ById, CutId, CutPart, End, Limits, MadeFaces, Origin, Part, PartFace, PartKind,
    Pen, Profiles, Solid, Station, StationId,
};
use quillet_geometry::envelope::{greatest, smallest};
use quillet_geometry::{Chain, Length, Point, Segment, Shape, Tag};
use quillet_syntax::ast;

/// What the members come to, and whose each of its cuts is; none where it cannot be turned as one.
pub(super) fn part(pen: &Pen, members: &[AsOneMember]) -> Option<(Part, Whose<CutId>)> {
    let parts: Vec<(&AsOneMember, &Part)> = members
        .iter()
        .map(|it| (it, pen.parts[it.part].as_ref()))
        .collect();
    let ends = parts
        .iter()
        .flat_map(|(it, part)| [0.0, part.length.to_mm()].map(|at| it.place.of(at)));
    let length = Length::mm(ends.fold(0.0, f64::max));
    let carrier = parts.first()?.1;
    let solids = Solids::of(&parts, length)?;
    let mut made = Part {
        name: ast::Name {
            text: name(&parts).into(),
            span: carrier.name.span,
        },
        note: None,
        kind: PartKind::Cut(CutPart {
            blanks: blanks(&parts, &solids.turned),
            // Its parts are sawn and weighed, not it.
            stocked: false,
            sides: sides(&parts, &solids.turned, length)?,
            circles: Vec::new(),
            coat: parts.iter().find_map(|it| it.1.coat()).cloned(),
        }),
        ends: Some([End::First, End::Second].map(|end| end_name(&parts, length, end))),
        length,
        length_free: length,
        stations: stations(&parts, &solids.turned),
        outside_known: true,
        whole: true,
        shaped: true,
        features: ById::default(),
        faces: Vec::new(),
        profiles: None,
        limits: Limits::default(),
        accepts: Vec::new(),
        wants: Vec::new(),
        lets: Vec::new(),
        made: MadeFaces::default(),
        ..carrier.clone()
    };
    let (features, of) = cuts(&parts, &solids.turned, &solids.inner, length)?;
    made.features = features;
    made.faces = faces(&made);
    let turned = solids.turned.clone();
    made.profiles = Some(solids.profiles(&made, &turned));
    Some((made, of))
}

fn name(parts: &[(&AsOneMember, &Part)]) -> String {
    let mut names = parts.iter().map(|it| &*it.1.name.text);
    let first = names.next().unwrap_or_default();
    let others: Vec<&str> = names.collect();
    format!("{first} with {}", others.join(" and "))
}

/// The name of what is level with an end, what is seen of it first.
fn end_name(parts: &[(&AsOneMember, &Part)], length: Length, end: End) -> ast::Name {
    let face = match end {
        End::First => 0.0,
        End::Second => length.to_mm(),
    };
    let named = parts.iter().find_map(|(it, part)| {
        let own = level(it, part, face)?;
        Some(part.ends.as_ref()?[own.index()].clone())
    });
    named.unwrap_or_else(|| parts[0].1.name.clone())
}

fn faces(made: &Part) -> Vec<PartFace> {
    let each = [End::First, End::Second].into_iter().filter_map(|end| {
        let name = made.ends.as_ref()?[end.index()].clone();
        Some(PartFace {
            span: name.span,
            name,
            at: made.station(end, Length::ZERO),
            end: Some(end),
        })
    });
    each.collect()
}

/// What of each piece of stock comes to the outside.
fn blanks(parts: &[(&AsOneMember, &Part)], turned: &Chain) -> ById<crate::PieceId, BlankPiece> {
    let mut all: Vec<BlankPiece> = Vec::new();
    for (it, part) in parts {
        for piece in part.blanks().iter() {
            let ends = [piece.from, piece.to].map(|at| Length::mm(it.place.of(at.to_mm())));
            let (from, to) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
            let middle = (from + to).half().to_mm();
            let own = part.profiles.as_ref().map(Profiles::turned);
            let radius = own.and_then(|own| own.greatest_at(it.place.station(middle)));
            if shows(turned, middle, radius.unwrap_or(0.0)) {
                all.push(BlankPiece {
                    from,
                    to,
                    named: None,
                    spigot: None,
                    ..piece.clone()
                });
            }
        }
    }
    all.sort_by_key(|it| it.from);
    all.into_iter().collect()
}

/// The stations that are seen, along the work.
fn stations(parts: &[(&AsOneMember, &Part)], turned: &Chain) -> ById<StationId, Station> {
    let mut all: Vec<Station> = Vec::new();
    for (it, part) in parts {
        let own: Vec<&Station> = part.stations.iter().collect();
        for (index, station) in own.iter().enumerate() {
            let at = it.place.of(station.at.to_mm());
            let leaves = station.step.unwrap_or(station.dia);
            if !shows(turned, at, station.dia.max(leaves).to_mm() / 2.0) {
                continue;
            }
            let placed = Station {
                at: Length::mm(at),
                face: None,
                ..(*station).clone()
            };
            all.push(match it.place.reversed {
                false => placed,
                true => Station {
                    dia: leaves,
                    step: station.step.map(|_| station.dia),
                    shape: own.get(index + 1).map_or(Shape::Straight, |it| it.shape),
                    ..placed
                },
            });
        }
    }
    all.sort_by_key(|it| it.at);
    all.into_iter().collect()
}

/// The shapes of the work.
struct Solids {
    metal: Chain,
    root: Chain,
    crest: Chain,
    /// As it is turned, before flats and all else that no lathe turns.
    turned: Chain,
    inner: Vec<Chain>,
}

impl Solids {
    /// None where what is there is not of one piece.
    fn of(parts: &[(&AsOneMember, &Part)], length: Length) -> Option<Solids> {
        let all: Option<Vec<(&AsOneMember, &Part, &Profiles)>> = parts
            .iter()
            .map(|(it, part)| Some((*it, *part, part.profiles.as_ref()?)))
            .collect();
        let all = all?;
        let union = |outer: &dyn Fn(&Profiles) -> Chain| {
            let each: Vec<Chain> = all
                .iter()
                .map(|(it, _, profiles)| laid(&outer(profiles), it.place))
                .collect();
            let mut made = greatest(&each, 0.0, length.to_mm()).into_iter();
            made.next().filter(|_| made.next().is_none())
        };
        let holes: Vec<Chain> = all
            .iter()
            .filter_map(|(it, part, profiles)| Some(laid(&holes(part, profiles)?, it.place)))
            .collect();
        Some(Solids {
            metal: plain(&union(&|it| it.metal.outer.clone())?),
            root: plain(&union(&|it| it.root.outer.clone())?),
            crest: plain(&union(&|it| it.crest.outer.clone())?),
            turned: plain(&union(&|it| it.turned().clone())?),
            inner: smallest(&holes).iter().flat_map(open).collect(),
        })
    }

    fn profiles(self, made: &Part, turned: &Chain) -> Profiles {
        let inner = self.inner;
        let solid = |outer: Chain| Solid {
            outer,
            inner: inner.clone(),
        };
        Profiles {
            metal: solid(self.metal),
            root: solid(self.root),
            crest: solid(self.crest),
            not_round: not_round(made, turned),
            origins: vec![Origin::Outside(StationId::nth(0))],
            planes: CutPlanes::of(&made.features, made.length),
        }
    }
}

/// A chain whose pieces tell nothing of what made them: that is another part's.
fn plain(chain: &Chain) -> Chain {
    let pieces = chain
        .segments()
        .iter()
        .map(|it| Segment { tag: Tag(0), ..*it });
    Chain::new(pieces).unwrap_or_else(|| chain.clone())
}

/// How wide a part is hollow at each of its stations: nought where it is solid.
fn holes(part: &Part, profiles: &Profiles) -> Option<Chain> {
    let solid = Chain::polyline(
        Tag(0),
        &[Point::new(0.0, 0.0), Point::new(part.length.to_mm(), 0.0)],
    )?;
    let all: Vec<Chain> = profiles
        .crest
        .inner
        .iter()
        .cloned()
        .chain([solid])
        .collect();
    greatest(&all, 0.0, part.length.to_mm()).into_iter().next()
}

/// The stretches of a hole that are open.
fn open(hole: &Chain) -> Vec<Chain> {
    let wide = |it: &&Segment| it.curve.start().r > SAME_MM || it.curve.end().r > SAME_MM;
    let mut found: Vec<Vec<Segment>> = Vec::new();
    let mut last_end = f64::NAN;
    for piece in hole.segments().iter().filter(wide) {
        let follows = (piece.curve.start().z - last_end).abs() < SAME_MM;
        match found.last_mut().filter(|_| follows) {
            Some(run) => run.push(*piece),
            None => found.push(vec![*piece]),
        }
        last_end = piece.curve.end().z;
    }
    found.into_iter().filter_map(plain_run).collect()
}

fn plain_run(pieces: Vec<Segment>) -> Option<Chain> {
    let tagged = pieces.into_iter().map(|it| Segment { tag: Tag(0), ..it });
    Chain::new(tagged)
}
