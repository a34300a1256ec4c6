//! Who a finding is, whatever becomes of its line, its message and its numbers.

use crate::shape::Shapes;
use quillet_model::SourceFile;
use quillet_syntax::visit::{Node, path_at};
use quillet_syntax::{FileId, Finding, RuleId, Span};
use std::collections::BTreeMap;

/// Where a finding stands, said so that it outlives a change of layout, order, comments and numbers.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// The rule.
    pub rule: RuleId,
    /// The file, by the name the asker gives it.
    pub file: String,
    /// The item: `part cap`; empty outside of any.
    pub item: String,
    /// The head of the block it stands in: `from mouth`, `outside`, a joint; empty outside of any.
    pub block: String,
    /// The statement, sums as `#` and texts as `""`.
    pub shape: String,
    /// Which it is among those of which all that is the same, from 0.
    pub count: usize,
}

impl std::fmt::Display for Place {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Place {
            rule,
            file,
            item,
            block,
            shape,
            count,
        } = self;
        write!(f, "{rule}|{file}|{item}|{block}|{shape}|{count}")
    }
}

/// The place of each finding, in their order; `file` gives the file of a number, `name` what it is
/// called.
pub fn places<'a>(
    findings: &[Finding],
    file: &dyn Fn(FileId) -> Option<&'a SourceFile>,
    name: &dyn Fn(&SourceFile) -> String,
) -> Vec<Place> {
    let mut finder = Finder {
        file,
        name,
        shapes: BTreeMap::new(),
    };
    let mut places: Vec<Place> = findings
        .iter()
        .map(|it| finder.place(it.rule, it.span))
        .collect();
    let mut alike: BTreeMap<Place, Vec<usize>> = BTreeMap::new();
    for (at, place) in places.iter().enumerate() {
        alike.entry(place.clone()).or_default().push(at);
    }
    for mut same in alike.into_values().filter(|it| it.len() > 1) {
        same.sort_by_cached_key(|at| {
            let finding = &findings[*at];
            let elsewhere = finding.labels.iter().find(|it| it.span != finding.span);
            let other = elsewhere.map(|it| finder.place(finding.rule, it.span));
            (other, finding.message.to_string())
        });
        for (count, at) in same.into_iter().enumerate() {
            places[at].count = count;
        }
    }
    places
}

struct Finder<'f, 'a> {
    file: &'f dyn Fn(FileId) -> Option<&'a SourceFile>,
    name: &'f dyn Fn(&SourceFile) -> String,
    shapes: BTreeMap<FileId, Shapes<'a>>,
}

impl Finder<'_, '_> {
    /// The place of a span, the first of its like.
    fn place(&mut self, rule: RuleId, span: Span) -> Place {
        let mut place = Place {
            rule,
            file: String::new(),
            item: String::new(),
            block: String::new(),
            shape: String::new(),
            count: 0,
        };
        let Some(file) = (self.file)(span.file) else {
            return place;
        };
        place.file = (self.name)(file);
        let shapes = self
            .shapes
            .entry(span.file)
            .or_insert_with(|| Shapes::of(file));
        let holds = |it: &Span| it.start <= span.start && span.end <= it.end;
        let around = path_at(&file.parsed.tree, span.range().start).into_iter();
        let statements = around.filter(|it| it.is_statement());
        let statements: Vec<Span> = statements.map(Node::span).filter(holds).collect();
        let Some((item, inside)) = statements.split_first() else {
            place.shape = shapes.of_head(line_of(file, span));
            return place;
        };
        place.item = shapes.name_of(*item);
        place.shape = shapes.of_head(*statements.last().unwrap_or(item));
        if let [.., block, _] = inside {
            place.block = shapes.of_head(*block);
        }
        place
    }
}

/// The line a span begins in.
fn line_of(file: &SourceFile, span: Span) -> Span {
    let at = span.range().start.min(file.text.len());
    let start = file.text[..at].rfind('\n').map_or(0, |it| it + 1);
    let end = file.text[at..]
        .find('\n')
        .map_or(file.text.len(), |it| at + it);
    Span::new(span.file, start, end)
}
