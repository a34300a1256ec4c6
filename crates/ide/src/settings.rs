//! What a maker may choose about what is shown.

/// What a maker may choose about what is shown.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Settings {
    /// The units sizes are told in.
    pub units: Units,
    /// Which hints stand between the words.
    pub hints: HintKinds,
    /// Whether hovers show a picture of the part.
    pub pictures: bool,
    /// The bench to work at, where several are in sight and none is named.
    pub bench: Option<String>,
    /// The revision that a file is compared with; `HEAD` where none is said, none where it is empty.
    pub compare_with: Option<String>,
}

impl Settings {
    /// The revision that a file is compared with; empty for none.
    pub fn compare_with(&self) -> &str {
        self.compare_with.as_deref().unwrap_or("HEAD")
    }
}

/// The units sizes are told in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// The unit of the file.
    #[default]
    File,
    /// Millimetres.
    Millimetres,
    /// Inches.
    Inches,
    /// The unit of the file, and the other beside it.
    Both,
}

/// Which hints stand between the words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HintKinds {
    /// The wall beside a cut.
    pub walls: bool,
    /// The drill an inside thread is cut in.
    pub drills: bool,
    /// The diameter an outside thread is cut on.
    pub tenons: bool,
    /// After a length that is written in another unit, the same in the unit sizes are told in.
    pub conversions: bool,
    /// Where a joint comes to rest, what touches, and its turns.
    pub rests: bool,
    /// What a number may be before something is found; looked for anew after each edit.
    pub room: bool,
}

impl Default for HintKinds {
    fn default() -> Self {
        Self {
            walls: true,
            drills: true,
            tenons: true,
            conversions: true,
            rests: true,
            room: false,
        }
    }
}
