//! What is bought, as a table for people.

use super::{BuyReport, CostReport, PartReport, StockReport};
use crate::report::stock;
use crate::report::table::{Cell, table};
use quillet_geometry::Length;
use quillet_model::Units;

/// The whole page.
pub(super) fn of(report: &BuyReport, units: Units, priced: bool) -> String {
    let kerf = units.short(Length::mm(report.kerf_mm));
    let shelf = match &report.shelf {
        Some(shelf) => format!("from the shelf {shelf}"),
        None => "with nothing on the shelf".to_owned(),
    };
    let mut out = format!("{}, {kerf} of kerf, {shelf}\n", report.of);
    let stocks: Vec<_> = report
        .stocks
        .iter()
        .map(|it| stock_row(it, units))
        .collect();
    if !stocks.is_empty() {
        let head = ["stock", "pieces", "had", "to buy", "remnants", "price"];
        out += &format!("\n{}", table(2, &head, &stocks));
    }
    let parts: Vec<_> = report.parts.iter().map(part_row).collect();
    if !parts.is_empty() {
        let head = ["bought part", "needed", "had", "to buy", "price"];
        out += &format!("\n{}", table(2, &head, &parts));
    }
    for stock in report.stocks.iter().filter(|it| it.too_long > 0) {
        let (name, length) = (
            name(stock, units),
            units.plain(Length::mm(stock.length_mm.unwrap_or(0.0))),
        );
        out += &format!(
            "  {name}: {} of its pieces longer than {length}\n",
            stock.too_long
        );
    }
    out += &format!(
        "\n  to buy {:.2}{}\n",
        report.price,
        unpriced(report.unpriced)
    );
    if priced {
        out += &costs(report);
    }
    out
}

fn unpriced(count: usize) -> String {
    match count {
        0 => String::new(),
        1 => ", and 1 thing unpriced".to_owned(),
        count => format!(", and {count} things unpriced"),
    }
}

fn name(stock: &StockReport, units: Units) -> String {
    let of = (&*stock.material, stock.section);
    stock::called(of, stock.size_mm, stock.wall_mm, units)
}

fn stock_row(stock: &StockReport, units: Units) -> Vec<Cell> {
    let plain = |mm: &f64| units.plain(Length::mm(*mm));
    let to_buy = match (stock.length_mm, stock.lengths_to_buy) {
        (_, _) if stock.to_buy_mm <= 0.0 => "none".to_owned(),
        (Some(length), count) => format!("{count} of {}", plain(&length)),
        (None, _) => format!("{} in all", plain(&stock.to_buy_mm)),
    };
    vec![
        Cell::left(name(stock, units)),
        Cell::right(stock.pieces.to_string()),
        Cell::left(alike(&stock.had_mm, plain)),
        Cell::left(to_buy),
        Cell::left(alike(&stock.remnants_mm, plain)),
        money(stock.price, stock.to_buy_mm > 0.0),
    ]
}

/// Figures with how often each comes, where it is more than once: `3 × 54.6, 31`.
fn alike(lengths_mm: &[f64], plain: impl Fn(&f64) -> String) -> String {
    let mut counted: Vec<(String, usize)> = Vec::new();
    for length in lengths_mm {
        let told = plain(length);
        match counted.iter_mut().find(|(it, _)| *it == told) {
            Some((_, count)) => *count += 1,
            None => counted.push((told, 1)),
        }
    }
    let each = counted.into_iter().map(|(told, count)| match count {
        1 => told,
        count => format!("{count} × {told}"),
    });
    each.collect::<Vec<_>>().join(", ")
}

fn part_row(part: &PartReport) -> Vec<Cell> {
    vec![
        Cell::left(part.title.clone()),
        Cell::right(part.needed.to_string()),
        Cell::right(part.had.to_string()),
        Cell::right(part.to_buy.to_string()),
        money(part.price, part.to_buy > 0),
    ]
}

fn money(price: Option<f64>, is_bought: bool) -> Cell {
    Cell::right(match price {
        _ if !is_bought => String::new(),
        Some(price) => format!("{price:.2}"),
        None => "unpriced".to_owned(),
    })
}

fn costs(report: &BuyReport) -> String {
    let row = |it: &CostReport| {
        let figures = [it.materials, it.parts, it.hours, it.each, it.in_all];
        let figures = figures.map(|it| Cell::right(format!("{it:.2}")));
        let first = [
            Cell::left(it.pen.clone()),
            Cell::right(it.count.to_string()),
        ];
        first.into_iter().chain(figures).collect()
    };
    let rows: Vec<Vec<Cell>> = report.costs.iter().map(row).collect();
    let head = [
        "what it costs",
        "made",
        "materials",
        "bought",
        "hours",
        "a piece",
        "in all",
    ];
    let mut out = format!("\n{}", table(2, &head, &rows));
    let all: f64 = report.costs.iter().map(|it| it.in_all).sum();
    let mut names: Vec<&String> = report.costs.iter().flat_map(|it| &it.unpriced).collect();
    names.sort();
    names.dedup();
    out += &format!("  in all {all:.2}{}", unpriced(names.len()));
    if !names.is_empty() {
        let names: Vec<&str> = names.iter().map(|it| it.as_str()).collect();
        out += &format!(": {}", names.join(", "));
    }
    out + "\n  materials by the length that is sawn, kerf counted\n"
}
