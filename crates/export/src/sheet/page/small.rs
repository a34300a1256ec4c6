//! Small parts, as rings, that share a page.

use super::canvas::{BODY, Canvas, LEFT, TOP, VERB, WIDTH};
use super::frame::begun;
use super::part::{HEADS, headed, labelled_at};
use super::{block, key, strip};
use crate::draw::Paper;
use crate::scene::{Layer, Scene};
use crate::sheet::content::{Content, PartSheet};

/// A part of more rows has a page of its own, if it has a strip.
const MOST_ROWS: usize = 6;
/// A part's name above its drawing, and what parts it from the next, mm.
const NAME: f64 = 7.0;
const BETWEEN: f64 = 5.0;

/// As many of the parts, from the first on, as share a page; none where fewer than two do.
pub(super) fn shared(c: &Content, paper: Paper, parts: &[PartSheet]) -> Option<(usize, Canvas)> {
    let small = |it: &&PartSheet| rows(it) <= MOST_ROWS || strip::height(it) <= 0.0;
    let mut chosen: Vec<(&PartSheet, Scene)> = Vec::new();
    let mut high = 0.0;
    for part in parts.iter().take_while(small) {
        let drawing = labelled_at(part, 0)?;
        high += own(part, &drawing) + strip::height(part);
        if TOP + high > Canvas::foot(paper) {
            break;
        }
        chosen.push((part, drawing));
    }
    if chosen.len() < 2 {
        return None;
    }
    let title = chosen.iter().map(|it| it.0.title.as_str());
    let title = title.collect::<Vec<_>>().join(", ");
    let mut page = begun(c, paper, &title, &c.title);
    let mut at = TOP;
    for (part, drawing) in &chosen {
        let end = page.put(LEFT, at + 4.6, VERB, &part.title);
        page.put(end + 2.0, at + 4.6, BODY, &part.about);
        at = headed(&mut page, c, Some(drawing), at + NAME);
        for (index, holding) in part.holdings.iter().enumerate() {
            at = block::block(&mut page, holding, at, 1.0, &key(part, index));
        }
        page.rule(Layer::Rule, LEFT, LEFT + WIDTH, at);
        at += BETWEEN;
    }
    let strips: Vec<&PartSheet> = chosen.iter().map(|it| it.0).collect();
    strip::at_foot(&mut page, &strips, Canvas::foot(paper));
    Some((chosen.len(), page))
}

fn rows(part: &PartSheet) -> usize {
    part.holdings.iter().map(|it| it.rows.len()).sum()
}

/// What a part takes but for its strip.
fn own(part: &PartSheet, drawing: &Scene) -> f64 {
    let rows = part.holdings.iter().map(|it| block::height(it, 1.0));
    NAME + drawing.height_mm + HEADS + rows.sum::<f64>() + BETWEEN
}
