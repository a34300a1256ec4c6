//! Ink before and behind a web between two drills' points, with its ends closed, or open to the air or to
//! the section: figures by hand.

use crate::design;
use quillet_model::{End, Ink};
use std::f64::consts::PI;

/// A tube 90 long, drilled 9 to `front` from its mouth and 7 for 20 from its end, with a shank 10 in its
/// mouth and a plug 6 in its end as `joints` say; `bored` is cut in the shank.
fn held(front: f64, joints: &str, bored: &str) -> Ink {
    let text = format!(
        "part tube from mouth to end {{\n blank of acrylic rod 20\n length 90\n outside dia 16\n\
         from mouth {{\n drill 9 to {front}\n}}\nfrom end {{\n drill 7 to 20\n}}\n}}\n\
         part section from tip to shank {{\n blank of acrylic rod 20\n length 30\n\
         outside {{\n at 0 dia 16\n at 20 dia 16 step 8.9 as ledge\n at 30 dia 8.9\n}}\n{bored}}}\n\
         part plug from shank to tip {{\n blank of acrylic rod 20\n length 20\n\
         outside {{\n at 0 dia 6.9\n at 6 dia 6.9 step 16\n at 20 dia 16\n}}\n}}\n\
         pen test {{\n{joints} fill tube\n}}\n"
    );
    let mut design = design(&text);
    let ink = design.pens.remove(0).assembly.ink;
    ink.expect("it is filled")
}

const SECTION: &str = " slip section.shank into tube.mouth\n";
const PLUG: &str = " press plug.shank into tube.end\n";
const BOTH: &str = " slip section.shank into tube.mouth\n press plug.shank into tube.end\n";

fn cylinder(dia: f64, length: f64) -> f64 {
    PI / 4.0 * dia * dia * length / 1000.0
}

fn tan_59() -> f64 {
    59f64.to_radians().tan()
}

fn cone(dia: f64) -> f64 {
    cylinder(dia, dia / 2.0 / tan_59()) / 3.0
}

#[track_caller]
fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() < 1e-8, "{found}, {wanted} wanted");
}

/// The points take (4.5 + 3.5) / tan 59° = 4.8069 of what 90 - 20 leave: they meet at 65.1931. Past that
/// both are one room, less the double cone, as deep as they overlap, that both of them take.
fn wanted(front: f64, before: f64, behind: f64) -> f64 {
    let first = cylinder(9.0, before) + cone(9.0);
    let overlap = front - (70.0 - 8.0 / tan_59());
    let both = cone(overlap * tan_59()) * 2.0;
    match overlap > 0.0 {
        true => first + cone(7.0) + cylinder(7.0, behind) - both,
        false => first,
    }
}

#[test]
fn a_web_shuts_ink_off_until_the_points_meet() {
    for front in [40.0, 64.9, 65.193, 65.2, 66.0, 68.0] {
        let ink = held(front, BOTH, "");
        near(ink.capacity_ml, wanted(front, front - 10.0, 14.0));
        let shut: f64 = ink.shut_off.iter().map(|it| it.ml).sum();
        let web = front < 65.1931;
        near(
            shut,
            if web {
                cylinder(7.0, 14.0) + cone(7.0)
            } else {
                0.0
            },
        );
        assert_eq!(ink.runs_out, []);
    }
}

/// Behind the web the tube's end may stand open: no ink is there to run out. Where the points meet, it
/// runs out of it.
#[test]
fn behind_a_web_an_end_may_stand_open() {
    for front in [40.0, 65.193, 65.2, 67.0] {
        let ink = held(front, SECTION, "");
        near(ink.capacity_ml, wanted(front, front - 10.0, 20.0));
        let runs_out = ink.runs_out.iter().map(|it| it.1).collect::<Vec<_>>();
        let wanted = if front < 65.1931 {
            vec![]
        } else {
            vec![End::Second]
        };
        assert_eq!(runs_out, wanted, "{front}");
    }
}

/// Without a section it stands behind the plug alone, before the web: the plug is the only mate the tube
/// has, so that is where it is filled from.
#[test]
fn open_to_the_air_before_a_web() {
    for front in [40.0, 65.193] {
        let ink = held(front, PLUG, "");
        near(ink.capacity_ml, cylinder(7.0, 14.0) + cone(7.0));
        assert_eq!(ink.runs_out, []);
    }
    for front in [65.2, 67.0] {
        let ink = held(front, PLUG, "");
        near(ink.capacity_ml, wanted(front, front, 14.0));
        assert_eq!(ink.runs_out.len(), 1, "out of its mouth");
    }
}

/// A blind hole in the shank counts with what it opens into, and one from its tip as soon as the two
/// points meet: 30 less (2 + 1.5) / tan 59° is 27.8970, less 12 from the shank is 15.8970 from the tip;
/// then the ink runs out of it.
#[test]
fn ink_in_the_section_stops_at_its_own_web() {
    let bored = |tip: f64| {
        format!("from shank {{\n drill 4 to 12\n}}\nfrom tip {{\n drill 3 to {tip}\n}}\n")
    };
    let tube = cylinder(9.0, 40.0) + cone(9.0);
    for tip in [10.0, 15.89] {
        let ink = held(50.0, BOTH, &bored(tip));
        near(ink.capacity_ml, tube + cylinder(4.0, 12.0) + cone(4.0));
        assert_eq!(ink.stands_in.len(), 2);
        assert_eq!(ink.runs_out, []);
    }
    for tip in [15.9, 16.5] {
        let ink = held(50.0, BOTH, &bored(tip));
        let overlap = tip - (18.0 - 3.5 / tan_59());
        let both = cone(overlap * tan_59()) * 2.0;
        let section = cylinder(4.0, 12.0) + cone(4.0) + cylinder(3.0, tip) + cone(3.0) - both;
        near(ink.capacity_ml, tube + section);
        let runs_out = ink.runs_out.iter().map(|it| it.1).collect::<Vec<_>>();
        assert_eq!(runs_out, [End::First], "out of the tip");
    }
}
