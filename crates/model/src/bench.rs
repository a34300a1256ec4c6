//! What is on a bench.

use crate::{DrillName, Hand, Limits, ThreadDef};
use quillet_geometry::Length;
use quillet_syntax::{Span, ast};
use std::sync::Arc;

/// A bench.
#[derive(Clone, Debug)]
pub struct Bench {
    /// Its name.
    pub name: ast::Name,
    /// Its title.
    pub title: Option<ast::Text>,
    /// The whole item.
    pub span: Span,
    /// Its block.
    pub block: Span,
    /// Drills, smallest first.
    pub drills: Vec<BenchDrill>,
    /// Flat-bottomed drills and counterbores, by diameter.
    pub flats: Vec<Length>,
    /// Boring bars, the slimmest first.
    pub boring: Vec<BoringBar>,
    /// Reamers, by diameter.
    pub reamers: Vec<Length>,
    /// Collets, by the diameter they grip.
    pub collets: Vec<Length>,
    /// Tenon-cutter bushings, by diameter.
    pub bushings: Vec<Length>,
    /// The pin of the tenon cutter, which runs in the hole.
    pub pilot: Option<Length>,
    /// Mandrel stock, by diameter.
    pub mandrels: Vec<Length>,
    /// How many stops round the spindle can be locked at, fewest first.
    pub index: Vec<u32>,
    /// Milling cutters and slot drills, by width.
    pub cutters: Vec<Length>,
    /// Taps.
    pub taps: Vec<BenchThreading>,
    /// Dies.
    pub dies: Vec<BenchThreading>,
    /// What a saw cut turns to dust.
    pub kerf: Option<Length>,
    /// The lathe.
    pub lathe: Option<Lathe>,
    /// How closely sizes are kept at this bench.
    pub hand: Hand,
    /// Thresholds for work at this bench.
    pub limits: Limits,
}

/// A drill on the bench.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BenchDrill {
    /// Diameter.
    pub dia: Length,
    /// How it was named.
    pub name: DrillName,
    /// How deep it drills, where said.
    pub reach: Option<Length>,
    /// The statement.
    pub span: Span,
}

/// A boring bar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoringBar {
    /// The smallest hole it enters.
    pub enters: Length,
    /// How deep it goes, where said.
    pub reach: Option<Length>,
    /// The statement.
    pub span: Span,
}

/// A tap or a die on the bench.
#[derive(Clone, Debug)]
pub struct BenchThreading {
    /// Its thread.
    pub thread: Arc<ThreadDef>,
    /// The length of its lead-in, where said.
    pub lead: Option<Length>,
    /// The statement.
    pub span: Span,
}

/// The lathe.
#[derive(Clone, Debug, PartialEq)]
pub struct Lathe {
    /// Spindle speeds in rev/min, slowest first: a step is a range of no width.
    pub speeds_rev_min: Vec<(f64, f64)>,
    /// Spindle bore.
    pub bore: Option<Length>,
    /// The length it takes between centres.
    pub centres: Option<Length>,
    /// How far the tailstock's spindle goes.
    pub travel: Option<Length>,
    /// It is geared to cut threads with a single point.
    pub screwcutting: bool,
    /// The statement.
    pub span: Span,
}

impl Lathe {
    /// Its slowest speed, rev/min.
    pub fn slowest_rev_min(&self) -> f64 {
        self.speeds_rev_min
            .iter()
            .map(|speed| speed.0)
            .fold(f64::INFINITY, f64::min)
    }

    /// Its fastest speed, rev/min.
    pub fn fastest_rev_min(&self) -> f64 {
        self.speeds_rev_min
            .iter()
            .map(|speed| speed.1)
            .fold(0.0, f64::max)
    }
}

impl Hand {
    /// That of whoever works at a bench; without one, nothing is said.
    pub fn at(bench: Option<&Bench>) -> Hand {
        bench.map_or_else(Hand::default, |bench| bench.hand)
    }
}
