//! The sizes that a tool comes in.

use crate::Number;
use quillet_geometry::Length;
use quillet_model::{Bench, Cut, Design, Part};
use quillet_standards::drill;

/// So many sizes are looked at either way.
const EITHER_WAY: usize = 12;

/// The sizes either way of a number that has to be a tool's, from the least, in its own unit; none
/// where it need not be.
pub(crate) fn sizes(design: &Design, number: &Number) -> Option<Vec<f64>> {
    let part = design.part(number.part.as_deref()?)?;
    if number.role != "dia" {
        return None;
    }
    let cut = part
        .features
        .iter()
        .find(|it| it.span == number.statement)?;
    let bench = bench_of(design, part);
    let unit_mm = number.grain.unit_mm();
    let mut all = sizes_mm(&cut.cut, bench)?;
    all.sort_by(f64::total_cmp);
    all.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    let drawn_mm = number.value * unit_mm;
    let below: Vec<f64> = all
        .iter()
        .copied()
        .filter(|it| *it < drawn_mm - 1e-6)
        .collect();
    let above = all.iter().copied().filter(|it| *it > drawn_mm + 1e-6);
    let below = below[below.len().saturating_sub(EITHER_WAY)..]
        .iter()
        .copied();
    let around = below.chain([drawn_mm]).chain(above.take(EITHER_WAY));
    Some(around.map(|it| it / unit_mm).collect())
}

/// The bench that the part is made at, as far as the file says: its own, that of the first pen it is in,
/// else the only one.
fn bench_of<'d>(design: &'d Design, part: &Part) -> Option<&'d Bench> {
    let in_pen = design
        .pens
        .iter()
        .find(|pen| pen.parts.iter().any(|it| it.name.text == part.name.text));
    let wanted = part.bench.as_ref().or_else(|| in_pen?.bench.as_ref());
    design.bench(wanted).map(AsRef::as_ref)
}

/// Every size that the tool of a cut comes in, mm: the bench's own, else the standard's; none where any
/// size can be cut.
fn sizes_mm(cut: &Cut, bench: Option<&Bench>) -> Option<Vec<f64>> {
    let standard = || {
        drill::all()
            .iter()
            .map(|it| it.diameter().to_mm())
            .collect()
    };
    let own = |sizes: &[Length]| -> Vec<f64> { sizes.iter().map(|it| it.to_mm()).collect() };
    let drills =
        |bench: &Bench| -> Vec<f64> { bench.drills.iter().map(|it| it.dia.to_mm()).collect() };
    let own: Vec<f64> = match (cut, bench) {
        (Cut::Drill { .. }, bench) => bench.map(drills).unwrap_or_default(),
        (Cut::Ream { .. }, bench) => bench.map(|it| own(&it.reamers)).unwrap_or_default(),
        (Cut::Bore { .. }, Some(bench)) if bench.boring.is_empty() => own(&bench.flats),
        _ => return None,
    };
    Some(if own.is_empty() { standard() } else { own })
}
