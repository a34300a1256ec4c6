//! A drawing as SVG, in millimetres.

mod compact;
mod path;
mod runs;
mod shade;

pub(crate) use shade::Shades;

use super::{escaped, number};
use crate::mark;
use crate::scene::{Anchor, Face, Item, Layer, Scene, Shape, Text, Tone};
pub(super) use path::data;
use path::place;
use std::collections::BTreeSet;
use std::fmt::Write as _;

/// What a drawing is shown on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Background {
    /// A file of its own: black on white paper.
    Paper,
    /// A file of its own that follows its viewer: light or dark.
    Either,
    /// A page: the text's own colour on nothing, every colour open to the page through
    /// `--quillet-LAYER`. Classes are the page's to style.
    Page,
    /// A page that is printed too and brings the font with it: text needs no length, and a hundredth of a
    /// millimetre is close enough.
    Sheet,
    /// A picture by itself on a ground unknown, such as an editor's hover: a card of its own, so
    /// that it can be read on a dark ground and a light one, in viewers that know no CSS too.
    Picture,
}

/// Writes a drawing; widths and sizes are true in millimetres.
pub fn svg(scene: &Scene, ground: Background) -> String {
    let (width, height) = (number(scene.width_mm, 3), number(scene.height_mm, 3));
    let mut out = String::new();
    if !matches!(ground, Background::Page | Background::Sheet) {
        let _ = writeln!(out, "<!-- {} -->", mark::MARK);
    }
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"quillet-drawing\" width=\"{width}mm\" \
         height=\"{height}mm\" viewBox=\"0 0 {width} {height}\" role=\"img\">\n<title>{}</title>\n",
        escaped(&scene.title),
    );
    if let Some(card) = card(ground) {
        let _ = writeln!(out, "<rect width=\"{width}\" height=\"{height}\" {card}/>");
    }
    if ground == Background::Either {
        out.push_str(&dark_styles(scene));
    }
    // A page of many drawings defines the shades of all once.
    if ground != Background::Sheet {
        out.push_str(&Shades::of([scene]).defined());
    }
    if ground == Background::Sheet {
        runs::written(&mut out, scene);
    } else {
        layered(&mut out, scene, ground);
    }
    out.push_str("</svg>\n");
    out
}

/// Every item by itself, those of a layer that follow each other in a group.
fn layered(out: &mut String, scene: &Scene, ground: Background) {
    for run in scene.items.chunk_by(|a, b| a.layer == b.layer) {
        let Some(layer) = run.first().map(|it| it.layer) else {
            continue;
        };
        let _ = writeln!(
            out,
            "<g class=\"q-{}\"{}>",
            layer.name(),
            look(layer, ground)
        );
        for item in run {
            write_item(out, item, scene.height_mm, ground);
        }
        out.push_str("</g>\n");
    }
}

/// What a page of [`Background::Sheet`] drawings says once of all layers.
pub fn layer_styles() -> String {
    let mut out = String::new();
    for layer in Layer::ALL {
        let (name, colour) = (layer.name(), colour(layer, Background::Sheet));
        if is_words(layer) {
            let _ = writeln!(out, ".q-{name}{{fill:{colour}}}");
            continue;
        }
        let dash: Vec<String> = layer.dash().iter().map(|mm| number(*mm, 3)).collect();
        let dash = match dash.is_empty() {
            true => String::new(),
            false => format!(";stroke-dasharray:{}", dash.join(" ")),
        };
        let _ = writeln!(
            out,
            ".q-{name}{{fill:none;stroke:{colour};stroke-width:{}{dash};stroke-linecap:round;stroke-linejoin:round}} .q-{name} .f,.q-{name}.f{{fill:{colour}}}",
            number(layer.width_mm(), 3)
        );
    }
    // After the layers, of which a fill may bear the name itself.
    out.push_str(".f{stroke:none;fill-rule:evenodd} .b{font-weight:bold}\n");
    out
}

/// What a file says of its colours where its viewer is dark. Paper is light always.
fn dark_styles(scene: &Scene) -> String {
    let layers: BTreeSet<Layer> = scene.items.iter().map(|it| it.layer).collect();
    let hex = |tone: Tone| {
        let [red, green, blue] = tone.dark_rgb();
        format!("#{red:02x}{green:02x}{blue:02x}")
    };
    let mut out = format!(
        "<style>@media screen and (prefers-color-scheme:dark){{.q-ground{{fill:{}}}",
        hex(Tone::Paper)
    );
    for layer in layers {
        let (name, colour) = (layer.name(), hex(layer.tone()));
        let _ = match is_words(layer) {
            true => write!(out, ".q-{name}{{fill:{colour}}}"),
            false => write!(
                out,
                ".q-{name}{{stroke:{colour}}}.q-{name} .f{{fill:{colour}}}"
            ),
        };
    }
    out.push_str("}</style>\n");
    out
}

fn is_words(layer: Layer) -> bool {
    matches!(layer, Layer::Text | Layer::Quiet | Layer::Knocked)
}

/// Presentation attributes of a layer. They, and no style sheet, carry what must survive a viewer that
/// knows no CSS.
fn look(layer: Layer, ground: Background) -> String {
    let colour = colour(layer, ground);
    if is_words(layer) {
        return format!(
            " fill=\"{colour}\" font-family=\"'DejaVu Sans Condensed',Arial,'Liberation Sans',sans-serif\""
        );
    }
    let mut look = format!(
        " fill=\"none\" stroke=\"{colour}\" stroke-width=\"{}\" stroke-linecap=\"round\" stroke-linejoin=\"round\"",
        number(layer.width_mm(), 3)
    );
    if !layer.dash().is_empty() {
        let dashes: Vec<String> = layer.dash().iter().map(|mm| number(*mm, 3)).collect();
        let _ = write!(look, " stroke-dasharray=\"{}\"", dashes.join(" "));
    }
    look
}

/// The colour of a layer; a page may say another, for the layer or for its tone.
fn colour(layer: Layer, ground: Background) -> String {
    let [red, green, blue] = layer.tone().rgb();
    let own = format!("#{red:02x}{green:02x}{blue:02x}");
    match (ground, layer.tone()) {
        (Background::Paper, Tone::Ink) => ink(ground).into(),
        (Background::Paper | Background::Either, _) => own,
        (Background::Picture, Tone::Contact) => "#c62f17".into(),
        (Background::Picture, Tone::Ink) => ink(ground).into(),
        (Background::Picture, _) => own,
        (Background::Page | Background::Sheet, Tone::Contact) => {
            "var(--quillet-contact,#d4351c)".into()
        }
        (Background::Page | Background::Sheet, Tone::Ink) => {
            format!("var(--quillet-{},currentColor)", layer.name())
        }
        (Background::Page | Background::Sheet, tone) => {
            format!("var(--quillet-{},{own})", tone.name())
        }
    }
}

/// What lies under a drawing.
fn card(ground: Background) -> Option<&'static str> {
    match ground {
        Background::Paper => Some("fill=\"#fff\""),
        Background::Either => Some("class=\"q-ground\" fill=\"#fff\""),
        Background::Page | Background::Sheet => None,
        Background::Picture => Some("rx=\"1.5\" fill=\"#fdfcf8\""),
    }
}

/// What is drawn with, contacts apart.
fn ink(ground: Background) -> &'static str {
    match ground {
        Background::Paper => "#000",
        Background::Either => "#111111",
        Background::Page | Background::Sheet => "currentColor",
        Background::Picture => "#1b1f24",
    }
}

fn write_item(out: &mut String, item: &Item, height: f64, ground: Background) {
    const PLACES: usize = 4;
    let _ = match &item.shape {
        Shape::Stroke(path) => writeln!(out, "<path d=\"{}\"/>", data(path, height, PLACES)),
        Shape::Fill(paths) => {
            let data: Vec<String> = paths
                .iter()
                .map(|path| data(path, height, PLACES))
                .collect();
            let colour = match (ground, item.layer.tone()) {
                (Background::Page, Tone::Ink) => "var(--quillet-fill,currentColor)".into(),
                _ => colour(item.layer, ground),
            };
            let class = match ground {
                Background::Either => " class=\"f\"",
                _ => "",
            };
            writeln!(
                out,
                "<path{class} d=\"{}\" fill=\"{colour}\" fill-rule=\"evenodd\" stroke=\"none\"/>",
                data.join("")
            )
        }
        Shape::Lines(lines) => {
            let data: Vec<String> = lines
                .iter()
                .map(|[from, to]| {
                    format!(
                        "M{}L{}",
                        place(*from, height, PLACES),
                        place(*to, height, PLACES)
                    )
                })
                .collect();
            writeln!(out, "<path d=\"{}\"/>", data.join(""))
        }
        Shape::Text(text) => write_text(out, text, height),
        Shape::Shaded(shaded) => shade::strips(out, shaded, height),
        Shape::Paint(paint) => shade::painted(out, paint, height),
    };
}

fn write_text(out: &mut String, text: &Text, height: f64) -> std::fmt::Result {
    let anchor = match text.anchor {
        Anchor::Start => "",
        Anchor::Middle => " text-anchor=\"middle\"",
        Anchor::End => " text-anchor=\"end\"",
    };
    let weight = if text.face == Face::Bold {
        " font-weight=\"bold\""
    } else {
        ""
    };
    let (x, y) = (number(text.at.x, 3), number(height - text.at.y, 3));
    let turn = if text.turned {
        format!(" transform=\"rotate(-90 {x} {y})\"")
    } else {
        String::new()
    };
    // The length keeps text within its measured room whatever font the viewer has.
    let length = format!(
        " textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\"",
        number(text.width_mm(), 3)
    );
    writeln!(
        out,
        "<text x=\"{x}\" y=\"{y}\" font-size=\"{}\"{length}{anchor}{weight}{turn}>{}</text>",
        number(text.size_mm(), 3),
        escaped(&text.words)
    )
}

#[cfg(test)]
mod tests;
