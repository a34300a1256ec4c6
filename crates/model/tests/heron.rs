//! The worked pen, resolved and cut; every figure is arithmetic on its own text.

use quillet_geometry::Length;
use quillet_model::{Design, Origin, StationId, Texts, load, resolve};
use std::path::Path;

const BOUGHT: &str = r#"
thread housing = M7.4x0.5
material reed "Reed green" { kind acrylic }

bought nib-unit "No. 6 nib unit" from point to heel {
  length 41.5
  mass 2.6
  outside {
    at 0    dia 4
    at 18   dia 10
    at 22.5 dia 10
    at 23.7 dia 8.4
    at 41.5 dia 4.2
  }
}
bought converter from mouth to end {
  length 73
  outside dia 7.4
  mass 2.8
  holds 0.8
}
"#;

const HERON: &str = include_str!("heron.quillet");

fn design() -> Design {
    let texts = Texts::default()
        .with("heron.quillet", HERON)
        .with("bought.quillet", BOUGHT);
    resolve(&load(Path::new("heron.quillet"), &texts).expect("the texts are there"))
}

#[test]
fn it_resolves_without_a_word() {
    let design = design();
    let written: Vec<_> = design
        .findings
        .iter()
        .map(|it| (it.rule, &it.message))
        .collect();
    assert!(written.is_empty(), "{written:#?}");
    assert_eq!(design.parts.len(), 5);
    assert_eq!(design.pens.len(), 2);
}

#[test]
fn its_cap_is_cut_as_written() {
    let design = design();
    let cap = design.part("cap").unwrap();
    let profiles = cap.profiles.as_ref().unwrap();
    // The bore at 1 mm is the mouth's 13.1, at 5 mm the closing thread, at 30 mm the drill.
    let bore = |solid: &quillet_model::Solid, z| {
        solid
            .inner
            .iter()
            .find_map(|chain| chain.radii_at(z))
            .map(|(r, _)| r)
    };
    assert_eq!(bore(&profiles.crest, 1.0), Some(6.55));
    assert_eq!(bore(&profiles.root, 5.0), Some(6.5));
    assert_eq!(bore(&profiles.crest, 30.0), Some(6.1));
    // ISO 68-1: D1 = d - 1.082532 P is 12.134, and the 12.2 drill is larger.
    assert_eq!(bore(&profiles.crest, 5.0), Some(6.1));
    let dome = profiles.crest.outer.segment_at(63.0).unwrap();
    assert_eq!(
        profiles.origin(dome.tag),
        Origin::Outside(StationId::nth(4))
    );
}

#[test]
fn a_tenon_without_a_diameter_takes_the_middle_of_the_class() {
    let design = design();
    let barrel = design.part("barrel").unwrap();
    let tenon = barrel.features.iter().find_map(|it| match &it.cut {
        quillet_model::Cut::Tenon { dia, assumed_for } => Some((*dia, assumed_for.is_some())),
        _ => None,
    });
    // ISO 965-1: P 0.8, 6g: es -24 µm, Td 150 µm; 13 - 0.024 - 0.075.
    assert_eq!(tenon, Some((Length::mm(12.901), true)));
}

#[test]
fn a_pen_sees_its_own_lets_and_shares_the_rest() {
    let design = design();
    let (heron, ida) = (&design.pens[0], &design.pens[1]);
    let at = |pen: &quillet_model::Pen, name| pen.parts[pen.part_id(name).unwrap()].clone();
    assert!(std::sync::Arc::ptr_eq(&at(heron, "cap"), &at(ida, "cap")));
    let grip = |pen| at(pen, "section").stations.last().unwrap().dia;
    assert_eq!(grip(heron), Length::mm(11.4));
    assert_eq!(grip(ida), Length::mm(11.0));
}
