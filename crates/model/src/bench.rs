//! What is on a bench.

use crate::{DrillName, Limits, ThreadDef};
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
    /// Reamers, by diameter.
    pub reamers: Vec<Length>,
    /// Collets, by the diameter they grip.
    pub collets: Vec<Length>,
    /// Tenon-cutter bushings, by diameter.
    pub bushings: Vec<Length>,
    /// Mandrel stock, by diameter.
    pub mandrels: Vec<Length>,
    /// Taps.
    pub taps: Vec<BenchThreading>,
    /// Dies.
    pub dies: Vec<BenchThreading>,
    /// The lathe.
    pub lathe: Option<Lathe>,
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
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lathe {
    /// Least spindle speed, rev/min.
    pub least_rev_min: f64,
    /// Greatest spindle speed, rev/min.
    pub most_rev_min: f64,
    /// Spindle bore.
    pub bore: Option<Length>,
    /// The statement.
    pub span: Span,
}
