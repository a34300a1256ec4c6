//! Names, units and `use` resolved into one [`Design`].

mod again;
mod assume;
mod bench;
mod beyond;
mod blank;
mod clash;
mod deep_sink;
mod eval;
mod face;
mod feature;
mod finding_quota;
mod frame;
mod inherit;
mod item;
mod joint;
mod kind;
mod known;
mod lines;
mod made;
mod measured;
mod name;
mod part;
mod part_length;
mod pen;
mod place;
mod profile_builder;
mod reach;
mod redefinition;
mod scope;
mod shape;
mod shelf;
mod side;
mod side_room;
mod station;
mod thread;
mod threading;
mod through;
mod tool;
mod unknown_name;
mod want;

use crate::{Design, Loaded};
use again::Again;
pub use again::Redraw;
use finding_quota::FindingQuota;
use frame::Frame;
use known::ResolvedItems;
pub(crate) use profile_builder::{ThreadOff, ThreadsOff};
use quillet_syntax::{Finding, RuleId, Severity, Span};
use scope::Scope;
pub(crate) use shape::recut;
use std::collections::{BTreeSet, HashMap, HashSet};
use std::sync::Arc;

/// Resolves loaded files into a design; what could not be resolved is in its findings.
pub fn resolve(loaded: &Loaded) -> Design {
    resolved(loaded, None).0
}

/// The design, anew or again, and of each part the names that its sums look up.
fn resolved<'a>(
    loaded: &'a Loaded,
    again: Option<Again<'a>>,
) -> (Design, HashMap<Arc<str>, HashSet<Arc<str>>>) {
    let mut resolver = Resolver::new(loaded, again);
    let mut frame = Frame::default();
    resolver.file_items(&mut frame);
    resolver.parts(&mut frame);
    resolver.pens();
    resolver.made_pens();
    resolver.shelves(&mut frame);
    let parts = std::mem::take(&mut resolver.known.parts).into_iter();
    let names = parts.map(|(name, it)| (name, it.names)).collect();
    (resolver.finish(), names)
}

/// The state of one resolution.
struct Resolver<'a> {
    scope: Scope<'a>,
    design: Design,
    quota: FindingQuota,
    known: ResolvedItems,
    /// How much that is written could not be made sense of, errors and lines lost.
    lost: usize,
    /// How many sums are being worked out, one through another.
    depth: usize,
    /// How many names were not known so far.
    unknown: usize,
    /// Names of items that are not known, nor near to one that is.
    astray: Vec<unknown_name::UnknownName>,
    /// What lies beyond the part that is being resolved.
    beyond: Vec<beyond::BeyondLength>,
    /// Where the text itself could not be read, in order.
    damage: Vec<Span>,
    /// What was drawn before, where this is drawn again.
    again: Option<Again<'a>>,
    /// What was made, while a pen that is one is put together.
    making: Option<made::Making<'a>>,
}

impl<'a> Resolver<'a> {
    fn new(loaded: &'a Loaded, again: Option<Again<'a>>) -> Self {
        let mut design = Design {
            files: loaded.files.clone(),
            uses: loaded
                .uses
                .iter()
                .map(|(span, file)| (*span, file.id))
                .collect(),
            findings: loaded.findings.clone(),
            ..Design::default()
        };
        for file in &loaded.files {
            design.findings.extend(file.parsed.findings.iter().cloned());
        }
        let mut damage: Vec<Span> = design.findings.iter().map(|it| it.span).collect();
        damage.sort();
        let mut quota = FindingQuota::default();
        let mut told = |at: Span, finding: &dyn Fn() -> Finding| {
            if quota.lets_through(RuleId::DUPLICATE_NAME, at) {
                design.findings.push(finding());
            }
        };
        let scope = Scope::collect(&loaded.files, &mut design.names, &mut told);
        let mut known = ResolvedItems::default();
        if let Some(names) = again.as_ref().and_then(Again::names) {
            // What stands where does not change with a number.
            let local = names.definitions.with_ids();
            let local = local.filter(|(_, it)| it.owner.is_some());
            known.definitions = local.map(|(id, it)| (it.span, id)).collect();
            design.names = names.clone();
        }
        Self {
            scope,
            design,
            quota,
            known,
            lost: 0,
            depth: 0,
            unknown: 0,
            astray: Vec::new(),
            beyond: Vec::new(),
            damage,
            again,
            making: None,
        }
    }

    /// Whether the text of a stretch could be read.
    fn is_sound(&self, stretch: Span) -> bool {
        let at = self.damage.partition_point(|it| *it < stretch);
        self.damage.get(at).is_none_or(|it| !stretch.contains(*it))
    }

    fn emit(&mut self, finding: Finding) {
        self.lost += usize::from(finding.severity == Severity::Error);
        if self.quota.lets_through(finding.rule, finding.span) {
            self.design.findings.push(finding);
        }
    }

    /// Tells of something that is read and not yet reckoned with: never passed over in silence.
    fn not_reckoned(&mut self, at: Span, what: &str, so: &'static str) {
        let message = format!("{what} is read and not yet reckoned with");
        self.emit(Finding::new("not-reckoned", Severity::Warning, at, message).hint(so));
    }

    /// Sorts findings and references and drops those told twice, as a part seen by several
    /// pens tells them, and what is amiss with a name at which its statement breaks off.
    fn finish(mut self) -> Design {
        self.gather_astray();
        let mut seen = BTreeSet::new();
        let damage = &self.damage;
        self.design.findings.retain(|finding| {
            let of_name = NAMES.contains(&finding.rule);
            let damaged = of_name && breaks_off(damage, finding.span);
            !damaged && seen.insert((finding.span, finding.rule, finding.message.clone()))
        });
        let rest = self.quota.of_the_rest(&self.design.findings);
        self.design.findings.extend(rest);
        self.design.findings.sort_by_key(|it| (it.span, it.rule));
        self.design.names.references.sort();
        self.design.names.references.dedup();
        self.design
    }
}

/// What may be amiss with a name only since it is half written.
const NAMES: [RuleId; 3] = [
    RuleId::UNKNOWN_NAME,
    RuleId::DUPLICATE_NAME,
    RuleId::BAD_DESIGNATION,
];

/// Whether what cannot be read begins at a name or right behind it.
fn breaks_off(damage: &[Span], name: Span) -> bool {
    let at = damage.partition_point(|it| (it.file, it.start) < (name.file, name.start));
    let next = damage.get(at);
    next.is_some_and(|it| it.file == name.file && it.start <= name.end)
}

/// A name out of an AST node, shared.
fn shared(name: &quillet_syntax::ast::Name) -> Arc<str> {
    name.text.clone()
}
