//! Every verb of a joint, by hand: the figures are sums of the few lengths in each text.

use quillet_geometry::Length;
use quillet_model::{
    AtRest, ClearanceKind, Closing, Configured, Design, JointId, RingId, StoppedBy, Texts, load,
    resolve,
};
use std::path::Path;

fn design(text: &str) -> Design {
    let texts = Texts::default().with("pen.quillet", text);
    let design = resolve(&load(Path::new("pen.quillet"), &texts).expect("the text is there"));
    assert!(design.findings.is_empty(), "{:#?}", design.findings);
    design
}

/// A rod with a head, `dia` over its first ten of twenty millimetres.
fn rod(name: &str, dia: &str) -> String {
    format!(
        "part {name} from front to back {{\n blank of acrylic rod 30\n length 20\n\
         outside {{\n at 0 dia {dia}\n at 10 dia {dia} step 14\n at 20 dia 14\n}}\n}}\n"
    )
}

/// A tube of outside 18 with this inside, forty long.
fn tube(name: &str, inside: &str) -> String {
    format!(
        "part {name} from mouth to end {{\n blank of acrylic rod 30\n length 40\n\
         outside dia 18\nfrom mouth {{\n{inside}\n}}\n}}\n"
    )
}

fn pen(lines: &str) -> String {
    format!("pen test {{\n{lines}\n}}\n")
}

fn joint(design: &Design, index: usize) -> &AtRest {
    &design.pens[0].assembly.joints[JointId::nth(index)]
}

fn near(found: f64, wanted: f64) {
    assert!(
        (found - wanted).abs() < 1e-9,
        "{found} where {wanted} was wanted"
    );
}

#[test]
fn a_press_goes_in_past_its_interference() {
    let parts = rod("rod", "8.03") + &tube("tube", "bore 8 to 15");
    let pressed =
        design(&(parts.clone() + &pen("press rod.front into tube.mouth interference 0.03")));
    near(joint(&pressed, 0).goes_in_mm, 10.0);
    // More than it asks for does not go in.
    let tight = design(&(parts + &pen("press rod.front into tube.mouth interference 0.02")));
    near(joint(&tight, 0).goes_in_mm, 0.0);
}

/// H7/s6 at 8 mm: from 0.023 − 0.015 to 0.032 mm (ISO 286-2, s6 of 6 to 10 mm: +32, +23 µm).
#[test]
fn a_press_goes_in_past_what_its_fit_allows_at_its_size() {
    for (dia, deep) in [("8.032", 10.0), ("8.033", 0.0)] {
        let parts = rod("rod", dia) + &tube("tube", "bore 8 to 15");
        let pressed = design(&(parts + &pen("press rod.front into tube.mouth fit H7/s6")));
        near(joint(&pressed, 0).goes_in_mm, deep);
    }
}

#[test]
fn a_press_stops_where_it_is_told() {
    let text = rod("rod", "8")
        + &tube("tube", "bore 8 to 15")
        + &pen("press rod.front into tube.mouth by 6");
    let design = design(&text);
    near(joint(&design, 0).goes_in_mm, 6.0);
    assert_eq!(joint(&design, 0).stopped_by, StoppedBy::Overlap);
}

#[test]
fn a_push_takes_up_what_is_not_drawn_hollow() {
    let text = rod("rod", "4")
        + "bought sleeve from mouth to end {\n length 30\n outside dia 7\n mass 1\n}\n"
        + &pen("push sleeve.mouth onto rod.front by 5");
    near(joint(&design(&text), 0).goes_in_mm, 5.0);
}

#[test]
fn into_and_onto_say_which_is_the_male() {
    let parts = rod("rod", "8") + &tube("tube", "bore 9 to 15");
    for line in [
        "slip rod.front into tube.mouth",
        "slip tube.mouth onto rod.front",
    ] {
        let design = design(&(parts.clone() + &pen(line)));
        near(joint(&design, 0).goes_in_mm, 10.0);
    }
}

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

#[test]
fn a_cap_posts_where_the_taper_first_touches() {
    // The tail's radius is 4 + 0.05 a over 40; the cap's mouth 5 in radius: a = 20, and 1 more.
    let text = "part body from front to tail {\n blank of acrylic rod 30\n length 60\n outside {\n\
                at 0 dia 12\n at 20 dia 12\n at tail dia 8\n}\n from front {\n tenon 9 for 5\n}\n}\n"
        .to_owned()
        + &tube("cap", "bore 10 to 38")
        + &pen("close cap.mouth onto body.front\npost cap.mouth onto body.tail by 1");
    let design = design(&text);
    near(joint(&design, 1).goes_in_mm, 21.0);
    assert_eq!(joint(&design, 1).verdict.closing, Closing::Closes);
    let posted = design.pens[0]
        .assembly
        .configuration(Configured::Posted)
        .unwrap();
    near(posted.length_mm.unwrap(), 60.0 + 40.0 - 21.0);
    let capped = design.pens[0]
        .assembly
        .configuration(Configured::Capped)
        .unwrap();
    near(capped.length_mm.unwrap(), 60.0 + 40.0 - 5.0);
}

#[test]
fn what_is_joined_goes_with_it() {
    // A rod carrying a plug in its front: the plug meets the floor, 10 beyond the rod's face.
    let text = rod("rod", "8")
        + &tube("tube", "bore 9 to 12")
        + "part plug from in to out {\n blank of acrylic rod 30\n length 15\n outside dia 3\n}\n"
        + "part carrier like rod {\n from front {\n bore 3 to 5\n }\n}\n"
        + &pen("slip plug.in into carrier.front\nslip carrier.front into tube.mouth");
    let design = design(&text);
    near(joint(&design, 0).goes_in_mm, 5.0);
    near(joint(&design, 1).goes_in_mm, 2.0);
    // By themselves they would go ten.
    near(joint(&design, 1).short_mm, 8.0);
}

#[test]
fn a_second_joint_of_the_same_parts_places_nothing() {
    let text = rod("rod", "8")
        + &tube("tube", "bore 9 to 15")
        + &pen("slip rod.front into tube.mouth\nglue rod.front into tube.mouth");
    let design = design(&text);
    assert_eq!(
        design.pens[0]
            .assembly
            .joints
            .iter()
            .filter(|rest| rest.redundant)
            .count(),
        1
    );
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

/// The mass of a tube, g.
fn ring(density: f64, outer: f64, inner: f64, length: f64) -> f64 {
    density * std::f64::consts::PI / 4.0 * (outer * outer - inner * inner) * length / 1000.0
}

/// The mass of a part that stands between `part stack from a to b {` and its end.
fn stack_g(lines: &str) -> f64 {
    let design = design(&format!("part stack from a to b {{\n{lines}\n}}\n"));
    let part = design.part("stack").expect("it is written above");
    let mass = part.weigh().expect("all of it has a density");
    let profiles = part.profiles.as_ref().expect("it can be cut");
    let metal = profiles.metal.properties();
    let bodies: f64 = part
        .bodies()
        .iter()
        .map(|it| it.properties().volume_mm3)
        .sum();
    near(bodies, metal.volume_mm3);
    mass.mass_g
}

#[test]
fn a_glued_stack_weighs_each_stretch_its_spigots_and_the_glue() {
    // Brass 10 long with a spigot of 8 for 4 into acrylic 20 long, all ⌀12, bored 4 through; the
    // socket is 8.1 wide, and epoxy of 1.15 g/cm³ fills what the spigot leaves of it.
    let mass = stack_g(
        "blank of acrylic rod 14 to 20\n blank of brass rod 14 spigot 8 for 4 gap 0.1\n length 30\n\
         outside dia 12\n from a {\n bore 4 through\n}",
    );
    let acrylic = ring(1.19, 12.0, 4.0, 20.0) - ring(1.19, 8.1, 4.0, 4.0);
    let brass = ring(8.5, 12.0, 4.0, 10.0) + ring(8.5, 8.0, 4.0, 4.0);
    near(mass, acrylic + brass + ring(1.15, 8.1, 8.0, 4.0));
    // A gap of 1 takes ten times as much out of the brass around it.
    let mass = stack_g(
        "blank of brass rod 16 to 20\n blank of acrylic rod 16 spigot 10 for 12 gap 1\n length 40\n\
         outside dia 14",
    );
    let brass = ring(8.5, 14.0, 0.0, 20.0) - ring(8.5, 11.0, 0.0, 12.0);
    let acrylic = ring(1.19, 14.0, 0.0, 20.0) + ring(1.19, 10.0, 0.0, 12.0);
    near(mass, brass + acrylic + ring(1.15, 11.0, 10.0, 12.0));
}

#[test]
fn a_spigot_may_go_through_several_pieces_and_be_bored_away() {
    // A brass spigot of 8 for 8 goes through a ring of silver, 5 long, into acrylic; the next piece
    // has a spigot of 5 for 6 in it.
    let mass = stack_g(
        "blank of acrylic rod 14 to 10\n blank of silver rod 14 to 15\n\
         blank of brass rod 14 to 25 spigot 8 for 8 gap 0.2\n\
         blank of acrylic rod 14 spigot 5 for 6 gap 0.1\n length 40\n outside dia 12",
    );
    let acrylic = ring(1.19, 12.0, 0.0, 10.0) - ring(1.19, 8.2, 0.0, 3.0)
        + ring(1.19, 12.0, 0.0, 15.0)
        + ring(1.19, 5.0, 0.0, 6.0);
    let silver = ring(10.36, 12.0, 8.2, 5.0);
    let brass = ring(8.5, 12.0, 0.0, 10.0) + ring(8.5, 8.0, 0.0, 8.0) - ring(8.5, 5.1, 0.0, 6.0);
    let glue = ring(1.15, 8.2, 8.0, 8.0) + ring(1.15, 5.1, 5.0, 6.0);
    near(mass, acrylic + silver + brass + glue);
    // Bored wider than its socket, nothing is left of a spigot nor of its glue.
    let mass = stack_g(
        "blank of acrylic rod 14 to 20\n blank of brass rod 14 spigot 8 for 4 gap 0.1\n length 30\n\
         outside dia 12\n from a {\n bore 9 to 20\n}",
    );
    near(
        mass,
        ring(1.19, 12.0, 9.0, 20.0) + ring(8.5, 12.0, 0.0, 10.0),
    );
}

#[test]
fn what_lies_at_a_radius_is_the_innermost_spigot() {
    let text = "part stack from a to b {\n blank of acrylic rod 14 to 20\n\
                blank of brass rod 14 spigot 8 for 4 gap 0.1\n length 30\n outside dia 12\n}\n";
    let design = design(text);
    let part = design.part("stack").unwrap();
    let at = |station: f64, radius: f64| {
        let found = part.material_in(Length::mm(station), Length::mm(radius));
        found.map(|it| it.name.to_string()).unwrap()
    };
    assert_eq!(at(15.9, 1.0), "acrylic");
    assert_eq!(at(16.1, 3.9), "brass");
    assert_eq!(at(16.1, 4.1), "acrylic");
    assert_eq!(at(20.1, 5.0), "brass");
    let met = part.materials_along(Length::mm(10.0), Length::mm(25.0), Length::mm(3.0));
    let met: Vec<&str> = met.iter().map(|it| &*it.name).collect();
    assert_eq!(met, ["acrylic", "brass"]);
}

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

/// Distances from two ends that come to one station, whatever their sum rounds to.
#[test]
fn a_thread_that_ends_where_a_relief_begins_leaves_nothing_to_stop_at() {
    for hundredths in 0..60 {
        let length = 33.4 + 0.01 * f64::from(hundredths);
        let text = format!(
            "part section from tip to shank {{\n blank of acrylic rod 30\n length {length:.2}\n\
             outside {{\n at 0 dia 14\n at 22 dia 14\n}}\nfrom shank {{\n tenon for 12\n \
             thread M11x0.75 outside for 6 at 3.5\n relief 9.9 for 3.5\n relief 10 for 2.5 at 9.5\n}}\n}}\n"
        ) + &tube(
            "tube",
            "bore 11.1 to 1\n drill 10.3 to 20\n thread M11x0.75 inside to 9.99 at 1",
        ) + &pen("screw section.shank into tube.mouth");
        let rests = joint(&design(&text), 0).goes_in_mm;
        // Behind the tenon the outside may reach a little further than the tenon does.
        near(rests, 12.0f64.max(length - 22.0));
    }
}

/// A hole cut from the far end looks away: what comes from here meets its point from behind.
#[test]
fn a_point_seen_from_behind_is_no_corner() {
    let cap = "part cap from crown to mouth {\n blank of acrylic rod 30\n length 60\n\
               outside dia 18\nfrom crown {\n bore 8.2 to 11\n}\n\
               from mouth {\n drill 12 to 22\n}\n}\n";
    let corners = |end: &str| {
        let text = rod("rod", "8") + cap + &pen(&format!("glue rod.front into cap.{end} by 10"));
        let design = design(&text);
        let clearances = &joint(&design, 0).clearances;
        let corner = clearances
            .iter()
            .filter(|it| it.kind == ClearanceKind::Corner);
        corner.map(|it| it.nominal_mm).collect::<Vec<_>>()
    };
    assert_eq!(corners("crown"), []);
    assert_eq!(corners("mouth"), [12.0]);
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

#[test]
fn what_nothing_stops_closes() {
    let rod =
        "part rod from front to back {\n blank of acrylic rod 30\n length 20\n outside dia 8\n}\n";
    let text =
        rod.to_owned() + &tube("tube", "bore 9 through") + &pen("slip rod.front into tube.mouth");
    let design = design(&text);
    let slipped = joint(&design, 0);
    assert_eq!(slipped.stopped_by, StoppedBy::Nothing);
    assert_eq!(slipped.verdict.closing, Closing::Closes);
}

/// What swells without a step has to pass as one with it; past the next step that looks the way it goes
/// another may stop it.
#[test]
fn the_fattest_that_has_to_pass_lies_behind_what_swells() {
    let passes = |outside: &str| {
        let rod = format!(
            "part rod from front to back {{\n blank of acrylic rod 30\n length 40\n outside {{\n{outside}\n}}\n}}\n"
        );
        let text = rod + &tube("tube", "bore 8 to 35");
        let design = design(&(text + &pen("slip rod.front into tube.mouth")));
        match &joint(&design, 0).verdict.closing {
            Closing::Blocked(blocked) => blocked.passes.radius_mm,
            other => panic!("{other:?}"),
        }
    };
    near(passes("at 0 dia 8.2\n at 20 dia 8.6\n at 40 dia 8.6"), 4.3);
    // Slimmer, then a step that is no fatter, then a swell.
    near(
        passes("at 0 dia 8.2\n at 10 dia 8.4\n at 15 dia 8 step 8.3\n at 40 dia 8.6"),
        4.3,
    );
    near(
        passes("at 0 dia 8.2\n at 10 dia 8.4 step 8.6\n at 40 dia 8.6"),
        4.2,
    );
}

/// A drill's point that a narrower hole goes on through is a step to pass, a blind one is the end.
#[test]
fn a_point_that_another_hole_opens_is_no_bottom() {
    let closing = |inside: &str| {
        let text = rod("rod", "8.5")
            + "part plug from in to out {\n blank of acrylic rod 30\n length 15\n outside dia 6\n}\n"
            + "part carrier like rod {\n from front {\n bore 6 to 5\n }\n}\n"
            + &tube("tube", inside)
            + &pen("slip plug.in into carrier.front\nslip carrier.front into tube.mouth");
        joint(&design(&text), 1).verdict.closing.clone()
    };
    let blind = closing("drill 9 to 12");
    assert!(matches!(blind, Closing::Short { .. }), "{blind:?}");
    let opened = closing("drill 9 to 12\n drill 4 to 30");
    match opened {
        Closing::Blocked(blocked) => near(blocked.throat.radius_mm, 2.0),
        other => panic!("{other:?}"),
    }
}

/// A face that meets a face over a ring meets the edge of its countersink too: one place.
#[test]
fn a_ring_and_its_edge_are_one_place() {
    let inside = "bore 9 to 15\n countersink 12";
    let text = rod("rod", "8") + &tube("tube", inside) + &pen("slip rod.front into tube.mouth");
    let design = design(&text);
    near(joint(&design, 0).goes_in_mm, 10.0);
    let touches = &joint(&design, 0).touches;
    assert_eq!(touches.len(), 1, "{touches:#?}");
    near(touches[0].width_mm, 1.0);
}

/// A tenon broken to 9.5 comes as far into a countersink of 10.2 as (10.2 − 9.5) / 2. Without any thread it
/// is too fat for the hole; with one on either side alone the thread is what lacks.
#[test]
fn a_joint_that_lacks_a_thread_is_not_called_too_fat() {
    let is_blocked = |outside: &str, inside: &str| {
        let peg = format!(
            "part peg from front to back {{\n blank of acrylic rod 30\n length 30\n outside dia 14\n from front {{\n tenon 10.5 for 8\n chamfer 0.5\n{outside}\n}}\n}}\n"
        );
        let cuts = format!("drill 9.3 to 20\n countersink 10.2\n{inside}");
        let design =
            design(&(peg + &tube("tube", &cuts) + &pen("screw peg.front into tube.mouth")));
        near(joint(&design, 0).goes_in_mm, 0.35);
        matches!(joint(&design, 0).verdict.closing, Closing::Blocked(_))
    };
    assert!(is_blocked("", ""));
    assert!(!is_blocked("thread M10.5x0.75 outside for 6", ""));
    assert!(!is_blocked("", "thread M10x0.75 inside to 9"));
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
