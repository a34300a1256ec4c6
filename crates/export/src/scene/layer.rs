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
    /// The rule under a page's head: the thickest.
    Head,
    /// Rules between rows of a table.
    Rule,
    /// Words that stand back: the foot, heads of columns.
    Quiet,
    /// Words on a solid bar.
    Knocked,
    /// Solid ink: bars, holders of the work.
    Solid,
    /// Work in the lathe, as a ground.
    Work,
    /// What is seen from outside, as a ground.
    View,
    /// What is cut away: its edge and hatch.
    Cut,
    /// What is cut away, as a ground.
    CutGround,
    /// Stock that is not yet cut: dashed.
    Uncut,
    /// Where the sheet is cut in two: dashed.
    Scissors,
    /// The paper itself: what a hole leaves.
    Paper,
    /// Outlines of what is seen in its colours.
    Rim,
}

/// The colours of a drawing, by what they mean; nothing is said by a colour alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tone {
    /// Lines and words.
    Ink,
    /// Words that stand back.
    Quiet,
    /// Rules of tables.
    Rule,
    /// Work in the lathe.
    Work,
    /// Seen from outside.
    View,
    /// Cut away.
    Cut,
    /// The ground of what is cut away.
    CutGround,
    /// What touches.
    Contact,
    /// The ground of all.
    Paper,
    /// Outlines of what is seen in its colours.
    Rim,
}

impl Tone {
    /// On white paper, sRGB.
    pub fn rgb(self) -> [u8; 3] {
        match self {
            Tone::Ink => [0x11, 0x11, 0x11],
            Tone::Quiet => [0x56, 0x56, 0x56],
            Tone::Rule => [0xa9, 0xa9, 0xa9],
            Tone::Work => [0xde, 0xde, 0xde],
            Tone::View => [0xf0, 0xf0, 0xee],
            Tone::Cut => [0xb3, 0x31, 0x1a],
            Tone::CutGround => [0xf6, 0xd8, 0xcf],
            Tone::Contact => [0xb0, 0x00, 0x20],
            Tone::Paper => [0xff, 0xff, 0xff],
            Tone::Rim => [0x1c, 0x1c, 0x1a],
        }
    }

    /// On a dark ground, sRGB.
    pub fn dark_rgb(self) -> [u8; 3] {
        match self {
            Tone::Ink => [0xec, 0xe8, 0xdf],
            Tone::Quiet => [0xa9, 0xae, 0xb3],
            Tone::Rule => [0x5c, 0x62, 0x68],
            Tone::Work => [0x3b, 0x40, 0x46],
            Tone::View => [0x24, 0x28, 0x2d],
            Tone::Cut | Tone::Contact => [0xff, 0x8f, 0x6b],
            Tone::CutGround => [0x4a, 0x24, 0x18],
            Tone::Paper => [0x15, 0x18, 0x1b],
            Tone::Rim => [0x5c, 0x62, 0x68],
        }
    }

    /// A name of its own, for a page's variables.
    pub fn name(self) -> &'static str {
        match self {
            Tone::Ink => "ink",
            Tone::Quiet => "quiet",
            Tone::Rule => "rule",
            Tone::Work => "work",
            Tone::View => "view",
            Tone::Cut => "cut",
            Tone::CutGround => "cut-ground",
            Tone::Contact => "contact",
            Tone::Paper => "paper",
            Tone::Rim => "rim",
        }
    }
}

/// How a line is broken: strokes and gaps in turn, mm; empty where it is not.
pub type Dash = &'static [f64];

impl Layer {
    /// All of them.
    pub const ALL: [Layer; 24] = [
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
        Layer::Head,
        Layer::Rule,
        Layer::Quiet,
        Layer::Knocked,
        Layer::Solid,
        Layer::Work,
        Layer::View,
        Layer::Cut,
        Layer::CutGround,
        Layer::Uncut,
        Layer::Scissors,
        Layer::Paper,
        Layer::Rim,
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
            Layer::Head => "head",
            Layer::Rule => "rule",
            Layer::Quiet => "quiet",
            Layer::Knocked => "knocked",
            Layer::Solid => "solid",
            Layer::Work => "work",
            Layer::View => "view",
            Layer::Cut => "cut",
            Layer::CutGround => "cut-ground",
            Layer::Uncut => "uncut",
            Layer::Scissors => "scissors",
            Layer::Paper => "paper",
            Layer::Rim => "rim",
        }
    }

    /// Its colour.
    pub fn tone(self) -> Tone {
        match self {
            Layer::Contact => Tone::Contact,
            Layer::Rule => Tone::Rule,
            Layer::Quiet => Tone::Quiet,
            Layer::Knocked | Layer::Paper => Tone::Paper,
            Layer::Work => Tone::Work,
            Layer::View => Tone::View,
            Layer::Cut => Tone::Cut,
            Layer::CutGround => Tone::CutGround,
            Layer::Rim => Tone::Rim,
            _ => Tone::Ink,
        }
    }

    /// Line width on paper, mm: thick and thin as two to one (ISO 128-2, group 0.5).
    pub fn width_mm(self) -> f64 {
        match self {
            Layer::Head => 0.7,
            Layer::Outline | Layer::Contact | Layer::Solid => 0.5,
            Layer::Fine | Layer::Scissors | Layer::Cut => 0.35,
            Layer::Hatch => 0.18,
            Layer::Rim => 0.16,
            Layer::Rule => 0.13,
            _ => 0.25,
        }
    }

    /// How the line is broken, mm on paper (ISO 128-2: a dash of 12 widths, a long dash of 24, gaps of 3, a
    /// dot of at most half a width; at a width of 0.25 mm).
    pub fn dash(self) -> Dash {
        match self {
            Layer::Axis => &[6.0, 0.75, 0.12, 0.75],
            Layer::Hidden => &[3.0, 0.75],
            Layer::Uncut => &[1.2, 0.8],
            Layer::Scissors => &[2.6, 1.3],
            Layer::Neighbour => &[6.0, 0.75, 0.12, 0.75, 0.12, 0.75],
            _ => &[],
        }
    }
}
