//! What is found in two states, each finding known again by its place.

use crate::change::{FindingChange, FindingState};
use crate::place::{Place, places};
use quillet_model::{Source, SourceFile};
use quillet_pen::Analysis;
use quillet_syntax::Finding;
use std::collections::BTreeMap;

/// What is found in one state, each finding with its place.
pub(crate) struct Found<'a> {
    analysis: &'a Analysis,
    source: &'a dyn Source,
    placed: Vec<Placed>,
}

/// A finding in the units of its file, with its place and its number in the analysis.
struct Placed {
    place: Place,
    finding: Finding,
    index: usize,
}

impl<'a> Found<'a> {
    /// What is found in an analysis of files of a source; `name` says what a file is called.
    pub(crate) fn of(
        analysis: &'a Analysis,
        source: &'a dyn Source,
        name: &dyn Fn(&SourceFile) -> String,
    ) -> Self {
        let found = &analysis.examined().findings;
        let all = places(found, &|id| analysis.file(id), name);
        let design = &analysis.design;
        let in_units = |it: &Finding| it.clone().in_units(&|file| design.units_of(file));
        let each = all.into_iter().zip(found).enumerate();
        let placed = each.map(|(index, (place, finding))| Placed {
            place,
            finding: in_units(finding),
            index,
        });
        Self {
            analysis,
            source,
            placed: placed.collect(),
        }
    }

    /// What is found in a pen; in none in particular where none is named.
    fn in_pen(&self, pen: Option<&str>) -> impl Iterator<Item = &Placed> {
        self.placed.iter().filter(move |it| match pen {
            Some(pen) => it.finding.pens.iter().any(|it| it == pen),
            None => it.finding.pens.is_empty(),
        })
    }

    /// What has become of one. Cures are given of what is new alone, and only those that were tried.
    fn change(&self, placed: &Placed, state: FindingState) -> FindingChange {
        let mut finding = placed.finding.clone();
        if matches!(state, FindingState::New | FindingState::Graver) {
            let design = &self.analysis.design;
            let cures = self.analysis.cures(placed.index, self.source, &|| false);
            let held = cures.map_or_else(Vec::new, |it| it.to_vec());
            finding = finding
                .with_cures(held)
                .in_units(&|file| design.units_of(file));
        } else {
            finding.fixes.clear();
        }
        FindingChange {
            state,
            place: placed.place.clone(),
            finding,
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
        before.extend(found.in_pen(pen).map(|it| (who(&it.place), it)));
    }
    let mut all = Vec::new();
    if let Some((found, pen)) = new {
        for placed in found.in_pen(pen) {
            let was = before
                .remove(&who(&placed.place))
                .map(|it: &Placed| &it.finding);
            let state = was.map_or(FindingState::New, |was| compared(was, &placed.finding));
            all.push(FindingChange {
                was: was.map(|it| it.severity),
                ..found.change(placed, state)
            });
        }
    }
    if let Some((found, _)) = old {
        all.extend(before.into_values().map(|placed| FindingChange {
            was: Some(placed.finding.severity),
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
