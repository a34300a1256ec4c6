//! A file with all it uses, as the maker has chosen to see it.

use crate::settings::Settings;
use crate::sizes::Sizes;
use std::ops::Deref;
use std::sync::Arc;

/// A file with all it uses, as the maker has chosen to see it; what is found in it and what cures it
/// is asked of [`quillet_pen::Analysis`], for which it stands.
#[derive(Clone, Debug)]
pub struct Analysis {
    whole: Arc<quillet_pen::Analysis>,
    settings: Arc<Settings>,
}

impl Analysis {
    pub(crate) fn seen(whole: Arc<quillet_pen::Analysis>, settings: Arc<Settings>) -> Self {
        Self { whole, settings }
    }

    /// What is behind it, the same for as long as no file of it changes.
    pub(crate) fn whole(&self) -> &Arc<quillet_pen::Analysis> {
        &self.whole
    }

    /// How sizes are told of the file asked for.
    pub(crate) fn sizes(&self) -> Sizes {
        Sizes::chosen(self.settings.units, self.design.units())
    }
}

impl Deref for Analysis {
    type Target = quillet_pen::Analysis;

    fn deref(&self) -> &quillet_pen::Analysis {
        &self.whole
    }
}
