//! What a part is: cut at the bench, bought and measured, or an O-ring.

use crate::{
    BlankPiece, ById, CircleHoles, CircleId, Coat, GivenMass, Part, PieceId, Ring, SideCut, SideId,
    Stock, Throw,
};
use quillet_geometry::Length;
use quillet_syntax::{Span, ast};

/// What a part is, and what only a part of its kind has.
#[derive(Clone, Debug)]
pub enum PartKind {
    /// Cut by the maker.
    Cut(CutPart),
    /// Bought and measured.
    Bought(BoughtPart),
    /// Bought, and given by a ring's inside and cord.
    Ring(RingPart),
}

/// What only a part that is cut has.
#[derive(Clone, Debug, Default)]
pub struct CutPart {
    /// The stock it is cut from, one piece or a glued stack, from the first end.
    pub blanks: ById<PieceId, BlankPiece>,
    /// Whether all that it is cut from could be read.
    pub stocked: bool,
    /// What is cut from the side, in the order written.
    pub sides: Vec<SideCut>,
    /// Holes from an end that lie on a pitch circle, in the order written.
    pub circles: Vec<CircleHoles>,
    /// The coat on what is turned.
    pub coat: Option<Coat>,
}

/// What only a bought part has.
#[derive(Clone, Debug, Default)]
pub struct BoughtPart {
    /// Its title.
    pub title: Option<ast::Text>,
    /// Its mass, dry.
    pub mass: Option<GivenMass>,
    /// Ink it holds, millilitres.
    pub holds_ml: Option<f64>,
    /// A clip's arm: drawn and weighed, never in the way; and where it is said.
    pub arm: Option<(Length, Span)>,
    /// What it draws back, each from an end of its own.
    pub throws: Vec<Throw>,
    /// A magnet's pull on its like in contact, newtons.
    pub pulls_n: Option<f64>,
    /// The least and greatest diameter that it holds by itself.
    pub grips: Option<(Length, Length)>,
}

/// What only an O-ring has.
#[derive(Clone, Debug)]
pub struct RingPart {
    /// Its title.
    pub title: Option<ast::Text>,
    /// Its mass, where said.
    pub mass: Option<GivenMass>,
    /// Its inside diameter and cord.
    pub size: Ring,
}

impl Part {
    /// Whether it is bought, rings with it.
    pub fn is_bought(&self) -> bool {
        !matches!(self.kind, PartKind::Cut(_))
    }

    /// A bought part's title.
    pub fn title(&self) -> Option<&ast::Text> {
        match &self.kind {
            PartKind::Cut(_) => None,
            PartKind::Bought(it) => it.title.as_ref(),
            PartKind::Ring(it) => it.title.as_ref(),
        }
    }

    /// What it is cut from, from the first end; nothing where it is bought.
    pub fn blanks(&self) -> &ById<PieceId, BlankPiece> {
        static NONE: ById<PieceId, BlankPiece> = ById::EMPTY;
        match &self.kind {
            PartKind::Cut(it) => &it.blanks,
            PartKind::Bought(_) | PartKind::Ring(_) => &NONE,
        }
    }

    /// The tube that all of it is cut from: where nothing is said its outside is the tube's. None where
    /// any of it is cut from something else, or from tubes of several diameters.
    pub fn tube(&self) -> Option<&Stock> {
        let first = &self.blanks().first()?.stock;
        let alike = |it: &BlankPiece| it.stock.wall.is_some() && it.stock.size == first.size;
        self.blanks().iter().all(alike).then_some(first)
    }

    /// A bought part's mass as it is written.
    pub fn stated_mass(&self) -> Option<GivenMass> {
        match &self.kind {
            PartKind::Cut(_) => None,
            PartKind::Bought(it) => it.mass,
            PartKind::Ring(it) => it.mass,
        }
    }

    /// Ink that a bought part holds, millilitres.
    pub fn holds_ml(&self) -> Option<f64> {
        self.bought()?.holds_ml
    }

    /// A bought clip's arm.
    pub fn arm(&self) -> Option<Length> {
        Some(self.bought()?.arm?.0)
    }

    /// What is cut from the side, in the order written.
    pub fn sides(&self) -> &[SideCut] {
        self.cut().map_or(&[], |it| &it.sides)
    }

    /// One of them.
    pub fn side(&self, id: SideId) -> Option<&SideCut> {
        self.sides().get(id.index())
    }

    /// Holes from an end that lie on a pitch circle.
    pub fn circles(&self) -> &[CircleHoles] {
        self.cut().map_or(&[], |it| &it.circles)
    }

    /// Holes of one statement among them.
    pub fn circle(&self, id: CircleId) -> Option<&CircleHoles> {
        self.circles().get(id.index())
    }

    /// The coat on what is turned.
    pub fn coat(&self) -> Option<&Coat> {
        self.cut()?.coat.as_ref()
    }

    /// What a coat takes up of a diameter: what is turned and sanded is so much less than written.
    pub fn coat_on_dia(&self) -> Length {
        self.coat()
            .map_or(Length::ZERO, |coat| coat.thickness.twice())
    }

    /// What a mechanism draws back, each from an end of its own.
    pub fn throws(&self) -> &[Throw] {
        self.bought().map_or(&[], |it| &it.throws)
    }

    /// A magnet's pull on its like in contact, newtons.
    pub fn pulls_n(&self) -> Option<f64> {
        self.bought()?.pulls_n
    }

    /// The least and greatest diameter that it holds by itself.
    pub fn grips(&self) -> Option<(Length, Length)> {
        self.bought()?.grips
    }

    /// An O-ring's inside diameter and cord.
    pub fn ring(&self) -> Option<&Ring> {
        match &self.kind {
            PartKind::Ring(it) => Some(&it.size),
            PartKind::Cut(_) | PartKind::Bought(_) => None,
        }
    }

    fn cut(&self) -> Option<&CutPart> {
        match &self.kind {
            PartKind::Cut(it) => Some(it),
            PartKind::Bought(_) | PartKind::Ring(_) => None,
        }
    }

    /// What only a bought part has.
    pub fn bought(&self) -> Option<&BoughtPart> {
        match &self.kind {
            PartKind::Bought(it) => Some(it),
            PartKind::Cut(_) | PartKind::Ring(_) => None,
        }
    }
}
