//! `accept RULE because "…"`: what the maker has judged.

use crate::findings::{RaisedFinding, Subject};
use crate::{Accepted, edits, limits, rule, rules};
use quillet_model::{Acceptance, Design};
use quillet_syntax::{Finding, Severity, SizedText, Span, ast, text};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Findings parted into those still open and those accepted.
pub(crate) struct JudgedFindings {
    /// Not accepted, stale acceptances among them.
    pub(crate) open: Vec<RaisedFinding>,
    /// Accepted, in the order of the text.
    pub(crate) accepted: Vec<Accepted>,
    /// Wants of which what was found is accepted, by their numbers, and why.
    pub(crate) wants: BTreeMap<usize, ast::Text>,
}

/// Holds every finding against what is accepted where it lies.
pub(crate) fn judge(design: &Design, raised: Vec<RaisedFinding>) -> JudgedFindings {
    let mut acceptances = gather(design);
    let mut judged = JudgedFindings {
        open: Vec::new(),
        accepted: Vec::new(),
        wants: BTreeMap::new(),
    };
    for raised in raised {
        let covering = acceptances.values_mut().find(|held| held.covers(&raised));
        let Some(held) = covering else {
            judged.open.push(raised);
            continue;
        };
        if raised.finding.severity == Severity::Error {
            held.refused = true;
            judged.open.push(raised);
            continue;
        }
        held.used = true;
        if let Some(want) = raised.want {
            judged.wants.insert(want, held.acceptance.because.clone());
        }
        let mut finding = raised.finding.in_units(&|file| design.units_of(file));
        // A part is looked at once for all the pens that see it alike; the rest is a pen's own.
        if raised.about.part.is_none() {
            finding
                .pens
                .extend(raised.about.pen.map(|pen| pen.to_string()));
        }
        judged.accepted.push(Accepted {
            finding,
            because: held.acceptance.because.clone(),
            span: held.acceptance.span,
        });
    }
    let place = |it: &Accepted| (it.finding.span, it.finding.rule, it.finding.message.clone());
    judged.accepted.sort_by_key(place);
    judged.accepted.dedup();
    // Where something could not be read, what is accepted may only not have been looked at.
    let unread = design
        .findings
        .iter()
        .any(|it| it.severity == Severity::Error);
    let stale = |held: &TrackedAcceptance<'_>| match unread && held.may_be_unseen() {
        true => None,
        false => held.stale(design),
    };
    judged.open.extend(acceptances.values().filter_map(stale));
    judged
}

/// An acceptance and what became of it.
struct TrackedAcceptance<'a> {
    acceptance: &'a Acceptance,
    /// The blocks it covers: its own, and for one in a part or pen that part's or pen's whole.
    scopes: Vec<Span>,
    /// Whose it is.
    owner: Subject,
    /// It stands in the part's or pen's own block, so it covers what that one inherits too.
    whole: bool,
    used: bool,
    refused: bool,
}

impl TrackedAcceptance<'_> {
    fn covers(&self, raised: &RaisedFinding) -> bool {
        let here = |scope: &Span| scope.contains(raised.finding.span);
        let owned = match (&self.owner.part, &self.owner.pen) {
            (Some(part), _) => raised.about.part.as_ref() == Some(part),
            (None, Some(pen)) => {
                raised.about.part.is_none() && raised.about.pen.as_ref() == Some(pen)
            }
            (None, None) => false,
        };
        let within = match (self.acceptance.at, raised.stretch) {
            (Some((from, to)), Some(stretch)) => from <= stretch.min() && stretch.max() <= to,
            (Some(_), None) => false,
            (None, _) => true,
        };
        *self.acceptance.rule.text == *raised.finding.rule.code()
            && within
            && (self.scopes.iter().any(here) || (self.whole && owned))
    }

    /// Whether it names a rule and that rule has found nothing.
    fn may_be_unseen(&self) -> bool {
        rule(&self.acceptance.rule.text).is_some() && !self.refused
    }

    fn stale(&self, design: &Design) -> Option<RaisedFinding> {
        let accept = self.acceptance;
        let named = &*accept.rule.text;
        if self.used {
            return None;
        }
        let finding = match (rule(named), self.refused) {
            (None, _) => limits::unknown_rule(&accept.rule),
            (Some(_), true) => stale_finding(
                accept,
                text!(
                    "{} is an error here, and an error cannot be accepted",
                    named
                ),
            )
            .hint("change what it points at"),
            (Some(_), false) => stale_finding(
                accept,
                text!(
                    "no {} is found here any more, so there is nothing to accept",
                    named
                ),
            )
            .hint("take the line out"),
        };
        let finding = match rule(named) {
            Some(_) if !self.refused => {
                let edit = edits::take_out(design, accept.span);
                finding.fix_all("take the line out", vec![edit]).mending()
            }
            _ => finding,
        };
        Some(RaisedFinding {
            finding,
            about: Subject::default(),
            stretch: None,
            want: None,
        })
    }
}

fn stale_finding(accept: &Acceptance, message: SizedText) -> Finding {
    rules::STALE_ACCEPTANCE.at(accept.span, message)
}

/// Every acceptance once, by the place of its statement.
fn gather(design: &Design) -> BTreeMap<Span, TrackedAcceptance<'_>> {
    let mut all = BTreeMap::new();
    let seen_parts = design.pens.iter().flat_map(|pen| &pen.parts);
    for part in design.parts.iter().chain(seen_parts) {
        for acceptance in &part.accepts {
            let whole = acceptance.scope == part.block;
            let scopes = match whole {
                true => vec![acceptance.scope, part.span],
                false => vec![acceptance.scope],
            };
            let owner = Subject {
                pen: None,
                part: Some(part.name.text.clone()),
                joint: None,
            };
            hold(&mut all, acceptance, scopes, owner, whole);
        }
    }
    for pen in &design.pens {
        let owner = Subject {
            pen: Some(Arc::clone(&pen.name.text)),
            part: None,
            joint: None,
        };
        for acceptance in &pen.accepts {
            let whole = acceptance.scope == pen.block;
            hold(
                &mut all,
                acceptance,
                vec![acceptance.scope],
                owner.clone(),
                whole,
            );
        }
        for joint in &pen.joints {
            for acceptance in &joint.accepts {
                hold(&mut all, acceptance, vec![joint.span], owner.clone(), false);
            }
        }
    }
    all
}

fn hold<'a>(
    all: &mut BTreeMap<Span, TrackedAcceptance<'a>>,
    acceptance: &'a Acceptance,
    scopes: Vec<Span>,
    owner: Subject,
    whole: bool,
) {
    all.entry(acceptance.span).or_insert(TrackedAcceptance {
        acceptance,
        scopes,
        owner,
        whole,
        used: false,
        refused: false,
    });
}
