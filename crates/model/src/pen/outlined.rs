//! A part's outline, worked out once.

use crate::outline::{Cored, Outline};
use crate::{CutId, Part};
use std::sync::{Arc, PoisonError};

impl Part {
    /// Its outline with its threads at their crests.
    pub(crate) fn outline(&self) -> &Arc<Outline> {
        let known = &self.worked.outline;
        known.get_or_init(|| Arc::new(outlined(self, &[])))
    }

    /// Its outline with the threads of these cuts at their roots.
    pub(crate) fn cored_outline(&self, threads: &[CutId]) -> Arc<Outline> {
        // Whoever failed in the midst of it left it whole: an outline is pushed when it is made.
        let known = self.worked.cored.lock();
        let mut known = known.unwrap_or_else(PoisonError::into_inner);
        if let Some((_, outline)) = known.iter().find(|it| it.0 == threads) {
            return outline.clone();
        }
        let outline = Arc::new(outlined(self, threads));
        known.push((threads.to_vec(), outline.clone()));
        outline
    }
}

fn outlined(part: &Part, threads: &[CutId]) -> Outline {
    let Some(profiles) = &part.profiles else {
        return Outline::default();
    };
    let cored = threads.iter().map(|thread| {
        let cut = &part.features[*thread];
        let (from, to) = cut.stations(part.length);
        Cored {
            from_mm: from.to_mm(),
            to_mm: to.to_mm(),
            inside: cut.is_inside(),
        }
    });
    Outline::of(profiles, &cored.collect::<Vec<_>>())
}
