//! A part: a solid of revolution described by stations and cuts.

pub(crate) mod kind;
pub(crate) mod missing;
pub(crate) mod worked;

use crate::{
    Acceptance, ById, Cut, CutId, End, Feature, Limits, MadeFaces, Material, PartKind, Profiles,
    Quantity, StationId, Want,
};
use missing::MissingData;
use quillet_geometry::{Edge, Length, Limits as SizeLimits, Shape};
use quillet_standards::Source;
use quillet_standards::material::Family;
use quillet_syntax::{Span, ast};
use std::sync::Arc;
use worked::Worked;

/// A part, cut by the maker or bought and measured.
#[derive(Clone, Debug)]
pub struct Part {
    /// Its name.
    pub name: ast::Name,
    /// The comment lines above it.
    pub note: Option<ast::Text>,
    /// What it is, and what only a part of its kind has.
    pub kind: PartKind,
    /// The whole item.
    pub span: Span,
    /// The item's block; the item's name where there is none.
    pub block: Span,
    /// Its ends as named; a part that is only a ring has none.
    pub ends: Option<[ast::Name; 2]>,
    /// Length from the first end to the second; a springy part's least.
    pub length: Length,
    /// A springy part's greatest length, else `length`.
    pub length_free: Length,
    /// Where the length is said.
    pub length_span: Span,
    /// The stations of the outside, sorted along the part.
    pub stations: ById<StationId, Station>,
    /// Whether every station written could be read; where not, the outside is a guess, and
    /// what it leaves of wall is not worth telling.
    pub outside_known: bool,
    /// Whether all that is written of it could be read; where not, what it does in a pen is a
    /// guess and not worth telling.
    pub whole: bool,
    /// Whether all that gives its shape could be read, and leaves one: where not, no figure
    /// of it is told.
    pub shaped: bool,
    /// The cuts, those from the first end first, each end's in the order written.
    pub features: ById<CutId, Feature>,
    /// The named faces, ends included.
    pub faces: Vec<PartFace>,
    /// What is left when all is cut; none where too little could be resolved.
    pub profiles: Option<Profiles>,
    /// The bench it names.
    pub bench: Option<ast::Name>,
    /// Its thresholds.
    pub limits: Limits,
    /// What is accepted in it.
    pub accepts: Vec<Acceptance>,
    /// What is wanted of it.
    pub wants: Vec<Want>,
    /// Its own `let`s, evaluated.
    pub lets: Vec<(ast::Name, Quantity)>,
    /// What of it is made, in a pen that is.
    pub made: MadeFaces,
    /// What is worked out of it.
    pub(crate) worked: Worked,
}

impl Part {
    /// Whether its first line could not be read to the end: a part that is cut always has two ends.
    pub fn lacks_ends(&self) -> bool {
        let ends = self.ends.as_ref();
        !self.is_bought() && ends.is_none_or(|ends| ends.iter().any(|end| end.text.is_empty()))
    }

    /// What is missing to tell its volume and its walls.
    pub fn lacks_shape(&self) -> Option<MissingData> {
        (!self.shaped).then_some(MissingData::Shape)
    }

    /// What is missing to tell what it weighs.
    pub fn lacks_mass(&self) -> Option<MissingData> {
        if let Some(lacks) = self.lacks_shape() {
            return Some(lacks);
        }
        match &self.kind {
            PartKind::Cut(it) => {
                (!it.stocked || it.blanks.is_empty()).then_some(MissingData::Stock)
            }
            _ if !self.whole => Some(MissingData::Reading),
            _ => self.given_mass().is_none().then_some(MissingData::Mass),
        }
    }

    /// What is missing to make it: its shape, or what it is cut from. What is bought is not made.
    pub fn lacks_making(&self) -> Option<MissingData> {
        self.lacks_mass().filter(|_| !self.is_bought())
    }

    /// An end's name; `face` where the part is a ring without ends.
    pub fn end_name(&self, end: End) -> &str {
        self.ends
            .as_ref()
            .map_or("face", |ends| &ends[end.index()].text)
    }

    /// The end of a name.
    pub fn end(&self, name: &str) -> Option<End> {
        let ends = self.ends.as_ref()?;
        [End::First, End::Second]
            .into_iter()
            .find(|end| &*ends[end.index()].text == name)
    }

    /// The station at a distance inward from an end's face.
    pub fn station(&self, end: End, inward: Length) -> Length {
        match end {
            End::First => inward,
            End::Second => self.length - inward,
        }
    }

    /// The face of a name: an end's own, or one named by `as`.
    pub fn face(&self, name: &str) -> Option<&PartFace> {
        self.faces.iter().find(|face| &*face.name.text == name)
    }

    /// The limits of a tenon that an outside thread is cut on, and where they come
    /// from: those of the thread's class, of plastics the lower half, since they swell under a die.
    pub fn tenon(&self, cut: &Feature) -> Option<(SizeLimits, Source)> {
        match cut.cut {
            Cut::Tenon { .. } => self.land(cut.end, cut.from, cut.to),
            _ => None,
        }
    }

    /// The same for what lies between two distances from an end's face.
    pub fn land(&self, end: End, from: Length, to: Length) -> Option<(SizeLimits, Source)> {
        let thread = self.features.iter().find_map(|it| {
            let (thread, side) = it.thread()?;
            let outside = side == ast::Side::Outside && it.end == end;
            (outside && it.from < to && it.to > from).then_some(thread)
        });
        let tenon = thread?.thread.tenon().ok()?;
        let material = self.material_in(self.station(end, from), tenon.default.half());
        let metal = material.is_none_or(|it| it.kind.family() == Family::Metal);
        let limits = if metal { tenon.range } else { tenon.in_plastic };
        Some((limits, tenon.source))
    }
}

/// Stock: what a blank is sawn from.
#[derive(Clone, Debug)]
pub struct Stock {
    /// The phrase.
    pub span: Span,
    /// The material.
    pub material: Arc<Material>,
    /// Round, square or a tube.
    pub section: ast::StockSection,
    /// Diameter, or side of the square.
    pub size: Length,
    /// A tube's wall.
    pub wall: Option<Length>,
    /// Length, where said.
    pub length: Option<Length>,
}

impl Stock {
    /// The diameter of the bore that a tube comes with.
    pub fn tube_bore(&self) -> Option<Length> {
        Some(self.size - self.wall?.twice())
    }
}

/// `blank name of material rod D by L`, resolved.
#[derive(Clone, Debug)]
pub struct BlankDef {
    /// Its name.
    pub name: ast::Name,
    /// The item.
    pub span: Span,
    /// The stock.
    pub stock: Stock,
    /// `matched`: its parts follow each other in the order of the pen.
    pub matched: Option<Span>,
}

/// One piece of a blank, with the stretch of the part it becomes.
#[derive(Clone, Debug)]
pub struct BlankPiece {
    /// The statement.
    pub span: Span,
    /// The stock.
    pub stock: Stock,
    /// The named blank it is, where it is one.
    pub named: Option<Arc<BlankDef>>,
    /// Where the stretch begins, a station.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// The spigot that locates it in the piece before.
    pub spigot: Option<Spigot>,
}

/// A spigot of a glued piece.
#[derive(Clone, Copy, Debug)]
pub struct Spigot {
    /// The phrase.
    pub span: Span,
    /// Diameter.
    pub dia: Length,
    /// Length.
    pub length: Length,
    /// Glue gap, on diameter.
    pub gap: Length,
    /// Where the gap is said, if it is.
    pub gap_span: Option<Span>,
}

/// A station of the outside, resolved.
#[derive(Clone, Debug)]
pub struct Station {
    /// The statement.
    pub span: Span,
    /// Where the diameter is written.
    pub dia_span: Span,
    /// Distance from the first end.
    pub at: Length,
    /// The end that it is written from.
    pub from: End,
    /// The diameter the surface arrives at.
    pub dia: Length,
    /// The diameter it leaves at, where it steps.
    pub step: Option<Length>,
    /// How the surface comes to it.
    pub shape: Shape,
    /// Its broken corner.
    pub edge: Option<Edge>,
    /// Its face.
    pub face: Option<ast::Name>,
}

/// A face that a joint or a measure can name.
#[derive(Clone, Debug)]
pub struct PartFace {
    /// Its name.
    pub name: ast::Name,
    /// The statement that makes it.
    pub span: Span,
    /// Its station.
    pub at: Length,
    /// Which end it is, where it is one.
    pub end: Option<End>,
}

/// `mass G [at Z]`
#[derive(Clone, Copy, Debug)]
pub struct GivenMass {
    /// The statement.
    pub span: Span,
    /// Grams, dry.
    pub mass_g: f64,
    /// Station of its centre of mass; half the length where not said.
    pub at: Option<Length>,
}

/// `ring INSIDE by CORD`
#[derive(Clone, Copy, Debug)]
pub struct Ring {
    /// The statement.
    pub span: Span,
    /// Inside diameter.
    pub inside: Length,
    /// Cord diameter.
    pub cord: Length,
}
