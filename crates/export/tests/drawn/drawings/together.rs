//! Pens put together, as they are drawn.

use super::nothing_collides;
use crate::common::{example, picture};
use quillet_export::draw::{self, Paper, PartTitle};
use quillet_export::scene::{Layer, Shape};
use quillet_export::write::{self, Background};
use quillet_model::Units;

#[test]
fn a_pen_put_together_is_drawn_without_collisions() {
    let design = example("heron.quillet");
    let heron = design.pen("heron").expect("there is a heron");
    for paper in [Paper::A4, Paper::Letter] {
        let scene = draw::pen(heron, paper, &PartTitle::default()).expect("it goes together");
        nothing_collides("heron", &scene);
        picture(
            &format!("heron-{}.pdf", paper.name()),
            &write::pdf("heron", std::slice::from_ref(&scene)),
        );
        picture(
            "heron.svg",
            write::svg(&scene, Background::Paper).as_bytes(),
        );
    }
    let caption: Vec<_> = draw::overview(heron, 170.0, Units::Millimetres)
        .expect("it goes together")
        .callouts
        .into_iter()
        .map(|it| it.caption)
        .collect();
    assert!(
        caption.contains(&"barrel shoulder on cap mouth: touches".to_owned()),
        "{caption:#?}"
    );
}

#[test]
fn every_pen_put_together_says_all_beside_its_cap_joint_enlarged() {
    for name in ["heron", "avocet", "curlew", "dunlin", "godwit", "whimbrel"] {
        let design = example(&format!("{name}.quillet"));
        let pen = design.pen(name).expect("the pen of the file's name");
        let overview = draw::overview(pen, 250.0, Units::Millimetres).expect("it goes together");
        for paper in [Paper::A4, Paper::Letter] {
            let scene = draw::pen(pen, paper, &PartTitle::default()).expect("it goes together");
            nothing_collides(name, &scene);
            let written: Vec<&str> = scene.texts().map(|text| text.words.as_str()).collect();
            // Each callout has its number in the picture and its entry in the legend.
            for callout in &overview.callouts {
                let number = callout.number.to_string();
                assert!(written.contains(&&*number), "{name}: no {number} is drawn");
                let entry = format!("{number} ");
                assert!(
                    written.iter().any(|it| it.starts_with(&entry)),
                    "{name}: {number} is not said"
                );
            }
            let enlarged = written.contains(&"Z (5:1)");
            assert!(enlarged || paper == Paper::Letter, "{name}: {written:#?}");
            picture(
                &format!("{name}-{}.svg", paper.name()),
                write::svg(&scene, Background::Paper).as_bytes(),
            );
        }
    }
}

/// A clip's arm lies over the cap and its ring lets the finial through; an O-ring lies in its groove.
#[test]
fn a_clips_arm_and_an_o_ring_are_drawn() {
    let strokes = |name: &str, layer: Layer| -> usize {
        let design = example(&format!("{name}.quillet"));
        let overview = draw::overview(
            design.pen(name).expect("it is there"),
            250.0,
            Units::Millimetres,
        );
        let scene = overview.expect("it goes together").scene;
        scene.items.iter().filter(|it| it.layer == layer).count()
    };
    assert_eq!(strokes("heron", Layer::Neighbour), 0);
    assert_eq!(strokes("curlew", Layer::Neighbour), 1);
    let dots = |name: &str| {
        let design = example(&format!("{name}.quillet"));
        let overview = draw::overview(
            design.pen(name).expect("it is there"),
            250.0,
            Units::Millimetres,
        );
        let items = overview.expect("it goes together").scene.items;
        let filled = |it: &&quillet_export::scene::Item| {
            it.layer == Layer::Fine && matches!(it.shape, Shape::Fill(_))
        };
        items.iter().filter(filled).count()
    };
    // Above and below the axis, capped and uncapped.
    assert_eq!((dots("heron"), dots("dunlin")), (0, 4));
}
