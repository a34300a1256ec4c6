//! What was made of a pen, as the caliper read it.

use crate::{CircleId, CutId, Part, PartId, Quantity, SideId, StationId, Sum};
use quillet_geometry::Length;
use quillet_syntax::{Span, ast};
use std::sync::Arc;

/// One that was made of a pen: what stands for what is drawn.
#[derive(Clone, Debug)]
pub struct Made {
    /// The day, as written.
    pub on: Option<ast::Text>,
    /// The pen it is one of.
    pub of: ast::Name,
    /// That pen's parts as they are drawn, in the order of the made pen's.
    pub drawn: Vec<Arc<Part>>,
    /// What is made, in the order written.
    pub statements: Vec<MadeStatement>,
    /// What was measured of the whole.
    pub measured: Vec<Measured>,
}

impl Made {
    /// A part as it is drawn.
    pub fn drawn(&self, part: PartId) -> Option<&Arc<Part>> {
        self.drawn.get(crate::Id::index(part))
    }

    /// The statement that stands at a place.
    pub fn at(&self, place: Span) -> Option<&MadeStatement> {
        self.statements.iter().find(|it| it.span.contains(place))
    }

    /// Whether anything of a part is made.
    pub fn has_made(&self, part: PartId) -> bool {
        self.statements.iter().any(|it| it.part == part)
    }
}

/// A statement of a part that is made.
#[derive(Clone, Copy, Debug)]
pub struct MadeStatement {
    /// The part.
    pub part: PartId,
    /// Where it says what was measured.
    pub span: Span,
    /// What it stands for where it is drawn; none where it is only compared.
    pub drawn: Option<Span>,
    /// What was made.
    pub what: MadeSize,
}

/// What of a part was made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MadeSize {
    /// Its length.
    Length,
    /// A cut: the drawn part's, and the made part's.
    Cut {
        /// Of the part as it is drawn.
        drawn: CutId,
        /// Of the part as it is made.
        made: CutId,
    },
    /// A station of the outside: the drawn part's, and the made part's.
    Station {
        /// Of the part as it is drawn.
        drawn: StationId,
        /// Of the part as it is made.
        made: StationId,
    },
    /// A cut from the side: the drawn part's and the made part's have one number.
    Side(SideId),
    /// Holes beside the axis, likewise.
    Beside(CircleId),
    /// A diameter measured between stations.
    Between {
        /// Where, a station.
        at: Length,
        /// What was measured.
        dia: Length,
    },
}

/// `measured mass(uncapped) 15.6`
#[derive(Clone, Debug)]
pub struct Measured {
    /// The statement.
    pub span: Span,
    /// What was measured.
    pub measure: Sum,
    /// What came of it.
    pub value: Quantity,
}
