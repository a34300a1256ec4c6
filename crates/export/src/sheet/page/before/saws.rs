//! What is sawn, rod by rod.

use super::super::canvas::{BODY, Canvas, FIGURE, LARGE, LEFT, STRONG, VERB, WIDTH};
use super::{LEADING, RIGHT};
use crate::scene::{Layer, Path};
use crate::sheet::content::{Content, Saw, SawnPiece};

/// Each stock at full size with its cuts, side by side where they fit; what is too long in scale.
pub(super) fn saws(page: &mut Canvas, c: &Content, top: f64) -> f64 {
    page.rule(Layer::Outline, LEFT, RIGHT, top);
    let full = c.saws.iter().all(|it| scale(it) == 1.0);
    let end = page.put(LEFT, top + 5.2, VERB, "Saw");
    if full {
        page.put(end + 1.5, top + 5.2, BODY, "– full size: lay the rod on it");
    }
    let (mut x, mut at, mut row) = (LEFT, top + 6.4, 0.0_f64);
    for saw in &c.saws {
        let scale = scale(saw);
        let short = if full || scale == 1.0 {
            ""
        } else {
            " – not to scale"
        };
        // A piece too short for its name has it beside the stock.
        let names = saw.pieces.iter().filter(|it| !names_itself(it, scale));
        let names = names.map(|it| format!("; {} is {}", it.length, it.name));
        let names: String = names.collect();
        let caption = format!("{}{names}{short}", saw.stock);
        let set = STRONG.fitting(&caption, WIDTH, &[10.0, 9.0]);
        let wide = set.width(&caption).max(length(saw) * scale);
        if x > LEFT && x + wide > RIGHT {
            (x, at, row) = (LEFT, at + row, 0.0);
        }
        let high = if scale == 1.0 {
            saw.size_mm.clamp(8.0, 26.0)
        } else {
            12.0
        };
        page.put(x, at + 4.0, set, &caption);
        rod(page, saw, (x, at + 6.2), (high, scale));
        row = row.max(high + 8.6);
        x += wide + 8.0;
    }
    // Beside the last rod where there is room, else below.
    let beside = RIGHT - x > 84.0;
    let (x, mut down) = if beside {
        (x, at + 9.4)
    } else {
        (LEFT, at + row + 3.0)
    };
    let lines = c.saw_notes.iter().flat_map(|it| BODY.lines(it, RIGHT - x));
    for line in lines {
        page.put(x, down, BODY, &line);
        down += LEADING;
    }
    (at + row).max(down - LEADING + 1.6) + 0.6
}

/// The scale a stock is drawn at.
fn scale(saw: &Saw) -> f64 {
    let fits = |it: &f64| length(saw) * it <= WIDTH;
    [1.0, 0.5, 0.2, 0.1].into_iter().find(fits).unwrap_or(0.05)
}

/// Whether a piece's name has room on it, beside its length.
fn names_itself(piece: &SawnPiece, scale: f64) -> bool {
    let figure = LARGE.width(&piece.length);
    FIGURE.sized(11.0).width(&piece.name) <= piece.length_mm * scale - figure - 6.0
}

fn length(saw: &Saw) -> f64 {
    let pieces: f64 = saw.pieces.iter().map(|it| it.length_mm).sum();
    pieces + saw.kerf_mm * saw.pieces.len().saturating_sub(1) as f64
}

fn rod(page: &mut Canvas, saw: &Saw, (mut x, top): (f64, f64), (high, scale): (f64, f64)) {
    for (index, piece) in saw.pieces.iter().enumerate() {
        let wide = piece.length_mm * scale;
        let corner = page.at(x, top + high);
        let path = Path::rectangle(corner, wide, high);
        page.scene.fill(Layer::View, vec![path.clone()]);
        page.scene.stroke(Layer::Outline, path);
        let base = top + high / 2.0 + LARGE.height_mm() / 2.0;
        let figure = LARGE.fitting(&piece.length, wide - 3.0, &[16.0, 13.0, 11.0]);
        page.put_end(
            x + wide - (wide / 4.0).min(2.0),
            base,
            figure,
            &piece.length,
        );
        let room = wide - figure.width(&piece.length) - 6.0;
        let name = FIGURE.fitting(&piece.name, room, &[13.0, 11.0, 9.0, 7.0]);
        if names_itself(piece, scale) {
            let end = page.put(x + 3.0, base, name, &piece.name);
            let net = format!("{} long", piece.net);
            if end + 3.0 + BODY.width(&net) < x + wide - figure.width(&piece.length) - 4.0 {
                page.put(end + 3.0, base, BODY, &net);
            }
        }
        x += wide;
        if index + 1 < saw.pieces.len() {
            let kerf = (saw.kerf_mm * scale).max(0.6);
            page.bar((x, x + kerf), (top - 0.9, top + high + 0.9));
            x += kerf;
        }
    }
}

/// Room for the name of a kind of tools.
pub(super) const NAMED: f64 = 24.0;
