//! The pages of a part: its drawing, its holdings, its strip.

use super::alike::AlikeParts;
use super::before::BeforePages;
use super::block;
use super::canvas::{BODY, Canvas, FIGURE, LARGE, LEFT, TOP, VERB, WIDTH};
use super::frame::begun;
use super::strip;
use crate::draw::{LabelSizes, Paper, labelled, scales};
use crate::scene::{Layer, Scene};
use crate::sheet::content::{Content, PartSheet};
use crate::sheet::holdings::HoldingRows;

/// A part's pages, and whether its strip found no room on them.
pub(super) struct PartPages {
    pub(super) pages: Vec<Canvas>,
    pub(super) strip_left: bool,
}

/// The rows grow by no more, and what is left over more than this becomes room for notes, mm.
const MOST: f64 = 1.4;
const SPARE: f64 = 22.0;
/// The heads of the columns.
pub(super) const HEADS: f64 = 4.4;
/// Between the holdings and the strip.
const GAP: f64 = 1.0;

const SIZES: fn() -> LabelSizes = || LabelSizes {
    size_mm: FIGURE.height_mm(),
    caption_mm: BODY.height_mm(),
    length_mm: LARGE.height_mm(),
};

/// What of a part stands on its own pages.
#[derive(Clone, Copy)]
struct OwnRows<'a> {
    part: AlikeParts<'a>,
    /// So many holdings, from the first on, stand before, on the page of this number.
    elsewhere: Option<(usize, usize)>,
}

impl<'a> OwnRows<'a> {
    /// The holdings with their places among all of the part's.
    fn holdings(&self) -> impl Iterator<Item = (usize, &HoldingRows)> {
        let first = self.elsewhere.map_or(0, |it| it.0);
        self.part.holdings.iter().enumerate().skip(first)
    }

    fn height(&self, grow: f64) -> f64 {
        self.holdings().map(|it| block::height(it.1, grow)).sum()
    }

    /// The largest drawing with which all stands on one page, and how high the strip is that does too.
    fn on_one<'d>(&self, drawings: &'d [Scene], room: f64) -> Option<(&'d Scene, f64)> {
        let strip = strip::height(self.part);
        let fits = |drawing: &&Scene, strip: f64| {
            drawing.height_mm + HEADS + self.height(1.0) + GAP + strip <= room
        };
        [strip, 0.0].into_iter().find_map(|strip| {
            let drawing = drawings.iter().find(|it| fits(it, strip))?;
            Some((drawing, strip))
        })
    }
}

/// Sets a part on as few pages as it needs: its drawing one scale down, then the gluing of its stack before,
/// then its strip elsewhere, then a holding on a further page.
pub(super) fn part(
    c: &Content,
    paper: Paper,
    part: AlikeParts,
    before: &mut BeforePages,
) -> PartPages {
    let room = Canvas::foot(paper) - TOP;
    let drawings: Vec<Scene> = (0..2).filter_map(|down| labelled_at(&part, down)).collect();
    let mut own = OwnRows {
        part,
        elsewhere: None,
    };
    let stands = |own: OwnRows| own.on_one(&drawings, room).map(|it| it.1);
    let glued = |page| OwnRows {
        part,
        elsewhere: Some((part.gluing(), page)),
    };
    // No page is less than one without its strip, and that less than one with it.
    if part.gluing() > 0
        && stands(glued(0)) > stands(own)
        && let Some(page) = before.glued(c, part)
    {
        own = glued(page);
    }
    let Some((drawing, own_strip)) = own.on_one(&drawings, room) else {
        return broken(c, paper, part, drawings.first(), room);
    };
    let mut page = begun(c, paper, &part.titles(), &part.said());
    let grow = grown(room - drawing.height_mm - HEADS - GAP - own_strip, |it| {
        own.height(it)
    });
    let mut at = headed(&mut page, c, Some(drawing), TOP);
    if let Some((_, number)) = own.elsewhere {
        let words = format!("Glued up first: page {number}");
        page.put(LEFT, at - 1.4, BODY, &words);
    }
    for (index, holding) in own.holdings() {
        at = block::block(&mut page, holding, at, grow, &part.keys(index));
    }
    page.rule(Layer::Rule, LEFT, LEFT + WIDTH, at);
    let foot = Canvas::foot(paper);
    notes(&mut page, at, foot - own_strip, &part);
    if own_strip > 0.0 {
        strip::strip(&mut page, part, foot, &part.keys(0));
    }
    PartPages {
        pages: vec![page],
        strip_left: own_strip <= 0.0 && strip::height(part) > 0.0,
    }
}

/// A part's drawing, so many scales below the largest that has room.
pub(super) fn labelled_at(part: &PartSheet, down: usize) -> Option<Scene> {
    let scale = scales(&part.part).into_iter().nth(down)?;
    let (labels, length) = (&part.labels, &part.length);
    labelled(&part.part, labels, length, scale, (WIDTH, SIZES()))
}

/// The holdings go on on further pages; the strip stands on the last where it has room.
fn broken(
    c: &Content,
    paper: Paper,
    part: AlikeParts,
    drawing: Option<&Scene>,
    room: f64,
) -> PartPages {
    let foot = Canvas::foot(paper);
    let mut page = begun(c, paper, &part.titles(), &part.said());
    let mut at = headed(&mut page, c, drawing, TOP);
    let mut pages = Vec::new();
    for (index, holding) in part.holdings.iter().enumerate() {
        let mut rest = holding.clone();
        // What is too long for a page by itself goes on after a stop.
        while block::height(&rest, 1.0) > room - HEADS {
            let Some((first, then)) = rest.split() else {
                break;
            };
            if at > TOP + HEADS + 1.0 {
                pages.push(page);
                page = further(c, paper, part, pages.len() + 1, &mut at);
            }
            block::block(&mut page, &first, at, 1.0, &part.keys(index));
            pages.push(page);
            page = further(c, paper, part, pages.len() + 1, &mut at);
            rest = then;
        }
        if at + block::height(&rest, 1.0) > foot {
            pages.push(page);
            page = further(c, paper, part, pages.len() + 1, &mut at);
        }
        at = block::block(&mut page, &rest, at, 1.0, &part.keys(index));
    }
    page.rule(Layer::Rule, LEFT, LEFT + WIDTH, at);
    let strip = strip::height(part);
    let fits = strip > 0.0 && at + GAP + strip <= foot;
    notes(&mut page, at, foot - if fits { strip } else { 0.0 }, &part);
    if fits {
        strip::strip(&mut page, part, foot, &part.keys(0));
    }
    pages.push(page);
    PartPages {
        pages,
        strip_left: strip > 0.0 && !fits,
    }
}

fn further(c: &Content, paper: Paper, part: AlikeParts, number: usize, at: &mut f64) -> Canvas {
    let mut page = begun(
        c,
        paper,
        &format!("{}, {number}", part.titles()),
        &part.said(),
    );
    *at = headed(&mut page, c, None, TOP);
    page
}

/// The drawing and the heads of the columns; where the holdings begin.
pub(super) fn headed(page: &mut Canvas, c: &Content, drawing: Option<&Scene>, top: f64) -> f64 {
    let mut at = top;
    if let Some(drawing) = drawing {
        page.place(drawing, LEFT, at);
        at += drawing.height_mm;
    }
    block::heads(page, at + HEADS - 1.4, &c.speeds);
    at + HEADS
}

/// The factor by which all rows grow to fill the room.
pub(super) fn grown(room: f64, height: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (1.0, MOST);
    if height(high) <= room {
        return high;
    }
    for _ in 0..30 {
        let middle = (low + high) / 2.0;
        if height(middle) <= room {
            low = middle
        } else {
            high = middle
        }
    }
    low
}

/// Ruled room for notes, where there is enough.
fn notes(page: &mut Canvas, top: f64, down: f64, part: &PartSheet) {
    if down - top < SPARE {
        return;
    }
    page.put(LEFT, top + 6.0, VERB, "Notes");
    let written = part
        .notes
        .iter()
        .flat_map(|it| BODY.lines(it, WIDTH - 24.0));
    let mut at = top + 6.0;
    for line in written {
        if at + 6.0 > down {
            break;
        }
        page.put(LEFT + 22.0, at, BODY, &line);
        at += 4.9;
    }
    let mut index = 0;
    while at + 8.0 < down - 4.0 {
        at += 8.0;
        index += 1;
        let key = format!("{}/note{index}", part.name);
        page.blank((LEFT, LEFT + WIDTH), at, 7.0, &key);
    }
}

/// The strips that found no room on their parts' pages.
pub(super) fn templates(c: &Content, paper: Paper, parts: &[AlikeParts]) -> Vec<Canvas> {
    let foot = Canvas::foot(paper);
    let mut pages: Vec<Canvas> = Vec::new();
    let mut at = f64::INFINITY;
    for part in parts {
        let high = strip::height(*part) + 3.0;
        if at + high > foot || pages.is_empty() {
            pages.push(begun(
                c,
                paper,
                "Templates",
                &format!("{}: calipers", c.title),
            ));
            at = TOP;
        }
        at += high;
        if let Some(page) = pages.last_mut() {
            strip::strip(page, *part, at, &part.keys(0));
        }
    }
    pages
}
