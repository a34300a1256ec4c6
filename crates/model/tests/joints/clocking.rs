//! Where round the axis a thread comes to rest.

use super::*;

/// A threaded rod in a tube, both said to begin somewhere.
fn clocked(thread: &str, outside: &str, from: &str, inside: &str) -> AtRest {
    let text = format!(
        "part rod from front to back {{\n blank of acrylic rod 30\n length 20\n outside {{\n at 8 dia 18\n at \
         20 dia 18\n}}\n from front {{\n tenon for 8\n thread {thread} outside for 5 clock {outside}\n}}\n}}\n\
         part tube from mouth to end {{\n blank of acrylic rod 30\n length 10\n outside dia 20\n from {from} \
         {{\n drill 12.2 through\n thread {thread} inside {inside}\n}}\n}}\n\
         pen test {{\n screw rod.front into tube.mouth\n}}\n"
    );
    joint(&design(&text), 0).clone()
}

/// The ridge laid into the groove in space, not by angles: the male turned end for end about its
/// mark, then about the axis, then pushed in; every point of its ridge must lie on a start's groove.
#[test]
fn marks_come_to_rest_where_ridge_and_groove_meet() {
    for (thread, starts, hand) in [
        ("M13x0.8 starts 3", 3.0, 1.0),
        ("M13x0.8", 1.0, 1.0),
        ("M13x0.8-LH starts 2", 2.0, -1.0),
    ] {
        for (outside, inside) in [(0.0, 0.0), (35.0, 110.0), (200.0, 10.0)] {
            let into = format!("to 7 at 1 clock {inside}");
            let rest = clocked(thread, &outside.to_string(), "mouth", &into);
            let engaged = rest.engagements[0];
            let turned = engaged.marks_apart.expect("both say where they begin");
            let (lead, turned) = (0.8 * starts, turned.to_rad());
            let angle = |deg: f64, along: f64| {
                deg.to_radians() + hand * std::f64::consts::TAU * along / lead
            };
            for step in 0..50 {
                let along = f64::from(step) * 0.1;
                let (sin, cos) = angle(outside, along).sin_cos();
                // Inward from its own face; turned end for end about the mark.
                let (x, y, z) = (cos, -sin, rest.goes_in_mm - along);
                let (x, y) = (
                    x * turned.cos() - y * turned.sin(),
                    x * turned.sin() + y * turned.cos(),
                );
                let groove = angle(inside, z - 1.0);
                let off = (y.atan2(x) - groove) * starts;
                assert!(
                    (off.cos() - 1.0).abs() < 1e-9,
                    "{thread} {outside} {inside}"
                );
            }
        }
    }
}

/// One thread right through a tube, looked at from either end: 10 mm on a right-hand lead of 2.4 is
/// 1500°, and clockwise from the one end is anticlockwise from the other.
#[test]
fn a_thread_cut_from_the_other_end_is_the_same_thread() {
    let thread = "M13x0.8 starts 3";
    let near = clocked(thread, "20", "mouth", "through clock 50");
    let far_deg = (-(50.0 + 1500.0f64)).rem_euclid(360.0);
    let far = clocked(thread, "20", "end", &format!("through clock {far_deg}"));
    let apart = |rest: &AtRest| rest.engagements[0].marks_apart;
    assert!(apart(&near).is_some());
    assert_eq!(apart(&near), apart(&far));
}

#[test]
fn a_place_round_a_part_is_less_than_a_whole_turn() {
    let text = "part rod from front to back {\n blank of acrylic rod 30\n length 20\n outside dia 18\n from \
                front {\n drill 12.2 to 15\n thread M13x0.8 inside to 8 clock 360\n}\n}\n";
    let texts = Texts::default().with("pen.quillet", text);
    let design = resolve(&load(Path::new("pen.quillet"), &texts).expect("the text is there"));
    let [finding] = &design.findings[..] else {
        panic!("{:#?}", design.findings)
    };
    assert_eq!(finding.rule, "out-of-range");
    assert_eq!(design.text(finding.span), "360");
}
