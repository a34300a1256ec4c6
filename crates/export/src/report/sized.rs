//! Words with sizes in them: in millimetres in JSON, in the unit asked for in text.

use quillet_model::Units;
use quillet_syntax::SizedText;
use serde::{Serialize, Serializer};

/// Words whose sizes stay sizes until they are printed.
#[derive(Clone, Default)]
pub(super) struct SizedWords(SizedText);

impl SizedWords {
    /// As it is printed for people.
    pub(super) fn in_units(&self, units: Units) -> String {
        self.0.clone().in_units(units).to_string()
    }
}

impl From<SizedText> for SizedWords {
    fn from(text: SizedText) -> Self {
        Self(text)
    }
}

impl Serialize for SizedWords {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.in_units(Units::Millimetres))
    }
}
