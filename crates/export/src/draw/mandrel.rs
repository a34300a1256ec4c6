//! Mandrels: their outline, and each by itself at full size.

use crate::scene::{Hatch, Layer, Path, Scene, Xy, hatch};
use quillet_plan::{Fitted, Mandrel, MandrelKind};

/// A mandrel by itself at full size, its shank at the left; where its steps are, as places of the
/// picture: the middle of each and its radius.
pub(crate) fn mandrel(mandrel: &Mandrel, most_mm: f64) -> (Scene, Vec<Xy>) {
    let mut places = profile(mandrel, 1.0);
    let back = places.iter().map(|it| it.0).fold(f64::INFINITY, f64::min);
    let front = places
        .iter()
        .map(|it| it.0)
        .fold(f64::NEG_INFINITY, f64::max);
    // What is too long is drawn shorter at the shank, with a break in it.
    let cut = (front - back - most_mm).max(0.0);
    let broken = |z: f64| {
        if z < -2.0 - 1e-6 {
            (z + cut).min(-4.0)
        } else {
            z
        }
    };
    places.iter_mut().for_each(|it| it.0 = broken(it.0));
    let back = broken(back);
    let radius = places.iter().map(|it| it.1).fold(0.0, f64::max);
    let mut scene = Scene::new("mandrel", front - back, 2.0 * radius);
    let place = |z: f64, r: f64| Xy::new(z - back, radius + r);
    let halves = [1.0, -1.0].map(|side| {
        let places: Vec<Xy> = places.iter().map(|(z, r)| place(*z, side * r)).collect();
        Path::polygon(&places)
    });
    scene.fill(Layer::View, halves.to_vec());
    if mandrel.kind == MandrelKind::Female {
        let pattern = Hatch {
            angle_deg: 45.0,
            spacing_mm: 1.6,
        };
        scene.lines(Layer::Hatch, hatch(&halves[..1], None, &[], pattern));
    }
    for half in &halves {
        scene.stroke(Layer::Outline, half.clone());
    }
    for pair in places.windows(2) {
        // Edges of a male one go right through.
        if mandrel.kind != MandrelKind::Female && (pair[0].1 - pair[1].1).abs() > 1e-6 {
            let (z, r) = (pair[1].0, pair[0].1.max(pair[1].1));
            scene.line(Layer::Fine, place(z, r), place(z, -r));
        }
    }
    if cut > 0.0 {
        let at = -back / 2.0;
        for x in [at, at + 1.4] {
            let line = Path::open(Xy::new(x, radius * 2.0 + 0.8)).line(Xy::new(x - 1.2, radius));
            scene.stroke(Layer::Fine, line.line(Xy::new(x, -0.8)));
        }
    }
    scene.line(
        Layer::Axis,
        Xy::new(-3.0, radius),
        Xy::new(scene.width_mm + 3.0, radius),
    );
    let steps = mandrel_steps(mandrel);
    let at = |(z, r): &(f64, f64)| place(*z, *r);
    (scene, steps.iter().map(at).collect())
}

/// The middles of what a mandrel has before its shoulder, with their radii: the shoulder, the spigot at
/// it, the thread, the spigot in front; the bore of a female one.
fn mandrel_steps(mandrel: &Mandrel) -> Vec<(f64, f64)> {
    let mm = |it: quillet_geometry::Length| it.to_mm();
    let mut found = vec![(-1.0, mm(mandrel.shoulder) / 2.0)];
    let major = mandrel
        .thread
        .as_ref()
        .map(|it| mm(it.thread.major()) / 2.0);
    if mandrel.kind == MandrelKind::Female {
        let major = major.unwrap_or_default();
        found[0].0 = mm(mandrel.thread_length);
        found.push((mm(mandrel.thread_length) / 2.0, major));
        return found;
    }
    let mut at = 0.0;
    let mut step = |length: f64, radius: f64| {
        found.push((at + length / 2.0, radius));
        at += length;
    };
    for it in [mandrel.root_spigot, mandrel.relief].into_iter().flatten() {
        step(mm(it.length), mm(it.dia) / 2.0);
    }
    if let Some(major) = major {
        step(mm(mandrel.thread_length), major);
    }
    if let Some(it) = mandrel.front_spigot {
        step(mm(it.length), mm(it.dia) / 2.0);
    }
    found
}

/// A mandrel's outline, stations inward from the face of the work it is in; so much of its shank.
pub(super) fn profile(mandrel: &Mandrel, shank: f64) -> Vec<(f64, f64)> {
    let mm = |it: quillet_geometry::Length| it.to_mm();
    // A plug without a shank has a head, for the tail centre.
    let back = match mandrel.shank_length.is_positive() {
        true => -shank * mm(mandrel.shank_length),
        false => -5.0,
    };
    // A plain plug is one pin.
    let pin = mandrel
        .front_spigot
        .filter(|_| mandrel.kind == MandrelKind::Plug && mandrel.thread.is_none())
        .filter(|_| !mandrel.centred);
    let shank = match mandrel.shank.is_positive() {
        true => mandrel.shank,
        false => mandrel.shoulder,
    };
    let shank = mm(pin.map_or(shank, |it| it.dia)) / 2.0;
    let shoulder = if mandrel.shoulder.is_positive() {
        mm(mandrel.shoulder) / 2.0
    } else {
        shank
    };
    let mut places = vec![
        (back, 0.0),
        (back, shank),
        (-2.0, shank),
        (-2.0, shoulder),
        (0.0, shoulder),
    ];
    if let (MandrelKind::Female, Some(bore)) = (mandrel.kind, mandrel.bore) {
        return female(mandrel, bore, (back, shank, shoulder));
    }
    let mut at = 0.0;
    let mut step = |length: f64, radius: f64| {
        places.push((at, radius));
        at += length;
        places.push((at, radius));
    };
    for it in [mandrel.root_spigot, mandrel.relief].into_iter().flatten() {
        step(mm(it.length), mm(it.dia) / 2.0);
    }
    if let Some(thread) = &mandrel.thread {
        step(mm(mandrel.thread_length), mm(thread.thread.major()) / 2.0);
    }
    if let Some(it) = mandrel.front_spigot {
        step(mm(it.length), mm(it.dia) / 2.0);
    }
    places.push((at, 0.0));
    places
}

/// The work goes into it: its mouth lies where the work's shoulder is, its bore runs back past the
/// work's face.
fn female(
    mandrel: &Mandrel,
    bore: Fitted,
    (back, shank, shoulder): (f64, f64, f64),
) -> Vec<(f64, f64)> {
    let mm = |it: quillet_geometry::Length| it.to_mm();
    let drilled = mm(bore.dia) / 2.0;
    let major = mandrel
        .thread
        .as_ref()
        .map_or(drilled, |it| mm(it.thread.major()) / 2.0);
    let (mouth, nose) = (mm(mandrel.thread_length), shoulder.max(major + 0.3));
    let deep = mouth - mm(bore.length);
    let taper = ((shank - nose) * 1.7).clamp(0.0, mouth);
    vec![
        (back, 0.0),
        (back, shank),
        (mouth - taper, shank),
        (mouth, nose),
        (mouth, major),
        (0.0, major),
        (0.0, drilled),
        (deep, drilled),
        (deep - drilled * 0.6, 0.0),
    ]
}
