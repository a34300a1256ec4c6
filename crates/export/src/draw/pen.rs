//! The drawing of a pen put together, on a sheet of its own.

use super::detail::Detail;
use super::figures::LengthFormat;
use super::overview::overview_with;
use super::paper::{FramedSheet, Paper};
use super::part::{PartTitle, scale_text, wrapped};
use super::title_block::{HEIGHT_MM, TitleBlock, WIDTH_MM};
use crate::scene::{Scene, Text, Xy};
use quillet_model::{Configured, Pen, Units};

/// Height of the legend's text and between its lines, mm; smaller where there is much to say.
const LEGENDS_MM: [(f64, f64); 3] = [(2.5, 4.2), (2.0, 3.4), (1.8, 2.9)];
/// How far the further lines of an entry are set in, mm.
const SET_IN_MM: f64 = 4.0;

/// Draws a pen in all its configurations with contacts and clearances; none where it could not be put
/// together, or the shape of a part is not known.
pub fn pen(pen: &Pen, paper: Paper, title: &PartTitle) -> Option<Scene> {
    if !pen.is_settled() {
        return None;
    }
    let figures = LengthFormat(title.units);
    let name = pen.title_or_name();
    let mut sheet = FramedSheet::new(&format!("{name}, put together"), paper, title.units);
    let (low, high) = sheet.room(HEIGHT_MM + 1.0);
    let width = high.x - low.x - 4.0;
    let plain = overview_with(pen, width, None, figures)?;
    let foot = high.y - 2.0 - plain.scene.height_mm;
    let lines: Vec<String> = plain
        .callouts
        .iter()
        .map(|callout| format!("{}  {}", callout.number, callout.caption))
        .collect();
    let legend = Legend::of(&lines, (high.x - low.x) / 2.0, foot - low.y);
    let top = foot - legend.height_mm() - 3.0;
    let corner = Xy::new(low.x, top);
    // Beside the title block down to the frame, or else above it.
    let beside = sheet.frame.1.x - WIDTH_MM - 4.0 - low.x;
    let detail = Detail::of(pen, beside, top - sheet.frame.0.y - 2.0, figures)
        .or_else(|| Detail::of(pen, high.x - low.x, top - low.y, figures));
    let overview = overview_with(pen, width, detail.as_ref(), figures)?;
    let block = TitleBlock {
        owner: title.owner.clone(),
        title: name.to_string(),
        subtitle: configurations(pen),
        number: pen.name.text.to_string(),
        kind: match title.units {
            Units::Millimetres => "Assembly drawing".into(),
            Units::Inches => "Assembly drawing, inches".into(),
        },
        scale: scale_text(overview.scale),
        sheet: title.sheet,
    };
    block.draw(&mut sheet, paper);
    sheet.scene.scale = overview.scale;
    let x = (low.x + high.x - overview.scene.width_mm) / 2.0;
    sheet.scene.place(&overview.scene, Xy::new(x, foot));
    legend.draw(&mut sheet.scene, Xy::new(low.x, foot));
    if let Some(detail) = detail {
        detail.draw(&mut sheet.scene, pen, corner);
    }
    Some(sheet.scene)
}

/// What the drawing shows.
fn configurations(pen: &Pen) -> String {
    let shown = Configured::ALL
        .into_iter()
        .filter(|it| pen.assembly.configuration(*it).is_some());
    shown.map(Configured::word).collect::<Vec<_>>().join(", ")
}

/// Lines in two columns below the views.
struct Legend {
    /// How far each is set in, and what it says.
    lines: Vec<(f64, String)>,
    /// Height of the text and between the lines, mm.
    size_mm: (f64, f64),
    column_mm: f64,
}

impl Legend {
    /// As large as lets all stand in a height.
    fn of(entries: &[String], column_mm: f64, height_mm: f64) -> Legend {
        let sized = |size_mm: (f64, f64)| {
            let lines = entries.iter().flat_map(|entry| {
                let wrapped = wrapped(entry, column_mm - SET_IN_MM - 2.0, size_mm.0);
                let set_in = |at: usize| if at == 0 { 0.0 } else { SET_IN_MM };
                let lines = wrapped.into_iter().enumerate();
                lines.map(move |(at, line)| (set_in(at), line))
            });
            Legend {
                lines: lines.collect(),
                size_mm,
                column_mm,
            }
        };
        let [first, rest @ ..] = LEGENDS_MM.map(sized);
        let fits = |it: &Legend| it.height_mm() <= height_mm;
        rest.into_iter()
            .fold(first, |kept, next| match fits(&kept) {
                true => kept,
                false => next,
            })
    }

    fn rows(&self) -> usize {
        self.lines.len().div_ceil(2)
    }

    fn height_mm(&self) -> f64 {
        self.size_mm.1 * self.rows() as f64
    }

    fn draw(self, scene: &mut Scene, corner: Xy) {
        let (rows, (height, pitch)) = (self.rows(), self.size_mm);
        for (at, (set_in, line)) in self.lines.into_iter().enumerate() {
            let (column, row) = (at / rows, at % rows);
            let x = column as f64 * self.column_mm + set_in;
            let place = corner.moved(x, -pitch * (row + 1) as f64);
            scene.text(Text::new(place, height, line));
        }
    }
}
