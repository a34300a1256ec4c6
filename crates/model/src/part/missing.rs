//! What is missing where a figure of a part is not known.

/// What of a part is missing, so that its figures are not known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MissingData {
    /// Its shape: something that gives it could not be read, or leaves none.
    Shape,
    /// What it is cut from.
    Stock,
    /// A bought part says no mass.
    Mass,
    /// Something else that a bought part says could not be read.
    Reading,
}

impl MissingData {
    /// In a maker's words, after the part's name: `converter says no mass`.
    pub fn words(self) -> &'static str {
        match self {
            MissingData::Shape => "has no shape that could be worked out",
            MissingData::Stock => "is cut from something that is not known",
            MissingData::Mass => "says no mass",
            MissingData::Reading => "could not all be read",
        }
    }
}
