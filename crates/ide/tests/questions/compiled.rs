//! The colours of the grammar that editors compile never contradict those of the server.

use quillet_fixture::{EXAMPLES, MORE_EXAMPLES};
use quillet_ide::SemanticTokenKind::{self, *};
use quillet_ide::{Cursor, Workspace, colours};
use quillet_syntax::Span;
use std::collections::{BTreeSet, HashMap};
use std::ops::Range;
use std::path::Path;
use tree_sitter::{Parser, Query, QueryCursor, StreamingIterator};

const HIGHLIGHTS: &str = include_str!("../../../../editors/tree-sitter/queries/highlights.scm");

/// What a name of the grammar's colours may be to the server.
fn may_be(capture: &str) -> &'static [SemanticTokenKind] {
    match capture {
        "comment" => &[Comment],
        "string" => &[Text],
        "number" => &[Number],
        "constant" => &[Designation],
        "operator" => &[Operator],
        "keyword" => &[Keyword],
        "type" => &[Material, Thread, Blank, Part, Bought, Bench, Pen],
        "variable" => &[Let, Part, Bought],
        "property" => &[Face],
        "attribute" => &[Rule],
        "function" | "constant.builtin" => &[Measure],
        _ => &[],
    }
}

/// Where a text is coloured by the compiled grammar, and as what.
fn captured(text: &str) -> HashMap<Range<usize>, String> {
    let language = tree_sitter_quillet::LANGUAGE.into();
    let mut parser = Parser::new();
    parser.set_language(&language).unwrap();
    let tree = parser.parse(text, None).unwrap();
    let query = Query::new(&language, HIGHLIGHTS).unwrap();
    let mut cursor = QueryCursor::new();
    let mut matches = cursor.matches(&query, tree.root_node(), text.as_bytes());
    let mut all = HashMap::new();
    while let Some(found) = matches.next() {
        for capture in found.captures() {
            let name = query.capture_names()[capture.index as usize];
            all.insert(capture.node.byte_range(), name.to_owned());
        }
    }
    all
}

#[test]
fn the_compiled_grammar_colours_as_the_server_does() {
    let mut workspace = Workspace::default();
    let more = MORE_EXAMPLES.map(|(name, text)| (format!("/bench/more/{name}"), text));
    let examples = EXAMPLES.map(|(name, text)| (format!("/bench/{name}"), text));
    let examples: Vec<_> = examples.into_iter().chain(more).collect();
    for (path, text) in &examples {
        workspace.set(Path::new(path), (*text).into());
    }
    let snapshot = workspace.snapshot();
    let (mut seen, mut wrong) = (BTreeSet::new(), Vec::new());
    for (path, text) in examples {
        let analysis = snapshot.analysis(Path::new(&path), &|| false).unwrap();
        let file = Cursor::at(&analysis, 0).unwrap().file;
        let grammar = captured(text);
        for token in colours(&analysis, file, Span::new(file.id, 0, text.len())) {
            let Some(capture) = grammar.get(&token.span.range()) else {
                continue;
            };
            seen.insert(token.kind);
            if !may_be(capture).contains(&token.kind) {
                let word = &text[token.span.range()];
                wrong.push(format!("{path}: {word} is {capture}, {:?}", token.kind));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(seen.len() > 12, "{seen:?}");
}
