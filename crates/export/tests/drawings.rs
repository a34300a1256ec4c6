//! Drawings of whole parts: nothing collides, nothing leaves the sheet, scales are true.

mod common;

use common::{design, part, picture};
use quillet_export::draw::{self, Paper, PartTitle};
use quillet_export::scene::{Layer, Scene, Shape};
use quillet_export::write::{self, Ground};

const PARTS: [&str; 5] = ["cap", "barrel", "section", "odd", "band"];

fn drawn(name: &str, paper: Paper) -> Scene {
    let design = design();
    let title = PartTitle {
        owner: "Saltings bench".into(),
        pen: "Heron".into(),
        sheet: (1, 5),
        notes: vec![],
    };
    draw::part(part(&design, name), paper, &title).unwrap()
}

#[test]
fn no_two_texts_meet_and_all_are_on_the_sheet() {
    for paper in [Paper::A4, Paper::Letter] {
        for name in PARTS {
            let scene = drawn(name, paper);
            let texts: Vec<_> = scene.texts().collect();
            assert!(texts.len() > 20, "{name}");
            for (at, text) in texts.iter().enumerate() {
                let frame = text.frame();
                let inside = frame.min.x > 20.0 && frame.min.y > 10.0;
                let below =
                    frame.max.x < scene.width_mm - 10.0 && frame.max.y < scene.height_mm - 10.0;
                assert!(inside && below, "{name}: {:?} leaves the frame", text.words);
                for other in &texts[at + 1..] {
                    let meet = frame.meets(&other.frame());
                    assert!(!meet, "{name}: {:?} meets {:?}", text.words, other.words);
                }
            }
        }
    }
}

#[test]
fn no_dimension_line_runs_through_a_text() {
    for name in PARTS {
        let scene = drawn(name, Paper::A4);
        for item in scene
            .items
            .iter()
            .filter(|item| item.layer == Layer::Dimension)
        {
            let Shape::Stroke(path) = &item.shape else {
                continue;
            };
            for at in path.flattened(0.05).windows(2).flat_map(|pair| {
                (0..=40).map(move |part| pair[0].towards(pair[1], f64::from(part) / 40.0))
            }) {
                for text in scene.texts() {
                    let frame = text.frame();
                    let within = at.x > frame.min.x
                        && at.x < frame.max.x
                        && at.y > frame.min.y
                        && at.y < frame.max.y;
                    assert!(!within, "{name}: a line at {at:?} crosses {:?}", text.words);
                }
            }
        }
    }
}

#[test]
fn every_form_is_written() {
    for name in PARTS {
        let scene = drawn(name, Paper::A4);
        picture(
            &format!("{name}.svg"),
            write::svg(&scene, Ground::Paper).as_bytes(),
        );
        picture(&format!("{name}.dxf"), write::dxf(&scene).as_bytes());
        picture(
            &format!("{name}.pdf"),
            &write::pdf(name, &[scene, drawn(name, Paper::Letter)]),
        );
        let design = design();
        let small = draw::preview(part(&design, name), 120.0).unwrap();
        picture(
            &format!("{name}-preview.svg"),
            write::svg(&small, Ground::Picture).as_bytes(),
        );
        let strip = draw::template(part(&design, name)).unwrap();
        picture(
            &format!("{name}-template.svg"),
            write::svg(&strip, Ground::Paper).as_bytes(),
        );
    }
}
