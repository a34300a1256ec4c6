//! The strip on the page: a table over the template, and the line along which it is cut off.

use super::alike::AlikeParts;
use super::canvas::{BODY, Canvas, FIGURE, LEFT, STRONG, TextStyle, VERB, WIDTH};
use crate::draw::{CARD_ABOVE_MM, CARD_SIDE_MM, card};
use crate::scene::{Layer, Path, Xy};
use crate::sheet::strip::{Station, Strip};

/// Room for the names of the rows.
const NAMES: f64 = 28.5;
const ROWS: [f64; 4] = [5.8, 5.1, 6.9, 6.3];
/// From the table to the card.
const FAN: f64 = 5.8;

/// How high a part's strip is; 0 where it has none.
pub(super) fn height(part: AlikeParts) -> f64 {
    let radius = part.radius_mm();
    match &part.strip {
        Some(_) => 1.6 + rows(part).iter().sum::<f64>() + FAN + CARD_ABOVE_MM + radius + 1.6,
        None => 0.0,
    }
}

/// Sets the strip so that it ends at the foot.
pub(super) fn strip(page: &mut Canvas, part: AlikeParts, foot: f64, keys: &[String]) {
    let Some(strip) = &part.strip else { return };
    let top = foot - height(part);
    let width = page.scene.width_mm;
    page.rule(Layer::Scissors, 0.0, width, top);
    scissors(page, 9.5, top);
    table(page, part, strip, top + 1.6, keys);
    let under = top + 1.6 + rows(part).iter().sum::<f64>();
    template(page, part, strip, under);
}

/// Sets several, the last at the foot.
pub(super) fn at_foot(page: &mut Canvas, parts: &[AlikeParts], foot: f64) {
    let mut down = foot - parts.iter().map(|it| height(*it)).sum::<f64>();
    for part in parts {
        down += height(*part);
        strip(page, *part, down, &part.keys(0));
    }
}

/// How high its rows are: of the last there is one for each part.
fn rows(part: AlikeParts) -> Vec<f64> {
    let [rows @ .., made] = ROWS;
    let made = std::iter::repeat_n(made, part.count());
    rows.into_iter().chain(made).collect()
}

fn column(strip: &Strip) -> f64 {
    (WIDTH - NAMES) / strip.columns.len() as f64
}

fn table(page: &mut Canvas, part: AlikeParts, strip: &Strip, top: f64, keys: &[String]) {
    let right = LEFT + WIDTH;
    let mut names = vec![
        format!("from the {}", strip.from),
        "rough to".into(),
        "finished ⌀".into(),
    ];
    // Where two are made each has its row.
    names.extend(part.each().map(|name| match part.count() {
        1 => "as made".to_owned(),
        _ => format!("{name} as made"),
    }));
    let mut at = top;
    let mut downs = Vec::new();
    for (index, (name, high)) in names.iter().zip(rows(part)).enumerate() {
        let set = if index % 2 == 0 && index < 3 {
            STRONG
        } else {
            BODY
        };
        let set = set.fitting(name, NAMES - 0.2, &[10.0, 9.0, 8.0]);
        // On the line of the figures beside it.
        let above = if index == 1 { 1.5 } else { 1.9 };
        page.put(LEFT, at + high - above, set, name);
        at += high;
        downs.push(at);
        page.rule(Layer::Rule, LEFT, right, at);
    }
    let wide = column(strip);
    let room = wide - 1.0;
    // One size for all of a row: that of its longest figure.
    let one = |set: TextStyle, smaller: &[f64], words: &dyn Fn(&Station) -> &str| {
        let all = strip
            .columns
            .iter()
            .map(|it| set.fitting(words(it), room, smaller));
        all.min_by(|a, b| a.pt.total_cmp(&b.pt)).unwrap_or(set)
    };
    let ats = one(STRONG, &[10.0, 9.0, 8.0], &|it| &it.at);
    let roughs = one(BODY, &[10.0, 9.0, 8.0], &|it| &it.rough);
    let sizes = one(FIGURE, &[15.0, 14.0, 12.0, 10.0], &|it| &it.finished);
    for (index, it) in strip.columns.iter().enumerate() {
        let left = LEFT + NAMES + wide * index as f64;
        let middle = left + wide / 2.0;
        if index > 0 {
            page.upright(Layer::Rule, left, downs[0], at);
        }
        page.put_middle(middle, downs[0] - 1.9, ats, &it.at);
        page.put_middle(middle, downs[1] - 1.5, roughs, &it.rough);
        page.put_middle(middle, downs[2] - 1.7, sizes, &it.finished);
        match &it.as_made {
            Some(read) => {
                let set = BODY.fitting(read, room, &[10.0, 9.0, 8.0]);
                page.put_middle(middle, downs[3] - 1.9, set, read);
            }
            None => {
                for (row, key) in keys.iter().enumerate() {
                    let cell = (left, downs[2] + ROWS[3] * row as f64);
                    page.field(cell, (wide, ROWS[3]), &format!("{key}/at{}", it.at));
                }
            }
        }
    }
}

/// The card with the profile cut out of its edge, a line from each column to its place on it.
fn template(page: &mut Canvas, part: AlikeParts, strip: &Strip, under: f64) {
    let Some(card) = card(&part.part) else { return };
    let top = under + FAN;
    let [first, second] = part.ends();
    let spare = WIDTH - NAMES - card.width_mm;
    // Both ends' names stand beside it, none beyond the live width.
    let named = STRONG.width(&second) + 2.0;
    let left = LEFT + NAMES + (spare / 2.0).min(spare - named);
    page.place(&card, left, top);
    let wide = column(strip);
    for (index, it) in strip.columns.iter().enumerate() {
        let from = page.at(LEFT + NAMES + wide * (index as f64 + 0.5), under);
        let to = page.at(left + CARD_SIDE_MM + it.station_mm, top);
        let line = Path::open(from)
            .line(from.moved(0.0, -1.0))
            .line(to.moved(0.0, 1.2))
            .line(to);
        page.scene.stroke(Layer::Dimension, line);
    }
    let down = top + card.height_mm;
    page.put_end(left - 2.0, down - 2.0, STRONG, &first);
    page.put(left + card.width_mm + 2.0, down - 2.0, STRONG, &second);
    let name = format!("{} 1 : 1", part.names());
    let (beside, whole) = (left - LEFT - STRONG.width(&first) - 5.0, left - LEFT - 2.0);
    let fits = |room: f64, most: usize| {
        VERB.sized(11.0).width(&name) <= room && BODY.lines(&strip.leave, room).len() <= most
    };
    // What has no room beside the end's name stands higher, where the lines to the card leave room.
    let room = if !fits(beside, 1) && fits(whole, 2) {
        whole
    } else {
        beside
    };
    let set = VERB.fitting(&name, room, &[11.0, 9.0]);
    let lines = set.lines(&name, room);
    let first = if lines.len() > 1 || room > beside {
        under + 4.4
    } else {
        top + 4.2
    };
    let at = page.lines((LEFT, first), set, &lines, 4.0);
    let leave = BODY.lines(&strip.leave, room);
    page.lines((LEFT, at + 4.4), BODY, &leave, 4.0);
}

/// Scissors on the line, drawn: two blades and two bows.
fn scissors(page: &mut Canvas, x: f64, down: f64) {
    let at = page.at(x, down);
    for side in [1.0, -1.0] {
        let bow = at.moved(-2.2, side * 1.3);
        page.scene.fill(Layer::Paper, vec![Path::circle(bow, 0.95)]);
        page.scene.stroke(Layer::Fine, Path::circle(bow, 0.95));
        let blade =
            Path::open(bow.moved(0.8, -side * 0.5)).line(Xy::new(at.x + 3.2, at.y - side * 1.3));
        page.scene.stroke(Layer::Outline, blade);
    }
}
