//! What is shown of the thing at a place, between the words and beside the text.

use crate::opened::Opened;
use serde::Serialize;

/// What is shown at a place; the text is Markdown.
#[derive(Serialize)]
pub(super) struct HoverAnswer {
    from: usize,
    to: usize,
    text: String,
}

/// A hint between the words.
#[derive(Serialize)]
pub(super) struct InlayAnswer {
    at: usize,
    text: String,
    about: &'static str,
}

/// A picture with its measures.
#[derive(Serialize)]
pub(super) struct PreviewAnswer {
    name: String,
    title: String,
    pictures: Vec<PictureAnswer>,
    legend: Vec<String>,
    measures: Vec<(String, String)>,
}

#[derive(Serialize)]
struct PictureAnswer {
    says: String,
    svg: String,
}

/// What is shown of the thing at a place.
pub(super) fn hover(open: &Opened, at: usize) -> Option<HoverAnswer> {
    let found = quillet_ide::hover(&open.snapshot, open.cursor(at)?)?;
    let (from, to) = open.here(found.span);
    Some(HoverAnswer {
        from,
        to,
        text: found.text,
    })
}

/// What was worked out, told between the words of a file.
pub(super) fn inlays(open: &Opened) -> Vec<InlayAnswer> {
    let settings = open.snapshot.settings();
    let whole = open.within(0, usize::MAX);
    let offsets = open.offsets(&open.file);
    let found = quillet_ide::inlays(&open.analysis, settings, &open.file, whole);
    let each = found.into_iter().map(|it| InlayAnswer {
        at: offsets.unit(it.offset),
        text: it.text,
        about: it.about,
    });
    each.collect()
}

/// A picture of the pen or part at a place.
pub(super) fn preview(open: &Opened, at: usize) -> Option<PreviewAnswer> {
    let found = quillet_ide::preview(open.cursor(at)?)?;
    let pictures = found.pictures.into_iter().map(|it| PictureAnswer {
        says: it.name,
        svg: it.svg,
    });
    Some(PreviewAnswer {
        name: found.name,
        title: found.title,
        pictures: pictures.collect(),
        legend: found.legend,
        measures: found.measures,
    })
}
