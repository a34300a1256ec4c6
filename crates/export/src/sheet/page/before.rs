//! The second page: safety, sawing, what is laid out, mandrels.

mod saws;

use super::alike::AlikeParts;
use super::canvas::{BODY, Canvas, FIGURE, LEFT, STRONG, TOP, VERB, WIDTH};
use super::frame::begun;
use super::{block, last, mandrel, strip};
use crate::draw::Paper;
use crate::scene::Layer;
use crate::sheet::content::Content;
use saws::{NAMED, saws};

const RIGHT: f64 = LEFT + WIDTH;
const HALF: f64 = 87.0;
const LEADING: f64 = 4.1;
/// Above what stands below the mandrels, and its heading, mm.
const ABOVE: f64 = 4.0;
const HEADING: f64 = 6.6;
/// How much the rows of a stack's gluing grow at most, and the room that a strip may want, mm.
const AIRY: f64 = 1.25;
const STRIP: f64 = 50.0;

/// The pages before those of the parts, and where there is room on the last of them.
pub(super) struct BeforePages {
    pub(super) pages: Vec<Canvas>,
    down: f64,
    foot: f64,
}

/// Its pages; mandrels that find no room go on.
pub(super) fn pages(c: &Content, paper: Paper) -> BeforePages {
    let mut page = begun(
        c,
        paper,
        "Before you start",
        &format!("{}: blanks, tools, mandrels", c.title),
    );
    let foot = Canvas::foot(paper);
    let mut at = safety(&mut page, c, TOP);
    at = saws(&mut page, c, at);
    at = lay_out(&mut page, c, at);
    let mut pages = Vec::new();
    // All together on a page of their own where they do not all fit here.
    if !fit(c, at + 6.6, foot) {
        pages.push(page);
        page = further(c, paper);
        at = TOP - 2.0;
    }
    let down = mandrels(c, paper, at, &mut pages, &mut page);
    pages.push(page);
    BeforePages { pages, down, foot }
}

impl BeforePages {
    /// Sets how a part's stack is glued up where there is room; the number of its page.
    pub(super) fn glued(&mut self, c: &Content, part: AlikeParts) -> Option<usize> {
        let (made, _) = part.holdings.split_at(part.gluing());
        let rows = |grow: f64| made.iter().map(|it| block::height(it, grow)).sum::<f64>();
        let top = self.down + ABOVE;
        let room = self.foot - 0.3 - top - HEADING;
        if rows(1.0) > room {
            return None;
        }
        // The rows have air where a strip still finds its room below them.
        let grow = if rows(AIRY) + STRIP <= room {
            AIRY
        } else {
            1.0
        };
        let number = 1 + self.pages.len();
        let page = self.pages.last_mut()?;
        let end = page.put(
            LEFT,
            top + 5.0,
            VERB,
            &format!("Glue up the {}", part.names()),
        );
        let caption = "– first of all: glue needs its time";
        page.put(end + 1.5, top + 5.0, BODY, caption);
        block::heads(page, top + 5.0, &c.speeds);
        let mut at = top + HEADING;
        for (index, holding) in made.iter().enumerate() {
            at = block::block(page, holding, at, grow, &part.keys(index));
        }
        page.rule(Layer::Rule, LEFT, RIGHT, at);
        self.down = at;
        Some(number)
    }

    /// Sets all of the last page below the rest, where that fits; whether it does.
    pub(super) fn ends(&mut self, c: &Content) -> bool {
        let (top, foot) = (self.down + ABOVE, self.foot);
        let page = self.pages.last_mut();
        page.is_some_and(|page| last::below(page, c, top, foot))
    }

    /// Sets strips that found no room on their parts' pages, if all do here; what is left is handed back.
    pub(super) fn strips<'c>(&mut self, strips: Vec<AlikeParts<'c>>) -> Vec<AlikeParts<'c>> {
        let high: f64 = strips.iter().map(|it| strip::height(*it)).sum();
        let fit = self.pages.len() > 1 && self.down + ABOVE + high <= self.foot;
        match self.pages.last_mut().filter(|_| fit) {
            Some(page) => {
                strip::at_foot(page, &strips, self.foot);
                Vec::new()
            }
            None => strips,
        }
    }
}

/// Sets the mandrels, each under the shorter column, on further pages where they find no room; where the
/// longer column ends.
fn mandrels(c: &Content, paper: Paper, at: f64, pages: &mut Vec<Canvas>, page: &mut Canvas) -> f64 {
    let foot = Canvas::foot(paper);
    let mut downs = [at; 2];
    for (index, it) in c.turning.iter().enumerate() {
        if index == 0 {
            let end = page.put(LEFT, at + 5.0, VERB, "Turn the mandrels");
            let caption = "– full size; brass or hard plastic; spigots to the hole as made; mark jaw and mandrel";
            page.put(end + 1.5, at + 5.0, BODY, caption);
            downs = [at + 6.6; 2];
        }
        let high = mandrel::height(it);
        let shorter = usize::from(downs[1] < downs[0]);
        let fits = |side: &usize| downs[*side] + high <= foot - 0.3;
        let side = [shorter, 1 - shorter].into_iter().find(fits);
        let side = side.unwrap_or_else(|| {
            pages.push(std::mem::replace(page, further(c, paper)));
            downs = [TOP; 2];
            0
        });
        let x = LEFT + 91.0 * side as f64;
        mandrel::cell(page, it, (x, downs[side]), HALF);
        downs[side] += high;
    }
    downs[0].max(downs[1])
}

/// A page of mandrels.
fn further(c: &Content, paper: Paper) -> Canvas {
    let about = format!("{}: before you start, 2", c.title);
    begun(c, paper, "Mandrels", &about)
}

/// Whether all mandrels stand below a height, each under the shorter column.
fn fit(c: &Content, top: f64, foot: f64) -> bool {
    let mut downs = [top; 2];
    for it in &c.turning {
        let side = usize::from(downs[1] < downs[0]);
        downs[side] += mandrel::height(it);
    }
    downs[0].max(downs[1]) <= foot - 0.3
}

/// The cautions that apply, in two columns.
fn safety(page: &mut Canvas, c: &Content, top: f64) -> f64 {
    page.put(LEFT, top + 4.2, VERB, "Safety");
    let column = HALF - 4.0;
    let set: Vec<Vec<String>> = c.cautions.iter().map(|it| BODY.lines(it, column)).collect();
    let total: usize = set.iter().map(Vec::len).sum();
    let count = |first: usize| set[..first].iter().map(Vec::len).sum::<usize>();
    // The columns are as even as whole cautions allow.
    let uneven = |first: &usize| (2 * count(*first)).abs_diff(total);
    let first = (0..=set.len()).min_by_key(uneven).unwrap_or(0);
    let mut at = [top + 9.0; 2];
    for (index, lines) in set.iter().enumerate() {
        let side = usize::from(index >= first);
        let x = LEFT + 91.0 * side as f64;
        page.put(x, at[side], BODY, "–");
        page.lines((x + 4.0, at[side]), BODY, lines, 3.9);
        at[side] += 3.9 * lines.len() as f64 + 0.5;
    }
    at[0].max(at[1]) - 0.4
}

/// Tools by kind; beside them what the bench lacks.
fn lay_out(page: &mut Canvas, c: &Content, top: f64) -> f64 {
    page.rule(Layer::Outline, LEFT, RIGHT, top);
    page.put(LEFT, top + 5.2, VERB, "Lay out");
    let lacks = !c.lacking.is_empty();
    let right = if lacks { LEFT + 112.0 } else { RIGHT };
    let mut at = top + 6.6;
    page.rule(Layer::Rule, LEFT, right, at);
    // Short groups stand side by side.
    let mut x = LEFT;
    for (group, names) in &c.lay_out {
        let sized = !["small", "by hand", "glue"].contains(&group.as_str());
        let set = if sized { FIGURE.sized(14.0) } else { BODY };
        let widths: Vec<f64> = names.iter().map(|it| 9.4 + set.width(it)).collect();
        let long = NAMED + widths.iter().sum::<f64>();
        let half = x + if x > LEFT { 0.0 } else { NAMED };
        if x > LEFT && half + long > right {
            x = LEFT;
            at += 5.7;
            page.rule(Layer::Rule, LEFT, right, at);
        }
        page.put(x, at + 4.2, STRONG, group);
        let begins = x + NAMED;
        x = begins;
        for (name, wide) in names.iter().zip(widths) {
            if x + wide - 4.0 > right && x > begins {
                at += 5.5;
                x = begins;
            }
            page.tick(x, at + 0.8, &format!("lay out/{group} {name}"));
            page.put(x + 5.4, at + 4.4, set, name);
            x += wide;
        }
        // The next begins at the half, or further on.
        x = x.max(LEFT + 91.0) + 2.0;
        if x > right - 40.0 {
            x = LEFT;
            at += 5.7;
            page.rule(Layer::Rule, LEFT, right, at);
        }
    }
    if x > LEFT {
        at += 5.7;
    }
    let mut beside = top + 5.2;
    if lacks {
        beside = lacking(page, c, (right, top));
    } else if c.bench.is_none() {
        page.put(LEFT + 24.0, top + 5.2, BODY, "no bench: sizes as drawn");
    }
    at.max(beside - 3.0) + 0.8
}

/// What is not on the bench's list, beside what is laid out; where that ends.
fn lacking(page: &mut Canvas, c: &Content, (right, top): (f64, f64)) -> f64 {
    let mut beside = top + 5.2;
    let x = right + 7.0;
    page.put(x, beside, VERB, "Not on the bench’s list");
    beside += 5.0;
    for (what, instead) in &c.lacking {
        // What is wanted in bold, what does instead of it below.
        for (set, words) in [(STRONG, what), (BODY, instead)] {
            for line in set.lines(words, RIGHT - x) {
                page.put(x, beside, set, &line);
                beside += 4.0;
            }
        }
        beside += 0.8;
    }
    page.bar((right + 3.4, right + 4.2), (top + 1.8, beside - 2.4));
    beside
}
