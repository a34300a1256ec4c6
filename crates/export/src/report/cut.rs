//! What to saw off which stock.

use super::table::columns;
use quillet_geometry::Length;
use quillet_model::Units;
use quillet_pen::Planned;
use quillet_plan::{CutList, CutPiece, CutStock};
use serde::Serialize;

/// What is sawn for a pen, or for a part that is in none.
#[derive(Serialize)]
pub struct CutReport {
    of: String,
    kerf_mm: f64,
    stocks: Vec<StockReport>,
}

#[derive(Serialize)]
struct StockReport {
    blank: Option<String>,
    material: String,
    section: &'static str,
    size_mm: f64,
    wall_mm: Option<f64>,
    /// The length it comes in, where said.
    length_mm: Option<f64>,
    /// Pieces keep the order of the pen.
    matched: bool,
    pieces: Vec<CutPieceReport>,
    /// All pieces and the cuts between them, end to end.
    total_mm: f64,
    /// Which pieces come off which rod, counted from 1.
    rods: Vec<Vec<usize>>,
    /// Pieces longer than the stock, counted from 1.
    too_long: Vec<usize>,
}

#[derive(Serialize)]
struct CutPieceReport {
    part: String,
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
}

impl CutReport {
    /// Of a plan.
    pub fn of(planned: &Planned<'_>) -> Self {
        let list = CutList::of(&planned.plan, planned.bench);
        let stocks = list
            .stocks
            .iter()
            .map(|stock| StockReport::of(stock, list.kerf));
        Self {
            of: planned.title.clone(),
            kerf_mm: list.kerf.to_mm(),
            stocks: stocks.collect(),
        }
    }

    /// For people.
    pub fn text(&self, units: Units) -> String {
        let stocks: String = self.stocks.iter().map(|it| it.text(units)).collect();
        let kerf = units.short(Length::mm(self.kerf_mm));
        format!("{}, {kerf} of kerf\n{stocks}", self.of)
    }
}

impl StockReport {
    fn of(stock: &CutStock, kerf: Length) -> Self {
        let counted = |rod: &Vec<usize>| rod.iter().map(|index| index + 1).collect();
        let material = &stock.material;
        let packing = stock.packing.as_ref();
        Self {
            blank: stock.name.as_ref().map(ToString::to_string),
            material: material.title_or_name().to_owned(),
            section: stock.section.word(),
            size_mm: stock.size.to_mm(),
            wall_mm: stock.wall.map(Length::to_mm),
            length_mm: stock.length.map(Length::to_mm),
            matched: stock.matched,
            pieces: stock.pieces.iter().map(CutPieceReport::of).collect(),
            total_mm: stock.total(kerf).to_mm(),
            rods: packing.map_or_else(Vec::new, |it| it.rods.iter().map(counted).collect()),
            too_long: packing.map_or_else(Vec::new, |it| counted(&it.too_long)),
        }
    }

    fn text(&self, units: Units) -> String {
        let plain = |mm: f64| units.plain(Length::mm(mm));
        let name = self
            .blank
            .as_ref()
            .map_or_else(String::new, |name| format!("{name}: "));
        let length = self
            .length_mm
            .map_or_else(String::new, |it| format!(" by {}", plain(it)));
        let wall = self
            .wall_mm
            .map_or_else(String::new, |it| format!(" wall {}", plain(it)));
        let matched = if self.matched {
            ", in the order of the pen"
        } else {
            ""
        };
        let mut out = format!(
            "\n  {name}{} {} {}{wall}{length}{matched}\n",
            self.material,
            self.section,
            plain(self.size_mm)
        );
        let head = [
            "",
            "part",
            "saw to",
            "part",
            "facing",
            "nub",
            "stub",
            "spigot",
            "past the point",
        ];
        let rows = self
            .pieces
            .iter()
            .enumerate()
            .map(|(index, piece)| piece.row(index + 1, units));
        out += &columns(&head, &rows.collect::<Vec<_>>());
        out += &format!(
            "    {} {} in all, end to end\n",
            sawn(self.total_mm, units),
            units.suffix()
        );
        for (index, rod) in self.rods.iter().enumerate() {
            let names: Vec<&str> = rod
                .iter()
                .map(|piece| &*self.pieces[piece - 1].part)
                .collect();
            out += &format!("    length {}: {}\n", index + 1, names.join(", "));
        }
        for piece in &self.too_long {
            out += &format!(
                "    {} is longer than the stock\n",
                self.pieces[piece - 1].part
            );
        }
        out
    }
}

impl CutPieceReport {
    fn of(piece: &CutPiece) -> Self {
        Self {
            part: piece.part.to_string(),
            piece: piece.piece.0.number(),
            of_pieces: piece.piece.1,
            saw_to_mm: piece.length.to_mm(),
            part_mm: piece.net.to_mm(),
            facing_mm: piece.facing.to_mm(),
            nub_mm: piece.nub.to_mm(),
            stub_mm: piece.stub.to_mm(),
            spigot_and_glue_mm: piece.spigot.to_mm(),
            past_drill_point_mm: piece.past_point.map(Length::to_mm),
        }
    }

    fn row(&self, number: usize, units: Units) -> Vec<String> {
        let part = match self.of_pieces {
            1 => self.part.clone(),
            count => format!("{}, piece {} of {count}", self.part, self.piece),
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

/// To the tenth of a millimetre or the hundredth of an inch: nobody saws closer.
fn sawn(mm: f64, units: Units) -> String {
    match units {
        Units::Millimetres => format!("{mm:.1}"),
        Units::Inches => format!("{:.2}", units.count(Length::mm(mm))),
    }
}
