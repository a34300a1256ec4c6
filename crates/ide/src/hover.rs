//! What is shown of the thing at the cursor: what it is, then what was worked out about the
//! statement it stands in.

mod about;
mod cut;
mod moves;
mod number;
mod part;
mod pen;
mod picture;
mod room;
mod thread;
mod uses;
mod weight;

use crate::documentation_key::DocumentationKey;
use crate::sheet::Sheet;
use crate::sizes::Sizes;
use crate::{Analysis, Cursor, Snapshot};
use quillet_check::PartView;
use quillet_model::{DefinitionId, DefinitionKind, Part};
use quillet_syntax::grammar::{self, Place, Word};
use quillet_syntax::visit::{Node, path_at};
use quillet_syntax::{Span, Thing, Token, TokenKind};

pub(crate) use about::about;

/// What is shown at a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hover {
    /// What it is about.
    pub span: Span,
    /// Markdown.
    pub text: String,
}

/// What is shown of the thing at the cursor.
pub fn hover(snapshot: &Snapshot, cursor: Cursor<'_>) -> Option<Hover> {
    hover_until(snapshot, cursor, &|| false)
}

/// The same; of a number without how far it can move, where `called_off` said so in the meantime.
pub fn hover_until(
    snapshot: &Snapshot,
    cursor: Cursor<'_>,
    called_off: &dyn Fn() -> bool,
) -> Option<Hover> {
    let token = cursor.token()?;
    let settings = snapshot.settings();
    let mut sheet = Sheet::new(Sizes::of(settings, cursor.file));
    let definition = cursor.definition();
    let part = pictured(cursor, definition).filter(|_| settings.pictures);
    let mut picture = part.and_then(picture::of);
    // Of a part's name the picture says most; beside a cut it illustrates what is told.
    if definition.is_some_and(|index| is_part(cursor.defined(index).kind))
        && let Some(picture) = picture.take()
    {
        sheet.paragraph(picture);
    }
    match (definition, token.kind) {
        (Some(index), _) => {
            // Of a thread's cut the statement tells the sizes, of its own side.
            let reported = cursor.defined(index).kind == DefinitionKind::Thread && in_cut(cursor);
            about::definition(&mut sheet, cursor.analysis, index, !reported);
        }
        (None, TokenKind::Name | TokenKind::BadName) => match crate::shelves::at(cursor) {
            Some(shelf) => {
                sheet.paragraph(format!("**{}**, shelf", shelf.name.text));
                sheet.paragraph(crate::shelves::in_short(shelf));
            }
            None => name(&mut sheet, cursor, token),
        },
        (None, TokenKind::Quantity | TokenKind::Gauge) => {
            number::literal(&mut sheet, cursor, token)
        }
        (None, TokenKind::Thread) => {
            if let Ok(form) = cursor.text(token.span).parse() {
                sheet.paragraph(format!("**{}**", cursor.text(token.span)));
                thread::sizes(&mut sheet, &form, None);
            }
        }
        (None, TokenKind::String) => uses::file(&mut sheet, cursor),
        (None, TokenKind::Fit) => drop(about::fit_limits(&mut sheet, cursor.text(token.span))),
        _ => {}
    }
    statement(&mut sheet, cursor);
    if token.kind == TokenKind::Quantity {
        room::of(&mut sheet, cursor, token, called_off);
    }
    if let Some(picture) = picture {
        sheet.paragraph(picture);
    }
    (!sheet.is_empty()).then(|| Hover {
        span: token.span,
        text: sheet.finish(),
    })
}

/// A word of the language, a built-in kind of material or a rule.
fn name(sheet: &mut Sheet, cursor: Cursor<'_>, token: Token) {
    let text = cursor.text(token.span);
    if let Some(rule) = quillet_check::rule(text) {
        sheet.paragraph(rule.page);
    } else if let Some(word) = meant(cursor, token, text) {
        about::word(sheet, word);
    } else {
        about::material_kind(sheet, text);
    }
}

/// What a word means at its place: what the parser expected there says which of its meanings.
fn meant(cursor: Cursor<'_>, token: Token, text: &str) -> Option<&'static Word> {
    let start = token.span.start as usize;
    let expected = quillet_syntax::expected(cursor.file.id, &cursor.file.text, start);
    let expected = expected?;
    if expected.things.contains(&Thing::Measure) {
        let mut measures = grammar::meanings(text)
            .filter(|word| matches!(word.place, Place::Measure | Place::Configuration));
        return measures.next();
    }
    let here = expected.words.into_iter().find(|word| word.text == text);
    here.or_else(|| grammar::meanings(text).next())
}

/// What was worked out of the cut, station or joint at the cursor.
fn statement(sheet: &mut Sheet, cursor: Cursor<'_>) {
    let design = &cursor.analysis.design;
    let here = |span: Span| span.file == cursor.file.id && span.touches(cursor.offset);
    let wants = cursor.analysis.examined().wants.iter();
    let mut asked = wants.filter(|want| here(want.span)).peekable();
    if asked.peek().is_some() {
        return pen::wants(sheet, asked);
    }
    for part in &design.parts {
        for (index, feature) in part.features.with_ids() {
            if here(feature.span) && part.span.contains(feature.span) {
                return cut::facts(sheet, &PartView::new(design, None, part), index);
            }
        }
        for (index, station) in part.stations.with_ids() {
            if here(station.span) && part.span.contains(station.span) {
                return part::station(sheet, &PartView::new(design, None, part), index);
            }
        }
    }
    for pen in &design.pens {
        for (joint, rest) in pen.joints.iter().zip(&pen.assembly.joints) {
            if here(joint.head) {
                return pen::joint(sheet, pen, rest);
            }
        }
    }
}

/// Whether the cursor is in a cut.
fn in_cut(cursor: Cursor<'_>) -> bool {
    let nodes = path_at(&cursor.file.parsed.tree, cursor.offset);
    nodes.iter().any(|node| matches!(node, Node::Feature(_)))
}

fn is_part(kind: DefinitionKind) -> bool {
    matches!(kind, DefinitionKind::Part | DefinitionKind::Bought)
}

/// The part to picture: the one named, or the one the cursor is in.
fn pictured<'a>(cursor: Cursor<'a>, definition: Option<DefinitionId>) -> Option<&'a Part> {
    let design = &cursor.analysis.design;
    let named = definition.map(|index| cursor.defined(index));
    let named = named.and_then(|it| design.parts.iter().find(|part| part.name.span == it.span));
    let inside = |part: &&std::sync::Arc<Part>| {
        part.span.file == cursor.file.id && part.span.touches(cursor.offset)
    };
    named
        .or_else(|| design.parts.iter().find(inside))
        .map(AsRef::as_ref)
}
