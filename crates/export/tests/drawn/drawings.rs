//! Drawings of whole parts: nothing collides, nothing leaves the sheet, scales are true.

mod together;

use crate::common::{example, part, picture};
use quillet_export::draw::{self, Paper, PartTitle};
use quillet_export::scene::{Layer, Scene, Shape, TextBox, Xy};
use quillet_export::write::{self, Background};
use quillet_model::{Configured, Design, Units};

const PARTS: [&str; 8] = [
    "cap", "barrel", "section", "odd", "band", "octagon", "pierced", "drilled",
];

/// The design that a part is in.
fn of(name: &str) -> Design {
    example(match name {
        "odd" | "band" => "odd.quillet",
        "octagon" | "pierced" | "drilled" => "faceted.quillet",
        _ => "heron.quillet",
    })
}

fn drawn(name: &str, paper: Paper) -> Scene {
    let design = of(name);
    let title = PartTitle {
        owner: "Saltings bench".into(),
        pen: "Heron".into(),
        sheet: (1, 5),
        hand: Default::default(),
        units: Units::Millimetres,
        notes: vec![],
    };
    draw::part(part(&design, name), paper, &title).expect("it has a shape")
}

#[test]
fn no_two_texts_meet_and_all_are_on_the_sheet() {
    for paper in [Paper::A4, Paper::Letter] {
        for name in PARTS {
            let scene = drawn(name, paper);
            assert!(scene.texts().count() > 17, "{name}");
            nothing_collides(name, &scene);
        }
    }
}

fn nothing_collides(name: &str, scene: &Scene) {
    let texts: Vec<_> = scene.texts().collect();
    for (at, text) in texts.iter().enumerate() {
        let frame = text.frame();
        let inside = frame.min.x > 20.0 && frame.min.y > 10.0;
        let below = frame.max.x < scene.width_mm - 10.0 && frame.max.y < scene.height_mm - 10.0;
        assert!(inside && below, "{name}: {:?} leaves the frame", text.words);
        for other in &texts[at + 1..] {
            let meet = frame.meets(&other.frame());
            assert!(!meet, "{name}: {:?} meets {:?}", text.words, other.words);
        }
    }
}

/// The ends of each stroke of a layer.
fn strokes(scene: &Scene, layer: Layer) -> impl Iterator<Item = [Xy; 2]> {
    let of = scene.items.iter().filter(move |it| it.layer == layer);
    of.filter_map(|it| match &it.shape {
        Shape::Stroke(path) => Some([path.start, path.end()]),
        _ => None,
    })
}

/// How high the part's axis lies, of which more than so many millimetres of the part are drawn.
fn axis(scene: &Scene, longer_mm: f64) -> f64 {
    let level = |it: &[Xy; 2]| it[0].y == it[1].y && it[1].x - it[0].x > longer_mm * scene.scale;
    let axis = strokes(scene, Layer::Axis).find(level);
    axis.expect("an axis")[0].y
}

/// Six holes of ⌀2 from the floor of a recess, one of them turned into the section: its sides 2.5 and 4.5 from
/// the axis over 6 mm, its axis 3.5; across, each of nine a circle of its own size.
#[test]
fn holes_on_a_pitch_circle_are_drawn_in_the_section_and_across() {
    let scene = drawn("drilled", Paper::A4);
    let words: Vec<&str> = scene.texts().map(|it| &*it.words).collect();
    for said in ["A–A", "B–B", "6× Ø2 on Ø7", "3× Ø3.1 on Ø9"] {
        assert!(words.contains(&said), "{said} of {words:?}");
    }
    let axis = axis(&scene, 20.0);
    let level = |below: f64, long: f64| {
        let drawn = strokes(&scene, Layer::Outline).filter(|[from, to]| {
            let at = |y: f64| ((axis - y) / scene.scale - below).abs() < 1e-4;
            at(from.y) && at(to.y) && (((to.x - from.x) / scene.scale).abs() - long).abs() < 1e-3
        });
        drawn.count()
    };
    assert_eq!([level(2.5, 6.0), level(4.5, 6.0)], [1, 1]);
    assert_eq!([level(2.95, 2.1), level(6.05, 2.1)], [1, 1]);
}

/// Eight flats 13.2 across of ⌀14, a corner up: each takes up ±acos(6.6/7) = 19.463° about its
/// middle, those at 22.5° and 67.5° from up are seen above the axis. Their edges lie 7 cos(3.037°)
/// = 6.9902, 7 cos(41.963°) = 5.2050, 7 cos(48.037°) = 4.6805 and 7 cos(86.963°) = 0.3709 over it.
#[test]
fn a_plane_face_is_drawn_by_its_edges_and_marked_by_diagonals() {
    let scene = drawn("octagon", Paper::A4);
    let words: Vec<&str> = scene.texts().map(|it| &*it.words).collect();
    for said in ["A–A", "8 flats", "13.2 across", "14 across corners"] {
        assert!(words.contains(&said), "{said} of {words:?}");
    }
    let axis = axis(&scene, 70.0);
    for over in [6.9902, 5.2050, 4.6805, 0.3709] {
        let drawn = strokes(&scene, Layer::Outline).filter(|it| {
            it.iter()
                .all(|at| ((at.y - axis) / scene.scale - over).abs() < 1e-4)
        });
        let long: f64 = drawn.map(|[from, to]| to.x - from.x).sum();
        assert!((long / scene.scale - 50.0).abs() < 1e-3, "{over}: {long}");
    }
    let crossing = strokes(&scene, Layer::Dimension).filter(|[from, to]| {
        (to.x - from.x - 50.0 * scene.scale).abs() < 1e-3 && (to.y - from.y).abs() > 0.5
    });
    assert_eq!(crossing.count(), 4, "two diagonals on each of two faces");
}

/// The strips are what is seen from outside; the outline is the drawing's own.
#[test]
fn the_colours_end_where_the_outline_does() {
    let design = example("heron.quillet");
    let pen = design.pen("heron").unwrap();
    for state in [Configured::Capped, Configured::Uncapped] {
        let seen = draw::outside(pen, state, f64::MAX).unwrap().scene;
        let lines = draw::lines(pen, state, f64::MAX).unwrap().scene;
        let axis = lines.height_mm / 2.0;
        let drawn: Vec<[Xy; 2]> = lines
            .items
            .iter()
            .filter(|it| it.layer == Layer::Outline)
            .filter_map(|it| match &it.shape {
                Shape::Stroke(path) => Some(path.flattened(0.002)),
                _ => None,
            })
            .flat_map(|places| {
                places
                    .windows(2)
                    .map(|it| [it[0], it[1]])
                    .collect::<Vec<_>>()
            })
            .collect();
        let strips = seen.items.iter().filter_map(|it| match &it.shape {
            Shape::Shaded(it) => Some(&it.strips),
            _ => None,
        });
        let mut count = 0;
        for strip in strips.flatten() {
            for share in [0.0, 0.5, 1.0] {
                let edge = strip.from.towards(strip.to, share);
                let off = drawn
                    .iter()
                    .map(|[from, to]| away(edge.moved(0.0, axis), *from, *to));
                let off = off.fold(f64::MAX, f64::min);
                assert!(off <= 0.02, "{}: {off} mm at {}", state.word(), edge.x);
            }
            count += 1;
        }
        assert!(count > 60, "{count}");
    }
}

/// How far a place is from a straight line between two others, mm.
fn away(at: Xy, from: Xy, to: Xy) -> f64 {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let long = dx.hypot(dy);
    let share = ((at.x - from.x) * dx + (at.y - from.y) * dy) / (long * long).max(1e-12);
    let near = from.towards(to, share.clamp(0.0, 1.0));
    (at.x - near.x).hypot(at.y - near.y)
}

#[test]
fn each_drawing_has_its_length_a_thread_is_called_out_once_and_no_round_is_nothing() {
    for name in PARTS {
        let design = of(name);
        let part = part(&design, name);
        let scene = drawn(name, Paper::A4);
        let words: Vec<&str> = scene.texts().map(|it| it.words.as_str()).collect();
        let length = format!("{}", part.length.to_mm());
        assert!(words.contains(&length.as_str()), "{name}: {words:?}");
        assert!(
            !words.contains(&"Ø0") && !words.contains(&"B 0"),
            "{name}: {words:?}"
        );
        for feature in &part.features {
            let Some((thread, _)) = feature.thread() else {
                continue;
            };
            let called = thread.thread.to_string();
            let says = words.iter().filter(|it| it.starts_with(&called)).count();
            assert_eq!(says, 1, "{name}: {called} in {words:?}");
        }
        let bare = |it: &&str| ["thread", "thread from"].contains(it);
        assert!(!words.iter().any(bare), "{name}: {words:?}");
    }
}

#[test]
fn no_dimension_line_runs_through_a_text() {
    for name in PARTS {
        let scene = drawn(name, Paper::A4);
        let frames: Vec<_> = scene
            .texts()
            .map(|text| (text.frame(), &text.words))
            .collect();
        for item in scene
            .items
            .iter()
            .filter(|item| item.layer == Layer::Dimension)
        {
            let Shape::Stroke(path) = &item.shape else {
                continue;
            };
            for pair in path.flattened(0.05).windows(2) {
                for (frame, words) in &frames {
                    assert!(
                        !crosses(pair[0], pair[1], frame),
                        "{name}: a line crosses {words:?}"
                    );
                }
            }
        }
    }
}

/// True where a straight line has a place inside a rectangle, not only on its edge.
fn crosses(from: Xy, to: Xy, frame: &TextBox) -> bool {
    let within = TextBox {
        min: frame.min.moved(1e-6, 1e-6),
        max: frame.max.moved(-1e-6, -1e-6),
    };
    within.stretch(from, to).is_some()
}

#[test]
fn every_form_is_written() {
    for name in PARTS {
        let scene = drawn(name, Paper::A4);
        picture(
            &format!("{name}.svg"),
            write::svg(&scene, Background::Paper).as_bytes(),
        );
        picture(&format!("{name}.dxf"), write::dxf(&scene).as_bytes());
        picture(
            &format!("{name}.pdf"),
            &write::pdf(name, &[scene, drawn(name, Paper::Letter)]),
        );
        let design = of(name);
        let small = draw::preview(part(&design, name), 120.0).unwrap();
        picture(
            &format!("{name}-preview.svg"),
            write::svg(&small, Background::Picture).as_bytes(),
        );
        let strip = draw::template(part(&design, name)).unwrap();
        picture(
            &format!("{name}-template.svg"),
            write::svg(&strip, Background::Paper).as_bytes(),
        );
    }
}
