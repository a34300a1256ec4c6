//! The cut list: what is sawn off which stock.

use crate::output::packing::{Packing, least_rods, pack, pack_in_order};
use crate::{Plan, Route};
use quillet_geometry::Length;
use quillet_model::{Bench, BlankPiece, End, Filling, Material, PieceId};
use quillet_syntax::ast::StockSection;
use std::f64::consts::FRAC_PI_4;
use std::sync::Arc;

/// What is sawn off which stock.
#[derive(Clone, Debug)]
pub struct CutList {
    /// One for each kind of stock, in the order the parts are made.
    pub stocks: Vec<CutStock>,
    /// The saw's kerf reckoned with.
    pub kerf: Length,
}

/// One kind of stock with the pieces cut from it.
#[derive(Clone, Debug)]
pub struct CutStock {
    /// The name of the blank, where it has one.
    pub name: Option<Arc<str>>,
    /// The material.
    pub material: Arc<Material>,
    /// Round, square or a tube.
    pub section: StockSection,
    /// Diameter, or side of the square.
    pub size: Length,
    /// A tube's wall.
    pub wall: Option<Length>,
    /// The length it comes in, where said.
    pub length: Option<Length>,
    /// Its pieces keep the order of the pen, so that grain or pattern runs on.
    pub matched: bool,
    /// The pieces, longest first unless they are matched.
    pub pieces: Vec<CutPiece>,
    /// How the pieces lie on rods, where their length is said.
    pub packing: Option<Packing>,
}

/// A plan in a batch, with how many of its pen are made.
#[derive(Clone, Copy, Debug)]
pub struct BatchMember<'p> {
    /// How the pen is made.
    pub plan: &'p Plan,
    /// The bench it is made at.
    pub bench: Option<&'p Bench>,
    /// The pen's name, where pieces of several pens have to be told apart.
    pub pen: Option<&'p Arc<str>>,
    /// How many; more than one are told apart by their number.
    pub count: u32,
}

/// One piece to saw.
#[derive(Clone, Debug, PartialEq)]
pub struct CutPiece {
    /// The pen, where pieces of several are sawn together.
    pub pen: Option<Arc<str>>,
    /// Which of several pens alike, from 1; none where there is one.
    pub number: Option<u32>,
    /// The part.
    pub part: Arc<str>,
    /// Which of its pieces, and of how many.
    pub piece: (PieceId, usize),
    /// How long to saw it.
    pub length: Length,
    /// What the sawn piece takes of the stock, mm³.
    pub blank_mm3: f64,
    /// What of it stays in the finished part, mm³; none where its shape is not known.
    pub kept_mm3: Option<f64>,
    /// What of that is the part.
    pub net: Length,
    /// What of that is faced off, both ends.
    pub facing: Length,
    /// What of that is a centre nub.
    pub nub: Length,
    /// What of that is gripped and parted off, the parting cut counted.
    pub stub: Length,
    /// What of that is a spigot and glue faces.
    pub spigot: Length,
    /// How far the point of the deepest blind drill comes from the far face: what is left of
    /// the end, facing and nub not counted.
    pub past_point: Option<Length>,
}

/// A saw cut where the bench says none (common practice, no published source).
pub const USUAL_KERF: Length = Length::from_nm(1_500_000);

impl CutList {
    /// The cut list of a plan.
    pub fn of(plan: &Plan, bench: Option<&Bench>) -> CutList {
        CutList::of_batch(&[BatchMember {
            plan,
            bench,
            pen: None,
            count: 1,
        }])
    }

    /// The cut list of several plans sawn together, with the widest kerf of their benches.
    pub fn of_batch(members: &[BatchMember<'_>]) -> CutList {
        let kerf = |it: &BatchMember| it.bench.and_then(|bench| bench.kerf).unwrap_or(USUAL_KERF);
        let kerf = members.iter().map(kerf).max().unwrap_or(USUAL_KERF);
        let mut stocks: Vec<CutStock> = Vec::new();
        for member in members {
            for number in 1..=member.count {
                member.saw(number, &mut stocks);
            }
        }
        for stock in &mut stocks {
            stock.pack(kerf);
        }
        CutList { stocks, kerf }
    }
}

impl CutPiece {
    /// The share of the sawn piece that does not stay in the part, 0 to 1; none where that is not known.
    pub fn turned_off(&self) -> Option<f64> {
        let kept = self.kept_mm3.filter(|_| self.blank_mm3 > 0.0)?;
        Some((1.0 - kept / self.blank_mm3).clamp(0.0, 1.0))
    }
}

impl BatchMember<'_> {
    /// Puts the pieces of one pen of it to the stocks they are sawn off.
    fn saw(&self, number: u32, stocks: &mut Vec<CutStock>) {
        // What is turned as one is sawn as its parts.
        for route in self.plan.routes.iter().filter(|it| it.turns.is_none()) {
            for (index, piece) in route.part.blanks().with_ids() {
                let cut = CutPiece {
                    pen: self.pen.cloned(),
                    number: (self.count > 1).then_some(number),
                    ..cut_piece(route, index, piece)
                };
                match stocks.iter_mut().find(|stock| stock.is(piece)) {
                    Some(stock) => stock.pieces.push(cut),
                    None => stocks.push(CutStock {
                        pieces: vec![cut],
                        ..CutStock::of(piece)
                    }),
                }
            }
        }
    }
}

impl CutStock {
    fn of(piece: &BlankPiece) -> CutStock {
        CutStock {
            name: piece.named.as_ref().map(|it| it.name.text.clone()),
            material: piece.stock.material.clone(),
            section: piece.stock.section,
            size: piece.stock.size,
            wall: piece.stock.wall,
            length: piece.stock.length,
            matched: piece.named.as_ref().is_some_and(|it| it.matched.is_some()),
            pieces: Vec::new(),
            packing: None,
        }
    }

    fn is(&self, piece: &BlankPiece) -> bool {
        self.name.as_deref() == piece.named.as_ref().map(|it| &*it.name.text)
            && self.material.name == piece.stock.material.name
            && self.section == piece.stock.section
            && self.size == piece.stock.size
            && self.wall == piece.stock.wall
            && self.length == piece.stock.length
    }

    fn pack(&mut self, kerf: Length) {
        if !self.matched {
            self.pieces
                .sort_by_key(|piece| std::cmp::Reverse(piece.length));
        }
        let lengths: Vec<Length> = self.pieces.iter().map(|piece| piece.length).collect();
        let packed = |rod| match self.matched {
            true => pack_in_order(&lengths, rod, kerf),
            false => pack(&lengths, rod, kerf),
        };
        self.packing = self.length.map(packed);
    }

    /// No packing takes fewer lengths of the stock; none where its length is not said.
    pub fn least_lengths(&self, kerf: Length) -> Option<usize> {
        let lengths: Vec<Length> = self.pieces.iter().map(|piece| piece.length).collect();
        self.length.map(|rod| least_rods(&lengths, rod, kerf))
    }

    /// What all pieces and the cuts between them come to, end to end.
    pub fn total(&self, kerf: Length) -> Length {
        let cuts = i64::try_from(self.pieces.len().saturating_sub(1)).unwrap_or(0);
        let pieces: Length = self.pieces.iter().map(|piece| piece.length).sum();
        pieces + kerf * cuts
    }
}

fn cut_piece(route: &Route, index: PieceId, piece: &BlankPiece) -> CutPiece {
    let blank = &route.blank;
    let count = route.part.blanks().len();
    let at_end = |end: End| match end {
        End::First => index.number() == 1,
        End::Second => index.number() == count,
    };
    let ends = [End::First, End::Second]
        .into_iter()
        .filter(|end| at_end(*end));
    let facing: Length = ends.map(|end| blank.facing[end.index()]).sum();
    let nub = blank.nub.map(|it| (it.end, it.length));
    let beyond = |it: Option<(End, Length)>| {
        it.filter(|(end, _)| at_end(*end))
            .map_or(Length::ZERO, |(_, length)| length)
    };
    let length = blank.pieces.get(index).copied().unwrap_or_default();
    let net = piece.to - piece.from;
    let (nub, stub) = (beyond(nub), beyond(blank.stub));
    let body = route.part.bodies().into_iter();
    let mut body = body.filter(|body| body.of == Filling::Piece(index));
    CutPiece {
        pen: None,
        number: None,
        blank_mm3: section_mm2(piece) * length.to_mm(),
        kept_mm3: body.next().map(|body| body.properties().volume_mm3),
        part: route.part.name.text.clone(),
        piece: (index, count),
        length,
        net,
        facing,
        nub,
        stub,
        spigot: length - net - facing - nub - stub,
        past_point: past_point(route).filter(|_| at_end(route.strategy.first.other())),
    }
}

/// The face of a piece of stock, mm².
fn section_mm2(piece: &BlankPiece) -> f64 {
    let stock = &piece.stock;
    let size = stock.size.to_mm();
    let round = |dia: f64| FRAC_PI_4 * dia * dia;
    match (stock.section, stock.wall) {
        (StockSection::Square, _) => size * size,
        (StockSection::Tube, Some(wall)) => round(size) - round(size - 2.0 * wall.to_mm()),
        _ => round(size),
    }
}

/// What is left beyond the deepest blind drill's point.
fn past_point(route: &Route) -> Option<Length> {
    let depths = route.operations.iter().filter_map(|it| it.depth);
    let from_first = depths.filter(|depth| depth.from == route.strategy.first);
    let deepest = from_first.filter_map(|depth| depth.to_point).max()?;
    let left = route.part.length - deepest;
    left.is_positive().then_some(left)
}
