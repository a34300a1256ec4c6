//! Shapes that rest on each other where arithmetic says.

use super::{design, near};
use quillet_model::{ClearanceKind, JointId};

/// Two parts, the male slipped into the female, and how far it goes.
fn goes_in(male: &str, female: &str) -> f64 {
    let text = format!(
        "part male from front to back {{\n blank of acrylic rod 60\n{male}\n}}\n\
         part female from mouth to end {{\n blank of acrylic rod 60\n{female}\n}}\n\
         pen test {{\n slip male.front into female.mouth\n}}\n"
    );
    let design = design(&text);
    assert!(design.findings.is_empty(), "{:#?}", design.findings);
    design.pens[0].assembly.joints[JointId::nth(0)].goes_in_mm
}

#[test]
fn a_step_rests_on_a_step() {
    let male = "length 30\noutside {\n at 0 dia 8\n at 12 dia 8 step 11\n at 30 dia 11\n}";
    let female = "length 40\noutside dia 20\nfrom mouth {\n bore 12 to 5\n bore 9 to 25\n}";
    // 8 passes 9; 11 passes 12 and stops at the 9: 12 + 5.
    near(goes_in(male, female), 17.0, 1e-9);
    let shallow = "length 40\noutside dia 20\nfrom mouth {\n bore 12 to 5\n bore 9 to 15\n}";
    // The front stops at the floor first.
    near(goes_in(male, shallow), 15.0, 1e-9);
}

#[test]
fn equal_sizes_pass_and_a_hair_more_does_not() {
    let male = |dia: &str| format!("length 30\noutside dia {dia}");
    let female = "length 40\noutside dia 20\nfrom mouth {\n bore 9 to 25\n}";
    near(goes_in(&male("9"), female), 25.0, 1e-9);
    near(goes_in(&male("9.001"), female), 0.0, 1e-9);
}

#[test]
fn a_cone_rests_in_a_cone() {
    // Male half angle atan(3/20), female atan(2/20): the steeper male touches with its corner at
    // the mouth. Male radius 4 + 0.15 a, mouth radius 6: a = 40/3.
    let male = "length 30\noutside {\n at 0 dia 8\n at 30 dia 17\n}";
    let female = "length 40\noutside dia 30\nfrom mouth {\n taper 12 to 8 to 20\n}";
    near(goes_in(male, female), 40.0 / 3.0, 1e-9);
    // The shallower male, radius 4 + 0.05 a, touches with its front edge where the female is
    // as narrow: 6 - 0.1 d = 4, d = 20, beyond which there is no hole: the floor, flat, at 20.
    let slim = "length 30\noutside {\n at 0 dia 9\n at 30 dia 12\n}";
    // Front edge radius 4.5: 6 - 0.1 d = 4.5 at d = 15.
    near(goes_in(slim, female), 15.0, 1e-9);
}

#[test]
fn a_sphere_rests_in_a_cone() {
    // A ball end of radius 5 in a countersink of 90°, mouth radius 9: the sphere's centre lies
    // R/sin 45° above the cone's apex, which is 9 deep; its foremost place R further in.
    let male = "length 30\noutside {\n at 0 dia 0\n at 5 dia 10 bead 5\n at 30 dia 10\n}";
    let female = "length 40\noutside dia 30\nfrom mouth {\n countersink 18\n}";
    let centre = 9.0 - 5.0 / std::f64::consts::FRAC_1_SQRT_2;
    near(goes_in(male, female), centre + 5.0, 1e-9);
}

#[test]
fn a_drill_point_stops_a_rod_at_its_edge() {
    // Rod of radius 3 in a 118° point of a 10 mm drill: 20 + (5 - 3) / tan 59°.
    let male = "length 30\noutside dia 6";
    let female = "length 40\noutside dia 20\nfrom mouth {\n drill 10 to 20\n}";
    near(
        goes_in(male, female),
        20.0 + 2.0 / 59f64.to_radians().tan(),
        1e-9,
    );
}

/// A tip of 9.4 that tapers behind it passes where a drill's point of 11.2 runs out into a hole of
/// 10.4: however deep the wider drill goes, the hole is no narrower than 10.4 there. So 0.5 a side as
/// drawn and 0.45 at worst: the tip keeps 0.1 across (ISO 2768-1 f, over 6 to 30).
#[test]
fn how_deep_a_wider_hole_goes_does_not_narrow_the_next() {
    let text = "part male from front to back {\n blank of acrylic rod 60\n length 40\n outside {\n \
         at 0 dia 9.4\n at 10 dia 9\n at 25 dia 9 step 20\n at 40 dia 20\n}\n}\n\
         part female from mouth to end {\n blank of acrylic rod 60\n length 60\n outside dia \
         20\n from mouth {\n drill 11.2 to 12.5\n drill 10.4 to 40\n}\n}\n\
         pen test {\n slip male.front into female.mouth\n}\n";
    let rest = design(text).pens[0].assembly.joints[JointId::nth(0)].clone();
    let mut throats = rest.clearances.iter();
    let throat = throats.find(|it| it.kind == ClearanceKind::RadialClearance);
    let throat = throat.expect("it is in");
    near(throat.nominal_mm, 0.5, 1e-9);
    near(throat.least_mm, 0.45, 1e-9);
}
