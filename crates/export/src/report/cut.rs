//! What to saw off which stock.

mod piece;

use super::stock;
use super::table::columns;
use piece::CutPieceReport;
use quillet_geometry::Length;
use quillet_model::Units;
use quillet_pen::Planned;
use quillet_plan::CutStock;
use serde::Serialize;

/// What is sawn for a pen, for a batch of them, or for a part that is in none.
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
    /// No packing takes fewer lengths of the stock; none where its length is not said.
    least_lengths: Option<usize>,
    /// Pieces longer than the stock, counted from 1.
    too_long: Vec<usize>,
}

impl CutReport {
    /// Of plans that are sawn together.
    pub fn of(planned: &[Planned<'_>]) -> Self {
        let list = Planned::cut_list(planned);
        let titles: Vec<String> = planned.iter().map(Planned::counted_title).collect();
        let stocks = list
            .stocks
            .iter()
            .map(|stock| StockReport::of(stock, list.kerf));
        Self {
            of: titles.join(", "),
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
            least_lengths: stock.least_lengths(kerf),
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
        let of = (&*self.material, self.section);
        let stock = stock::called(of, self.size_mm, self.wall_mm, units);
        let matched = if self.matched {
            ", in the order of the pen"
        } else {
            ""
        };
        let mut out = format!("\n  {name}{stock}{length}{matched}\n");
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
            let names = rod.iter().map(|piece| self.pieces[piece - 1].name());
            let names: Vec<String> = names.collect();
            out += &format!("    length {}: {}\n", index + 1, names.join(", "));
        }
        if let Some(least) = self.least_lengths.filter(|_| !self.rods.is_empty()) {
            let taken = self.rods.len();
            out += &format!("    lengths: {taken}; no packing takes fewer than {least}\n");
        }
        for piece in &self.too_long {
            let name = self.pieces[piece - 1].name();
            out += &format!("    {name} is longer than the stock\n");
        }
        out
    }
}

/// To the tenth of a millimetre or the hundredth of an inch: nobody saws closer.
fn sawn(mm: f64, units: Units) -> String {
    match units {
        Units::Millimetres => format!("{mm:.1}"),
        Units::Inches => format!("{:.2}", units.count(Length::mm(mm))),
    }
}
