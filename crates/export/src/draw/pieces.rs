//! Pieces of a glued blank as they are held, and what is cut on them: free end to the right.

use super::overlay::PATTERN;
use crate::scene::{Layer, Path, Scene, Xy, hatch};
use quillet_geometry::Length;
use quillet_model::PieceId;
use quillet_plan::{FACING, Operation, PieceHold, Route, Work};

/// A jaw's thickness, and what stands out of the jaws at the back of short stock, mm true size.
const JAW_MM: f64 = 2.8;
/// Pieces have few rows beside them: their picture is no higher on the paper, mm.
const LOW_MM: f64 = 10.0;
/// A longer stack is drawn shorter, mm true size: so much of it is seen gripped, and there is its break.
const LONGEST_MM: f64 = 17.0;
const GRIPPED: f64 = 0.35;
const BROKEN: f64 = 0.5;
/// Beside the work on the paper, mm.
const BESIDE_MM: f64 = 2.0;

/// The pieces in a collet or jaws, hatched where a stretch of the route cuts them.
pub(super) fn pieces(
    route: &Route,
    held: PieceHold,
    done: &[Operation],
    (width, height): (f64, f64),
) -> Scene {
    let height = height.min(LOW_MM);
    let sawn = |index: PieceId| route.blank.pieces.get(index).copied().unwrap_or_default();
    let lengths: Vec<f64> = held
        .pieces(&route.blank.pieces)
        .map(|it| sawn(it).to_mm())
        .collect();
    let whole: f64 = lengths.iter().sum();
    // What is longer has a break in it, behind what is cut.
    let long = whole.min(LONGEST_MM);
    let broken = whole - long;
    let radius = held.size.to_mm() / 2.0;
    let tall = 2.0 * (radius + JAW_MM);
    let scale = ((width - 2.0 * BESIDE_MM) / long)
        .min(height / tall)
        .min(1.0);
    let tall = tall * scale + 0.6;
    // As wide as they are, so that short ones stand beside their words.
    let width = long * scale + 2.0 * BESIDE_MM;
    let mut scene = Scene::new("pieces as held", width, tall);
    let left = BESIDE_MM;
    let place = |z: f64, r: f64| Xy::new(left + z * scale, tall / 2.0 + r * scale);
    let block = |from: f64, to: f64, low: f64, high: f64| {
        Path::polygon(&[
            place(from, low),
            place(from, high),
            place(to, high),
            place(to, low),
        ])
    };
    scene.fill(Layer::Work, vec![block(0.0, long, -radius, radius)]);
    for it in gone(done, long, radius) {
        cut_away(&mut scene, block(it[0], it[1], it[2], it[3]));
    }
    scene.stroke(Layer::Fine, block(0.0, long, -radius, radius));
    // Where one piece is glued to the next.
    let mut at = -broken;
    for it in lengths.split_last().map_or(&[][..], |it| it.1) {
        at += it;
        if at > 0.0 {
            scene.line(Layer::Fine, place(at, -radius), place(at, radius));
        }
    }
    let grip = match broken > 0.0 {
        true => long * GRIPPED,
        false => held.grip.to_mm().min(long),
    };
    if broken > 0.0 {
        for at in [long * BROKEN, long * BROKEN + 2.0] {
            let line = Path::open(place(at + 1.0, radius + 1.0)).line(place(at - 1.0, 0.0));
            let line = line.line(place(at + 1.0, -radius - 1.0));
            scene.stroke(Layer::Fine, line);
        }
    }
    // What is still on its rod is gripped behind the piece, which stands out whole.
    let back = if held.on_rod { 0.0 } else { grip };
    for side in [1.0, -1.0] {
        let jaw = jaw(back, radius).map(|(z, r)| place(z, side * r));
        scene.fill(Layer::Solid, vec![Path::polygon(&jaw)]);
    }
    let (from, to) = (place(-1.0, 0.0), place(long + 1.0, 0.0));
    scene.line(Layer::Axis, from, to);
    scene
}

/// What goes, as stations and radii `[from, to, low, high]`: a face's facing, a socket, what stands over
/// a spigot.
fn gone(done: &[Operation], long: f64, radius: f64) -> Vec<[f64; 4]> {
    let mm = |it: Length| it.to_mm();
    let mut face = long;
    let mut all = Vec::new();
    let mut socket: Option<(f64, f64)> = None;
    for it in done {
        match &it.work {
            Work::FacePiece(_) => {
                face = long - mm(FACING).min(long / 2.0);
                all.push([face, long, -radius, radius]);
            }
            Work::Socket { dia, depth, .. } => {
                let (wide, deep) = socket.unwrap_or_default();
                socket = Some((wide.max(mm(*dia) / 2.0), deep.max(mm(*depth))));
            }
            Work::Spigot { dia, length, .. } => {
                let from = face - mm(*length);
                for side in [1.0, -1.0] {
                    let (a, b) = (side * mm(*dia) / 2.0, side * radius);
                    all.push([from, face, a.min(b), a.max(b)]);
                }
            }
            _ => {}
        }
    }
    all.extend(socket.map(|(wide, deep)| [face - deep, face, -wide, wide]));
    all
}

/// What is cut away, hatched.
fn cut_away(scene: &mut Scene, path: Path) {
    scene.fill(Layer::Paper, vec![path.clone()]);
    scene.fill(Layer::CutGround, vec![path.clone()]);
    let lines = hatch(std::slice::from_ref(&path), None, &[], PATTERN);
    scene.lines(Layer::Cut, lines);
    scene.stroke(Layer::Cut, path);
}

/// A jaw that grips so far, on one side of a rod.
fn jaw(back: f64, radius: f64) -> [(f64, f64); 5] {
    [
        (0.0, radius),
        (back, radius),
        (back, radius + JAW_MM * 0.35),
        (back - back.min(4.0), radius + JAW_MM),
        (0.0, radius + JAW_MM),
    ]
}
