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
