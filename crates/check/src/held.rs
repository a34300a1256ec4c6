//! What holds a joint, in a maker's words.

use quillet_geometry::Length;
use quillet_model::{AtRest, HeldBy, Pen};
use quillet_syntax::{Size, SizedText, text};

/// What holds a joint at rest in a pen, in a line: `M13x0.8 starts 3, 4.00 mm of it`; none where
/// nothing does.
pub fn held_by(pen: &Pen, rest: &AtRest) -> Option<SizedText> {
    let words: Vec<SizedText> = rest
        .verdict
        .held_by
        .iter()
        .map(|it| words(pen, it))
        .collect();
    (!words.is_empty()).then(|| crate::words::list(&words))
}

fn words(pen: &Pen, held: &HeldBy) -> SizedText {
    match held {
        HeldBy::Thread(it) => text!(
            "{}, {} of it",
            it.form,
            Size::Rounded(Length::mm(it.overlap_mm), 2)
        ),
        HeldBy::Ring { ring, squeeze } => {
            let name = pen.assembly.rings.get(*ring).map(|it| &it.ring.name.text);
            let name = name.map_or("an O-ring", AsRef::as_ref);
            text!(
                "{} squeezed by {} %",
                name,
                format!("{:.0}", squeeze * 100.0)
            )
        }
        HeldBy::Interference { size, asked } => {
            let asked = if *asked { " (asked)" } else { "" };
            text!("{} of interference{}", size, asked)
        }
        HeldBy::Push { clearance } => text!("a push with {}", room(*clearance)),
        HeldBy::Glue { gap, over_mm } => text!(
            "glue in a gap of {}, {} long",
            gap,
            Size::Rounded(Length::mm(*over_mm), 1)
        ),
        HeldBy::Taper(it) => text!(
            "a taper of {}° a side over {}",
            format!("{:.1}", it.half_angle_deg),
            Size::Rounded(Length::mm(it.over_mm), 1)
        ),
        HeldBy::Trapped { free_mm } => text!(
            "what lies round it ({} free)",
            Size::Rounded(Length::mm(*free_mm), 1)
        ),
        HeldBy::TakenUp => "what takes it up inside".into(),
    }
}

/// A clearance on diameter in words: `0.05 mm of clearance`, `0.1 mm of interference`.
pub(crate) fn room(clearance: Length) -> SizedText {
    match clearance.is_negative() {
        true => text!("{} of interference", -clearance),
        false => text!("{} of clearance", clearance),
    }
}
