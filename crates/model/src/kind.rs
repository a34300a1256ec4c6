//! What a part is: cut at the bench, bought and measured, or an O-ring.

use crate::{BlankPiece, GivenMass, Part, Ring};
use quillet_geometry::Length;
use quillet_syntax::ast;

/// What a part is, and what only a part of its kind has.
#[derive(Debug)]
pub enum PartKind {
    /// Cut by the maker.
    Cut(CutPart),
    /// Bought and measured.
    Bought(BoughtPart),
    /// Bought, and given by a ring's inside and cord.
    Ring(RingPart),
}

/// What only a part that is cut has.
#[derive(Debug, Default)]
pub struct CutPart {
    /// The stock it is cut from, one piece or a glued stack, from the first end.
    pub blanks: Vec<BlankPiece>,
    /// Whether all that it is cut from could be read.
    pub stocked: bool,
}

/// What only a bought part has.
#[derive(Debug, Default)]
pub struct BoughtPart {
    /// Its title.
    pub title: Option<ast::Text>,
    /// Its mass, dry.
    pub mass: Option<GivenMass>,
    /// Ink it holds, millilitres.
    pub holds_ml: Option<f64>,
    /// A clip's arm: drawn and weighed, never in the way.
    pub arm: Option<Length>,
}

/// What only an O-ring has.
#[derive(Debug)]
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
    pub fn blanks(&self) -> &[BlankPiece] {
        match &self.kind {
            PartKind::Cut(it) => &it.blanks,
            PartKind::Bought(_) | PartKind::Ring(_) => &[],
        }
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
        self.bought()?.arm
    }

    /// An O-ring's inside diameter and cord.
    pub fn ring(&self) -> Option<&Ring> {
        match &self.kind {
            PartKind::Ring(it) => Some(&it.size),
            PartKind::Cut(_) | PartKind::Bought(_) => None,
        }
    }

    fn bought(&self) -> Option<&BoughtPart> {
        match &self.kind {
            PartKind::Bought(it) => Some(it),
            PartKind::Cut(_) | PartKind::Ring(_) => None,
        }
    }
}
