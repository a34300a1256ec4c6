//! A drawing as DXF R12: lines, arcs, polylines with bulges, text.

mod groups;

use crate::mark;
use crate::scene::{Anchor, Item, Layer, Path, PathElement, Scene, Shape, Text, Xy};
use groups::Groups;

/// How far a polyline may stray from an ellipse or a cubic, mm on the paper.
pub(crate) const TOLERANCE_MM: f64 = 0.002;

/// Writes a drawing in the R12 form of DXF (AC1009), units millimetres, true to size whatever its scale
/// on paper; circles' arcs stay arcs, ellipses and cubics become polylines within 0.002 mm on paper.
pub fn dxf(scene: &Scene) -> String {
    let mut out = Groups {
        text: String::new(),
        true_size: 1.0 / scene.scale,
    };
    out.put(999, mark::MARK);
    out.put(999, "true size, a unit is a millimetre");
    header(&mut out, scene);
    tables(&mut out);
    out.section("ENTITIES");
    for item in &scene.items {
        entity(&mut out, item);
    }
    out.put(0, "ENDSEC");
    out.put(0, "EOF");
    out.text
}

fn header(out: &mut Groups, scene: &Scene) {
    out.section("HEADER");
    out.put(9, "$ACADVER");
    out.put(1, "AC1009");
    // Millimetres, and a metric drawing.
    out.put(9, "$INSUNITS");
    out.put(70, "4");
    out.put(9, "$MEASUREMENT");
    out.put(70, "1");
    for (name, at) in [
        ("$EXTMIN", Xy::default()),
        ("$EXTMAX", Xy::new(scene.width_mm, scene.height_mm)),
    ] {
        out.put(9, name);
        out.place(at, 0);
    }
    out.put(9, "$LTSCALE");
    out.length(40, 1.0);
    out.put(0, "ENDSEC");
}

fn tables(out: &mut Groups) {
    out.section("TABLES");
    let dashed: Vec<Layer> = Layer::ALL
        .into_iter()
        .filter(|layer| !layer.dash().is_empty())
        .collect();
    table(out, "LTYPE", dashed.len() + 1, |out| {
        line_type(out, "CONTINUOUS", "Solid line", &[]);
        for layer in dashed {
            line_type(out, line_type_name(layer), layer.name(), layer.dash());
        }
    });
    table(out, "LAYER", Layer::ALL.len() + 1, |out| {
        for (name, colour, line) in std::iter::once(("0".to_owned(), 7, "CONTINUOUS")).chain(
            Layer::ALL.map(|layer| (layer_name(layer), colour(layer), line_type_name(layer))),
        ) {
            out.put(0, "LAYER");
            out.put(2, &name);
            out.put(70, "0");
            out.put(62, &colour.to_string());
            out.put(6, line);
        }
    });
    table(out, "STYLE", 1, |out| {
        out.put(0, "STYLE");
        out.put(2, "STANDARD");
        out.put(70, "0");
        for (code, value) in [(40, 0.0), (41, 1.0), (50, 0.0)] {
            out.real(code, value);
        }
        out.put(71, "0");
        out.real(42, 3.5);
        out.put(3, "arial.ttf");
        out.put(4, "");
    });
    out.put(0, "ENDSEC");
}

fn table(out: &mut Groups, name: &str, rows: usize, body: impl FnOnce(&mut Groups)) {
    out.put(0, "TABLE");
    out.put(2, name);
    out.put(70, &rows.to_string());
    body(out);
    out.put(0, "ENDTAB");
}

fn line_type(out: &mut Groups, name: &str, caption: &str, dash: &[f64]) {
    out.put(0, "LTYPE");
    out.put(2, name);
    out.put(70, "0");
    out.put(3, caption);
    out.put(72, "65");
    out.put(73, &dash.len().to_string());
    out.real(40, dash.iter().sum());
    for (at, mm) in dash.iter().enumerate() {
        out.real(49, if at % 2 == 0 { *mm } else { -mm });
    }
}

fn line_type_name(layer: Layer) -> &'static str {
    match layer {
        Layer::Axis => "CENTER",
        Layer::Hidden | Layer::Uncut | Layer::Scissors => "DASHED",
        Layer::Neighbour => "PHANTOM",
        _ => "CONTINUOUS",
    }
}

fn layer_name(layer: Layer) -> String {
    layer.name().to_uppercase()
}

/// Colours by number: R12 has no line widths, so a plotter's table tells thick from thin by them.
fn colour(layer: Layer) -> i16 {
    match layer {
        Layer::Outline | Layer::Fine | Layer::Rim => 7,
        Layer::Thread => 3,
        Layer::Hatch => 8,
        Layer::Axis => 4,
        Layer::Hidden => 2,
        Layer::Neighbour => 6,
        Layer::Dimension | Layer::Text => 5,
        Layer::Frame | Layer::Rule | Layer::Quiet => 9,
        Layer::Contact | Layer::Cut => 1,
        Layer::Knocked | Layer::Work | Layer::View | Layer::CutGround | Layer::Paper => 254,
        Layer::Head | Layer::Solid | Layer::Uncut | Layer::Scissors => 7,
    }
}

fn entity(out: &mut Groups, item: &Item) {
    match &item.shape {
        Shape::Stroke(path) => stroke(out, item.layer, path),
        Shape::Fill(paths) => paths.iter().for_each(|path| solid(out, item.layer, path)),
        Shape::Lines(lines) => lines
            .iter()
            .for_each(|[from, to]| line(out, item.layer, *from, *to)),
        Shape::Text(text) => write_text(out, text),
        // The form has no colours of its own: outlines say what is there.
        Shape::Shaded(_) => {}
        Shape::Paint(paint) if paint.line.is_some() => {
            for path in &paint.paths {
                stroke(out, item.layer, path);
            }
        }
        Shape::Paint(_) => {}
    }
}

fn line(out: &mut Groups, layer: Layer, from: Xy, to: Xy) {
    out.entity("LINE", layer);
    out.place(from, 0);
    out.place(to, 1);
}

fn stroke(out: &mut Groups, layer: Layer, path: &Path) {
    match path.steps[..] {
        [PathElement::Line(to)] if !path.closed => line(out, layer, path.start, to),
        [
            PathElement::Arc {
                centre,
                semi,
                from_rad,
                sweep_rad,
                ..
            },
        ] if !path.closed && semi.x == semi.y => {
            let ends = [from_rad, from_rad + sweep_rad];
            let (from, to) = if sweep_rad < 0.0 {
                (ends[1], ends[0])
            } else {
                (ends[0], ends[1])
            };
            out.entity("ARC", layer);
            out.place(centre, 0);
            out.length(40, semi.x);
            out.real(50, from.to_degrees().rem_euclid(360.0));
            out.real(51, to.to_degrees().rem_euclid(360.0));
        }
        _ => polyline(out, layer, path),
    }
}

fn polyline(out: &mut Groups, layer: Layer, path: &Path) {
    let mut vertices: Vec<(Xy, f64)> = Vec::new();
    for (from, step) in path.legs() {
        match step {
            // The bulge is the tangent of a quarter of the angle turned through.
            PathElement::Arc {
                semi, sweep_rad, ..
            } if semi.x == semi.y => {
                vertices.push((from, (sweep_rad / 4.0).tan()));
            }
            _ => {
                let pieces = step.pieces(from, TOLERANCE_MM);
                let at = |piece: usize| match piece {
                    0 => from,
                    _ => step.point(from, piece as f64 / pieces as f64),
                };
                vertices.extend((0..pieces).map(|piece| (at(piece), 0.0)));
            }
        }
    }
    if !path.closed {
        vertices.push((path.end(), 0.0));
    }
    out.entity("POLYLINE", layer);
    out.put(66, "1");
    out.place(Xy::default(), 0);
    out.put(70, if path.closed { "1" } else { "0" });
    for (at, bulge) in vertices {
        out.entity("VERTEX", layer);
        out.place(at, 0);
        if bulge != 0.0 {
            out.real(42, bulge);
        }
    }
    out.entity("SEQEND", layer);
}

/// A filled outline: its first corners as a triangle (arrowheads), round ones as a fan of them.
fn solid(out: &mut Groups, layer: Layer, path: &Path) {
    let places = path.flattened(0.02);
    let Some((first, rest)) = places.split_first() else {
        return;
    };
    for pair in rest.windows(2) {
        if pair[1] == *first {
            continue;
        }
        out.entity("SOLID", layer);
        for (nth, at) in [*first, pair[0], pair[1], pair[1]].into_iter().enumerate() {
            out.place(at, nth as u16);
        }
    }
}

fn write_text(out: &mut Groups, text: &Text) {
    out.entity("TEXT", Layer::Text);
    out.place(text.start(), 0);
    out.length(40, text.height_mm);
    out.put(1, &coded(&text.words));
    out.real(50, if text.turned { 90.0 } else { 0.0 });
    if text.anchor != Anchor::Start {
        out.put(
            72,
            if text.anchor == Anchor::Middle {
                "1"
            } else {
                "2"
            },
        );
        out.place(text.at, 1);
    }
}

/// Text in the codes of R12: `%%c` diameter, `%%d` degree, `%%p` plus-minus; other signs in plain
/// letters, for the form knows no others.
fn coded(words: &str) -> String {
    words.chars().fold(String::new(), |mut out, letter| {
        match letter {
            'Ø' | '⌀' => out.push_str("%%c"),
            '°' => out.push_str("%%d"),
            '±' => out.push_str("%%p"),
            '×' => out.push('x'),
            '–' | '—' | '−' => out.push('-'),
            '≤' => out.push_str("<="),
            '≥' => out.push_str(">="),
            '→' => out.push_str("->"),
            '%' => out.push_str("%%%"),
            '“' | '”' => out.push('"'),
            '’' | '‘' => out.push('\''),
            control if control.is_control() => out.push(' '),
            ascii if ascii.is_ascii() => out.push(ascii),
            _ => out.push('?'),
        }
        out
    })
}
