//! A drawing for a page that styles layers once for all, in few letters: what follows each other in a layer
//! stands in one group, its strokes in one path.

use super::compact::CompactPaths;
use super::shade;
use crate::scene::{Anchor, Face, Item, Scene, Shape, Text};
use crate::write::{escaped, number};
use std::fmt::Write as _;

/// A hundredth of a millimetre is finer than any screen or printer shows.
const PLACES: usize = 2;

/// What is written of one item, or of strokes that follow each other.
struct Element {
    tag: &'static str,
    /// What it is besides what its layer is; none where the layer's style must not reach it.
    class: Option<&'static str>,
    /// All after the tag and its class.
    rest: String,
}

/// Writes all that is drawn.
pub(super) fn written(out: &mut String, scene: &Scene) {
    for run in scene.items.chunk_by(|a, b| a.layer == b.layer) {
        let Some(layer) = run.first().map(|it| it.layer.name()) else {
            continue;
        };
        let elements = elements(run, scene.height_mm);
        if let [Element { tag, class, rest }] = &elements[..]
            && let Some(class) = class
        {
            let parted = if class.is_empty() { "" } else { " " };
            let _ = writeln!(out, "<{tag} class=\"q-{layer}{parted}{class}\"{rest}");
            continue;
        }
        let _ = writeln!(out, "<g class=\"q-{layer}\">");
        for Element { tag, class, rest } in elements {
            let _ = match class.filter(|it| !it.is_empty()) {
                Some(class) => writeln!(out, "<{tag} class=\"{class}\"{rest}"),
                None => writeln!(out, "<{tag}{rest}"),
            };
        }
        out.push_str("</g>\n");
    }
}

fn elements(run: &[Item], height_mm: f64) -> Vec<Element> {
    let is_line = |it: &Item| matches!(it.shape, Shape::Stroke(_) | Shape::Lines(_));
    let mut all = Vec::new();
    for alike in run.chunk_by(|a, b| is_line(a) && is_line(b)) {
        let mut paths = CompactPaths::new(height_mm, PLACES);
        let mut painted = String::new();
        let (mut tag, mut class) = ("path", Some(""));
        for item in alike {
            match &item.shape {
                Shape::Stroke(path) => paths.path(path),
                Shape::Lines(lines) => lines.iter().for_each(|it| paths.segment(*it)),
                Shape::Fill(fills) => {
                    fills.iter().for_each(|it| paths.path(it));
                    class = Some("f");
                }
                Shape::Text(text) => {
                    (tag, painted) = ("text", worded(text, height_mm));
                    class = Some(if text.face == Face::Bold { "b" } else { "" });
                }
                // These have colours of their own.
                Shape::Shaded(shaded) => {
                    (tag, class) = ("g", None);
                    painted = shade::few(shaded, height_mm, PLACES);
                }
                Shape::Paint(paint) => {
                    (tag, class) = ("g", None);
                    painted.push('>');
                    let _ = shade::painted(&mut painted, paint, height_mm);
                    painted.push_str("</g>");
                }
            }
        }
        let rest = match painted.is_empty() {
            true => format!(" d=\"{}\"/>", paths.data()),
            false => painted,
        };
        all.push(Element { tag, class, rest });
    }
    all
}

/// A text after its tag; the page brings its font, so it needs no length.
fn worded(text: &Text, height_mm: f64) -> String {
    let anchor = match text.anchor {
        Anchor::Start => "",
        Anchor::Middle => " text-anchor=\"middle\"",
        Anchor::End => " text-anchor=\"end\"",
    };
    let (x, y) = (
        number(text.at.x, PLACES),
        number(height_mm - text.at.y, PLACES),
    );
    let turn = match text.turned {
        true => format!(" transform=\"rotate(-90 {x} {y})\""),
        false => String::new(),
    };
    format!(
        " x=\"{x}\" y=\"{y}\" font-size=\"{}\"{anchor}{turn}>{}</text>",
        number(text.size_mm(), 3),
        escaped(&text.words)
    )
}
