//! How the work is held for a stretch of its route, and what is cut away in it.

use super::stock::Stock;
use crate::scene::{Hatch, Layer, Path, Scene, Xy, hatch};
use quillet_model::{End, Part};
use quillet_plan::{Hold, Mandrel, MandrelKind, Operation, Plan, Route};
use std::ops::Range;

/// The pictures of a route's holdings, each for its range of operations; at most so wide and high.
pub(crate) fn holdings(
    plan: &Plan,
    route: &Route,
    ranges: &[Range<usize>],
    room_mm: (f64, f64),
) -> Vec<Scene> {
    let mut stock = Stock::of(&route.part, &route.blank);
    let whole = stock.clone();
    let mut pictures = Vec::new();
    let mut done = 0;
    for range in ranges {
        let work = |stock: &mut Stock, operations: &[Operation]| {
            operations.iter().for_each(|it| stock.cut(&route.part, it));
        };
        work(&mut stock, &route.operations[done..range.start]);
        let before = stock.clone();
        work(&mut stock, &route.operations[range.clone()]);
        done = range.end;
        let hold = route.operations[range.start].hold;
        let picture = Picture {
            part: &route.part,
            mandrels: &plan.mandrels,
            hold,
            whole: &whole,
            before: &before,
            after: &stock,
        };
        pictures.push(picture.draw(room_mm));
    }
    pictures
}

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

struct Picture<'a> {
    part: &'a Part,
    mandrels: &'a [Mandrel],
    hold: Hold,
    whole: &'a Stock,
    before: &'a Stock,
    after: &'a Stock,
}

/// Beyond the work on the paper, mm.
const BESIDE_MM: f64 = 2.0;
/// A tail centre's length and a jaw's thickness, mm true size.
const CENTRE_MM: f64 = 14.0;
const JAW_MM: f64 = 2.8;

impl Picture<'_> {
    fn draw(&self, (width, height): (f64, f64)) -> Scene {
        let Some((low, high)) = self.before.span() else {
            return Scene::new("nothing is held", width, 6.0);
        };
        let free = self.free();
        // Along the spindle from the left: the stations run on or back.
        let (mut left, mut right) = match free {
            End::Second => (low, high),
            End::First => (-high, -low),
        };
        let shank = self
            .mandrel()
            .map_or(0.0, |it| it.shank_length.to_mm() * 0.6);
        left -= shank;
        let centre = self.tail_centre();
        if centre {
            right += CENTRE_MM;
        }
        let radius = self.before.widest().max(self.shank_radius());
        let tall = 2.0 * (radius + JAW_MM);
        let scale = ((width - 2.0 * BESIDE_MM) / (right - left))
            .min(height / tall)
            .min(1.0);
        let tall = tall * scale + 0.6;
        let mut scene = Scene::new(format!("{} as held", self.part.name.text), width, tall);
        let spare = (width - (right - left) * scale) / 2.0;
        let frame = Frame {
            x: spare - left * scale,
            y: tall / 2.0,
            scale,
            way: if free == End::First { -1.0 } else { 1.0 },
        };
        let rest = frame.region(self.whole);
        scene.stroke(Layer::Uncut, rest[0].clone());
        scene.stroke(Layer::Uncut, rest[1].clone());
        self.holder(&mut scene, &frame);
        let (after, before) = (frame.region(self.after), frame.region(self.before));
        scene.fill(Layer::Paper, before.to_vec());
        if let Some(mandrel) = self.mandrel() {
            mandrel_in(&mut scene, &frame, mandrel, self.part, free);
        }
        scene.fill(Layer::Work, after.to_vec());
        let gone: Vec<Path> = before.iter().chain(&after).cloned().collect();
        scene.fill(Layer::CutGround, gone.clone());
        let pattern = Hatch {
            angle_deg: 45.0,
            spacing_mm: 1.0,
        };
        scene.lines(Layer::Cut, hatch(&gone, None, &[], pattern));
        before
            .iter()
            .for_each(|it| scene.stroke(Layer::Cut, it.clone()));
        after
            .iter()
            .for_each(|it| scene.stroke(Layer::Fine, it.clone()));
        if centre {
            tail_centre(
                &mut scene,
                &frame,
                match free {
                    End::Second => high,
                    End::First => low,
                },
            );
        }
        let (from, to) = (frame.x + left * scale, frame.x + right * scale);
        scene.line(
            Layer::Axis,
            Xy::new(from - BESIDE_MM, frame.y),
            Xy::new(to + BESIDE_MM, frame.y),
        );
        scene
    }

    /// The end that stands away from the spindle.
    fn free(&self) -> End {
        match self.hold {
            Hold::Collet(grip) => grip.free,
            Hold::Mandrel(mount) => mount.end.other(),
            _ => End::Second,
        }
    }

    fn mandrel(&self) -> Option<&Mandrel> {
        match self.hold {
            Hold::Mandrel(mount) => self.mandrels.get(mount.mandrel),
            _ => None,
        }
    }

    fn shank_radius(&self) -> f64 {
        self.mandrel()
            .map_or(0.0, |it| it.shank.max(it.stock).to_mm() / 2.0)
    }

    fn tail_centre(&self) -> bool {
        match self.hold {
            Hold::Mandrel(mount) => mount.tail != quillet_plan::Tail::Free,
            Hold::Centres | Hold::Joined { .. } => true,
            _ => false,
        }
    }

    /// The collet on the work or on the mandrel's shank.
    fn holder(&self, scene: &mut Scene, frame: &Frame) {
        match self.hold {
            Hold::Collet(grip) => {
                let radius = grip.dia.to_mm() / 2.0;
                frame.jaws(scene, (grip.from.to_mm(), grip.to.to_mm()), radius);
            }
            Hold::Mandrel(mount) => {
                let Some(mandrel) = self.mandrel() else {
                    return;
                };
                let face = self
                    .part
                    .station(mount.end, quillet_geometry::Length::ZERO)
                    .to_mm();
                let out = if mount.end == End::First { -1.0 } else { 1.0 };
                let shank = mandrel.shank_length.to_mm();
                let (near, far) = (face + out * shank * 0.15, face + out * shank * 0.6);
                let radius = mandrel.shank.to_mm() / 2.0;
                frame.jaws(scene, (near.min(far), near.max(far)), radius);
            }
            _ => {}
        }
    }
}

/// How the work lies on the paper.
struct Frame {
    /// Where station 0 lies.
    x: f64,
    /// The axis.
    y: f64,
    scale: f64,
    /// 1 where stations run to the right.
    way: f64,
}

impl Frame {
    fn place(&self, station: f64, radius: f64) -> Xy {
        Xy::new(
            self.x + self.way * station * self.scale,
            self.y + radius * self.scale,
        )
    }

    /// Both halves of what is left of the work.
    fn region(&self, stock: &Stock) -> [Path; 2] {
        [1.0, -1.0].map(|side| {
            let places = stock.outline();
            let places: Vec<Xy> = places
                .iter()
                .map(|(z, r)| self.place(*z, side * r))
                .collect();
            Path::polygon(&places)
        })
    }

    /// Solid jaws over a stretch, their noses towards the free end.
    fn jaws(&self, scene: &mut Scene, (from, to): (f64, f64), radius: f64) {
        let (back, nose) = if self.way > 0.0 {
            (from, to)
        } else {
            (to, from)
        };
        let taper = (to - from).min(4.0) * self.way;
        for side in [1.0, -1.0] {
            let places = [
                (back, radius),
                (nose, radius),
                (nose, radius + JAW_MM * 0.35),
                (nose - taper, radius + JAW_MM),
                (back, radius + JAW_MM),
            ];
            let places = places.map(|(z, r)| self.place(z, side * r));
            scene.fill(Layer::Solid, vec![Path::polygon(&places)]);
        }
    }
}

/// The mandrel, its shank and what of it is in the work or over it.
fn mandrel_in(scene: &mut Scene, frame: &Frame, mandrel: &Mandrel, part: &Part, free: End) {
    let end = free.other();
    let station = |inward: f64| match end {
        End::First => inward,
        End::Second => part.length.to_mm() - inward,
    };
    for side in [1.0, -1.0] {
        let places = profile(mandrel, 0.6);
        let places: Vec<Xy> = places
            .iter()
            .map(|(z, r)| frame.place(station(*z), side * r))
            .collect();
        let path = Path::polygon(&places);
        if mandrel.kind == MandrelKind::Female {
            let pattern = Hatch {
                angle_deg: 135.0,
                spacing_mm: 1.6,
            };
            let lines = hatch(std::slice::from_ref(&path), None, &[], pattern);
            scene.lines(Layer::Hatch, lines);
        }
        scene.stroke(Layer::Fine, path);
    }
}

/// A mandrel's outline, stations inward from the face of the work it is in; so much of its shank.
fn profile(mandrel: &Mandrel, shank: f64) -> Vec<(f64, f64)> {
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
        // The work goes into it: its mouth lies where the work's shoulder is, its bore runs back past the
        // work's face.
        let drilled = mm(bore.dia) / 2.0;
        let major = mandrel
            .thread
            .as_ref()
            .map_or(drilled, |it| mm(it.thread.major()) / 2.0);
        let (mouth, nose) = (mm(mandrel.thread_length), shoulder.max(major + 0.3));
        let deep = mouth - mm(bore.length);
        let taper = ((shank - nose) * 1.7).clamp(0.0, mouth);
        return vec![
            (back, 0.0),
            (back, shank),
            (mouth - taper, shank),
            (mouth, nose),
            (mouth, major),
            (0.0, major),
            (0.0, drilled),
            (deep, drilled),
            (deep - drilled * 0.6, 0.0),
        ];
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

/// A live centre of 60° in the centre hole.
fn tail_centre(scene: &mut Scene, frame: &Frame, face: f64) {
    let at = |along: f64, radius: f64| {
        let tip = frame.place(face, 0.0);
        tip.moved((along - 1.6) * frame.scale, radius * frame.scale)
    };
    let cone = 60f64.to_radians() / 2.0;
    let wide = 7.0;
    let long = wide * cone.tan().recip() * 0.7;
    let places = [
        at(0.0, 0.0),
        at(long, long * cone.tan()),
        at(long + 2.0, long * cone.tan()),
        at(long + 2.0, wide),
        at(CENTRE_MM + 1.6, wide),
        at(CENTRE_MM + 1.6, -wide),
        at(long + 2.0, -wide),
        at(long + 2.0, -long * cone.tan()),
        at(long, -long * cone.tan()),
    ];
    scene.fill(Layer::Solid, vec![Path::polygon(&places)]);
}
