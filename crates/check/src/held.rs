//! What holds a joint, in a maker's words.

use quillet_geometry::Length;
use quillet_model::{HeldBy, Pen};

/// What holds a joint of a pen, in a line: `M13x0.8 starts 3, 4.00 mm of it`; none where nothing
/// does, or where the joint is not of this pen.
pub fn held_by(pen: &Pen, joint: usize) -> Option<String> {
    let rest = pen.assembly.joints.get(joint)?;
    let words: Vec<String> = rest
        .verdict
        .held_by
        .iter()
        .map(|it| words(pen, it))
        .collect();
    (!words.is_empty()).then(|| crate::words::list(&words))
}

fn words(pen: &Pen, held: &HeldBy) -> String {
    match held {
        HeldBy::Thread(it) => format!("{}, {:.2} mm of it", it.form, it.overlap_mm),
        HeldBy::Ring { ring, squeeze } => {
            let name = pen.assembly.rings.get(*ring).map(|it| &it.ring.name.text);
            let name = name.map_or("an O-ring", AsRef::as_ref);
            format!("{name} squeezed by {:.0} %", squeeze * 100.0)
        }
        HeldBy::Interference { size, asked } => {
            let asked = if *asked { " (asked)" } else { "" };
            format!("{size} of interference{asked}")
        }
        HeldBy::Push { clearance } => format!("a push with {}", room(*clearance)),
        HeldBy::Glue { gap, over_mm } => format!("glue in a gap of {gap}, {over_mm:.1} mm long"),
        HeldBy::Taper(it) => format!(
            "a taper of {:.1}° a side over {:.1} mm",
            it.half_angle_deg, it.over_mm
        ),
        HeldBy::Trapped { free_mm } => format!("what lies round it ({free_mm:.1} mm free)"),
        HeldBy::TakenUp => "what takes it up inside".to_owned(),
    }
}

/// A clearance on diameter in words: `0.05 mm of clearance`, `0.1 mm of interference`.
pub(crate) fn room(clearance: Length) -> String {
    match clearance.is_negative() {
        true => format!("{} of interference", -clearance),
        false => format!("{clearance} of clearance"),
    }
}
