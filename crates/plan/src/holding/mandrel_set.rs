//! The mandrels of a plan, each once.

use crate::{Mandrel, MandrelId};
use quillet_model::{ById, End};
use std::collections::HashSet;
use std::sync::Arc;

/// The mandrels of a plan, each once.
#[derive(Default)]
pub(crate) struct MandrelSet {
    pub(crate) mandrels: ById<MandrelId, Mandrel>,
    /// What each serves already.
    served: HashSet<(MandrelId, Arc<str>, End)>,
}

impl MandrelSet {
    /// The number of a mandrel, one that does the same work serving again.
    pub(crate) fn put(&mut self, made: Mandrel) -> MandrelId {
        let serves = made.serves.clone();
        let known = self.mandrels.position(|own| own.is_like(&made));
        let id = known.unwrap_or_else(|| {
            let serves = Vec::new();
            self.mandrels.push(Mandrel { serves, ..made })
        });
        for (part, end) in serves {
            if self.served.insert((id, part.clone(), end)) {
                self.mandrels[id].serves.push((part, end));
            }
        }
        id
    }
}
