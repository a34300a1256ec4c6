//! The last page: put together, finished, tested.

use super::alike::AlikeParts;
use super::canvas::{BODY, Canvas, FIGURE, FOOTER, LEFT, STRONG, TOP, VERB, WIDTH};
use super::frame::begun;
use super::strip;
use crate::draw::{Look, Paper, spread_wide};
use crate::scene::{Layer, Path};
use crate::sheet::content::{Contact, Content};
use quillet_geometry::put_in_order;

const RIGHT: f64 = LEFT + WIDTH;
/// The right-hand column, and how wide the left-hand one is.
const SECOND: f64 = LEFT + 86.0;
const FIRST: f64 = 80.0;

/// The page, or two where there is much to say.
///
/// Strips that found no room on their parts' pages stand at its foot if all of them do; what is left of
/// them is handed back.
pub(super) fn pages<'c>(
    c: &'c Content,
    paper: Paper,
    strips: Vec<AlikeParts<'c>>,
) -> (Vec<Canvas>, Vec<AlikeParts<'c>>) {
    let about = format!("{}: fit, finish, test", c.title);
    let mut page = begun(c, paper, "Put together", &about);
    let foot = Canvas::foot(paper);
    let mut pages = Vec::new();
    let mut at = TOP;
    if let Some((look, gaps)) = &c.looks.exploded {
        at = exploded(&mut page, c, look, gaps, at);
    }
    if let Some(look) = &c.looks.section {
        at = section(&mut page, c, look, at);
    }
    let left = touching(&mut page, c, at);
    let right = clear(&mut page, c, at);
    at = left.max(right) + 4.0;
    let need = order_height(c).max(tests_height(c));
    if at + need > foot {
        pages.push(page);
        page = begun(c, paper, "Put together, 2", &about);
        at = TOP;
    }
    let left = order(&mut page, c, at);
    let right = tests(&mut page, c, at);
    let under = left.max(right) + 2.0;
    let high: f64 = strips.iter().map(|it| strip::height(*it)).sum();
    let fit = under + high <= foot;
    next(&mut page, under + 1.0, if fit { foot - high } else { foot });
    if fit {
        strip::at_foot(&mut page, &strips, foot);
    }
    pages.push(page);
    (pages, if fit { Vec::new() } else { strips })
}

/// The same below what stands on a page already, where all of it fits; whether it does. What is put
/// together in one step needs no picture of its order.
pub(super) fn below(page: &mut Canvas, c: &Content, top: f64, foot: f64) -> bool {
    let mut with = page.clone();
    with.rule(Layer::Outline, LEFT, RIGHT, top);
    with.put(LEFT, top + 5.2, VERB, "Put together");
    let mut at = top + 6.6;
    if let Some((look, gaps)) = c.looks.exploded.as_ref().filter(|_| c.order.len() > 1) {
        at = exploded(&mut with, c, look, gaps, at);
    }
    if let Some(look) = &c.looks.section {
        at = section(&mut with, c, look, at);
    }
    at = touching(&mut with, c, at).max(clear(&mut with, c, at)) + 2.0;
    let under = order(&mut with, c, at).max(tests(&mut with, c, at));
    let fits = under <= foot - 0.3;
    if fits {
        next(&mut with, under + 1.0, foot);
        *page = with;
    }
    fits
}

/// Parts along one axis, at each gap its number and turns.
fn exploded(page: &mut Canvas, c: &Content, look: &Look, gaps: &[Option<f64>], top: f64) -> f64 {
    let left = LEFT + (WIDTH - look.scene.width_mm) / 2.0;
    let upper = top + 19.0;
    page.place(&look.scene, left, upper);
    let middle = upper + look.scene.height_mm / 2.0;
    let mut shown: Vec<(usize, f64)> = gaps
        .iter()
        .enumerate()
        .filter_map(|(index, gap)| Some((index, (*gap)?)))
        .collect();
    put_in_order(&mut shown, |it| it.1);
    let count = |index: usize| c.order.get(index).map_or("", |it| it.1.as_str());
    let widths: Vec<f64> = shown
        .iter()
        .map(|it| STRONG.width(count(it.0)).max(7.0))
        .collect();
    let wanted: Vec<f64> = shown.iter().map(|it| left - LEFT + it.1).collect();
    let places = spread_wide(&wanted, &widths, 3.0, WIDTH);
    for ((index, gap), x) in shown.iter().zip(places) {
        let x = LEFT + x;
        page.put_middle(x, top + 4.6, STRONG, count(*index));
        let (from, to) = (page.at(x, top + 12.6), page.at(left + gap, middle));
        page.scene
            .stroke(Layer::Dimension, Path::open(from).line(to));
        page.balloon((x, top + 9.6), &(index + 1).to_string(), false);
    }
    let names: Vec<String> = look
        .parts
        .iter()
        .map(|(id, _)| {
            // As the first page numbers them.
            let numbered = c.looks.cutaway.as_ref();
            let number = numbered.and_then(|it| it.parts.iter().position(|it| it.0 == *id));
            let listed = number.and_then(|at| c.listed.iter().find(|it| it.number == at + 1));
            listed.map_or_else(String::new, |it| it.name.clone())
        })
        .collect();
    let widths: Vec<f64> = names.iter().map(|it| STRONG.width(it)).collect();
    let wanted: Vec<f64> = look.parts.iter().map(|it| left - LEFT + it.1.x).collect();
    let total: f64 = widths.iter().sum::<f64>() + 3.0 * widths.len() as f64;
    let set = if total > WIDTH {
        STRONG.sized(11.0 * WIDTH / total)
    } else {
        STRONG
    };
    let widths: Vec<f64> = names.iter().map(|it| set.width(it)).collect();
    let under = upper + look.scene.height_mm + 5.4;
    for (name, x) in names.iter().zip(spread_wide(&wanted, &widths, 2.5, WIDTH)) {
        page.put_middle(LEFT + x, under, set, name);
    }
    under + 3.0
}

/// The section with a balloon at each place.
fn section(page: &mut Canvas, c: &Content, look: &Look, top: f64) -> f64 {
    let left = LEFT + (WIDTH - look.scene.width_mm) / 2.0;
    let upper = top + 12.0;
    page.place(&look.scene, left, upper);
    let mut all: Vec<&Contact> = c.contacts.iter().collect();
    put_in_order(&mut all, |it| it.spot.x);
    let wanted: Vec<f64> = all.iter().map(|it| left - LEFT + it.spot.x).collect();
    let places = spread_wide(&wanted, &vec![6.0; all.len()], 1.6, WIDTH);
    for (it, x) in all.iter().zip(places) {
        let level = top + 4.2;
        let at = page.at(left + it.spot.x, upper + look.scene.height_mm - it.spot.y);
        let from = page.at(LEFT + x, level + 2.9);
        page.scene
            .stroke(Layer::Dimension, Path::open(from).line(at));
        let dot = Path::circle(at, 0.75);
        if it.touches {
            page.scene.fill(Layer::Solid, vec![dot]);
        } else {
            page.scene.fill(Layer::Paper, vec![dot.clone()]);
            page.scene.stroke(Layer::Dimension, dot);
        }
        page.balloon((LEFT + x, level), &it.letter, it.touches);
    }
    upper + look.scene.height_mm + 5.0
}

fn touching(page: &mut Canvas, c: &Content, top: f64) -> f64 {
    let all: Vec<&Contact> = c.contacts.iter().filter(|it| it.touches).collect();
    if all.is_empty() {
        return top;
    }
    page.put(LEFT, top + 4.0, VERB, "Must touch, all round");
    let mut at = top + 5.8;
    for it in all {
        page.rule(Layer::Rule, LEFT, LEFT + FIRST, at);
        page.tick(LEFT, at + 1.5, &format!("touch/{}", it.letter));
        page.balloon((LEFT + 9.4, at + 3.6), &it.letter, true);
        let lines = BODY.lines(&kept(&it.between), FIRST - 15.0);
        page.lines((LEFT + 14.5, at + 4.7), BODY, &lines, 4.2);
        at += 7.0 + 4.2 * lines.len().saturating_sub(1) as f64;
    }
    at
}

fn clear(page: &mut Canvas, c: &Content, top: f64) -> f64 {
    let all: Vec<&Contact> = c.contacts.iter().filter(|it| !it.touches).collect();
    if all.is_empty() {
        return top;
    }
    page.put(SECOND, top + 4.0, VERB, "Must not touch");
    page.put_end(RIGHT - 17.0, top + 4.0, FOOTER, "drawn");
    page.put_end(RIGHT, top + 4.0, FOOTER, "at worst");
    let mut at = top + 5.8;
    for it in all {
        page.rule(Layer::Rule, SECOND, RIGHT, at);
        page.balloon((SECOND + 2.9, at + 3.6), &it.letter, false);
        let lines = BODY.lines(&kept(&it.between), RIGHT - SECOND - 8.0 - 31.0);
        page.lines((SECOND + 8.0, at + 4.7), BODY, &lines, 4.2);
        if let Some((drawn, worst)) = &it.left {
            page.put_end(RIGHT - 17.0, at + 5.0, FIGURE, drawn);
            page.put_end(RIGHT, at + 5.0, BODY, worst);
        }
        at += 7.0 + 4.2 * lines.len().saturating_sub(1) as f64;
    }
    at
}

fn order_height(c: &Content) -> f64 {
    8.0 + 6.8 * (c.order.len() + c.finishing.len()) as f64 + 5.0
}

fn tests_height(c: &Content) -> f64 {
    8.0 + 13.0 * c.tests.len() as f64
}

/// What is done, in order, with the turns.
fn order(page: &mut Canvas, c: &Content, top: f64) -> f64 {
    page.put(LEFT, top + 4.0, VERB, "In this order");
    let mut at = top + 5.8;
    for (index, words) in c.finishing.iter().enumerate() {
        page.rule(Layer::Rule, LEFT, LEFT + FIRST, at);
        page.tick(LEFT, at + 1.4, &format!("finish/{index}"));
        let lines = BODY.lines(words, FIRST - 7.0);
        page.lines((LEFT + 6.6, at + 4.6), BODY, &lines, 4.2);
        at += 6.8 + 4.2 * lines.len().saturating_sub(1) as f64;
    }
    for (index, (words, count)) in c.order.iter().enumerate() {
        page.rule(Layer::Rule, LEFT, LEFT + FIRST, at);
        page.tick(LEFT, at + 1.4, &format!("order/{}", index + 1));
        page.put(LEFT + 6.6, at + 4.6, STRONG, &(index + 1).to_string());
        let set = VERB.fitting(count, 24.0, &[11.0]);
        page.put_end(LEFT + FIRST, at + 4.8, set, count);
        let lines = BODY.lines(words, FIRST - 13.5 - set.width(count) - 2.0);
        page.lines((LEFT + 12.0, at + 4.6), BODY, &lines, 4.2);
        at += 6.8 + 4.2 * lines.len().saturating_sub(1) as f64;
    }
    page.rule(Layer::Rule, LEFT, LEFT + FIRST, at);
    at
}

/// A station stays on the line of its `at`.
fn kept(words: &str) -> String {
    words.replace(" at ", " at\u{a0}")
}

/// What is tested, for how long, and room to say what was seen.
fn tests(page: &mut Canvas, c: &Content, top: f64) -> f64 {
    page.put(SECOND, top + 4.0, VERB, "Test");
    let mut at = top + 5.8;
    for (index, it) in c.tests.iter().enumerate() {
        page.rule(Layer::Rule, SECOND, RIGHT, at);
        page.tick(SECOND, at + 1.6, &format!("test/{index}"));
        let end = RIGHT - 18.0;
        let time = it.time.as_deref().unwrap_or_default();
        let room = end - SECOND - 8.6 - FIGURE.width(time);
        let lines = BODY.lines(&it.what, room);
        let base = page.lines((SECOND + 6.6, at + 4.6), BODY, &lines, 4.1);
        let wanted = STRONG.lines(&it.wanted, room);
        let base = page.lines((SECOND + 6.6, base + 4.2), STRONG, &wanted, 4.1);
        page.put_end(end, at + 5.2, FIGURE, time);
        page.blank(
            (RIGHT - 16.0, RIGHT),
            base,
            6.0,
            &format!("test/{index}/seen"),
        );
        at = base + 2.4;
    }
    page.rule(Layer::Rule, SECOND, RIGHT, at);
    at
}

/// Nobody writes more.
const MOST_LINES: usize = 8;

/// Room for what is to be done otherwise.
fn next(page: &mut Canvas, top: f64, foot: f64) {
    if foot - top < 16.0 {
        return;
    }
    page.put(LEFT, top + 5.0, VERB, "For the next one");
    let mut at = top + 5.0;
    let mut index = 0;
    while at + 8.0 < foot - 2.0 && index < MOST_LINES {
        at += 8.0;
        index += 1;
        page.blank((LEFT, RIGHT), at, 7.0, &format!("next/{index}"));
    }
}
