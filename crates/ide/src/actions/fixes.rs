//! The cures that findings bring with them.

use super::{Action, ActionKind};
use quillet_syntax::{Edit, Fix};
use std::sync::Arc;

/// The cures of findings, each with its finding's index.
pub(super) fn fixes(cures: &[(usize, Arc<[Fix]>)]) -> Vec<Action> {
    let actions = cures.iter().flat_map(|(index, fixes)| {
        let only = fixes.len() == 1;
        fixes.iter().map(move |fix| Action {
            title: fix.title.to_string(),
            kind: ActionKind::Fix,
            edits: fix.edits.clone(),
            cures: Some(*index),
            preferred: only,
        })
    });
    actions.collect()
}

/// One action that puts right every slip of the file that cannot change the pen.
pub(super) fn mend(edits: Arc<[Edit]>) -> Option<Action> {
    (!edits.is_empty()).then(|| Action {
        title: "put right all slips of spelling".into(),
        kind: ActionKind::Mend,
        edits: edits.to_vec(),
        cures: None,
        preferred: false,
    })
}
