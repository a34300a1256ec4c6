//! What holds a joint, in a maker's words.

use quillet_geometry::Length;
use quillet_model::{AtRest, HeldBy, JointId, Pen, SnapFit};
use quillet_syntax::{Size, SizedText, text};

/// What holds a joint at rest in a pen, in a line: `M13x0.8 starts 3, 4.00 mm of it`; with the force
/// that draws it apart, where that is estimated. None where nothing does.
pub fn held_by(pen: &Pen, rest: &AtRest) -> Option<SizedText> {
    let mut joints = pen.assembly.joints.with_ids();
    let joint = joints.find(|(_, it)| std::ptr::eq(*it, rest));
    // A thread beside an O-ring is what holds: then no figure is told.
    let joint = joint.map(|it| it.0).filter(|id| pen.hold_n(*id).is_some());
    let words: Vec<SizedText> = rest
        .verdict
        .held_by
        .iter()
        .map(|it| estimated(pen, joint, it))
        .collect();
    (!words.is_empty()).then(|| crate::words::list(&words))
}

/// With its force, said to be what it is.
fn estimated(pen: &Pen, joint: Option<JointId>, held: &HeldBy) -> SizedText {
    let words = words(pen, held);
    match joint.and_then(|joint| pen.force_n(joint, held)) {
        Some(force) => text!(
            "{}, about {} N to draw within a factor of two",
            words,
            newtons(force)
        ),
        None => words,
    }
}

/// Newtons as far as an estimate tells them: `3.0`, `132`.
fn newtons(force_n: f64) -> String {
    match force_n < 20.0 {
        true => format!("{force_n:.1}"),
        false => format!("{force_n:.0}"),
    }
}

/// Fingers or a ring over a ridge, and how far they are strained.
fn snap(it: &SnapFit) -> SizedText {
    let gives = match it.fingers {
        Some(count) => format!("{count} fingers over a ridge"),
        None => "a ring over a ridge".to_owned(),
    };
    let strain = it.strain.map_or_else(String::new, |strain| {
        format!(", strain {:.2} %", 100.0 * strain)
    });
    text!(
        "{}: {} of overlap{}",
        gives,
        Size::Rounded(it.overlap, 3),
        strain
    )
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
        HeldBy::Snap(it) => snap(it),
        HeldBy::Magnets(it) => {
            let gap = Size::Rounded(Length::mm(it.gap_mm), 2);
            match it.pairs {
                1 => text!("two magnets {} apart", gap),
                pairs => text!("{} pairs of magnets {} apart", pairs, gap),
            }
        }
        HeldBy::Grips { part, dia } => {
            let name = pen.parts.get(*part).map_or("it", |it| &it.name.text);
            text!("{} gripping {}", name, crate::words::dia(*dia))
        }
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
