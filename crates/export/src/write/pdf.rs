//! Drawings as the pages of a PDF at true scale.

mod shade;

use super::pdf_font::Embedded;
use super::pdf_stream::Packer;
use crate::mark;
use crate::scene::{Face, Layer, Paint, Path, PathElement, Scene, Shape, Text, Xy};
use pdf_writer::types::{LineCapStyle, LineJoinStyle};
use pdf_writer::{Content, Filter, Name, Pdf, Rect, Ref, Str, TextStr};
use quillet_standards::Colour;
use shade::Shadings;

/// Points in a millimetre: a point is 1/72 in (ISO 32000-1, 8.3.2.3).
const POINTS: f64 = 72.0 / 25.4;

/// The names of the faces in a page's resources.
const NAMES: [Name<'static>; 2] = [Name(b"F1"), Name(b"F2")];

/// Writes each drawing as a page of its own size; a millimetre is a millimetre. The font comes with
/// it, the letters it needs and no more; what is copied out of it is text.
pub fn pdf(title: &str, pages: &[Scene]) -> Vec<u8> {
    let mut pdf = Pdf::new();
    let mut next = Ref::new(1);
    let [catalog, tree, info] = [(); 3].map(|()| next.bump());
    let fonts = Face::ALL.map(|face| Embedded::new(face, pages, &mut next));
    let shadings = Shadings::of(pages, &mut next);
    let page_refs: Vec<(Ref, Ref)> = pages.iter().map(|_| (next.bump(), next.bump())).collect();
    pdf.catalog(catalog).pages(tree);
    let count = i32::try_from(pages.len()).unwrap_or(i32::MAX);
    pdf.pages(tree)
        .kids(page_refs.iter().map(|(page, _)| *page))
        .count(count);
    // No date: the same design gives the same bytes.
    pdf.document_info(info)
        .title(TextStr(title))
        .creator(TextStr(mark::MARK));
    let mut packer = Packer::new();
    for font in &fonts {
        font.write(&mut pdf, &mut packer);
    }
    shadings.write(&mut pdf, &mut next, &mut packer);
    for (scene, (page_ref, content_ref)) in pages.iter().zip(&page_refs) {
        let mut page = pdf.page(*page_ref);
        page.parent(tree).contents(*content_ref);
        page.media_box(Rect::new(
            0.0,
            0.0,
            points(scene.width_mm),
            points(scene.height_mm),
        ));
        let mut resources = page.resources();
        let mut named = resources.fonts();
        for (name, font) in NAMES.iter().zip(&fonts) {
            named.pair(*name, font.whole);
        }
        drop(named);
        if scene.surfaces().next().is_some() {
            let mut shades = resources.shadings();
            for (name, id) in shadings.named() {
                shades.pair(name, id);
            }
        }
        drop(resources);
        drop(page);
        let data = packer.packed(&content(scene, &fonts, &shadings));
        pdf.stream(*content_ref, &data).filter(Filter::FlateDecode);
    }
    pdf.finish()
}

fn content(scene: &Scene, fonts: &[Embedded; 2], shadings: &Shadings) -> Vec<u8> {
    let mut content = Content::new();
    content
        .set_line_cap(LineCapStyle::RoundCap)
        .set_line_join(LineJoinStyle::RoundJoin);
    let mut layer = None;
    for item in &scene.items {
        if layer != Some(item.layer) {
            pen(&mut content, item.layer);
            layer = Some(item.layer);
        }
        match &item.shape {
            Shape::Stroke(path) => {
                trace(&mut content, path);
                content.stroke();
            }
            Shape::Fill(paths) => {
                paths.iter().for_each(|path| trace(&mut content, path));
                content.fill_even_odd();
            }
            Shape::Lines(lines) => {
                for [from, to] in lines {
                    content.move_to(points(from.x), points(from.y));
                    content.line_to(points(to.x), points(to.y));
                }
                content.stroke();
            }
            Shape::Text(text) => write_text(&mut content, text, fonts),
            Shape::Shaded(shaded) => shadings.show(&mut content, shaded),
            Shape::Paint(paint) => {
                painted(&mut content, paint);
                layer = None;
            }
        }
    }
    content.finish().into_vec()
}

fn painted(content: &mut Content, paint: &Paint) {
    let rgb = |it: Colour| it.parts().map(|it| it as f32);
    content.set_dash_pattern([], 0.0);
    if let Some([red, green, blue]) = paint.fill.map(rgb) {
        content.set_fill_rgb(red, green, blue);
    }
    if let Some((colour, wide_mm)) = paint.line {
        let [red, green, blue] = rgb(colour);
        content.set_stroke_rgb(red, green, blue);
        content.set_line_width(points(wide_mm));
    }
    for path in &paint.paths {
        trace(content, path);
    }
    match (paint.fill, paint.line) {
        (Some(_), Some(_)) => content.fill_even_odd_and_stroke(),
        (Some(_), None) => content.fill_even_odd(),
        (None, Some(_)) => content.stroke(),
        (None, None) => content.end_path(),
    };
}

fn pen(content: &mut Content, layer: Layer) {
    content.set_line_width(points(layer.width_mm()));
    content.set_dash_pattern(layer.dash().iter().map(|mm| points(*mm)), 0.0);
    let [red, green, blue] = layer.tone().rgb().map(|it| f32::from(it) / 255.0);
    content
        .set_stroke_rgb(red, green, blue)
        .set_fill_rgb(red, green, blue);
}

pub(super) fn trace(content: &mut Content, path: &Path) {
    content.move_to(points(path.start.x), points(path.start.y));
    let mut from = path.start;
    for step in &path.steps {
        match step {
            PathElement::Line(to) => {
                content.line_to(points(to.x), points(to.y));
            }
            PathElement::Cubic(a, b, to) => cubic(content, *a, *b, *to),
            PathElement::Arc { .. } => arc(content, from, step),
        }
        from = step.to();
    }
    if path.closed {
        content.close_path();
    }
}

/// An arc as cubics of at most 30° each: within 1e-6 of the radius (the usual control points at
/// 4/3·tan(θ/4)).
fn arc(content: &mut Content, from: Xy, step: &PathElement) {
    let PathElement::Arc {
        semi,
        from_rad,
        sweep_rad,
        to,
        ..
    } = *step
    else {
        return;
    };
    let pieces = (sweep_rad.abs() / 30f64.to_radians()).ceil().max(1.0);
    let turn = sweep_rad / pieces;
    let reach = 4.0 / 3.0 * (turn / 4.0).tan();
    let mut start = from;
    for piece in 0..pieces as usize {
        let angles = [
            from_rad + turn * piece as f64,
            from_rad + turn * (piece + 1) as f64,
        ];
        let last = piece + 1 == pieces as usize;
        let end = if last {
            to
        } else {
            step.point(from, (piece + 1) as f64 / pieces)
        };
        let [leave, arrive] = angles.map(|at| Xy::new(-semi.x * at.sin(), semi.y * at.cos()));
        cubic(
            content,
            start.moved(reach * leave.x, reach * leave.y),
            end.moved(-reach * arrive.x, -reach * arrive.y),
            end,
        );
        start = end;
    }
}

fn cubic(content: &mut Content, a: Xy, b: Xy, to: Xy) {
    let [a, b, to] = [a, b, to].map(|at| (points(at.x), points(at.y)));
    content.cubic_to(a.0, a.1, b.0, b.1, to.0, to.1);
}

fn write_text(content: &mut Content, text: &Text, fonts: &[Embedded; 2]) {
    let (start, size) = (text.start(), points(text.size_mm()));
    let (x, y) = (points(start.x), points(start.y));
    content.begin_text();
    content.set_text_matrix(if text.turned {
        [0.0, 1.0, -1.0, 0.0, x, y]
    } else {
        [1.0, 0.0, 0.0, 1.0, x, y]
    });
    let at = text.face as usize;
    content
        .set_font(NAMES[at], size)
        .show(Str(&fonts[at].subset.codes(&text.words)));
    content.end_text();
}

pub(super) fn points(mm: f64) -> f32 {
    (mm * POINTS) as f32
}
