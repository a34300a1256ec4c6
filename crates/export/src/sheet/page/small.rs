//! Small parts, as rings, that share a page.

use super::alike::AlikeParts;
use super::canvas::{BODY, Canvas, LEFT, TOP, VERB, WIDTH};
use super::frame::begun;
use super::part::{HEADS, grown, headed, labelled_at};
use super::{block, strip};
use crate::draw::Paper;
use crate::scene::{Layer, Scene};
use crate::sheet::content::Content;

/// A part of more rows has a page of its own, if it has a strip.
const MOST_ROWS: usize = 6;
/// A part's name above its drawing, and what parts it from the next, mm.
const NAME: f64 = 7.0;
const BETWEEN: f64 = 5.0;

/// As many of the parts, from the first on, as share a page; none where fewer than two do.
pub(super) fn shared(c: &Content, paper: Paper, parts: &[AlikeParts]) -> Option<(usize, Canvas)> {
    let small = |it: &&AlikeParts| rows(**it) <= MOST_ROWS || strip::height(**it) <= 0.0;
    let room = Canvas::foot(paper) - TOP;
    let mut chosen: Vec<(AlikeParts, Scene)> = Vec::new();
    for part in parts.iter().take_while(small) {
        let mut with = chosen.clone();
        with.push((*part, labelled_at(part, 0)?));
        if !fitted(&mut with, room) {
            break;
        }
        chosen = with;
    }
    if chosen.len() < 2 {
        return None;
    }
    let fixed: f64 = chosen
        .iter()
        .map(|it| above(&it.1) + strip::height(it.0))
        .sum();
    let grow = grown(room - fixed, |grow| {
        chosen.iter().map(|it| held(it.0, grow)).sum()
    });
    let title = chosen.iter().map(|it| it.0.titles());
    let title = title.collect::<Vec<_>>().join(", ");
    let mut page = begun(c, paper, &title, &c.title);
    let mut at = TOP;
    for (part, drawing) in &chosen {
        let end = page.put(LEFT, at + 4.6, VERB, &part.titles());
        page.put(end + 2.0, at + 4.6, BODY, &part.said());
        at = headed(&mut page, c, Some(drawing), at + NAME);
        for (index, holding) in part.holdings.iter().enumerate() {
            at = block::block(&mut page, holding, at, grow, &part.keys(index));
        }
        page.rule(Layer::Rule, LEFT, LEFT + WIDTH, at);
        at += BETWEEN;
    }
    let strips: Vec<AlikeParts> = chosen.iter().map(|it| it.0).collect();
    strip::at_foot(&mut page, &strips, Canvas::foot(paper));
    Some((chosen.len(), page))
}

fn rows(part: AlikeParts) -> usize {
    part.holdings.iter().map(|it| it.rows.len()).sum()
}

/// Whether the parts have room, some of their drawings, the last first, one scale down where they must be.
fn fitted(chosen: &mut [(AlikeParts, Scene)], room: f64) -> bool {
    let high = |it: &(AlikeParts, Scene)| above(&it.1) + held(it.0, 1.0) + strip::height(it.0);
    let fits = |chosen: &[(AlikeParts, Scene)]| chosen.iter().map(high).sum::<f64>() <= room;
    for at in (0..chosen.len()).rev() {
        if fits(chosen) {
            return true;
        }
        let part = chosen[at].0;
        if let Some(smaller) = labelled_at(&part, 1) {
            chosen[at] = (part, smaller);
        }
    }
    fits(chosen)
}

/// What a part takes but for its holdings and its strip.
fn above(drawing: &Scene) -> f64 {
    NAME + drawing.height_mm + HEADS + BETWEEN
}

/// What its holdings take.
fn held(part: AlikeParts, grow: f64) -> f64 {
    let rows = part.holdings.iter().map(|it| block::height(it, grow));
    rows.sum()
}
