//! The drawing of a pen put together, on a sheet of its own.

use super::overview::overview;
use super::paper::{Paper, Sheet};
use super::part::{PartTitle, scale_text, wrapped};
use super::title_block::{HEIGHT_MM, TitleBlock};
use crate::scene::{Scene, Text, Xy};
use quillet_model::{Configured, Pen};

/// Height of the legend's text and between its lines, mm.
const LEGEND_MM: (f64, f64) = (2.5, 4.2);

/// Draws a pen in all its configurations with contacts and clearances; none where it could not be put
/// together.
pub fn pen(pen: &Pen, paper: Paper, title: &PartTitle) -> Option<Scene> {
    let name = pen
        .title
        .as_ref()
        .map_or(&pen.name.text, |title| &title.text);
    let mut sheet = Sheet::new(&format!("{name}, put together"), paper);
    let (low, high) = sheet.room(HEIGHT_MM + 1.0);
    let overview = overview(pen, high.x - low.x - 4.0)?;
    let block = TitleBlock {
        owner: title.owner.clone(),
        title: name.to_string(),
        subtitle: configurations(pen),
        number: pen.name.text.to_string(),
        kind: "Assembly drawing".into(),
        scale: scale_text(overview.scale),
        sheet: title.sheet,
    };
    block.draw(&mut sheet, paper);
    let x = (low.x + high.x - overview.scene.width_mm) / 2.0;
    let foot = high.y - 2.0 - overview.scene.height_mm;
    sheet.scene.place(&overview.scene, Xy::new(x, foot));
    let lines = overview
        .callouts
        .iter()
        .map(|callout| format!("{}  {}", callout.number, callout.says));
    legend(
        &mut sheet.scene,
        (low, Xy::new(high.x, foot)),
        lines.collect(),
    );
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
fn legend(scene: &mut Scene, (low, high): (Xy, Xy), lines: Vec<String>) {
    let (height, pitch) = LEGEND_MM;
    let width = (high.x - low.x) / 2.0;
    let lines: Vec<String> = lines
        .iter()
        .flat_map(|line| wrapped(line, width - 4.0, height))
        .collect();
    let rows = lines.len().div_ceil(2);
    for (at, line) in lines.into_iter().enumerate() {
        let (column, row) = (at / rows, at % rows);
        let y = high.y - pitch * (row + 1) as f64;
        if y > low.y {
            scene.text(Text::new(
                Xy::new(low.x + column as f64 * width, y),
                height,
                line,
            ));
        }
    }
}
