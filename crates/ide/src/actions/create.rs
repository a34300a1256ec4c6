//! Makes what a name stands for and is not there yet.

use super::{Action, ActionKind, concerns, line_end};
use crate::Cursor;
use quillet_model::Units;
use quillet_syntax::visit::{self, NameKind, Node, Role};
use quillet_syntax::{Edit, Finding, RuleId, Span};

/// The items that unknown names within a span ask for.
pub(super) fn missing(cursor: Cursor<'_>, findings: &[Finding], within: Span) -> Vec<Action> {
    let tree = &cursor.file.parsed.tree;
    let unknown = findings.iter().enumerate();
    let unknown = unknown.filter(|(_, it)| it.rule == RuleId::UNKNOWN_NAME && concerns(it, within));
    let names = visit::names(tree);
    let mut actions = Vec::new();
    for (index, finding) in unknown {
        let name = names.iter().find(|name| {
            name.role == Role::Refers
                && finding.span.contains(name.span)
                && !is_known(cursor, name.text)
        });
        let Some(name) = name else {
            continue;
        };
        let line = line_end(&cursor.file.text);
        let inches = cursor.file.units() == Units::Inches;
        let usual = |mm: &'static str, inch: &'static str| if inches { inch } else { mm };
        let text = name.text;
        let (what, item) = match name.sort {
            NameKind::Part => {
                let [first, second] = ends(cursor, text);
                let length = usual("60", "2.5");
                let item = format!(
                    "part {text} from {first} to {second} {{{line}  length {length}{line}}}"
                );
                ("part", item)
            }
            NameKind::Thread => {
                let size = usual("M10x0.75", "3/8-24");
                ("thread", format!("thread {text} = {size}"))
            }
            NameKind::Material => (
                "material",
                format!("material {text} \"{text}\" {{{line}  kind acrylic{line}}}"),
            ),
            NameKind::Blank => {
                let size = usual("18 by 150", "3/4 by 6");
                ("blank", format!("blank {text} of acrylic rod {size}"))
            }
            NameKind::Bench => {
                let drills = usual("1..13 step 0.1", "1/16..1/2 step 1/64");
                let item = format!("bench {text} {{{line}  drills {drills}{line}}}");
                ("bench", item)
            }
            NameKind::Quantity => ("named quantity", format!("let {text} = 1")),
            _ => continue,
        };
        actions.push(Action {
            title: format!("add the {what} {text}"),
            kind: ActionKind::Fix,
            edits: vec![before_item(
                cursor,
                name.span,
                &format!("{item}{line}{line}"),
            )],
            cures: Some(index),
            preferred: false,
        });
    }
    actions
}

/// The ends of a part that is not there yet, as its joints name them.
fn ends(cursor: Cursor<'_>, part: &str) -> [String; 2] {
    let mut named: Vec<&str> = Vec::new();
    visit::walk(&cursor.file.parsed.tree, &mut |node| {
        if let Node::Face(face) = node
            && *face.part.text == *part
            && !face.face.text.is_empty()
            && !named.contains(&&*face.face.text)
        {
            named.push(&face.face.text);
        }
    });
    let usual = ["mouth", "tail"].into_iter();
    named.extend(usual.filter(|end| !named.contains(end)).collect::<Vec<_>>());
    [named[0].to_owned(), named[1].to_owned()]
}

/// Inserts text above the item that holds a span, above its note if it has one.
pub(super) fn before_item(cursor: Cursor<'_>, span: Span, text: &str) -> Edit {
    let items = &cursor.file.parsed.tree.items;
    let item = items.iter().find(|item| item.span.contains(span));
    let start = item.map_or(0, |item| {
        item.note
            .as_ref()
            .map_or(item.span.start, |note| note.span.start.min(item.span.start))
    });
    let span = Span {
        start,
        end: start,
        ..span
    };
    Edit::new(span, text)
}

fn is_known(cursor: Cursor<'_>, name: &str) -> bool {
    let definitions = &cursor.analysis.design.names.definitions;
    definitions
        .iter()
        .any(|it| it.owner.is_none() && *it.name == *name)
}
