//! What a line is drawn as: types and widths of ISO 128-2.

/// What a line is drawn as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Layer {
    /// Visible outlines and edges, crests of threads: continuous thick (01.2).
    Outline,
    /// Visible outlines of small things, so that they stay clear: continuous thick, the next finer group.
    Fine,
    /// Roots of threads: continuous thin (01.1).
    Thread,
    /// Hatching: continuous thin (01.1).
    Hatch,
    /// Axes: long-dashed dotted thin (04.1).
    Axis,
    /// What is hidden: dashed thin (02.1).
    Hidden,
    /// Parts beside the one drawn: long-dashed double-dotted thin (05.1).
    Neighbour,
    /// Dimension, extension and leader lines: continuous thin (01.1).
    Dimension,
    /// Words and numbers.
    Text,
    /// Frames and tables: continuous thin (01.1).
    Frame,
    /// What touches: the places where parts come to rest.
    Contact,
}

/// How a line is broken: strokes and gaps in turn, mm; empty where it is not.
pub type Dash = &'static [f64];

impl Layer {
    /// All of them.
    pub const ALL: [Layer; 11] = [
        Layer::Outline,
        Layer::Fine,
        Layer::Thread,
        Layer::Hatch,
        Layer::Axis,
        Layer::Hidden,
        Layer::Neighbour,
        Layer::Dimension,
        Layer::Text,
        Layer::Frame,
        Layer::Contact,
    ];

    /// A name of its own, for layers and classes.
    pub fn name(self) -> &'static str {
        match self {
            Layer::Outline => "outline",
            Layer::Fine => "fine",
            Layer::Thread => "thread",
            Layer::Hatch => "hatch",
            Layer::Axis => "axis",
            Layer::Hidden => "hidden",
            Layer::Neighbour => "neighbour",
            Layer::Dimension => "dimension",
            Layer::Text => "text",
            Layer::Frame => "frame",
            Layer::Contact => "contact",
        }
    }

    /// Line width on paper, mm: thick and thin as two to one (ISO 128-2, group 0.5).
    pub fn width_mm(self) -> f64 {
        match self {
            Layer::Outline | Layer::Contact => 0.5,
            Layer::Fine => 0.35,
            Layer::Hatch => 0.18,
            _ => 0.25,
        }
    }

    /// How the line is broken, mm on paper (ISO 128-2: a dash of 12 widths, a long dash of 24, gaps of 3, a
    /// dot of at most half a width; at a width of 0.25 mm).
    pub fn dash(self) -> Dash {
        match self {
            Layer::Axis => &[6.0, 0.75, 0.12, 0.75],
            Layer::Hidden => &[3.0, 0.75],
            Layer::Neighbour => &[6.0, 0.75, 0.12, 0.75, 0.12, 0.75],
            _ => &[],
        }
    }
}
