//! What a file defines, as a tree; what all files define, by a few letters of the name.

use crate::{Analysis, Snapshot, shelves};
use quillet_model::{Definition, DefinitionKind, Shelf, SourceFile};
use quillet_syntax::Span;
use quillet_syntax::ast::{ItemKind, LineKind, PenLineKind};
use std::path::PathBuf;

/// Something that is defined, with what is defined in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Symbol {
    /// Its name, or the words that stand for one: `from mouth`.
    pub name: String,
    /// Its sizes in short.
    pub detail: String,
    /// What it is.
    pub kind: SymbolKind,
    /// The whole item or statement.
    pub span: Span,
    /// Its name.
    pub name_span: Span,
    /// What is in it.
    pub inner: Vec<Symbol>,
}

/// What a symbol is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SymbolKind {
    /// Something with a name of its own.
    Named(DefinitionKind),
    /// The cuts from an end, or the outside of a part.
    Block,
    /// How two parts meet.
    Joint,
}

/// A name of any file of the workspace.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorkspaceSymbol {
    /// The file.
    pub path: PathBuf,
    /// The symbol, without what is in it.
    pub symbol: Symbol,
}

/// What a file defines, in the order of the text.
pub fn symbols(analysis: &Analysis, file: &SourceFile) -> Vec<Symbol> {
    let names = &analysis.design.names.definitions;
    let items = file.parsed.tree.items.iter().filter_map(|item| {
        if let ItemKind::Shelf(_) = &item.kind {
            let mut all = analysis.design.shelves.iter();
            return all.find(|it| it.span == item.span).map(|it| shelf(it));
        }
        let definition = names
            .iter()
            .find(|it| it.item == item.span && it.owner.is_none())?;
        let inner = match &item.kind {
            ItemKind::Part(part) | ItemKind::Bought(part) => part
                .lines
                .iter()
                .filter_map(|line| block(analysis, line.span, &line.kind))
                .collect(),
            ItemKind::Pen(pen) => pen
                .lines
                .iter()
                .filter_map(|line| joint(analysis, line.span, &line.kind))
                .collect(),
            _ => Vec::new(),
        };
        Some(Symbol {
            inner,
            ..named(analysis, definition)
        })
    });
    items.collect()
}

/// The items of all files whose names hold the letters of `query` in their order; all for none.
pub fn find(
    snapshot: &Snapshot,
    query: &str,
    called_off: &dyn Fn() -> bool,
) -> Vec<WorkspaceSymbol> {
    let mut found = Vec::new();
    for path in snapshot.files() {
        let Some(analysis) = snapshot.analysis(path, called_off) else {
            continue;
        };
        let Some(root) = analysis.design.root() else {
            continue;
        };
        let own = analysis
            .design
            .names
            .definitions
            .iter()
            .filter(|definition| {
                definition.owner.is_none()
                    && definition.span.file == root.id
                    && holds(&definition.name, query)
            });
        found.extend(own.map(|definition| WorkspaceSymbol {
            path: root.path.clone(),
            symbol: named(&analysis, definition),
        }));
    }
    found
}

fn shelf(shelf: &Shelf) -> Symbol {
    Symbol {
        name: format!("shelf {}", shelf.name.text),
        detail: shelves::in_short(shelf),
        kind: SymbolKind::Block,
        span: shelf.span,
        name_span: shelf.name.span,
        inner: Vec::new(),
    }
}

fn named(analysis: &Analysis, definition: &Definition) -> Symbol {
    Symbol {
        name: definition.name.to_string(),
        detail: detail(analysis, definition),
        kind: SymbolKind::Named(definition.kind),
        span: definition.item,
        name_span: definition.span,
        inner: Vec::new(),
    }
}

/// The sizes of an item in short.
fn detail(analysis: &Analysis, definition: &Definition) -> String {
    let design = &analysis.design;
    let sizes = analysis.sizes();
    match definition.kind {
        DefinitionKind::Part | DefinitionKind::Bought => {
            let part = design
                .parts
                .iter()
                .find(|part| part.span == definition.item);
            part.map(|part| crate::facts::part_in_short(part, sizes))
                .unwrap_or_default()
        }
        DefinitionKind::Thread => {
            let thread = design
                .threads
                .iter()
                .find(|thread| thread.span == definition.item);
            thread
                .map(|thread| crate::facts::thread_in_short(&thread.thread, sizes))
                .unwrap_or_default()
        }
        DefinitionKind::Pen | DefinitionKind::Made => {
            let pen = design.pens.iter().find(|pen| pen.span == definition.item);
            pen.map(|pen| crate::facts::pen_in_short(pen, sizes))
                .unwrap_or_default()
        }
        DefinitionKind::Let => {
            let text = design.text(definition.item);
            text.split_once('=')
                .map(|(_, value)| value.trim().to_owned())
                .unwrap_or_default()
        }
        _ => String::new(),
    }
}

fn block(analysis: &Analysis, span: Span, line: &LineKind) -> Option<Symbol> {
    let (name, name_span) = match line {
        LineKind::From { end, .. } => (format!("from {}", end.text), end.span),
        LineKind::Outside(_) => ("outside".to_owned(), first_line(analysis, span)),
        LineKind::Side(_) => ("side".to_owned(), first_line(analysis, span)),
        _ => return None,
    };
    let detail = String::new();
    Some(Symbol {
        name,
        detail,
        kind: SymbolKind::Block,
        span,
        name_span,
        inner: Vec::new(),
    })
}

fn joint(analysis: &Analysis, span: Span, line: &PenLineKind) -> Option<Symbol> {
    let PenLineKind::Joint(joint) = line else {
        return None;
    };
    let name_span = joint.verb_span.to(joint.second.span);
    Some(Symbol {
        name: analysis.design.text(name_span).to_owned(),
        detail: String::new(),
        kind: SymbolKind::Joint,
        span,
        name_span,
        inner: Vec::new(),
    })
}

fn first_line(analysis: &Analysis, span: Span) -> Span {
    let text = analysis.design.text(span);
    let length = text.find(['\n', '\r']).unwrap_or(text.len());
    Span::new(span.file, span.start as usize, span.start as usize + length)
}

/// Whether the letters of `query` stand in `name` in their order.
fn holds(name: &str, query: &str) -> bool {
    let mut name = name.chars();
    query
        .chars()
        .filter(|c| !c.is_whitespace())
        .all(|wanted| name.any(|c| c.eq_ignore_ascii_case(&wanted)))
}
