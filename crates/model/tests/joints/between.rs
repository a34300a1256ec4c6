//! Rings, springs and mechanisms, which lie between other parts.

use super::*;

#[test]
fn a_ring_is_trapped_between_shoulder_and_mouth() {
    let text = rod("rod", "8")
        + &tube("tube", "bore 9 to 15")
        + "bought ring from under to over {\n length 2\n outside dia 16\n from under {\n bore 8.5 through\n}\n}\n"
        + &pen("slip rod.front into tube.mouth through ring");
    let design = design(&text);
    // The head stops on the ring, two millimetres before the mouth.
    near(joint(&design, 0).goes_in_mm, 8.0);
    let [trapped] = joint(&design, 0).trapped[..] else {
        panic!("one ring")
    };
    near(trapped.length_mm, 2.0);
    near(trapped.room_mm, 0.0);
}

#[test]
fn a_ring_in_a_groove_is_squeezed_as_drawn() {
    // Groove 8, bore 9.6: 0.8 of room for a cord of 1 on a ring of 7.8: stretched 8/7.8, its cord
    // thinned by the length it gained.
    let text = "bought o-ring {\n ring 7.8 by 1\n mass 0.05\n}\n".to_owned()
        + "part rod from front to back {\n blank of acrylic rod 30\n length 20\n outside {\n at 0 dia 9.5\n\
           at 10 dia 9.5 step 14\n at 20 dia 14\n}\n from front {\n groove 8 for 1.5 at 2 takes o-ring\n}\n}\n"
        + &tube("tube", "bore 9.6 to 15")
        + &pen("slip rod.front into tube.mouth\nfill tube");
    let design = design(&text);
    let assembly = &design.pens[0].assembly;
    let seal = assembly.rings[RingId::nth(0)]
        .seal
        .expect("it lies in the bore");
    near(seal.stretch, 8.0 / 7.8 - 1.0);
    let cord = (8.8f64 / 9.0).sqrt();
    near(seal.squeeze, 1.0 - 0.8 / cord);
    near(
        seal.fill,
        std::f64::consts::PI / 4.0 * (8.8 / 9.0) / (1.5 * 0.8),
    );
    // The ink stands from the rod's front to the floor.
    let ink = assembly.ink.as_ref().expect("the tube is filled");
    near(
        ink.capacity_ml,
        std::f64::consts::PI / 4.0 * 9.6 * 9.6 * 5.0 / 1000.0,
    );
}

/// A spring of 4 to 12 under a rod that leaves `room` before the floor.
fn sprung(room: f64) -> Design {
    let depth = 10.0 + room;
    let text = rod("rod", "8")
        + &tube("tube", &format!("bore 9 to {depth}"))
        + "bought spring from front to back {\n length 4..12\n outside dia 7\n from front {\n bore 6 through\n}\n}\n"
        + &pen("slip rod.front into tube.mouth through spring");
    design(&text)
}

#[test]
fn a_spring_gives_within_its_span() {
    let pressed = sprung(7.0);
    near(joint(&pressed, 0).goes_in_mm, 10.0);
    near(joint(&pressed, 0).trapped[0].length_mm, 7.0);
    near(joint(&pressed, 0).trapped[0].room_mm, 0.0);
    // Its coils touch before the head does.
    let solid = sprung(3.0);
    near(joint(&solid, 0).goes_in_mm, 9.0);
    near(joint(&solid, 0).trapped[0].length_mm, 4.0);
    // It never presses.
    let loose = sprung(15.0);
    near(joint(&loose, 0).trapped[0].length_mm, 12.0);
    near(joint(&loose, 0).trapped[0].room_mm, 3.0);
}

/// How a spring lies it gives: what is left before it says nothing, what is left beside it does.
#[test]
fn a_trapped_spring_leaves_no_clearance_of_its_own() {
    let design = sprung(7.0);
    let tube = design.pens[0].joints[JointId::nth(0)].female.part;
    let ahead = joint(&design, 0).clearances.iter();
    let females: Vec<_> = ahead.map(|it| it.female.part).collect();
    assert!(
        !females.is_empty() && females.iter().all(|it| *it == tube),
        "{females:?}"
    );
}

/// A refill whose end lies 20 in a stop that is glued 4 into the shank: its shoulder, 40 from its end,
/// comes to 24 from the shank; of a bore to 32 the spring has 8, to 27 it has 3, to 39 its free 14 of 15.
#[test]
fn a_spring_between_parts_that_others_place_takes_what_room_there_is() {
    for (bore, length, to_spare) in [("32", 8.0, 0.0), ("27", 3.0, 0.0), ("39", 14.0, 1.0)] {
        let design = design(&format!(
            "bought refill from point to end {{\n length 60\n mass 2\n outside {{\n at 0 dia 2\n\
             at 20 dia 2 step 3.2\n at end dia 3.2\n}}\n}}\n\
             bought spring from one to other {{\n length 4..14\n mass 0.3\n outside dia 4.2\n\
             from one {{\n bore 2.6 through\n}}\n}}\n\
             part front from tip to shank {{\n blank of acrylic rod 14\n length 50\n outside dia 12\n\
             from tip {{\n drill 2.1 through\n}}\n from shank {{\n bore 4.4 to {bore}\n}}\n}}\n\
             part stop from face to tail {{\n blank of acrylic rod 14\n length 30\n outside dia 12\n\
             from face {{\n tenon 4.3 for 4\n bore 3.3 to 20\n}}\n}}\n\
             pen sketch {{\n glue stop.face into front.shank gap 0.1\n slip refill.end into stop.face\n\
             slip refill.point into front.shank through spring\n}}\n"
        ));
        let pen = design.pen("sketch").expect("a pen");
        assert!(pen.assembly.loose.is_empty(), "{bore}");
        let rest = pen.assembly.joints.iter().next_back().expect("joints");
        let [spring] = rest.trapped[..] else {
            panic!("{bore}: {:?}", rest.trapped)
        };
        assert!(
            (spring.length_mm - length).abs() < 1e-9,
            "{bore}: {spring:?}"
        );
        assert!(
            (spring.room_mm - to_spare).abs() < 1e-9,
            "{bore}: {spring:?}"
        );
    }
}

/// As above, by a mechanism that draws the refill back by 5: the point, 40 + 4 from the shank of a front
/// of 42, stands 2 out of its tip, and 3 in when drawn back; the spring has 8, then 13; and of a mechanism that
/// is glued in by its other end the same.
#[test]
fn what_a_mechanism_throws_stands_further_in() {
    let drawn = |click: &str| {
        let design = design(&format!(
            "bought refill from point to end {{\n length 60\n mass 2\n outside {{\n at 0 dia 2\n\
             at 20 dia 2 step 3.2\n at end dia 3.2\n}}\n}}\n\
             bought spring from one to other {{\n length 4..14\n mass 0.3\n outside dia 4.2\n\
             from one {{\n bore 2.6 through\n}}\n}}\n\
             part front from tip to shank {{\n blank of acrylic rod 14\n length 42\n outside dia 12\n\
             from tip {{\n drill 2.1 through\n}}\n from shank {{\n bore 4.4 to 32\n}}\n}}\n\
             {click}\n\
             pen sketch {{\n glue click.face into front.shank gap 0.1\n\
             slip refill.end into click.face\n\
             slip refill.point into front.shank through spring\n\
             want length(retracted) >= 1\n}}\n"
        ));
        let pen = design.pen("sketch").expect("a pen");
        let rest = pen.assembly.joints.iter().next_back().expect("joints");
        let back = pen.assembly.springs_retracted[..]
            .first()
            .expect("a spring");
        let uncapped = pen.assembly.uncapped.as_ref().expect("open");
        let retracted = pen.assembly.retracted.as_ref().expect("drawn back");
        let point = pen.part_id("refill").expect("a refill");
        let tip = pen.part_id("front").expect("a front");
        let out = |it: &quillet_model::Configuration| {
            // Whichever way the pen lies.
            let z = |part, station| it.z_mm(part, station).unwrap();
            (z(tip, 0.0) - z(point, 0.0)) * (z(tip, 42.0) - z(tip, 0.0)).signum()
        };
        [
            rest.trapped[0].length_mm,
            back.1.length_mm,
            out(uncapped),
            out(retracted),
        ]
    };
    let first = "bought click from face to knob {\n length 30\n mass 5\n outside {\n at 0 dia 4.3\n\
                 at 4 dia 4.3 step 12\n at 30 dia 12\n}\n from face {\n bore 3.3 to 20\n}\n\
                 throw 5 from face\n}";
    let second = "bought click from knob to face {\n length 30\n mass 5\n outside {\n at 0 dia 12\n\
                 at 26 dia 12 step 4.3\n at 30 dia 4.3\n}\n from face {\n bore 3.3 to 20\n}\n\
                 throw 5 from face\n}";
    for click in [first, second] {
        let found = drawn(click);
        for (found, expected) in found.into_iter().zip([8.0, 13.0, 2.0, -3.0]) {
            assert!((found - expected).abs() < 1e-9, "{found}, {expected}");
        }
    }
}
