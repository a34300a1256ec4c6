//! What is found in two states, each finding known again by its place.

use crate::change::{FindingChange, FindingState};
use crate::place::{Place, places};
use quillet_model::SourceFile;
use quillet_pen::Analysis;
use quillet_syntax::Finding;
use std::collections::BTreeMap;

/// What is found in one state, each finding with its place.
pub(crate) struct Found<'a> {
    analysis: &'a Analysis,
    placed: Vec<(Place, Finding)>,
}

impl<'a> Found<'a> {
    /// What is found in an analysis, in the units of each file; `name` says what a file is called.
    pub(crate) fn of(analysis: &'a Analysis, name: &dyn Fn(&SourceFile) -> String) -> Self {
        let found = &analysis.examined().findings;
        let all = places(found, &|id| analysis.file(id), name);
        let design = &analysis.design;
        let told = |it: &Finding| it.clone().in_units(&|file| design.units_of(file));
        Self {
            analysis,
            placed: all.into_iter().zip(found.iter().map(told)).collect(),
        }
    }

    /// What is found in a pen; in none in particular where none is named.
    fn in_pen(&self, pen: Option<&str>) -> impl Iterator<Item = &(Place, Finding)> {
        self.placed.iter().filter(move |(_, finding)| match pen {
            Some(pen) => finding.pens.iter().any(|it| it == pen),
            None => finding.pens.is_empty(),
        })
    }

    fn change(&self, placed: &(Place, Finding), state: FindingState) -> FindingChange {
        FindingChange {
            state,
            place: placed.0.clone(),
            finding: placed.1.clone(),
            was: None,
            files: self.analysis.files().to_vec(),
        }
    }
}

/// What has become of what is found in a pen of either state.
pub(crate) fn changes(
    old: Option<(&Found, Option<&str>)>,
    new: Option<(&Found, Option<&str>)>,
) -> Vec<FindingChange> {
    let names = (old.and_then(|it| it.1), new.and_then(|it| it.1));
    // Two pens of one name each: a finding of the one's own lines is that of the other's.
    let who = |place: &Place| {
        let mut place = place.clone();
        if let (Some(was), Some(is)) = names
            && place.item == format!("pen {was}")
        {
            place.item = format!("pen {is}");
        }
        place.to_string()
    };
    let mut before = BTreeMap::new();
    if let Some((found, pen)) = old {
        before.extend(found.in_pen(pen).map(|it| (who(&it.0), it)));
    }
    let mut all = Vec::new();
    if let Some((found, pen)) = new {
        for placed in found.in_pen(pen) {
            let was = before.remove(&who(&placed.0)).map(|it| &it.1);
            let state = was.map_or(FindingState::New, |was| compared(was, &placed.1));
            all.push(FindingChange {
                was: was.map(|it| it.severity),
                ..found.change(placed, state)
            });
        }
    }
    if let Some((found, _)) = old {
        all.extend(before.into_values().map(|placed| FindingChange {
            was: Some(placed.1.severity),
            ..found.change(placed, FindingState::Gone)
        }));
    }
    all
}

fn compared(was: &Finding, is: &Finding) -> FindingState {
    match is.severity.cmp(&was.severity) {
        std::cmp::Ordering::Greater => FindingState::Graver,
        std::cmp::Ordering::Less => FindingState::Milder,
        std::cmp::Ordering::Equal if *is.message == *was.message => FindingState::Same,
        std::cmp::Ordering::Equal => FindingState::Reworded,
    }
}
