//! Who a place on a part is, whatever becomes of its sizes.

use quillet_model::words::SpotName;
use quillet_model::{Feature, Part, Pen, SurfacePoint};

/// A place of a pen by its part and what made it there.
pub(crate) fn of(pen: &Pen, spot: &SurfacePoint) -> String {
    let Some(part) = pen.parts.get(spot.part) else {
        return String::new();
    };
    let name = &part.name.text;
    match part.spot_name(spot) {
        SpotName::Face(face) => format!("{name}.{}", face.name.text),
        SpotName::End(end) => format!("{name}.{}", part.end_name(end)),
        SpotName::DrillPoint(cut) => format!("{name} point {}", of_cut(part, cut)),
        SpotName::Cut(cut) => format!("{name} {}", of_cut(part, cut)),
        SpotName::Outside => format!("{name} outside"),
    }
}

/// A cut by its end, its kind and which it is of its kind there.
fn of_cut(part: &Part, cut: &Feature) -> String {
    let same = |it: &&Feature| it.end == cut.end && it.called() == cut.called();
    let mut alike = part.features.iter().filter(same);
    let count = alike.position(|it| std::ptr::eq(it, cut)).unwrap_or(0);
    format!("{}.{}.{count}", part.end_name(cut.end), cut.called())
}
