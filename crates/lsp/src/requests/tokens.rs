//! Semantic tokens.

use super::Document;
use crate::server_state::RequestContext;
use quillet_ide::{ClassifiedToken, SemanticTokenKind};
use quillet_syntax::Span;
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    Range, SemanticToken, SemanticTokenModifier, SemanticTokenType, SemanticTokens,
    SemanticTokensFullOptions, SemanticTokensLegend, SemanticTokensOptions, SemanticTokensParams,
    SemanticTokensRangeParams, SemanticTokensRangeResult, SemanticTokensResult, Url,
};

/// Tokens of a whole document and of a range.
pub(crate) fn options() -> SemanticTokensOptions {
    SemanticTokensOptions {
        legend: legend(),
        range: Some(true),
        full: Some(SemanticTokensFullOptions::Bool(true)),
        ..SemanticTokensOptions::default()
    }
}

/// The names of the kinds, in the order of their numbers.
fn legend() -> SemanticTokensLegend {
    SemanticTokensLegend {
        token_types: SemanticTokenKind::ALL.into_iter().map(token_type).collect(),
        token_modifiers: vec![SemanticTokenModifier::DECLARATION],
    }
}

/// The tokens of a document.
pub(crate) fn full(
    asked: &RequestContext,
    params: &SemanticTokensParams,
) -> Result<Option<SemanticTokensResult>> {
    let tokens = tokens(asked, &params.text_document.uri, None)?;
    Ok(tokens.map(SemanticTokensResult::Tokens))
}

/// The tokens of a range of a document.
pub(crate) fn range(
    asked: &RequestContext,
    params: &SemanticTokensRangeParams,
) -> Result<Option<SemanticTokensRangeResult>> {
    let tokens = tokens(asked, &params.text_document.uri, Some(params.range))?;
    Ok(tokens.map(SemanticTokensRangeResult::Tokens))
}

fn tokens(
    asked: &RequestContext,
    url: &Url,
    range: Option<Range>,
) -> Result<Option<SemanticTokens>> {
    let found = match range {
        Some(range) => Document::within(asked, url, range)?,
        None => asked.document(url).map(|document| {
            let whole = Span::new(document.file.id, 0, document.file.text.len());
            (document, whole)
        }),
    };
    Ok(found.map(|(document, within)| {
        let mut coloured = quillet_ide::colours(&document.analysis, &document.file, within);
        if asked.editor.augments_tokens {
            coloured.retain(|token| is_known_by_resolving(token.kind));
        }
        let data = relative(&document.lines, &coloured);
        SemanticTokens {
            result_id: None,
            data,
        }
    }))
}

/// Whether a grammar cannot know it, since what a name is stands elsewhere.
fn is_known_by_resolving(kind: SemanticTokenKind) -> bool {
    use SemanticTokenKind as Kind;
    match kind {
        Kind::Let
        | Kind::Material
        | Kind::Thread
        | Kind::Blank
        | Kind::Part
        | Kind::Bought
        | Kind::Bench
        | Kind::Pen
        | Kind::Face
        | Kind::Rule => true,
        Kind::Comment
        | Kind::Keyword
        | Kind::Number
        | Kind::Text
        | Kind::Operator
        | Kind::Designation
        | Kind::Measure => false,
    }
}

/// Each place is told from the one before.
fn relative(
    lines: &crate::position::PositionMap,
    tokens: &[ClassifiedToken],
) -> Vec<SemanticToken> {
    let (mut line, mut column) = (0, 0);
    let tokens = tokens.iter().map(|word| {
        let range = lines.range(word.span.range());
        let delta_line = range.start.line - line;
        let delta_start = match delta_line {
            0 => range.start.character - column,
            _ => range.start.character,
        };
        (line, column) = (range.start.line, range.start.character);
        SemanticToken {
            delta_line,
            delta_start,
            length: range.end.character - range.start.character,
            token_type: word.kind as u32,
            token_modifiers_bitset: u32::from(word.defines),
        }
    });
    tokens.collect()
}

/// Standard types, so that every theme has a colour for them.
fn token_type(colour: SemanticTokenKind) -> SemanticTokenType {
    match colour {
        SemanticTokenKind::Comment => SemanticTokenType::COMMENT,
        SemanticTokenKind::Keyword => SemanticTokenType::KEYWORD,
        SemanticTokenKind::Number => SemanticTokenType::NUMBER,
        SemanticTokenKind::Text => SemanticTokenType::STRING,
        SemanticTokenKind::Operator => SemanticTokenType::OPERATOR,
        SemanticTokenKind::Designation => SemanticTokenType::ENUM_MEMBER,
        SemanticTokenKind::Let => SemanticTokenType::VARIABLE,
        SemanticTokenKind::Material => SemanticTokenType::ENUM,
        SemanticTokenKind::Thread => SemanticTokenType::TYPE,
        SemanticTokenKind::Blank => SemanticTokenType::STRUCT,
        SemanticTokenKind::Part => SemanticTokenType::CLASS,
        SemanticTokenKind::Bought => SemanticTokenType::INTERFACE,
        SemanticTokenKind::Bench => SemanticTokenType::NAMESPACE,
        SemanticTokenKind::Pen => SemanticTokenType::FUNCTION,
        SemanticTokenKind::Face => SemanticTokenType::PROPERTY,
        SemanticTokenKind::Measure => SemanticTokenType::METHOD,
        SemanticTokenKind::Rule => SemanticTokenType::DECORATOR,
    }
}
