//! Where the two parts of a joint come to rest.

use super::*;

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
