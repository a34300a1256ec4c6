//! A glued stack: which piece of the blank, or the glue, lies where.

use crate::{BlankPiece, Feature, Material, Part, PieceId, Profiles, Solid};
use quillet_geometry::envelope::{greatest, smallest};
use quillet_geometry::{Chain, Length, Moments, Point, Properties, Tag};
use quillet_standards::material as kinds;
use std::sync::Arc;

/// A body of one material that a part is made up of.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// What it is.
    pub of: Filling,
    /// Density, g/cm³.
    pub density_g_cm3: f64,
    /// Its outside, a chain for each unbroken stretch.
    pub outer: Vec<Chain>,
    /// Its bores.
    pub inner: Vec<Chain>,
    /// What is cut of it besides; none where it is round.
    pub taken: Option<Moments>,
}

/// What fills a place in a glued stack.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Filling {
    /// A piece of the blank.
    Piece(PieceId),
    /// The glue round the spigot of a piece.
    Glue(PieceId),
}

impl Body {
    /// Its volume and where it lies.
    pub fn properties(&self) -> Properties {
        let turned = Properties::between(&self.outer, &self.inner);
        self.taken
            .map_or(turned, |taken| (Moments::from(turned) - taken).properties())
    }
}

impl Part {
    /// The material at a station, at the outside; the last piece's where none reaches it.
    pub fn material_at(&self, station: Length) -> Option<&Arc<Material>> {
        self.blanks()
            .iter()
            .find(|piece| station < piece.to)
            .or(self.blanks().last())
            .map(|piece| &piece.stock.material)
    }

    /// The material at a station and at a radius: inside a spigot it is the spigot's. In its glue,
    /// what is glued around it.
    pub fn material_in(&self, station: Length, radius: Length) -> Option<&Arc<Material>> {
        let spigot = self.blanks().iter().rfind(|piece| {
            piece.spigot.is_some_and(|spigot| {
                radius.twice() < spigot.dia
                    && (piece.from - spigot.length..piece.from).contains(&station)
            })
        });
        match spigot {
            Some(piece) => Some(&piece.stock.material),
            None => self.material_at(station),
        }
    }

    /// The materials that a surface at this radius meets from one station to another, each once, in
    /// their order: what a thread or a groove is cut in.
    pub fn materials_along(&self, from: Length, to: Length, radius: Length) -> Vec<&Arc<Material>> {
        let edges = self.blanks().iter().flat_map(|piece| {
            let spigot = piece.spigot.map(|spigot| piece.from - spigot.length);
            [Some(piece.from), spigot].into_iter().flatten()
        });
        let mut edges: Vec<Length> = edges.filter(|at| from < *at && *at < to).collect();
        edges.extend([from, to]);
        edges.sort_unstable();
        let mut met: Vec<&Arc<Material>> = Vec::new();
        for pair in edges.windows(2) {
            let middle = pair[0] + (pair[1] - pair[0]).half();
            if let Some(material) = self.material_in(middle, radius)
                && !met.iter().any(|known| Arc::ptr_eq(known, material))
            {
                met.push(material);
            }
        }
        met
    }

    /// The materials that a cut thread lies in, judged at its pitch diameter; none for other cuts.
    pub fn thread_materials(&self, cut: &Feature) -> Vec<&Arc<Material>> {
        let Some((thread, _)) = cut.thread() else {
            return Vec::new();
        };
        let (from, to) = cut.stations(self.length);
        self.materials_along(from, to, thread.thread.pitch_diameter().half())
    }

    /// The bodies that a cut part is made up of: one for each piece of its blank, its spigot with
    /// it and the sockets of later ones bored out, and one for the glue in each socket's gap.
    /// Together they fill the part.
    pub fn bodies(&self) -> Vec<Body> {
        let Some(profiles) = &self.profiles else {
            return Vec::new();
        };
        let metal = &profiles.metal;
        if let [only] = &**self.blanks() {
            return vec![Body {
                of: Filling::Piece(PieceId::FIRST),
                density_g_cm3: only.stock.material.density_g_cm3,
                outer: vec![metal.outer.clone()],
                inner: metal.inner.clone(),
                taken: taken(
                    profiles,
                    std::slice::from_ref(&metal.outer),
                    &metal.inner,
                    true,
                ),
            }];
        }
        let mut bodies = Vec::with_capacity(self.blanks().len());
        for (index, piece) in self.blanks().with_ids() {
            let (_, later) = self.blanks().around(index);
            let sockets: Vec<Chain> = later.iter().filter_map(socket).collect();
            let stretch = metal.outer.between(piece.from.to_mm(), piece.to.to_mm());
            let mut regions = vec![region(metal, stretch.into_iter().collect(), &sockets)];
            if let Some(spigot) = spigot(piece).filter(|_| index.before().is_some()) {
                regions.push(region(metal, under(metal, &spigot), &sockets));
                if let Some(gap) = socket(piece).filter(|_| is_gap(piece)) {
                    let taken: Vec<Chain> = sockets.iter().cloned().chain([spigot]).collect();
                    let (outer, inner) = region(metal, under(metal, &gap), &taken);
                    bodies.push(Body {
                        of: Filling::Glue(index),
                        density_g_cm3: kinds::glue().typical_kg_m3 / 1000.0,
                        taken: self::taken(profiles, &outer, &inner, false),
                        outer,
                        inner,
                    });
                }
            }
            let cut = regions.iter().enumerate();
            let cut = cut.filter_map(|(at, (outer, inner))| taken(profiles, outer, inner, at == 0));
            let cut = cut.reduce(|sum, it| sum + it);
            let (outer, inner) = regions.into_iter().fold(
                (Vec::new(), Vec::new()),
                |(mut outers, mut inners), (outer, inner)| {
                    outers.extend(outer);
                    inners.extend(inner);
                    (outers, inners)
                },
            );
            bodies.push(Body {
                of: Filling::Piece(index),
                density_g_cm3: piece.stock.material.density_g_cm3,
                outer,
                inner,
                taken: cut,
            });
        }
        bodies
    }
}

/// What is cut of a region besides; none of a part that is round.
fn taken(
    profiles: &Profiles,
    outer: &[Chain],
    inner: &[Chain],
    outermost: bool,
) -> Option<Moments> {
    let cuts = &profiles.not_round;
    (!cuts.is_empty()).then(|| cuts.taken(outer, inner, outermost))
}

fn is_gap(piece: &BlankPiece) -> bool {
    piece.spigot.is_some_and(|spigot| spigot.gap.is_positive())
}

/// The round of a piece's spigot.
fn spigot(piece: &BlankPiece) -> Option<Chain> {
    let spigot = piece.spigot?;
    round(piece, spigot.length, spigot.dia)
}

/// The round that is bored for a piece's spigot, the gap for its glue with it.
fn socket(piece: &BlankPiece) -> Option<Chain> {
    let spigot = piece.spigot?;
    round(piece, spigot.length, spigot.dia + spigot.gap)
}

fn round(piece: &BlankPiece, length: Length, dia: Length) -> Option<Chain> {
    let radius = dia.to_mm() / 2.0;
    let (from, to) = ((piece.from - length).to_mm().max(0.0), piece.from.to_mm());
    Chain::polyline(
        Tag::default(),
        &[Point::new(from, radius), Point::new(to, radius)],
    )
}

/// What a round leaves of the metal's outside.
fn under(metal: &Solid, round: &Chain) -> Vec<Chain> {
    let outside = metal.outer.between(round.start().z, round.end().z);
    outside.map_or(Vec::new(), |outside| smallest(&[outside, round.clone()]))
}

/// The outsides, and what is bored in them: the part's bores and these sockets.
fn region(metal: &Solid, outer: Vec<Chain>, sockets: &[Chain]) -> (Vec<Chain>, Vec<Chain>) {
    let bored: Vec<Chain> = metal.inner.iter().chain(sockets).cloned().collect();
    let inner = outer.iter().flat_map(|outside| {
        let (from, to) = (outside.start().z, outside.end().z);
        // No more is bored away than there is.
        let inside = |bore: Chain| {
            let over = outside.between(bore.start().z, bore.end().z);
            smallest(&over.into_iter().chain([bore]).collect::<Vec<_>>())
        };
        greatest(&bored, from, to).into_iter().flat_map(inside)
    });
    let inner = inner.collect();
    (outer, inner)
}
