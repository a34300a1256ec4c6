//! Semantic tokens.

use super::Document;
use crate::desk::Asked;
use quillet_ide::{Colour, Coloured};
use quillet_syntax::Span;
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    Range, SemanticToken, SemanticTokenModifier, SemanticTokenType, SemanticTokens,
    SemanticTokensLegend, SemanticTokensParams, SemanticTokensRangeParams,
    SemanticTokensRangeResult, SemanticTokensResult, Url,
};

/// The names of the kinds, in the order of their numbers.
pub(crate) fn legend() -> SemanticTokensLegend {
    SemanticTokensLegend {
        token_types: Colour::ALL.into_iter().map(token_type).collect(),
        token_modifiers: vec![SemanticTokenModifier::DECLARATION],
    }
}

/// The tokens of a document.
pub(crate) fn full(
    asked: &Asked,
    params: &SemanticTokensParams,
) -> Result<Option<SemanticTokensResult>> {
    let tokens = tokens(asked, &params.text_document.uri, None)?;
    Ok(tokens.map(SemanticTokensResult::Tokens))
}

/// The tokens of a range of a document.
pub(crate) fn range(
    asked: &Asked,
    params: &SemanticTokensRangeParams,
) -> Result<Option<SemanticTokensRangeResult>> {
    let tokens = tokens(asked, &params.text_document.uri, Some(params.range))?;
    Ok(tokens.map(SemanticTokensRangeResult::Tokens))
}

fn tokens(asked: &Asked, url: &Url, range: Option<Range>) -> Result<Option<SemanticTokens>> {
    let found = match range {
        Some(range) => Document::within(asked, url, range)?,
        None => asked.document(url).map(|document| {
            let whole = Span::new(document.file.id, 0, document.file.text.len());
            (document, whole)
        }),
    };
    Ok(found.map(|(document, within)| {
        let coloured = quillet_ide::colours(&document.analysis, &document.file, within);
        let data = relative(&document.lines, &coloured);
        SemanticTokens {
            result_id: None,
            data,
        }
    }))
}

/// Each place is told from the one before.
fn relative(lines: &crate::position::Lines, coloured: &[Coloured]) -> Vec<SemanticToken> {
    let (mut line, mut column) = (0, 0);
    let tokens = coloured.iter().map(|word| {
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
fn token_type(colour: Colour) -> SemanticTokenType {
    match colour {
        Colour::Comment => SemanticTokenType::COMMENT,
        Colour::Keyword => SemanticTokenType::KEYWORD,
        Colour::Number => SemanticTokenType::NUMBER,
        Colour::Text => SemanticTokenType::STRING,
        Colour::Operator => SemanticTokenType::OPERATOR,
        Colour::Designation => SemanticTokenType::ENUM_MEMBER,
        Colour::Let => SemanticTokenType::VARIABLE,
        Colour::Material => SemanticTokenType::ENUM,
        Colour::Thread => SemanticTokenType::TYPE,
        Colour::Blank => SemanticTokenType::STRUCT,
        Colour::Part => SemanticTokenType::CLASS,
        Colour::Bought => SemanticTokenType::INTERFACE,
        Colour::Bench => SemanticTokenType::NAMESPACE,
        Colour::Pen => SemanticTokenType::FUNCTION,
        Colour::Face => SemanticTokenType::PROPERTY,
        Colour::Measure => SemanticTokenType::METHOD,
        Colour::Rule => SemanticTokenType::DECORATOR,
    }
}
