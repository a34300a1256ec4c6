//! What a part's walls measure.

use crate::report::sized::SizedWords;
use quillet_check::{Role, Wall, walls};
use quillet_model::{Hand, Part};
use serde::{Serialize, Serializer};
use std::sync::Arc;

/// The walls of a part, each measured when it is asked for: what is left at worst is worked out anew
/// for each, and a part may have thousands of which the least alone is shown.
pub(super) struct PartWalls {
    part: Arc<Part>,
    hand: Hand,
    walls: Vec<Wall>,
}

#[derive(Serialize)]
pub(super) struct WallMeasures {
    pub(super) role: &'static str,
    pub(super) outer: SizedWords,
    pub(super) inner: SizedWords,
    pub(super) from_mm: f64,
    pub(super) to_mm: f64,
    pub(super) least_mm: f64,
    at_mm: f64,
    /// With every size at its worst.
    pub(super) worst_mm: f64,
}

impl PartWalls {
    /// Of a part, made by a hand; of a bought one none.
    pub(super) fn of(part: &Arc<Part>, hand: &Hand) -> Self {
        let mut walls = match part.is_bought() || !part.shaped {
            true => Vec::new(),
            false => walls(part),
        };
        // What lies further apart than to the axis is no wall.
        walls.retain(|wall| wall.role == Role::End || wall.least <= wall.outer_dia.half());
        Self {
            part: part.clone(),
            hand: *hand,
            walls,
        }
    }

    /// All of them, from the first end.
    pub(super) fn iter(&self) -> impl Iterator<Item = WallMeasures> + '_ {
        self.walls.iter().map(|wall| self.measured(wall))
    }

    /// The least of them.
    pub(super) fn least(&self) -> Option<WallMeasures> {
        let least = self.walls.iter().min_by_key(|wall| wall.least);
        least.map(|wall| self.measured(wall))
    }

    fn measured(&self, wall: &Wall) -> WallMeasures {
        let part = &*self.part;
        WallMeasures {
            role: wall.role.words(),
            outer: wall.outer_words(part).into(),
            inner: wall.inner_words(part).into(),
            from_mm: wall.from.to_mm(),
            to_mm: wall.to.to_mm(),
            least_mm: wall.least.to_mm(),
            at_mm: wall.at.to_mm(),
            worst_mm: wall.worst(part, &self.hand).to_mm(),
        }
    }
}

impl Serialize for PartWalls {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.iter())
    }
}
