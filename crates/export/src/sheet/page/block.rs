//! A holding on the page: its picture at the left, its rows at the right.

use super::canvas::{BODY, Canvas, FIGURE, FOOTER, LEFT, STRONG, TextStyle, VERB, WIDTH};
use crate::scene::Layer;
use crate::sheet::holdings::HoldingRows;
use crate::sheet::row::HoldingRow;

/// From the left: the picture, the box, what is done, how, how fast, limits of diameter and length.
const PICTURE: f64 = 42.0;
const BOX: f64 = LEFT + PICTURE;
const DONE: f64 = BOX + 10.6;
const HOW: f64 = DONE + 45.3;
const SPEED: f64 = HOW + 29.0;
const DIA: f64 = SPEED + 10.0;
const LONG: f64 = DIA + 20.5;
const RIGHT: f64 = LEFT + WIDTH;

/// A row by itself, with limits or a second line, and for each line more.
const LOW: f64 = 6.1;
const HIGH: f64 = 8.1;
const LEADING: f64 = 3.8;
/// Nothing comes nearer to the speed than this.
const CLEAR: f64 = 3.0;

/// A row as it will be set.
struct RowLayout<'a> {
    row: &'a HoldingRow,
    how: Vec<String>,
    /// What has no room beside the verb: the reach, and of a long size its last words.
    below: Vec<String>,
    /// As much of the size as stands beside the verb.
    size: (TextStyle, String),
    /// Lines of a stop.
    stop: Vec<String>,
}

/// The heads of the columns.
pub(super) fn heads(page: &mut Canvas, down: f64, speeds: &str) {
    page.put_end(DIA - 0.8, down, FOOTER, speeds);
    page.put_middle((DIA + LONG) / 2.0, down, FOOTER, "⌀ as made");
    page.put_middle((LONG + RIGHT) / 2.0, down, FOOTER, "length");
}

/// How high a holding is where its rows grow by a factor.
pub(super) fn height(holding: &HoldingRows, grow: f64) -> f64 {
    let rows: f64 = holding.rows.iter().map(|it| set(it).height() * grow).sum();
    rows.max(least(holding))
}

/// Whether its picture is short enough to stand beside its words.
fn beside(holding: &HoldingRows) -> bool {
    let words = STRONG.width(&holding.title).max(BODY.width(&holding.grip));
    let room = PICTURE - words - 2.0;
    let picture = holding.picture.as_ref();
    picture.is_some_and(|it| it.width_mm <= room)
}

/// What its title and picture take.
fn least(holding: &HoldingRows) -> f64 {
    if beside(holding) {
        let high = holding.picture.as_ref().map_or(0.0, |it| it.height_mm);
        return (high + 1.6).max(9.4);
    }
    let picture = holding
        .picture
        .as_ref()
        .map_or(0.0, |it| it.height_mm + 0.8);
    (if holding.grip.is_empty() { 5.0 } else { 9.0 }) + picture
}

/// Sets a holding; `keys` begin the keys of its boxes, one for each part that is made so.
pub(super) fn block(
    page: &mut Canvas,
    holding: &HoldingRows,
    top: f64,
    grow: f64,
    keys: &[String],
) -> f64 {
    let down = top + height(holding, grow);
    page.rule(Layer::Outline, LEFT, RIGHT, top);
    let title = STRONG.fitting(&holding.title, PICTURE - 2.0, &[9.0]);
    page.put(LEFT, top + 4.2, title, &holding.title);
    let grip = BODY.fitting(&holding.grip, PICTURE - 2.0, &[10.0, 9.0]);
    page.put(LEFT, top + 8.2, grip, &holding.grip);
    if let Some(picture) = &holding.picture {
        if beside(holding) {
            let x = BOX - 1.0 - picture.width_mm;
            page.place(picture, x, top + 0.8);
        } else {
            let above = if holding.grip.is_empty() { 5.0 } else { 9.0 };
            let spare = (down - top - above - picture.height_mm).max(0.0);
            let left = LEFT + (PICTURE - 1.0 - picture.width_mm) / 2.0;
            page.place(picture, left, top + above + (spare / 2.0).min(3.0));
        }
    }
    let mut at = top;
    for (index, row) in holding.rows.iter().enumerate() {
        let set = set(row);
        let end = at + set.height() * grow;
        let keys: Vec<String> = keys
            .iter()
            .map(|it| super::row_key(it, row, index))
            .collect();
        set.draw(page, at, end, &keys);
        if index + 1 < holding.rows.len() {
            page.rule(Layer::Rule, BOX, RIGHT, end);
        }
        at = end;
    }
    down
}

fn set(row: &HoldingRow) -> RowLayout<'_> {
    let words = |it: &HoldingRow| {
        VERB.width(&it.verb) + FIGURE.width(&it.size) + BODY.width(&it.reach) + 4.0
    };
    // Where nothing is set or measured the words run on to the edge.
    let bare = row.speed.is_empty() && row.dia.is_none() && row.length.is_none();
    let room = if bare { RIGHT - HOW - 1.0 } else { HOW_WIDTH };
    let how = packed(&row.how, room, bare);
    let how = how.iter().flat_map(|it| reading(it, room));
    let stop = match row.stop {
        true => {
            let caption = format!("try {}{}", row.size, lead(&row.reach));
            BODY.lines(&caption, DIA - DONE - VERB.width("STOP ") - 5.0)
        }
        false => Vec::new(),
    };
    let folded = !row.stop && words(row) > HOW - DONE;
    let (size, left) = sized(row);
    let below = match (folded, left) {
        (false, _) => Vec::new(),
        (true, None) => BODY.lines(&row.reach, HOW - DONE - CLEAR),
        (true, Some(left)) => BODY.lines(&format!("{left} {}", row.reach), HOW - DONE - CLEAR),
    };
    RowLayout {
        row,
        how: how.collect(),
        below,
        size,
        stop,
    }
}

/// The size as it stands beside the verb, and the words of it that have no room there.
fn sized(row: &HoldingRow) -> ((TextStyle, String), Option<String>) {
    let room = HOW - DONE - VERB.width(&row.verb) - 3.4;
    let set = FIGURE.fitting(&row.size, room, &[15.0, 14.0, 13.0, 12.0]);
    let mut lines = set.lines(&row.size, room).into_iter();
    let first = lines.next().unwrap_or_default();
    let left: Vec<String> = lines.collect();
    (
        (set, first),
        Some(left.join(" ")).filter(|it| !it.is_empty()),
    )
}

/// Short words share a line where they fit; a reading of a scale has one of its own. At the bench no scale is
/// read.
fn packed(how: &[String], room: f64, no_scale: bool) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for it in how {
        let joined = lines.last().map(|last| format!("{last}, {it}"));
        let short =
            |words: &String| no_scale || !words.contains(|letter: char| letter.is_ascii_digit());
        let joins = short(it) && lines.last().is_some_and(short);
        match joined.filter(|words| joins && BODY.width(words) <= room) {
            Some(words) => {
                lines.pop();
                lines.push(words);
            }
            None => lines.push(it.clone()),
        }
    }
    lines
}

/// A line of how; a reading that is too long says the same in fewer words.
fn reading(words: &str, room: f64) -> Vec<String> {
    let long = BODY.width(words) > room;
    let short = words.strip_prefix("out at ").filter(|_| long);
    match short {
        Some(rest) => BODY.lines(&format!("out {rest}"), room),
        None => BODY.lines(words, room),
    }
}

const HOW_WIDTH: f64 = SPEED - HOW - CLEAR + 1.2;

fn lead(reach: &str) -> String {
    if reach.is_empty() {
        String::new()
    } else {
        format!(": {reach}")
    }
}

impl RowLayout<'_> {
    fn height(&self) -> f64 {
        let limits = self.row.dia.is_some() || self.row.length.is_some();
        let lines = self.how.len().max(1 + self.below.len());
        let base = if limits || lines > 1 || self.row.stop {
            HIGH
        } else {
            LOW
        };
        let lines = lines.max(self.stop.len());
        let more = if lines > 2 { 0.7 } else { 0.0 };
        base + more
            + LEADING * lines.saturating_sub(2) as f64
            + if self.stop.len() > 1 { 2.6 } else { 0.0 }
    }

    fn draw(&self, page: &mut Canvas, top: f64, down: f64, keys: &[String]) {
        let row = self.row;
        match row.done {
            true => page.ticked(BOX, top + 1.1),
            false => page.tick(BOX, top + 1.1, keys.first().map_or("", String::as_str)),
        }
        if let Some(number) = row.number {
            page.put(BOX + 5.1, top + 4.4, STRONG, &number.to_string());
        }
        match row.stop {
            true => self.stopped(page, top, down),
            false => self.worked(page, top),
        }
        for (limits, as_made, from, to, what) in [
            (&row.dia, &row.dia_as_made, DIA, LONG, "dia"),
            (&row.length, &row.length_as_made, LONG, RIGHT, "length"),
        ] {
            let Some(limits) = limits else { continue };
            let set = if row.stop { STRONG } else { BODY };
            let room = to - from - 0.7;
            let words = set.width(limits) > room && limits.contains(' ');
            let ends = (from + 1.8, to - 1.8);
            let keys: Vec<String> = keys.iter().map(|it| format!("{it}/{what}")).collect();
            if words {
                for (line, base) in set.lines(limits, room).iter().zip([3.5, 7.0]) {
                    page.put_middle((from + to) / 2.0, top + base, set, line);
                }
                // What is seen, not measured, leaves no figure to write; of two readings each has its limits.
                let high = down - top - 8.4;
                if limits.contains('–') && high > 3.0 {
                    page.blanks(ends, down - 1.1, high, &keys);
                }
            } else {
                let set = set.fitting(limits, room, &[10.6, 10.0, 9.0, 8.0]);
                page.put_middle((from + to) / 2.0, top + 3.5, set, limits);
                match as_made {
                    Some(read) => page.put_middle((from + to) / 2.0, down - 1.5, STRONG, read),
                    None => page.blanks(ends, down - 1.1, down - top - 4.9, &keys),
                };
            }
            page.upright(Layer::Rule, from, top, down);
        }
    }

    /// What is done, how, and how fast.
    fn worked(&self, page: &mut Canvas, top: f64) {
        let row = self.row;
        let folded = !self.below.is_empty();
        let base = top + if folded { 3.9 } else { 4.6 };
        let end = page.put(DONE, base, VERB, &row.verb);
        let (set, size) = &self.size;
        let end = page.put(end + 1.5, base, *set, size);
        match folded {
            true => page.lines((DONE, base + 3.6), BODY, &self.below, LEADING),
            false => page.put(end + 1.5, base, BODY, &row.reach),
        };
        let first = if self.how.len() > 1 { top + 3.5 } else { base };
        page.lines((HOW, first), BODY, &self.how, LEADING);
        // A cutting speed, where no lathe is known, is two words.
        let set = VERB.fitting(&row.speed, 10.4, &[11.0, 9.0]);
        match row.speed.split_once(' ') {
            Some((figure, unit)) => {
                page.put_end(DIA - 0.8, base, VERB, figure);
                page.put_end(DIA - 0.8, base + 2.9, FOOTER, unit);
            }
            None => page.put_end(DIA - 0.8, base, set, &row.speed),
        }
    }

    fn stopped(&self, page: &mut Canvas, top: f64, down: f64) {
        page.bar((DONE, DIA - 1.0), (top + 0.9, down - 0.9));
        let lines = self.stop.len().max(1) as f64;
        let first = (top + down) / 2.0 + BODY.height_mm() / 2.0 - (lines - 1.0) * LEADING / 2.0;
        let end = page.put(DONE + 1.6, first, VERB.knocked(), &self.row.verb);
        page.lines((end + 1.5, first), BODY.knocked(), &self.stop, LEADING);
    }
}
