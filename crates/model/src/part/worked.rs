//! What is worked out of a part once, however many pens and states see it.

use crate::outline::Outline;
use crate::{CutId, Hand, PieceId};
use quillet_geometry::{Mass, Properties};
use std::sync::{Arc, Mutex, OnceLock};

/// What is worked out when it is first asked for. Whoever copies a part may change it, so a copy works it
/// out anew.
#[derive(Debug, Default)]
pub(crate) struct Worked {
    pub(crate) outline: OnceLock<Arc<Outline>>,
    /// With some threads at their roots.
    pub(crate) cored: Mutex<Vec<(Vec<CutId>, Arc<Outline>)>>,
    /// Volume and moments of its metal as it is turned.
    pub(crate) turned: OnceLock<Properties>,
    pub(crate) bodies: OnceLock<Vec<WorkedBody>>,
    /// What each size takes away and adds to its mass, made by a hand.
    pub(crate) strays: OnceLock<(Hand, Vec<(Mass, Mass)>)>,
}

/// A body that a part is made up of, its volume worked out.
#[derive(Clone, Copy, Debug)]
pub(crate) struct WorkedBody {
    /// The piece of the blank; none where it is glue.
    pub(crate) piece: Option<PieceId>,
    pub(crate) density_g_cm3: f64,
    pub(crate) volume: Properties,
}

impl Clone for Worked {
    fn clone(&self) -> Self {
        Worked::default()
    }
}
