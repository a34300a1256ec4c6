//! Threads whose crests end on a chamfer, a round, a countersink or a slope: the metal that is left,
//! against a plain sum over the part's own sizes.

use proptest::prelude::*;
use quillet_geometry::Properties;
use quillet_model::{Design, Texts, load, resolve};
use std::f64::consts::PI;
use std::path::Path;

/// Major diameter, pitch, number of starts and the designation of a thread.
const THREADS: [(f64, f64, &str); 6] = [
    (10.0, 1.0, "M10x1"),
    (9.0, 0.75, "M9x0.75"),
    (13.0, 0.8, "M13x0.8 starts 3"),
    (7.4, 0.5, "M7.4x0.5-LH"),
    (11.1125, 25.4 / 28.0, "7/16-28UNEF starts 2"),
    (12.7, 25.4 / 20.0, "1/2-20UNF"),
];

fn designed(text: &str) -> Design {
    let texts = Texts::default().with("part.quillet", text);
    resolve(&load(Path::new("part.quillet"), &texts).expect("the text is there"))
}

/// What is left of the one part.
fn properties(text: &str) -> Properties {
    let design = designed(text);
    assert!(design.findings.is_empty(), "{:?}\n{text}", design.findings);
    let profiles = design.parts[0].profiles.as_ref();
    profiles.expect("it has a shape").metal.properties()
}

/// The share of a pitch on which the basic profile (ISO 68-1: crest flat P/8, root flat P/4, flanks
/// of 30°) stands at least this far from the axis.
fn share(major: f64, pitch: f64, r: f64) -> f64 {
    let depth = 5.0 / 8.0 * pitch * 3f64.sqrt() / 2.0;
    match major / 2.0 - r {
        below if below < 0.0 => 0.0,
        below if below > depth => 1.0,
        below => (pitch / 8.0 + 2.0 * below / 3f64.sqrt()) / pitch,
    }
}

/// The mean of r² where the crests of an outside thread end at `crest`: every ring that is left by
/// its share of the pitch. Three points of Gauss are exact for the cubic of each stretch.
fn ridges(major: f64, pitch: f64, crest: f64) -> f64 {
    let root = major / 2.0 - 5.0 / 8.0 * pitch * 3f64.sqrt() / 2.0;
    let (crest, solid) = (crest.min(major / 2.0), crest.min(root));
    let half = (crest - solid) / 2.0;
    let at = |node: f64| solid + half * (1.0 + node);
    let rings = [
        (-0.6f64.sqrt(), 5.0 / 9.0),
        (0.0, 8.0 / 9.0),
        (0.6f64.sqrt(), 5.0 / 9.0),
    ]
    .map(|(node, weight)| weight * half * 2.0 * at(node) * share(major, pitch, at(node)));
    solid * solid + rings.iter().sum::<f64>()
}

/// The mean of r² of the hole where the crests of an inside thread end at `crest`.
fn grooves(major: f64, pitch: f64, crest: f64) -> f64 {
    let root = major / 2.0 - 5.0 / 8.0 * pitch * 3f64.sqrt() / 2.0;
    let crest = crest.max(root);
    match crest < major / 2.0 {
        // Beyond the crest, the hole takes what the profile leaves.
        true => crest * crest + ridges(major, pitch, major / 2.0) - ridges(major, pitch, crest),
        false => crest * crest,
    }
}

/// π∫(outer² − inner²) dz and its centroid, by the midpoints of many slices in each stretch between
/// two stations where anything changes.
fn summed(stations: &[f64], outer: impl Fn(f64) -> f64, inner: impl Fn(f64) -> f64) -> (f64, f64) {
    let mut stations = stations.to_vec();
    stations.sort_by(f64::total_cmp);
    let (mut volume, mut moment) = (0.0, 0.0);
    for pair in stations.windows(2) {
        const SLICES: i32 = 4000;
        let slice = (pair[1] - pair[0]) / f64::from(SLICES);
        for nth in 0..SLICES {
            let z = pair[0] + slice * (f64::from(nth) + 0.5);
            let part = PI * (outer(z) - inner(z)) * slice;
            volume += part;
            moment += part * z;
        }
    }
    (volume, moment / volume)
}

fn agrees(text: &str, (volume, centroid): (f64, f64)) -> Result<(), TestCaseError> {
    let found = properties(text);
    prop_assert!(
        (found.volume_mm3 / volume - 1.0).abs() < 1e-7,
        "{} for {volume} of\n{text}",
        found.volume_mm3
    );
    prop_assert!(
        (found.centroid_mm - centroid).abs() < 1e-6 * centroid,
        "{} for {centroid} of\n{text}",
        found.centroid_mm
    );
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn a_broken_end_takes_what_is_left_of_the_crest(
        size in 0..6_usize, under in 0..40_u32, edge in 1..30_u32, round in any::<bool>(),
        other in any::<bool>(), from in 0..3_u32, relieved in any::<bool>(),
    ) {
        let (major, pitch, name) = THREADS[size];
        // Thousandths, as they are written; no fatter than the thread, which is a fault of its own.
        let tenon = ((major - f64::from(under) / 100.0) * 1000.0).floor() / 1000.0;
        let (edge, from) = (f64::from(edge) / 20.0, f64::from(from) * 0.4);
        let relief = ((major - 2.0 * pitch) * 100.0).round() / 100.0;
        let (word, end) = (if round { "round" } else { "chamfer" }, if other { "b" } else { "a" });
        let behind = if relieved { format!("    relief {relief} for 2 at 6\n") } else { String::new() };
        let text = format!(
            "part shank from a to b {{\n  blank of brass rod 20\n  length 30\n  outside dia 16\n  from {end} {{\n    \
             tenon {tenon} for 8\n    thread {name} outside for {} at {from}\n{behind}    {word} {edge}\n  }}\n}}\n",
            6.0 - from
        );
        let crest = |y: f64| {
            let broken = match (y < edge, round) {
                (false, _) => 0.0,
                (true, false) => edge - y,
                (true, true) => edge - (edge * edge - (edge - y).powi(2)).sqrt(),
            };
            tenon / 2.0 - broken
        };
        let square = |y: f64| match y {
            y if y > 8.0 => 64.0,
            y if relieved && y > 6.0 => relief * relief / 4.0,
            y if from < y && y < 6.0 => ridges(major, pitch, crest(y)),
            y => crest(y).powi(2),
        };
        let along = |z: f64| if other { 30.0 - z } else { z };
        // A round begins square to the face: finer there.
        let fine = (0..=20).map(|nth| edge * (f64::from(nth) / 20.0).powi(2));
        let stations: Vec<f64> = fine.chain([from, 6.0, 8.0, 30.0]).map(along).collect();
        agrees(&text, summed(&stations, |z| square(along(z)), |_| 0.0))?;
    }

    #[test]
    fn a_countersink_or_a_wider_mouth_takes_what_is_left_of_the_crest(
        size in 0..6_usize, tap in 0..3_u32, sink in 0..20_u32, angle in 0..4_usize,
        other in any::<bool>(), mouth in 0..5_u32,
    ) {
        let (major, pitch, name) = THREADS[size];
        let two = |dia: f64| (dia * 100.0).round() / 100.0;
        let drill = two(major - (1.1 - 0.15 * f64::from(tap)) * pitch);
        let sink = two(drill + 0.1 + f64::from(sink) / 10.0);
        let angle = [60.0_f64, 82.0, 90.0, 120.0][angle];
        let mouth = (mouth > 0).then(|| two(drill + f64::from(mouth) * 0.3 * pitch));
        let end = if other { "b" } else { "a" };
        let bore = mouth.map_or_else(String::new, |dia| format!("    bore {dia} to 2\n"));
        let text = format!(
            "part barrel from a to b {{\n  blank of brass rod 30\n  length 40\n  outside dia 24\n  from {end} {{\n{bore}    \
             countersink {sink} angle {angle}\n    drill {drill} to 14\n    thread {name} inside to 9\n  }}\n}}\n"
        );
        let tan = (angle / 2.0).to_radians().tan();
        let tip = 14.0 + drill / 2.0 / 59f64.to_radians().tan();
        let hole = |y: f64| {
            let drilled = match y {
                y if y < 14.0 => drill / 2.0,
                y => (tip - y).max(0.0) * 59f64.to_radians().tan(),
            };
            let mouth = mouth.filter(|_| y < 2.0).map_or(0.0, |dia| dia / 2.0);
            drilled.max(sink / 2.0 - y * tan).max(mouth)
        };
        let square = |y: f64| if y < 9.0 { grooves(major, pitch, hole(y)) } else { hole(y).powi(2) };
        let along = |z: f64| if other { 40.0 - z } else { z };
        let root = major / 2.0 - 5.0 / 8.0 * pitch * 3f64.sqrt() / 2.0;
        let meets = [drill / 2.0, major / 2.0, root, mouth.unwrap_or(drill) / 2.0];
        let meets = meets.map(|r| ((sink / 2.0 - r) / tan).clamp(0.0, 9.0));
        let stations: Vec<f64> =
            meets.into_iter().chain([0.0, 2.0, 9.0, 14.0, tip, 40.0]).map(along).collect();
        agrees(&text, summed(&stations, |_| 144.0, |z| square(along(z))))?;
    }

    #[test]
    fn a_taper_under_a_thread_takes_what_is_left_of_the_crest(
        size in 0..6_usize, start in 0..100_u32, end in 0..100_u32, curved in any::<bool>(),
    ) {
        let (major, pitch, name) = THREADS[size];
        let dia = |share: u32| ((major - 1.4 * pitch * f64::from(share) / 100.0) * 1000.0).round() / 1000.0;
        let (start, end) = (dia(start), dia(end));
        prop_assume!(!curved || start > end);
        let shape = if curved { " dome" } else { "" };
        let text = format!(
            "part pin from a to b {{\n  blank of brass rod 20\n  length 20\n  outside {{\n    at 0 dia {start}\n    \
             at 10 dia {end}{shape}\n    at 20 dia {end}\n  }}\n  from a {{\n    \
             thread {name} outside for 10\n  }}\n}}\n"
        );
        let crest = |z: f64| match curved {
            // A quarter of an ellipse, level at the larger end.
            true => end / 2.0 + (start - end) / 2.0 * (1.0 - (z / 10.0).powi(2)).sqrt(),
            false => (start + (end - start) * z / 10.0) / 2.0,
        };
        let square = |z: f64| if z < 10.0 { ridges(major, pitch, crest(z)) } else { end * end / 4.0 };
        // The ellipse ends square to the axis: finer there.
        let fine = (0..=40).map(|nth| 10.0 - 10.0 * (f64::from(nth) / 40.0).powi(3));
        let stations: Vec<f64> = fine.chain([20.0]).collect();
        agrees(&text, summed(&stations, square, |_| 0.0))?;
    }
}

/// The worked shank: M10 × 1 on a tenon of 10, chamfer 1. Its face is 8 across, and of the 20 mm
/// of brass 1904.85 mm³ are left.
#[test]
fn a_chamfer_on_a_thread_is_cut_once() {
    let text = "part shank from tip to end {\n  blank of brass rod 16\n  length 20\n  outside dia 12\n  from end {\n    \
                tenon 10 for 8\n    thread M10x1 outside for 8\n    chamfer 1\n  }\n}\n";
    assert!((properties(text).volume_mm3 - 1904.85).abs() < 0.005);
    let design = designed(text);
    let profiles = design.parts[0].profiles.as_ref().expect("it has a shape");
    for solid in [&profiles.crest, &profiles.root, &profiles.metal] {
        assert_eq!(solid.outer.end().r, 4.0, "the face is 8 across");
    }
}

/// A deep countersink reaches past the thread, but narrows to nothing there: the tap drill is
/// assumed as if it were not there.
#[test]
fn a_countersink_opens_no_thread() {
    let text = "part barrel from a to b {\n  blank of brass rod 26\n  length 60\n  outside dia 24\n  from a {\n    \
                countersink 16 angle 60\n    thread M10x1 inside to 9\n  }\n}\n";
    let design = designed(text);
    let assumed = |it: &quillet_model::Feature| {
        matches!(
            &it.cut,
            quillet_model::Cut::Drill {
                assumed_for: Some(_),
                ..
            }
        )
    };
    assert_eq!(
        design.parts[0]
            .features
            .iter()
            .filter(|it| assumed(it))
            .count(),
        1
    );
}
