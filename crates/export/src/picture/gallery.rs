//! A pen in three looks with a line of figures, for the top of a page.

use super::framed::ROOM_MM;
use crate::draw::{self, Look};
use crate::scene::{Scene, Text, Xy};
use quillet_model::{Configured, Pen, Units};

/// Between two looks, mm.
const BETWEEN_MM: f64 = 13.0;
/// Heights of a capital: the pen's name, and its figures, mm.
const NAME_MM: f64 = 5.0;
const FIGURES_MM: f64 = 2.8;
/// From the name to the figures beside it, or from baseline to baseline under it, mm.
const BESIDE_MM: f64 = 6.0;
const UNDER_MM: f64 = 6.5;

/// Capped, to write, and cut away, as far as the pen has them, at one scale; none where it could not be put
/// together.
pub fn gallery(pen: &Pen, width_mm: f64, units: Units) -> Option<Scene> {
    let room = width_mm - 2.0 * ROOM_MM;
    let (capped, open) = (Configured::Capped, Configured::Uncapped);
    let whole = match pen.assembly.capped.is_some() {
        true => capped,
        false => open,
    };
    let looks = [
        draw::outside(pen, capped, room),
        draw::outside(pen, open, room),
        draw::cutaway(pen, whole, room),
    ];
    let looks: Vec<Look> = looks.into_iter().flatten().collect();
    let wide = looks.iter().map(|it| it.scene.width_mm).reduce(f64::max)?;
    let high: f64 = looks.iter().map(|it| it.scene.height_mm + BETWEEN_MM).sum();
    let name = Text::new(Xy::default(), NAME_MM, pen.title_or_name()).bold();
    let mut line = Text::new(Xy::default(), FIGURES_MM, figures(pen, units));
    let beside = name.width_mm() + BESIDE_MM;
    // Under the name where there is no room beside it.
    let is_under = beside + line.width_mm() > wide;
    line.height_mm *= (wide / line.width_mm()).min(1.0);
    let foot = ROOM_MM + NAME_MM + if is_under { UNDER_MM } else { 0.0 };
    let mut scene = Scene::new(
        format!("{}, outside and cut away", pen.title_or_name()),
        wide + 2.0 * ROOM_MM,
        high + foot + ROOM_MM - 4.0,
    );
    let mut top = scene.height_mm - ROOM_MM;
    for look in &looks {
        let bare = &look.scene;
        // Against the tail, so that what is the same lies below each other.
        let x = ROOM_MM + wide - bare.width_mm;
        scene.place(bare, Xy::new(x, top - bare.height_mm));
        top -= bare.height_mm + BETWEEN_MM;
    }
    let at = Xy::new(ROOM_MM, ROOM_MM);
    let [of_name, of_line] = match is_under {
        true => [at.moved(0.0, UNDER_MM), at],
        false => [at, at.moved(beside, 0.0)],
    };
    scene.text(Text {
        at: of_name,
        ..name
    });
    scene.text(Text {
        at: of_line,
        ..line
    });
    Some(scene)
}

/// `138.0 mm capped · 126.5 to write · 21.7 g · balances at 54 % to write`.
fn figures(pen: &Pen, units: Units) -> String {
    let long = |mm: f64| match units {
        Units::Millimetres => format!("{mm:.1} mm"),
        Units::Inches => format!("{:.2} in", mm / 25.4),
    };
    let of = |which: Configured| pen.assembly.configuration(which);
    let (capped, open) = (of(Configured::Capped), of(Configured::Uncapped));
    let mut caption = Vec::new();
    let length = |it: Option<&quillet_model::Configuration>| it.and_then(|it| it.length_mm);
    caption.extend(length(capped).map(|mm| format!("{} capped", long(mm))));
    caption.extend(length(open).map(|mm| format!("{} to write", long(mm))));
    let mass = capped.or(open).and_then(|it| it.filled);
    caption.extend(mass.map(|it| format!("{:.1} g", it.mass_g)));
    let balance = open.and_then(quillet_model::Configuration::balance_share);
    caption.extend(balance.map(|it| format!("balances at {:.0} % to write", it * 100.0)));
    caption.join("  ·  ")
}
