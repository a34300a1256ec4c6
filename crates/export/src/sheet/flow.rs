//! Words, tables and pictures set one below the other on as many pages as they need.

use crate::draw::{Paper, wrapped_by};
use crate::scene::{Anchor, Layer, Path, Scene, Text, Xy};

/// From the paper's edge, mm: left, right, top and bottom.
const MARGIN_MM: (f64, f64, f64, f64) = (18.0, 12.0, 14.0, 16.0);

/// Pages being filled.
pub(super) struct Flow {
    title: String,
    paper: Paper,
    /// What stands at the foot of every page.
    warning: Option<String>,
    pages: Vec<Scene>,
    /// How far the last page is filled, mm from its foot; none where there is no page to go on.
    y: Option<f64>,
}

/// How words are set: height of a capital and between baselines, mm.
#[derive(Clone, Copy)]
pub(super) struct Style {
    pub(super) height_mm: f64,
    pub(super) bold: bool,
    pub(super) indent_mm: f64,
}

pub(super) const BODY: Style = Style {
    height_mm: 2.3,
    bold: false,
    indent_mm: 0.0,
};
pub(super) const HEADING: Style = Style {
    height_mm: 4.0,
    bold: true,
    indent_mm: 0.0,
};
pub(super) const SUBHEADING: Style = Style {
    height_mm: 2.8,
    bold: true,
    indent_mm: 0.0,
};

impl Style {
    pub(super) fn indented(self, indent_mm: f64) -> Style {
        Style { indent_mm, ..self }
    }

    pub(super) fn bold(self) -> Style {
        Style { bold: true, ..self }
    }

    fn pitch(self) -> f64 {
        1.95 * self.height_mm
    }

    fn text(self, at: Xy, words: impl Into<String>) -> Text {
        let text = Text::new(at, self.height_mm, words);
        if self.bold { text.bold() } else { text }
    }

    fn lines(self, words: &str, width_mm: f64) -> Vec<String> {
        wrapped_by(words, |line| {
            self.text(Xy::default(), line).width_mm() <= width_mm
        })
    }
}

impl Flow {
    pub(super) fn new(title: &str, paper: Paper, warning: Option<&str>) -> Flow {
        let warning = warning.map(|_| "This design has errors: do not cut.".to_owned());
        Flow {
            title: title.to_owned(),
            paper,
            warning,
            pages: Vec::new(),
            y: None,
        }
    }

    /// The width that words have, mm.
    pub(super) fn width_mm(&self) -> f64 {
        self.paper.sides_mm().0 - MARGIN_MM.0 - MARGIN_MM.1
    }

    /// Goes on on a new page.
    pub(super) fn break_page(&mut self) {
        self.y = None;
    }

    /// A page of its own.
    pub(super) fn page(&mut self, scene: &Scene) {
        let mut scene = scene.clone();
        if let Some(warning) = &self.warning {
            let at = Xy::new(scene.width_mm / 2.0, 3.5);
            scene.text(
                Text::new(at, 3.0, warning.as_str())
                    .bold()
                    .anchored(Anchor::Middle),
            );
        }
        self.pages.push(scene);
        self.y = None;
    }

    /// Words, wrapped; a heading keeps with what follows.
    pub(super) fn words(&mut self, style: Style, words: &str) {
        let lines = style.lines(words, self.width_mm() - style.indent_mm);
        let keep = if style.height_mm > BODY.height_mm {
            18.0
        } else {
            0.0
        };
        if keep > 0.0 && self.y.is_some() {
            self.space(0.9 * style.height_mm);
        }
        self.ensure(style.pitch() + keep);
        for line in lines {
            self.ensure(style.pitch());
            let y = self.advance(style.pitch());
            let at = Xy::new(MARGIN_MM.0 + style.indent_mm, y + 0.45 * style.height_mm);
            self.scene().text(style.text(at, line));
        }
    }

    /// A box to tick, beside what is set next.
    pub(super) fn tick(&mut self) {
        self.ensure(3.0 * BODY.pitch());
        let y = self.y.unwrap_or_default() - 3.6;
        self.scene().stroke(
            Layer::Frame,
            Path::rectangle(Xy::new(MARGIN_MM.0, y), 2.8, 2.8),
        );
    }

    /// Room for a figure to be written, at the end of the line just set.
    pub(super) fn as_made(&mut self) {
        let y = self.y.unwrap_or_default() + 0.6;
        let right = MARGIN_MM.0 + self.width_mm();
        self.scene()
            .line(Layer::Frame, Xy::new(right - 26.0, y), Xy::new(right, y));
        self.scene()
            .text(Text::new(Xy::new(right - 40.0, y + 0.4), 1.8, "as made"));
    }

    /// Keeps the next so many millimetres on one page.
    pub(super) fn ensure(&mut self, height_mm: f64) {
        let room = self.y.map(|y| y - MARGIN_MM.3);
        if room.is_none_or(|room| room < height_mm) {
            let (short, long) = self.paper.sides_mm();
            self.pages.push(Scene::new(self.title.clone(), short, long));
            self.y = Some(long - MARGIN_MM.2);
        }
    }

    /// Leaves a little room.
    pub(super) fn space(&mut self, height_mm: f64) {
        self.y = self.y.map(|y| y - height_mm);
    }

    fn advance(&mut self, height_mm: f64) -> f64 {
        let y = self.y.unwrap_or_default() - height_mm;
        self.y = Some(y);
        y
    }

    fn scene(&mut self) -> &mut Scene {
        if self.pages.is_empty() {
            self.ensure(0.0);
        }
        let last = self.pages.len() - 1;
        &mut self.pages[last]
    }

    /// A picture in the middle, in one piece.
    pub(super) fn picture(&mut self, picture: &Scene) {
        self.ensure(picture.height_mm + 5.0);
        let y = self.advance(picture.height_mm + 2.0);
        self.space(3.0);
        let x = MARGIN_MM.0 + ((self.width_mm() - picture.width_mm) / 2.0).max(0.0);
        self.scene().place(picture, Xy::new(x, y));
    }

    /// Rows under headings; a row is never cut in two, and the headings stand on every page.
    pub(super) fn table(&mut self, head: &[String], rows: &[Vec<String>]) {
        let widths = self.columns(head, rows);
        let set = |cells: &[String], style: Style| -> Vec<Vec<String>> {
            cells
                .iter()
                .zip(&widths)
                .map(|(cell, width)| style.lines(cell, width - 2.0))
                .collect()
        };
        let height = |row: &[Vec<String>]| {
            let lines = row.iter().map(Vec::len).max().unwrap_or(0).max(1);
            lines as f64 * BODY.pitch() * 0.85 + 1.6
        };
        let head = set(head, BODY.bold());
        self.ensure(2.0 * height(&head));
        self.row(&head, &widths, height(&head), BODY.bold());
        for cells in rows {
            let row = set(cells, BODY);
            if self.y.is_none_or(|y| y - MARGIN_MM.3 < height(&row)) {
                self.break_page();
                self.ensure(height(&row));
                self.row(&head, &widths, height(&head), BODY.bold());
            }
            self.row(&row, &widths, height(&row), BODY);
        }
        self.space(2.0);
    }

    fn row(&mut self, row: &[Vec<String>], widths: &[f64], height: f64, style: Style) {
        let foot = self.advance(height);
        let mut x = MARGIN_MM.0;
        for (lines, width) in row.iter().zip(widths) {
            for (at, line) in lines.iter().enumerate() {
                let y = foot + height - 1.1 - style.height_mm - at as f64 * style.pitch() * 0.85;
                self.scene()
                    .text(style.text(Xy::new(x + 0.8, y), line.as_str()));
            }
            x += width;
        }
        self.scene()
            .line(Layer::Frame, Xy::new(MARGIN_MM.0, foot), Xy::new(x, foot));
    }

    /// As wide as the words ask, the widest columns giving way first.
    fn columns(&self, head: &[String], rows: &[Vec<String>]) -> Vec<f64> {
        let natural = |at: usize| {
            let cells = rows
                .iter()
                .filter_map(|row| row.get(at))
                .map(|it| (it, BODY));
            let all = cells.chain(std::iter::once((&head[at], BODY.bold())));
            let widest = all.map(|(it, style)| style.text(Xy::default(), it.as_str()).width_mm());
            let empty = rows
                .iter()
                .all(|row| row.get(at).is_none_or(String::is_empty));
            // An empty column is there to be filled in by hand.
            widest.fold(if empty { 12.0 } else { 0.0 }, f64::max) + 3.0
        };
        let mut widths: Vec<f64> = (0..head.len()).map(natural).collect();
        let room = self.width_mm();
        let total: f64 = widths.iter().sum();
        if total > room {
            // The largest limit on a column that lets all fit.
            let (mut low, mut high) = (0.0, room);
            for _ in 0..40 {
                let limit = (low + high) / 2.0;
                let fits = widths.iter().map(|width| width.min(limit)).sum::<f64>() <= room;
                if fits { low = limit } else { high = limit }
            }
            widths.iter_mut().for_each(|width| *width = width.min(low));
        } else {
            let share = (room - total) / widths.len().max(1) as f64;
            widths
                .iter_mut()
                .for_each(|width| *width += share.min(14.0));
        }
        widths
    }

    /// The pages, numbered.
    pub(super) fn finish(mut self) -> Vec<Scene> {
        let count = self.pages.len();
        for (at, page) in self.pages.iter_mut().enumerate() {
            if page.width_mm > page.height_mm {
                continue;
            }
            let right = Xy::new(page.width_mm - MARGIN_MM.1, 8.0);
            page.text(Text::new(right, 1.8, format!("{}/{count}", at + 1)).anchored(Anchor::End));
            page.text(Text::new(
                Xy::new(MARGIN_MM.0, 8.0),
                1.8,
                self.title.as_str(),
            ));
            if let Some(warning) = &self.warning {
                let middle = Xy::new(page.width_mm / 2.0, 8.0);
                page.text(
                    Text::new(middle, 2.5, warning.as_str())
                        .bold()
                        .anchored(Anchor::Middle),
                );
            }
        }
        self.pages
    }
}
