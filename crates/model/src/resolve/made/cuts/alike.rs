//! Which drawn cut a made one is like, and what it takes over from it.

use crate::{Cut, Feature};
use quillet_syntax::ast::{self, FeatureKind};
use std::mem::discriminant;

/// What was measured, with what only the drawing says.
pub(super) fn laid_over(was: &Feature, drawn: &Feature, read: Feature) -> Feature {
    let cut = match (&was.cut, read.cut) {
        (Cut::Tenon { .. }, Cut::Tenon { dia, .. }) if !dia.is_positive() => was.cut.clone(),
        (
            Cut::Drill {
                point, assumed_for, ..
            },
            Cut::Drill { dia, tool, .. },
        ) => Cut::Drill {
            dia,
            tool,
            point: *point,
            assumed_for: assumed_for.clone(),
        },
        (Cut::Groove { takes, .. }, Cut::Groove { dia, .. }) => Cut::Groove {
            dia,
            takes: takes.clone(),
        },
        (Cut::Recess { takes, .. }, Cut::Recess { dia, .. }) => Cut::Recess {
            dia,
            takes: takes.clone(),
        },
        (Cut::Countersink { angle, .. }, Cut::Countersink { dia, .. }) => {
            Cut::Countersink { dia, angle: *angle }
        }
        (Cut::Thread { .. }, Cut::Thread { .. }) => was.cut.clone(),
        (_, cut) => cut,
    };
    Feature {
        cut,
        clock: was.clock,
        through: drawn.through,
        face: was.face.clone(),
        ..read
    }
}

/// Whether two cuts are of one verb, end and side.
pub(super) fn is_alike(drawn: &Feature, made: &Feature) -> bool {
    let kind = match (&drawn.cut, &made.cut) {
        (
            Cut::Thread { thread, side },
            Cut::Thread {
                thread: other,
                side: on,
            },
        ) => side == on && thread.thread == other.thread,
        (one, other) => discriminant(one) == discriminant(other),
    };
    kind && drawn.end == made.end && drawn.through == made.through
}

/// Whether both say their place by the same words; a tenon may say the diameter that its thread gives.
pub(in super::super) fn same_roles(drawn: &FeatureKind, made: &FeatureKind) -> bool {
    let reach = |kind: &FeatureKind| {
        kind.reach()
            .map(|it| (discriminant(&it.kind), it.at.is_some()))
    };
    reach(drawn) == reach(made)
}

/// Whether a statement says a diameter that was measured.
pub(super) fn written_dia(statement: &ast::Feature) -> bool {
    match &statement.kind {
        FeatureKind::Tenon { dia, .. } => dia.is_some(),
        FeatureKind::Thread { .. } => false,
        _ => true,
    }
}

/// The word that a cut begins with.
pub(super) fn verb(kind: &FeatureKind) -> &'static str {
    match kind {
        FeatureKind::Tenon { .. } => "tenon",
        FeatureKind::Drill { .. } => "drill",
        FeatureKind::Bore { .. } => "bore",
        FeatureKind::Ream { .. } => "ream",
        FeatureKind::Thread { .. } => "thread",
        FeatureKind::Relief { .. } => "relief",
        FeatureKind::Groove { .. } => "groove",
        FeatureKind::Recess { .. } => "recess",
        FeatureKind::Taper { .. } => "taper",
        FeatureKind::Countersink { .. } => "countersink",
        FeatureKind::Edge(_) => "broken corner",
        FeatureKind::Accept(_) | FeatureKind::Bad => "cut",
    }
}

/// Where a cut lies, of those that say it by a reach.
trait WithReach {
    fn reach(&self) -> Option<&ast::Reach>;
}

impl WithReach for FeatureKind {
    fn reach(&self) -> Option<&ast::Reach> {
        match self {
            FeatureKind::Drill { reach, .. }
            | FeatureKind::Bore { reach, .. }
            | FeatureKind::Ream { reach, .. }
            | FeatureKind::Thread { reach, .. }
            | FeatureKind::Relief { reach, .. }
            | FeatureKind::Groove { reach, .. }
            | FeatureKind::Recess { reach, .. }
            | FeatureKind::Taper { reach, .. } => Some(reach),
            _ => None,
        }
    }
}
