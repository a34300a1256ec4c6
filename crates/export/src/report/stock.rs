//! Stock as lists name it.

use quillet_geometry::Length;
use quillet_model::Units;

/// `reed rod 18`, `brass tube 10 wall 0.5`.
pub(super) fn called(
    (material, section): (&str, &str),
    size_mm: f64,
    wall_mm: Option<f64>,
    units: Units,
) -> String {
    let plain = |mm: f64| units.plain(Length::mm(mm));
    let wall = wall_mm.map_or_else(String::new, |it| format!(" wall {}", plain(it)));
    format!("{material} {section} {}{wall}", plain(size_mm))
}
