//! One piece to saw.

use super::sawn;
use quillet_geometry::Length;
use quillet_model::Units;
use quillet_plan::CutPiece;
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct CutPieceReport {
    /// The pen, where pieces of several are sawn together.
    pen: Option<String>,
    part: String,
    /// Which of several pens alike, from 1.
    number: Option<u32>,
    piece: usize,
    of_pieces: usize,
    saw_to_mm: f64,
    part_mm: f64,
    facing_mm: f64,
    nub_mm: f64,
    stub_mm: f64,
    spigot_and_glue_mm: f64,
    /// Left of the part beyond the point of its deepest blind drill.
    past_drill_point_mm: Option<f64>,
    /// The piece as sawn.
    blank_mm3: f64,
    /// What of it stays in the finished part.
    part_mm3: Option<f64>,
    /// The share of it that is turned, drilled or parted off, 0 to 1.
    turned_off_share: Option<f64>,
}

impl CutPieceReport {
    pub(super) fn of(piece: &CutPiece) -> Self {
        Self {
            pen: piece.pen.as_ref().map(ToString::to_string),
            part: piece.part.to_string(),
            number: piece.number,
            piece: piece.piece.0.number(),
            of_pieces: piece.piece.1,
            saw_to_mm: piece.length.to_mm(),
            part_mm: piece.net.to_mm(),
            facing_mm: piece.facing.to_mm(),
            nub_mm: piece.nub.to_mm(),
            stub_mm: piece.stub.to_mm(),
            spigot_and_glue_mm: piece.spigot.to_mm(),
            past_drill_point_mm: piece.past_point.map(Length::to_mm),
            blank_mm3: piece.blank_mm3,
            part_mm3: piece.kept_mm3,
            turned_off_share: piece.turned_off(),
        }
    }

    /// What it is called: the pen where there are several, the part, and which of several alike.
    pub(super) fn name(&self) -> String {
        let pen = self
            .pen
            .as_ref()
            .map_or_else(String::new, |pen| format!("{pen} "));
        let number = self.number.map_or_else(String::new, |it| format!(" #{it}"));
        format!("{pen}{}{number}", self.part)
    }

    pub(super) fn row(&self, number: usize, units: Units) -> Vec<String> {
        let part = match self.of_pieces {
            1 => self.name(),
            count => format!("{}, piece {} of {count}", self.name(), self.piece),
        };
        let some = |mm: f64| {
            if mm == 0.0 {
                String::new()
            } else {
                sawn(mm, units)
            }
        };
        vec![
            number.to_string(),
            part,
            sawn(self.saw_to_mm, units),
            sawn(self.part_mm, units),
            some(self.facing_mm),
            some(self.nub_mm),
            some(self.stub_mm),
            some(self.spigot_and_glue_mm),
            self.past_drill_point_mm.map_or_else(String::new, some),
        ]
    }
}
