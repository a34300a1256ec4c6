//! Findings of several pens on one place, told as one.

use crate::findings::RaisedFinding;
use quillet_model::Design;
use quillet_syntax::{Finding, RuleId, SizedText, Span, text};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Findings in the order of the text, those that pens share told once and naming the pens.
///
/// Two are one where rule, places and their order within a pen agree. Where they say different
/// things the gravest leads and the message names each pen's figures; where only some of the
/// pens that have the part or the joint show it, the message names those.
pub(crate) fn merge(design: &Design, raised: Vec<RaisedFinding>) -> Vec<Finding> {
    let mut groups: BTreeMap<Key, Vec<RaisedFinding>> = BTreeMap::new();
    let mut counts: BTreeMap<(Key, Option<Arc<str>>), usize> = BTreeMap::new();
    for raised in raised {
        let mut key = Key::of(&raised.finding);
        let count = counts
            .entry((key.clone(), raised.about.pen.clone()))
            .or_default();
        key.nth = *count;
        *count += 1;
        groups.entry(key).or_default().push(raised);
    }
    let sight = SubjectCounts::of(design);
    let mut findings: Vec<Finding> = groups
        .into_values()
        .filter_map(|group| one(&sight, group))
        .map(|finding| finding.in_units(&|file| design.units_of(file)))
        .collect();
    let place = |it: &Finding| {
        (
            it.span,
            std::cmp::Reverse(it.severity),
            it.rule,
            it.message.clone(),
        )
    };
    findings.sort_by_cached_key(place);
    findings.dedup();
    findings
}

/// What makes two findings one.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Key {
    span: Span,
    rule: RuleId,
    labels: Vec<Span>,
    nth: usize,
}

impl Key {
    fn of(finding: &Finding) -> Key {
        let labels = finding.labels.iter().map(|label| label.span).collect();
        Key {
            span: finding.span,
            rule: finding.rule,
            labels,
            nth: 0,
        }
    }
}

fn one(sight: &SubjectCounts<'_>, group: Vec<RaisedFinding>) -> Option<Finding> {
    let seeing = sight.seeing(group.first()?);
    let mut messages: Vec<(SizedText, Vec<String>)> = Vec::new();
    for raised in &group {
        let message = &raised.finding.message;
        let pen = raised.about.pen.iter().map(|pen| pen.to_string());
        match messages.iter_mut().find(|(known, _)| known == message) {
            Some((_, pens)) => pens.extend(pen),
            None => messages.push((message.clone(), pen.collect())),
        }
    }
    let pens: Vec<String> = messages.iter().flat_map(|(_, pens)| pens.clone()).collect();
    let mut gravest = group
        .into_iter()
        .map(|raised| raised.finding)
        .reduce(|worst, next| {
            if next.severity > worst.severity {
                next
            } else {
                worst
            }
        })?;
    gravest.message = match messages.as_slice() {
        [(message, _)] if !pens.is_empty() && pens.len() < seeing => {
            text!("{} (in {})", message, pens.join(", "))
        }
        [(message, _)] => message.clone(),
        several => {
            let each = |(message, pens): &(SizedText, Vec<String>)| {
                text!("in {}: {}", pens.join(", "), message)
            };
            SizedText::joined(several.iter().map(each), "; ")
        }
    };
    gravest.pens = pens;
    Some(gravest)
}

/// How many pens have each part and each joint.
struct SubjectCounts<'d> {
    parts: BTreeMap<&'d str, usize>,
    joints: BTreeMap<Span, usize>,
}

impl<'d> SubjectCounts<'d> {
    fn of(design: &'d Design) -> Self {
        let mut sight = SubjectCounts {
            parts: BTreeMap::new(),
            joints: BTreeMap::new(),
        };
        for pen in &design.pens {
            for part in &pen.parts {
                *sight.parts.entry(&*part.name.text).or_default() += 1;
            }
            for joint in &pen.joints {
                *sight.joints.entry(joint.span).or_default() += 1;
            }
        }
        sight
    }

    /// How many pens have the part or the joint a finding is about.
    fn seeing(&self, raised: &RaisedFinding) -> usize {
        let span = raised.finding.span;
        let found = match &raised.about.part {
            Some(part) => self.parts.get(&**part),
            // Joints lie beside each other: the last that begins no later is the one.
            None => {
                let upto = Span {
                    end: u32::MAX,
                    ..span
                };
                let before = self.joints.range(..=upto).next_back();
                let around = before.filter(|(joint, _)| joint.contains(span));
                around.map(|(_, count)| count)
            }
        };
        found.copied().unwrap_or_default()
    }
}
