use super::super::samples;
use super::*;
use quillet_geometry::section::{self, Apothem, Flats};
use std::collections::BTreeSet;

#[test]
fn meshes_are_closed_face_outwards_and_hold_the_volume() {
    for sample in samples::all() {
        let mesh = whole(sample.name, &sample.body(), 0.01);
        let most = sample.area_mm2() * 0.01;
        let off = mesh.volume_mm3() - sample.properties().volume_mm3;
        assert!(off.abs() < most, "{}: off by {off} of {most}", sample.name);
    }
}

/// What the flats take is reckoned by quadrature over sections, which is held against closed forms.
#[test]
fn flats_are_in_meshes_and_their_edges_too() {
    for sample in samples::all() {
        let turned = sample.properties().volume_mm3;
        for (name, flats) in sample.flats() {
            let name = format!("{}, {name}", sample.name);
            let body = Body {
                flats: flats.clone(),
                ..sample.body()
            };
            let taken = section::cut_away([&sample.outer], &flats)
                .properties()
                .volume_mm3;
            for tolerance in [0.04, 0.01, 0.0025] {
                let off = (whole(&name, &body, tolerance).volume_mm3() - (turned - taken)).abs();
                let most = sample.area_mm2() * tolerance / 2.0;
                assert!(off < most, "{name}: off by {off} of {most} at {tolerance}");
                // Without its flats it would be off by all that they take.
                let shown = tolerance > 0.0025 || off < taken / 4.0;
                assert!(shown, "{name}: off by {off} of {taken} at {tolerance}");
            }
        }
    }
}

/// An edge of a flat is an edge of the mesh: nothing of it is farther from it than the tolerance.
#[test]
fn a_flat_is_flat_to_its_edges() {
    let sample = samples::all().remove(0);
    let flats = vec![Flats {
        from_mm: 4.0,
        to_mm: 18.0,
        apothem: Apothem::Straight {
            from_mm: 4.6,
            to_mm: 4.4,
        },
        count: 6,
        clock_deg: 17.0,
    }];
    let body = Body {
        flats: flats.clone(),
        ..sample.body()
    };
    let mesh = whole("facets", &body, 0.01);
    let (sin, cos) = 17_f64.to_radians().sin_cos();
    let above = mesh.places_mm.iter().filter(|[x, y, z]| {
        let along = (z - 4.0) / 14.0;
        (1e-9..1.0 - 1e-9).contains(&along) && x * cos + y * sin > 4.6 - 0.2 * along + 1e-4
    });
    assert_eq!(above.count(), 0);
}

/// The mesh of a body, of which every edge is there once in each direction.
fn whole(name: &str, body: &Body, tolerance: f64) -> Mesh {
    let facets = Facets::of(body, tolerance);
    let mesh = facets.mesh();
    assert_eq!(facets.count(), mesh.triangles.len() as u64, "{name}");
    let corners = mesh.triangles.iter();
    let edges: BTreeSet<(u32, u32)> = corners
        .flat_map(|[a, b, c]| [(*a, *b), (*b, *c), (*c, *a)])
        .collect();
    assert_eq!(
        edges.len(),
        mesh.triangles.len() * 3,
        "{name}: an edge twice"
    );
    for (from, to) in &edges {
        assert!(edges.contains(&(*to, *from)), "{name}: an open edge");
    }
    mesh
}
