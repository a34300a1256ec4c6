//! What stands on every page: head and foot.

use super::canvas::{Canvas, FOOTER, LEFT, STRONG, TITLE, TextStyle, VERB, WIDTH};
use crate::draw::Paper;
use crate::scene::Layer;
use crate::sheet::content::Content;

/// A page with its head.
pub(super) fn begun(c: &Content, paper: Paper, title: &str, about: &str) -> Canvas {
    let mut page = Canvas::new(&format!("{}: {title}", c.title), paper);
    let right = LEFT + WIDTH;
    let set = TITLE.fitting(title, 112.0, &[22.0, 16.0, 13.0, 11.0]);
    if set.width(title) <= 112.0 {
        page.put(LEFT, 21.5, set, title);
    } else {
        let lines = set.lines(title, 112.0);
        let first = 21.5 - 4.6 * (lines.len().min(3) - 1) as f64;
        page.lines((LEFT, first), set, &lines, 4.6);
    }
    // Beside a short title there is room for more; never smaller than it can be read.
    let room = (WIDTH - set.width(title).min(112.0) - 6.0).max(64.0);
    let lines = STRONG.lines(about, room);
    let count = lines.len().min(3);
    for (index, line) in lines.iter().take(count).enumerate() {
        let up = 4.2 * (count - 1 - index) as f64;
        page.put_end(right, 15.0 - up, STRONG, line);
    }
    page.put_end(
        right - 28.0,
        21.5,
        TextStyle {
            bold: false,
            ..STRONG
        },
        "No.",
    );
    page.blank((right - 26.5, right), 21.8, 5.0, "number");
    page.rule(Layer::Head, LEFT, right, 26.0);
    if c.warning.is_some() {
        page.bar((LEFT, right), (4.0, 10.2));
        let caption = super::DO_NOT_CUT;
        page.put_middle(LEFT + WIDTH / 2.0, 8.4, VERB.knocked(), caption);
    }
    page
}

/// Beside the number of the pen, where a part's strip is that is not on its own page.
pub(super) fn strip_at(page: &mut Canvas, number: usize) {
    let set = TextStyle {
        bold: false,
        ..STRONG
    };
    page.put_end(
        LEFT + WIDTH - 38.0,
        21.5,
        set,
        &format!("Strip: page {number}"),
    );
}

/// The foot, when it is known how many pages there are.
pub(super) fn ended(page: &mut Canvas, c: &Content, paper: Paper, (number, of): (usize, usize)) {
    let down = Canvas::foot(paper);
    let right = LEFT + WIDTH;
    page.rule(Layer::Outline, LEFT, right, down);
    let base = down + 4.4;
    let bench = c
        .bench
        .as_ref()
        .map(|it| format!(" · {it}"))
        .unwrap_or_default();
    let left = format!("{} · design {}{bench}", c.file, c.design_mark);
    let set = FOOTER.fitting(&left, 66.0, &[8.0, 7.0]);
    page.put(
        LEFT,
        base,
        set,
        &set.lines(&left, 66.0).first().cloned().unwrap_or_default(),
    );
    // The line that tells whether the page was printed at its own size.
    let (from, to) = (LEFT + 69.0, LEFT + 109.0);
    let level = down + 3.4;
    page.rule(Layer::Dimension, from, to, level);
    for (x, half) in [(from, 1.4), ((from + to) / 2.0, 0.8), (to, 1.4)] {
        page.upright(Layer::Dimension, x, level - half, level + half);
    }
    let said = page.put(to + 1.6, base, FOOTER, "40 mm: print at 100 %");
    let count = format!("{number} of {of}");
    page.put_end(right, base, FOOTER, &count);
    let left = right - FOOTER.width(&count) - 1.6;
    let name = TextStyle {
        bold: true,
        ..FOOTER
    };
    let room = left - said - 3.0;
    let set = name.fitting(&c.title, room, &[8.0, 7.0]);
    if set.width(&c.title) <= room {
        page.put_end(left, base, set, &c.title);
    }
}
