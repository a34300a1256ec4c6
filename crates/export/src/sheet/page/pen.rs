//! The first page: the pen, what it measures, what was asked, what it is made of.

mod accepted;

use super::canvas::{BODY, Canvas, FIGURE, FOOTER, LARGE, LEFT, STRONG, TOP, VERB, WIDTH};
use super::frame::begun;
use crate::draw::{Look, Paper};
use crate::scene::{Layer, Path};
use crate::sheet::content::{Content, PenFigures};
use crate::sheet::first::FROM_THE_TOP;

const RIGHT: f64 = LEFT + WIDTH;
/// Where the right-hand column begins, and how wide the left-hand one is.
const SECOND: f64 = LEFT + 111.0;
const FIRST: f64 = 103.0;

/// The page; `at` gives the page of each part that is made.
pub(super) fn page(c: &Content, paper: Paper, at: &[usize]) -> Canvas {
    let made = c.made.as_ref().map(|it| it.words());
    let about: Vec<String> = made.into_iter().chain(c.note.clone()).collect();
    let about = about.join(" ");
    let mut page = begun(c, paper, &c.title, &about);
    let foot = Canvas::foot(paper);
    // The pictures share what the tables leave.
    let views: Vec<(&Look, Option<&PenFigures>)> = views(c);
    let high: f64 = views.iter().map(|it| it.0.scene.height_mm).sum();
    let pads = views.len().max(1) as f64;
    let spare = |below: f64| (foot - TOP - 3.0 - below - high) / pads;
    // Where the left-hand column would crowd the pictures, the right-hand one takes a share of what was accepted.
    let all = c.accepted.len();
    let shares = (0..=all).rev();
    let least = shares.min_by(|a, b| tables_height(c, *a).total_cmp(&tables_height(c, *b)));
    let here = match spare(tables_height(c, all)) < EASY {
        true => least.unwrap_or(all),
        false => all,
    };
    let pad = spare(tables_height(c, here)).clamp(14.0, 25.0);
    let mut top = TOP + 1.0;
    for (look, figures) in &views {
        let middle = top + (pad - 14.0) * 0.35 + 9.0;
        match figures {
            Some(figures) => looked(&mut page, look, figures, middle),
            None => cut(&mut page, c, look, middle),
        }
        top += look.scene.height_mm + pad;
    }
    let tables = top.max(TOP + 4.0) + if views.is_empty() { 0.0 } else { 2.0 };
    let under = figures(&mut page, c, tables);
    let down = asked(&mut page, c, tables);
    let lines = accepted::lines(c, here..all, RIGHT - SECOND);
    page.lines((SECOND, down + 5.0), BODY, &lines, accepted::LEADING);
    let spare = (foot - tables - left_height(c, here)).clamp(0.0, 4.0);
    let lines = accepted::lines(c, 0..here, FIRST);
    parts(&mut page, c, under + spare, at, &lines);
    blanks(&mut page, foot);
    page
}

fn views(c: &Content) -> Vec<(&Look, Option<&PenFigures>)> {
    let of = |state: &str| c.figures.iter().find(|it| it.state == state);
    let capped = c.looks.capped.as_ref().map(|it| (it, of("capped")));
    let uncapped = c.looks.uncapped.as_ref().map(|it| (it, of("to write")));
    let section = c.looks.cutaway.as_ref().map(|it| (it, None));
    let seen = [capped, uncapped]
        .into_iter()
        .flatten()
        .filter(|it| it.1.is_some());
    seen.chain(section).collect()
}

/// What a picture wants between itself and the next, mm: its name, its length, and air.
const EASY: f64 = 18.0;

/// What the tables below the pictures take, where so many of what was accepted stand on the left.
fn tables_height(c: &Content, here: usize) -> f64 {
    let lines = c
        .wants
        .iter()
        .map(|it| BODY.lines(&it.asks, ASKED).len().max(1));
    let asked = 8.4 + lines.map(|it| 3.2 + 4.2 * it as f64).sum::<f64>();
    let there = accepted::lines(c, here..c.accepted.len(), RIGHT - SECOND).len();
    let there = there as f64 * accepted::LEADING;
    left_height(c, here).max(asked + there + 46.0)
}

/// Figures, parts and what was accepted, one below the other.
fn left_height(c: &Content, here: usize) -> f64 {
    let figures = 22.2 + 7.2 * c.figures.len() as f64;
    let lines = c.listed.iter().map(|it| {
        let names = STRONG.lines(&it.name, NAME).len();
        BODY.lines(&it.stock, STOCK).len().max(names).max(1)
    });
    let parts = lines.map(|it| 2.4 + 4.0 * it as f64).sum::<f64>();
    let accepted = accepted::lines(c, 0..here, FIRST).len() as f64;
    figures + 8.0 + parts + accepted * accepted::LEADING + 3.0
}

/// The room of a part's name, and of its stock.
const NAME: f64 = 33.0;
const STOCK: f64 = 34.0;
/// The least room that what was asked has beside its figure.
const ASKED: f64 = RIGHT - SECOND - 34.0;

/// A pen from outside: its length below it, its balance above.
fn looked(page: &mut Canvas, look: &Look, figures: &PenFigures, top: f64) {
    let (wide, high) = (look.scene.width_mm, look.scene.height_mm);
    let left = LEFT + (WIDTH - wide) / 2.0;
    page.place(&look.scene, left, top);
    page.put(left - 2.0, top - 3.6, STRONG, &figures.state);
    if let Some(balance) = figures.balance_mm {
        let x = left + balance * look.scale;
        let tip = page.at(x, top - 1.2);
        let feet = [tip, tip.moved(-1.5, 2.8), tip.moved(1.5, 2.8)];
        page.scene.fill(Layer::Solid, vec![Path::polygon(&feet)]);
        let caption = format!("balances {} from {}", figures.cells[3], figures.from);
        page.put(x + 3.0, top - 1.8, BODY, &caption);
    }
    let level = top + high + 5.0;
    let (from, to) = (left, left + wide);
    let gap = LARGE.width(&figures.cells[0]) / 2.0 + 1.4;
    let middle = (from + to) / 2.0;
    for (tip, stop, way) in [(from, middle - gap, 1.0), (to, middle + gap, -1.0)] {
        page.rule(Layer::Dimension, tip, stop, level);
        page.upright(Layer::Dimension, tip, top + high / 2.0, level + 1.4);
        let point = page.at(tip, level);
        let back = point.moved(way * 2.6, 0.0);
        let head = [point, back.moved(0.0, 0.4), back.moved(0.0, -0.4)];
        page.scene
            .fill(Layer::Dimension, vec![Path::polygon(&head)]);
    }
    page.put_middle(
        middle,
        level + LARGE.height_mm() / 2.0,
        LARGE,
        &figures.cells[0],
    );
}

/// The section with the parts' numbers.
fn cut(page: &mut Canvas, c: &Content, look: &Look, top: f64) {
    let top = top + 2.0;
    let left = LEFT + (WIDTH - look.scene.width_mm) / 2.0;
    page.place(&look.scene, left, top);
    let names: Vec<String> = (1..=look.parts.len())
        .map(|number| {
            let part = c.listed.iter().find(|it| it.number == number);
            part.map_or_else(String::new, |it| it.name.clone())
        })
        .collect();
    let widths: Vec<f64> = names.iter().map(|it| 8.0 + STRONG.width(it)).collect();
    let wanted: Vec<f64> = look.parts.iter().map(|it| left + it.1.x - LEFT).collect();
    let room = widths.iter().sum::<f64>() + 3.0 * widths.len() as f64;
    // Where the names do not fit side by side, the numbers alone stand there: the list says the rest.
    let bare = room > WIDTH;
    let widths = if bare { vec![7.0; names.len()] } else { widths };
    let middles = crate::draw::spread_wide(&wanted, &widths, 3.0, WIDTH);
    for (index, (middle, width)) in middles.iter().zip(&widths).enumerate() {
        let x = LEFT + middle - width / 2.0 + 3.5;
        let level = top - 6.0;
        let place = page.at(
            left + look.parts[index].1.x,
            top + look.scene.height_mm - look.parts[index].1.y,
        );
        let foot = page.at(x, level + 2.9);
        page.scene
            .stroke(Layer::Dimension, Path::open(foot).line(place));
        page.scene
            .fill(Layer::Dimension, vec![Path::circle(place, 0.6)]);
        page.balloon((x, level), &(index + 1).to_string(), false);
        if !bare {
            page.put(x + 4.2, level + 1.2, STRONG, &names[index]);
        }
    }
}

/// The table of figures with a row as made; where it ends.
fn figures(page: &mut Canvas, c: &Content, top: f64) -> f64 {
    let heads = [
        ("long", "mm"),
        ("filled", "g"),
        ("dry", "g"),
        ("balances", "at mm"),
        ("of its", "length"),
    ];
    let right = |index: usize| LEFT + 23.0 + 16.0 * (index + 1) as f64;
    for (index, (above, below)) in heads.iter().enumerate() {
        page.put_end(right(index), top + 3.4, FOOTER, above);
        page.put_end(right(index), top + 6.8, FOOTER, below);
    }
    let mut at = top + 8.4;
    page.rule(Layer::Fine, LEFT, LEFT + FIRST, at);
    for row in &c.figures {
        page.put(LEFT, at + 5.2, STRONG, &row.state);
        for (index, cell) in row.cells.iter().enumerate() {
            let set = FIGURE.fitting(cell, 15.4, &[14.0, 12.0]);
            page.put_end(right(index), at + 5.4, set, cell);
        }
        at += 7.2;
        page.rule(Layer::Rule, LEFT, LEFT + FIRST, at);
    }
    page.put(LEFT, at + 5.2, STRONG, "as made");
    for index in 0..heads.len() {
        let end = right(index);
        page.blank(
            (end - 13.0, end),
            at + 6.2,
            5.4,
            &format!("pen/figure{index}"),
        );
    }
    at += 7.8;
    page.rule(Layer::Rule, LEFT, LEFT + FIRST, at);
    let stands = c.figures.iter().any(|it| it.from == FROM_THE_TOP);
    let caption = match stands {
        true => "Balance (▼) from the foremost end; in its stand from the top.",
        false => "Balance from the foremost end: ▼ in the picture.",
    };
    let set = BODY.fitting(caption, FIRST, &[10.0, 9.0]);
    page.put(LEFT, at + 3.8, set, caption);
    at + 6.0
}

/// What was asked, and what it comes to.
fn asked(page: &mut Canvas, c: &Content, top: f64) -> f64 {
    if c.wants.is_empty() {
        return top;
    }
    page.put(SECOND, top + 6.8, VERB, "What was asked");
    let mut at = top + 8.4;
    page.rule(Layer::Fine, SECOND, RIGHT, at);
    for want in &c.wants {
        let figure = want.comes_to.clone().unwrap_or_else(|| "not known".into());
        let set = FIGURE.fitting(&figure, 24.0, &[13.0, 11.0, 9.0]);
        let room = RIGHT - SECOND - 8.0 - set.width(&figure) - 2.0;
        let lines = BODY.lines(&want.asks, room);
        let mark = match (want.is_met(), &want.comes_to) {
            (true, _) => "✓",
            (false, Some(_)) => "✗",
            (false, None) => "?",
        };
        page.put(SECOND, at + 4.8, VERB, mark);
        page.lines((SECOND + 6.5, at + 4.6), BODY, &lines, 4.2);
        page.put_end(RIGHT, at + 5.0, set, &figure);
        at += 3.2 + 4.2 * lines.len().max(1) as f64;
        page.rule(Layer::Rule, SECOND, RIGHT, at);
    }
    at
}

/// The parts with their stock, mass and page; below, what was accepted.
fn parts(page: &mut Canvas, c: &Content, top: f64, pages: &[usize], accepted: &[String]) {
    page.put(LEFT, top + 4.0, VERB, "Parts");
    let mut at = top + 5.6;
    page.rule(Layer::Fine, LEFT, LEFT + FIRST, at);
    for it in &c.listed {
        let number = if it.number > 0 {
            it.number.to_string()
        } else {
            String::new()
        };
        page.put(LEFT, at + 4.5, STRONG, &number);
        let names = STRONG.lines(&it.name, NAME);
        page.lines((LEFT + 6.0, at + 4.5), STRONG, &names, 4.0);
        let stock = BODY.lines(&it.stock, STOCK);
        page.lines((LEFT + 40.5, at + 4.5), BODY, &stock, 4.0);
        page.put_end(LEFT + 86.0, at + 4.5, BODY, &it.mass);
        if let Some(number) = it.made.and_then(|it| pages.get(it)) {
            page.put_end(LEFT + FIRST, at + 4.5, BODY, &format!("page {number}"));
        }
        at += 2.4 + 4.0 * stock.len().max(names.len()).max(1) as f64;
        page.rule(Layer::Rule, LEFT, LEFT + FIRST, at);
    }
    page.lines((LEFT, at + 5.0), BODY, accepted, accepted::LEADING);
}

/// What is written by hand.
fn blanks(page: &mut Canvas, foot: f64) {
    let names = ["for", "date", "revision", "made by", "lot of the blanks"];
    for (index, name) in names.iter().enumerate() {
        let down = foot - 5.0 - 8.6 * (names.len() - 1 - index) as f64;
        let end = page.put(SECOND, down - 0.8, BODY, name);
        page.blank((end + 2.0, RIGHT), down, 6.0, name);
    }
}
