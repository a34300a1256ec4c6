//! What of a part is known to the caliper, since it is made.

use quillet_geometry::Length;
use quillet_syntax::Span;

/// What of a part is known to the caliper, since it is made.
#[derive(Clone, Debug, Default)]
pub struct MadeFaces {
    /// Where diameters and lengths that were measured are said.
    pub(crate) sizes: Vec<Span>,
    /// Places along the part that were measured, stations; beside each whether it is one of the inside.
    pub(crate) planes: Vec<(bool, Length)>,
    /// The statements.
    pub(crate) statements: Vec<Span>,
}

impl MadeFaces {
    /// Whether nothing of the part is made.
    pub fn is_empty(&self) -> bool {
        self.statements.is_empty()
    }

    /// Whether a statement at a place is made.
    pub fn stands_at(&self, place: Span) -> bool {
        self.statements.iter().any(|it| it.contains(place))
    }

    /// Whether the size said at a place was measured.
    pub(crate) fn has_size(&self, place: Span) -> bool {
        self.sizes.iter().any(|it| it.contains(place))
    }

    /// Whether a plane of the inside, or of the outside, at a station was measured.
    pub(crate) fn has_plane(&self, inside: bool, station: Length) -> bool {
        let near = |at: Length| (at - station).abs() <= SAME_PLANE;
        self.planes.iter().any(|it| it.0 == inside && near(it.1))
    }
}

/// Planes nearer than this are one.
pub(crate) const SAME_PLANE: Length = Length::from_nm(1);
