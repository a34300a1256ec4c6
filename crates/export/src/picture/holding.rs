//! One holding of a part, large.

use super::framed::ROOM_MM;
use crate::scene::{Scene, Text, Xy};
use crate::sheet::{HoldingRows, holdings_in};
use quillet_model::{Design, Pen, Units};
use quillet_pen::Planned;

/// The room for the work and what holds it, mm.
const PICTURE_MM: (f64, f64) = (166.0, 60.0);
/// Heights of a capital, mm: what it is, and how it is held.
const TITLE_MM: f64 = 3.5;
const GRIP_MM: f64 = 2.6;

/// The holdings of a part of a pen that are drawn on its page of the sheet, in their order; none where
/// the part is not made.
pub fn holdings(design: &Design, pen: &Pen, part: &str, units: Units) -> Option<Vec<Scene>> {
    let Planned { plan, bench, .. } = Planned::of_pen(design, pen);
    let route = plan.routes.iter().find(|it| *it.part.name.text == *part)?;
    let all = holdings_in(&plan, route, bench, units, PICTURE_MM);
    let drawn = all.iter().enumerate();
    let drawn = drawn.filter_map(|(at, it)| picture(part, at + 1, it));
    Some(drawn.collect())
}

fn picture(part: &str, number: usize, holding: &HoldingRows) -> Option<Scene> {
    let bare = holding.picture.as_ref()?;
    let head = TITLE_MM + GRIP_MM + 9.0;
    let wide = bare.width_mm + 2.0 * ROOM_MM;
    let high = bare.height_mm + head + 2.0 * ROOM_MM;
    let caption = format!("{part}, {number}: {}", holding.title);
    let mut scene = Scene::new(caption.clone(), wide, high);
    scene.place(bare, Xy::new(ROOM_MM, ROOM_MM));
    let top = high - ROOM_MM - TITLE_MM;
    scene.text(Text::new(Xy::new(ROOM_MM, top), TITLE_MM, caption).bold());
    let under = Xy::new(ROOM_MM, top - 3.4 - GRIP_MM);
    scene.text(Text::new(under, GRIP_MM, &*holding.grip));
    Some(scene)
}
