//! Solids whose volume and centroid have a closed form: `volumes_of_revolution.csv`.

use std::collections::HashMap;

use quillet_geometry::{Arc, Chain, Cubic, Point, Properties, Tag};

#[test]
fn volumes_and_centroids_agree_with_the_closed_forms() {
    let mut checked = 0;
    for row in quillet_reference::rows("volumes_of_revolution.csv") {
        let sizes = sizes(row.text("parameters"));
        let Some((outer, inner)) = solid(row.text("solid"), &sizes) else {
            eprintln!(
                "{row}: {} is not a solid known here, not checked",
                row.text("solid")
            );
            continue;
        };
        let found = Properties::between([&outer], inner.as_ref());
        for (what, found, wanted) in [
            ("volume", found.volume_mm3, row.number("volume_mm3")),
            ("centroid", found.centroid_mm, row.number("centroid_z_mm")),
        ] {
            assert!(
                (found / wanted - 1.0).abs() < 1e-12,
                "{row}: {what} {found}, {wanted} wanted"
            );
        }
        checked += 1;
    }
    assert!(checked > 0, "no solid of the table was known");
}

/// `r1=5.0 (z=0) r2=0.0` to its names and numbers; what stands in brackets is a remark.
fn sizes(parameters: &str) -> HashMap<&str, f64> {
    parameters
        .split([' ', ','])
        .filter_map(|word| word.split_once('='))
        .filter_map(|(name, value)| Some((name, value.parse().ok()?)))
        .collect()
}

#[expect(
    clippy::too_many_lines,
    reason = "an arm a solid: it is read as a table"
)]
fn solid(name: &str, sizes: &HashMap<&str, f64>) -> Option<(Chain, Option<Chain>)> {
    let size = |name: &str| sizes[name];
    let lines = |places: &[(f64, f64)]| {
        let places: Vec<Point> = places.iter().map(|&(z, r)| Point::new(z, r)).collect();
        Chain::polyline(Tag(0), &places).expect("a chain")
    };
    let circle = |from: (f64, f64), to: (f64, f64), radius: f64, convex: bool| {
        let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
        Chain::single(
            Tag(0),
            Arc::circular(from, to, radius, convex).expect("an arc"),
        )
    };
    let round = |chain: Chain, to: (f64, f64), radius: f64| {
        let arc =
            Arc::circular(chain.end(), Point::new(to.0, to.1), radius, true).expect("a chain");
        chain.then(Tag(0), arc).expect("a chain")
    };
    Some(match name {
        "cylinder" => (lines(&[(0.0, size("r")), (size("h"), size("r"))]), None),
        "tube" => {
            let tube = |r: f64| lines(&[(0.0, r), (size("h"), r)]);
            (tube(size("ro")), Some(tube(size("ri"))))
        }
        "cone" | "cone frustum" => (lines(&[(0.0, size("r1")), (size("h"), size("r2"))]), None),
        "sphere cap" => {
            let (radius, height) = (size("R"), size("h"));
            let face = (2.0 * radius * height - height * height).sqrt();
            (circle((0.0, face), (height, 0.0), radius, true), None)
        }
        "rod with two hemispherical ends" => {
            let (r, long) = (size("r"), size("L"));
            let rod = circle((0.0, 0.0), (r, r), r, true)
                .then_line(Tag(0), Point::new(long - r, r))
                .expect("a chain");
            (round(rod, (long, 0.0), r), None)
        }
        "rod, flat at z=0, one hemispherical end" => {
            let (r, long) = (size("r"), size("L"));
            (
                round(lines(&[(0.0, r), (long - r, r)]), (long, 0.0), r),
                None,
            )
        }
        "concave fillet ring (torus fillet) at a shaft root" => {
            let (shaft, fillet) = (size("a"), size("f"));
            let ring = circle((0.0, shaft + fillet), (fillet, shaft), fillet, false);
            (ring, Some(lines(&[(0.0, shaft), (fillet, shaft)])))
        }
        "cylinder with one rounded (torus) edge" => {
            let (radius, edge, height) = (size("R"), size("f"), size("h"));
            let side = lines(&[(0.0, radius), (height - edge, radius)]);
            (round(side, (height, radius - edge), edge), None)
        }
        "torus (O-ring)" => {
            let (ring, section) = (size("R"), size("r"));
            let half = |convex| circle((0.0, ring), (2.0 * section, ring), section, convex);
            (half(true), Some(half(false)))
        }
        "blank with blind bore and 118 degree drill point" => {
            let (drill, depth) = (size("d") / 2.0, size("depth"));
            let tip = depth + drill / 59_f64.to_radians().tan();
            let bore = lines(&[(0.0, drill), (depth, drill), (tip, 0.0)]);
            (
                lines(&[(0.0, size("ro")), (size("L"), size("ro"))]),
                Some(bore),
            )
        }
        "paraboloid of revolution" => {
            // The parabola r² = a² (1 − z/c) by r = a (1 − t), raised to a cubic.
            let (a, c) = (size("a"), size("c"));
            let points = [
                (0.0, a),
                (2.0 * c / 3.0, 2.0 * a / 3.0),
                (c, a / 3.0),
                (c, 0.0),
            ];
            (
                Chain::single(
                    Tag(0),
                    Cubic::new(points.map(|(z, r)| Point::new(z, r))).expect("a chain"),
                ),
                None,
            )
        }
        "barrel with circular arc profile" => {
            let (middle, end, height) = (size("rm"), size("re"), size("h"));
            let rise = middle - end;
            let radius = (height * height / 4.0 + rise * rise) / (2.0 * rise);
            (circle((0.0, end), (height, end), radius, true), None)
        }
        _ => return None,
    })
}
