//! Turned surfaces in SVG: each strip under a gradient over its own diameter.

use super::compact::CompactPaths;
use super::data;
use crate::scene::{Paint, Scene, Shaded, SlopeClass, stops};
use crate::write::number;
use quillet_standards::Colour;
use std::collections::BTreeSet;
use std::fmt::{Result, Write as _};

/// The gradients that drawings need, each once.
#[derive(Debug, Default)]
pub(crate) struct Shades(BTreeSet<Shade>);

/// Of a colour and a slope, over a whole diameter or the lower half of it.
type Shade = (Colour, SlopeClass, bool);

impl Shades {
    /// Those of some drawings.
    pub(crate) fn of<'s>(scenes: impl IntoIterator<Item = &'s Scene>) -> Shades {
        let surfaces = scenes.into_iter().flat_map(Scene::surfaces);
        let each = surfaces.flat_map(|it| {
            let shade = |slope| (it.colour, slope, it.is_half);
            it.strips.iter().map(move |strip| shade(strip.slope))
        });
        Shades(each.collect())
    }

    /// As definitions of a drawing; nothing where there are none.
    pub(crate) fn defined(&self) -> String {
        if self.0.is_empty() {
            return String::new();
        }
        let mut out = String::from("<defs>\n");
        let wholes: BTreeSet<Shade> = self.0.iter().map(|it| (it.0, it.1, false)).collect();
        for shade in wholes {
            let id = name(shade);
            let _ = write!(
                out,
                "<linearGradient id=\"{id}\" x1=\"0\" y1=\"0\" x2=\"0\" y2=\"1\">"
            );
            for (at, colour) in needed(&stops(shade.0, shade.1)) {
                let at = number(at, 3);
                let _ = write!(out, "<stop offset=\"{at}\" stop-color=\"{colour}\"/>");
            }
            out.push_str("</linearGradient>\n");
            let half = (shade.0, shade.1, true);
            if self.0.contains(&half) {
                // The strip's box holds the lower half alone: the light begins one height above it.
                let half = name(half);
                let _ = writeln!(
                    out,
                    "<linearGradient id=\"{half}\" href=\"#{id}\" y1=\"-1\"/>"
                );
            }
        }
        out.push_str("</defs>\n");
        out
    }
}

/// The stops without those that lie on the way from one to another.
fn needed(stops: &[(f64, Colour)]) -> Vec<(f64, Colour)> {
    let Some((first, rest)) = stops.split_first() else {
        return Vec::new();
    };
    let mut kept = vec![*first];
    let mut skipped: Vec<(f64, Colour)> = Vec::new();
    for (at, next) in rest.iter().enumerate() {
        let last = kept[kept.len() - 1];
        if skipped.iter().any(|it| !lies_between(*it, last, *next)) {
            kept.push(rest[at - 1]);
            skipped.clear();
        }
        skipped.push(*next);
    }
    kept.extend(skipped.last());
    kept
}

/// Whether a stop shows what lies between two others, to what a screen can tell.
fn lies_between(stop: (f64, Colour), from: (f64, Colour), to: (f64, Colour)) -> bool {
    let part = (stop.0 - from.0) / (to.0 - from.0);
    let parts = |it: Colour| [it.red, it.green, it.blue].map(f64::from);
    let (ends, at) = ([parts(from.1), parts(to.1)], parts(stop.1));
    (0..3).all(|it| (ends[0][it] + (ends[1][it] - ends[0][it]) * part - at[it]).abs() <= 1.5)
}

/// The same wherever it is the same.
fn name((colour, slope, is_half): Shade) -> String {
    let colour = colour.to_string();
    let half = if is_half { "h" } else { "" };
    let hex = colour.trim_start_matches('#');
    format!("q-{hex}-{}{half}", slope.number())
}

/// Writes a turned surface.
pub(super) fn strips(out: &mut String, shaded: &Shaded, height_mm: f64) -> Result {
    out.push_str("<g stroke=\"none\">\n");
    for strip in &shaded.strips {
        writeln!(
            out,
            "<path fill=\"url(#{})\" d=\"{}\"/>",
            name((shaded.colour, strip.slope, shaded.is_half)),
            data(&shaded.outline(strip), height_mm, 3)
        )?;
    }
    out.push_str("</g>\n");
    Ok(())
}

/// The same in few letters, after the tag of its group; neighbours of one shade say it once.
pub(super) fn few(shaded: &Shaded, height_mm: f64, places: usize) -> String {
    let mut out = String::from(" stroke=\"none\">\n");
    for alike in shaded.strips.chunk_by(|a, b| a.slope == b.slope) {
        let Some(first) = alike.first() else { continue };
        // Each strip of a group still has the gradient over its own box.
        let fill = name((shaded.colour, first.slope, shaded.is_half));
        let _ = writeln!(out, "<g fill=\"url(#{fill})\">");
        for strip in alike {
            let mut path = CompactPaths::new(height_mm, places);
            path.path(&shaded.outline(strip));
            let _ = writeln!(out, "<path d=\"{}\"/>", path.data());
        }
        out.push_str("</g>\n");
    }
    out.push_str("</g>");
    out
}

/// Writes what has a colour of its own.
pub(super) fn painted(out: &mut String, paint: &Paint, height_mm: f64) -> Result {
    let paths = paint.paths.iter().map(|it| data(it, height_mm, 3));
    let paths: String = paths.collect();
    let fill = paint.fill.map_or("none".to_owned(), |it| it.to_string());
    let line = match paint.line {
        Some((colour, wide)) => {
            format!("stroke=\"{colour}\" stroke-width=\"{}\"", number(wide, 3))
        }
        None => "stroke=\"none\"".to_owned(),
    };
    writeln!(
        out,
        "<path fill=\"{fill}\" fill-rule=\"evenodd\" {line} d=\"{paths}\"/>"
    )
}
