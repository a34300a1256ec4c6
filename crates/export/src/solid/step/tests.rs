//! STEP files of small bodies, read back.

use super::*;

fn text(title: &str, bodies: &[Body]) -> String {
    let mut out = Vec::new();
    step(title, bodies, &mut out).unwrap();
    String::from_utf8(out).unwrap()
}

#[test]
fn reals_have_a_point_and_read_back() {
    assert_eq!(real(12.0), "12.");
    assert_eq!(real(-0.0), "0.");
    assert_eq!(real(0.1), "0.1");
    assert_eq!(real(1e-7), "1.E-7");
    assert_eq!(real(1.25e-17), "1.25E-17");
    assert_eq!(quoted("Ida's Å"), "Ida''s \\X4\\000000C5\\X0\\");
}

#[test]
fn what_no_lathe_turns_is_said_to_be_left_out() {
    let mut body = super::super::samples::section().body();
    assert!(!text("section", std::slice::from_ref(&body)).contains("without"));
    body.left_out = vec!["flat", "slot"];
    let text = text("section", &[body]);
    let said = "'section: without these cuts: flat, slot'";
    assert_eq!(text.matches(said).count(), 1);
}

#[test]
fn a_thread_free_section_is_one_shell_of_known_surfaces() {
    let sample = super::super::samples::section();
    let text = text("section", &[sample.body()]);
    for (entity, count) in [
        ("MANIFOLD_SOLID_BREP", 1),
        ("CLOSED_SHELL", 1),
        ("CONICAL_SURFACE", 1),
        ("TOROIDAL_SURFACE", 1),
        ("SURFACE_OF_REVOLUTION", 1),
    ] {
        assert_eq!(
            text.matches(&format!("={entity}(")).count(),
            count,
            "{entity}"
        );
    }
}

/// Of every edge in the text, its two oriented edges have it once each way, and are in one bound each.
#[test]
fn each_edge_of_a_solid_with_flats_is_taken_twice_and_opposite() {
    for sample in super::super::samples::all() {
        let round = text(sample.name, &[sample.body()]);
        for (name, flats) in sample.flats() {
            let body = Body {
                flats,
                ..sample.body()
            };
            let text = text(sample.name, &[body]);
            let count = |what: &str| text.matches(what).count();
            let edges: Vec<&str> = text
                .lines()
                .filter_map(|line| line.split_once("=EDGE_CURVE(").map(|it| it.0))
                .collect();
            assert!(!edges.is_empty());
            for edge in &edges {
                for sense in [".T.", ".F."] {
                    let taken = count(&format!("=ORIENTED_EDGE('',*,*,{edge},{sense});"));
                    assert_eq!(taken, 1, "{}, {name}: {edge} {sense}", sample.name);
                }
            }
            assert_eq!(count("=ORIENTED_EDGE("), 2 * edges.len());
            // As turned it would have fewer.
            assert!(
                round.matches("=EDGE_CURVE(").count() < edges.len(),
                "{}, {name}",
                sample.name
            );
        }
    }
}
