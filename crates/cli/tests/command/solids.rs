//! `quillet solid` from end to end: where the parts lie.

use crate::run::{command, examples};
use tempfile::TempDir;

/// From where to where the triangles of a binary STL reach along `z`, mm.
fn reach(args: &[&str]) -> (f64, f64) {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("pen.stl");
    let mut command = command(&examples());
    command.arg("solid").args(args);
    let output = command.arg("-o").arg(&path).output().unwrap();
    assert_eq!(output.status.code(), Some(0), "{output:?}");
    let bytes = std::fs::read(path).unwrap();
    // 84 bytes of head; a triangle is a normal and three corners of three numbers, and two bytes.
    let heights = bytes[84..].chunks_exact(50).flat_map(|triangle| {
        [20, 32, 44].map(|at| f32::from_le_bytes(triangle[at..at + 4].try_into().unwrap()))
    });
    heights.fold((f64::MAX, f64::MIN), |(low, high), z| {
        (low.min(f64::from(z)), high.max(f64::from(z)))
    })
}

#[test]
fn parts_lie_one_behind_the_other_or_put_together() {
    let near = |found: (f64, f64), low: f64, high: f64| {
        let off = (found.0 - low).abs().max((found.1 - high).abs());
        assert!(off < 1e-3, "{found:?}, not {low} to {high}");
    };
    // Cap 64, barrel 82 and section 30 long, ten apart.
    near(reach(&["heron.quillet", "--pen", "heron"]), 0.0, 196.0);
    // As its drawing says: 138 closed.
    near(
        reach(&["heron.quillet", "--pen", "heron", "--assembled"]),
        0.0,
        138.0,
    );
    // Open: the bought nib before the section is not written.
    let open = reach(&["avocet.quillet", "--assembled=uncapped"]);
    assert!(open.0 > 10.0 && (open.1 - 122.0).abs() < 0.05, "{open:?}");
    let posted = reach(&["avocet.quillet", "--assembled=posted"]);
    assert!((posted.1 - 157.6).abs() < 0.05, "{posted:?}");
}

/// The STEP of a pen with what is bought.
fn step(args: &[&str]) -> String {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("pen.step");
    let mut command = command(&examples());
    command.arg("solid").args(args).arg("--with-bought");
    let output = command.arg("-o").arg(&path).output().unwrap();
    assert_eq!(output.status.code(), Some(0), "{output:?}");
    std::fs::read_to_string(path).unwrap()
}

/// The circles of the tori of a STEP file: from the axis to their middles, and their radii, mm.
fn tori(step: &str) -> Vec<(f64, f64)> {
    let found = step.split("TOROIDAL_SURFACE(").skip(1).map(|it| {
        let numbers = it.split(')').next().unwrap().split(',').skip(2);
        let numbers: Vec<f64> = numbers.map(|it| it.parse().unwrap()).collect();
        (numbers[0], numbers[1])
    });
    found.collect()
}

#[test]
fn o_rings_are_bodies_of_their_own() {
    let has = |step: &str, middle: f64, radius: f64| {
        let near = |it: &(f64, f64)| (it.0 - middle).abs() + (it.1 - radius).abs() < 1e-9;
        assert!(
            tori(step).iter().any(near),
            "{middle} {radius}: {:?}",
            tori(step)
        );
    };
    // Round as bought where parts lie behind one another: 6.9 by 1.
    let apart = step(&["dunlin.quillet"]);
    assert_eq!(apart.matches("PRODUCT('seal'").count(), 1);
    has(&apart, 3.95, 0.5);
    // In its groove ⌀7 under a bore of ⌀8.6: 0.8 thick, its middle at 3.9.
    for state in ["--assembled", "--assembled=uncapped"] {
        let together = step(&["dunlin.quillet", state]);
        assert_eq!(together.matches("PRODUCT('seal in section'").count(), 1);
        has(&together, 3.9, 0.4);
    }
    let none = step(&["heron.quillet", "--pen", "heron", "--assembled"]);
    assert!(!none.contains(" in "), "heron has no O-ring");
}

/// Nine flats on cap and barrel, each on two round stretches of its outside, are 36 faces that are straight across;
/// and of what is not shown, which pen says what.
#[test]
fn flats_are_in_step_and_what_is_not_is_said() {
    let folder = TempDir::new().unwrap();
    let written = |pen: &str| {
        let path = folder.path().join("pen.step");
        let mut command = command(&examples());
        command.arg("solid").arg(format!("more/{pen}.quillet"));
        let output = command.arg("-o").arg(&path).output().unwrap();
        let said = String::from_utf8(output.stderr).unwrap();
        (std::fs::read_to_string(path).unwrap(), said)
    };
    let (dotterel, said) = written("dotterel");
    assert!(
        !said.contains("without") && !dotterel.contains("without"),
        "{said}"
    );
    assert_eq!(
        dotterel.matches("=SURFACE_OF_LINEAR_EXTRUSION(").count(),
        36
    );
    let (snipe, said) = written("snipe");
    assert!(
        said.contains("clutch is written without some of its cuts: slot"),
        "{said}"
    );
    assert!(!said.contains("flat"), "{said}");
    assert!(snipe.contains("'clutch: without these cuts: slot'"));
}
