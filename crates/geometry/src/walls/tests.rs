use super::*;
use crate::Arc;
use crate::envelope::{greatest, smallest};

fn line(tag: u32, places: &[(f64, f64)]) -> Chain {
    let places: Vec<Point> = places
        .iter()
        .map(|&(z, dia)| Point::new(z, dia / 2.0))
        .collect();
    Chain::polyline(Tag(tag), &places).unwrap()
}

fn drill(tag: u32, depth: f64, dia: f64) -> Chain {
    line(
        tag,
        &[
            (0.0, dia),
            (depth, dia),
            (depth + dia / 2.0 / 59_f64.to_radians().tan(), 0.0),
        ],
    )
}

fn of(walls: &[Wall], outer: u32, inner: u32) -> Wall {
    *walls
        .iter()
        .find(|wall| (wall.outer, wall.inner) == (Tag(outer), Tag(inner)))
        .unwrap_or_else(|| panic!("{walls:?}"))
}

/// The worked barrel: M13 x 0.8 outside (root by 17 H / 12) over M10 x 0.75 inside, by
/// the profile of ISO 68-1, and reliefs of 12.0.
#[test]
fn the_worked_barrel_has_a_wall_under_each_feature() {
    let root = 13.0 - 17.0 / 12.0 * 0.75_f64.sqrt() * 0.8;
    let outer = smallest(&[
        line(1, &[(0.0, 12.9), (8.0, 12.9)]),
        line(2, &[(1.5, root), (5.5, root)]),
        line(3, &[(0.0, 12.0), (1.5, 12.0)]),
        line(4, &[(5.5, 12.0), (8.0, 12.0)]),
        line(5, &[(8.0, 14.4), (82.0, 10.0)]),
    ]);
    let inner = greatest(
        &[
            drill(10, 12.0, 9.3),
            line(11, &[(0.0, 10.0), (9.0, 10.0)]),
            drill(12, 67.0, 8.0),
        ],
        0.0,
        82.0,
    );
    let walls = walls(&outer, &inner, |_, _| true);
    assert!((of(&walls, 2, 11).least_mm - (root - 10.0) / 2.0).abs() < 1e-12);
    assert!((of(&walls, 3, 11).least_mm - 1.0).abs() < 1e-12);
    let relief = of(&walls, 4, 11);
    assert_eq!((relief.from_mm, relief.to_mm), (5.5, 8.0));
    assert!((of(&walls, 5, 11).from_mm, of(&walls, 5, 11).to_mm) == (8.0, 9.0));
    assert!(
        walls
            .iter()
            .all(|wall| wall.outer != Tag(2) || wall.inner == Tag(11))
    );
}

#[test]
fn a_point_under_a_dome_is_a_wall_along_the_axis() {
    let dome = Arc::dome(Point::new(20.0, 6.0), Point::new(22.0, 0.0)).unwrap();
    let outer = line(1, &[(0.0, 12.0), (20.0, 12.0)])
        .then(Tag(2), dome)
        .unwrap();
    let bore = greatest(&[drill(3, 17.0, 4.0)], 0.0, 22.0);
    let walls = walls(&[outer], &bore, |_, _| true);
    let crown = of(&walls, 2, 3);
    let tip = 17.0 + 2.0 / 59_f64.to_radians().tan();
    assert!((crown.least_mm - (22.0 - tip)).abs() < 1e-9, "{crown:?}");
    assert!((of(&walls, 1, 3).least_mm - 4.0).abs() < 1e-12);
}

#[test]
fn a_step_further_up_the_bore_does_not_face_the_dome() {
    let dome = Arc::dome(Point::new(20.0, 6.0), Point::new(22.0, 0.0)).unwrap();
    let outer = line(1, &[(0.0, 12.0), (20.0, 12.0)])
        .then(Tag(2), dome)
        .unwrap();
    let bore = greatest(
        &[drill(3, 17.0, 4.0), line(4, &[(0.0, 8.0), (9.0, 8.0)])],
        0.0,
        22.0,
    );
    let walls = walls(&[outer], &bore, |_, _| true);
    assert!(
        walls
            .iter()
            .all(|wall| (wall.outer, wall.inner) != (Tag(2), Tag(4))),
        "{walls:?}"
    );
}

#[test]
fn a_closed_end_is_a_wall_too() {
    let outer = line(1, &[(0.0, 12.0), (20.0, 12.0)]).before_face(Tag(2), 0.0);
    let flat = greatest(&[line(3, &[(0.0, 8.0), (18.5, 8.0)])], 0.0, 20.0);
    let walls = walls(&[outer], &flat, |_, _| true);
    let end = of(&walls, 2, 3);
    assert!((end.least_mm - 1.5).abs() < 1e-12);
    assert_eq!((end.from_mm, end.to_mm), (18.5, 20.0));
}

#[test]
fn a_shoulder_over_the_bottom_of_a_bore_is_a_wall() {
    let outer = line(1, &[(0.0, 8.0), (10.0, 8.0), (10.0, 16.0), (30.0, 16.0)]);
    let bore = greatest(
        &[
            line(2, &[(11.2, 12.0), (30.0, 12.0)]),
            line(3, &[(0.0, 4.0), (30.0, 4.0)]),
        ],
        0.0,
        30.0,
    );
    let found = walls(std::slice::from_ref(&outer), &bore, |_, _| true);
    // From the corner at 10, 4 to the edge of the bottom at 11.2, 4.
    assert!((of(&found, 1, 2).least_mm - 1.2).abs() < 1e-12, "{found:?}");
    assert!(
        walls(&[outer], &bore, |_, inner| inner != Tag(2))
            .iter()
            .all(|wall| wall.inner == Tag(3))
    );
}

#[test]
fn a_bore_that_breaks_through_says_by_how_much() {
    let outer = line(1, &[(0.0, 12.0), (40.0, 6.0)]);
    let through = walls(&[outer], &[line(2, &[(0.0, 8.0), (30.0, 8.0)])], |_, _| {
        true
    });
    assert!((through[0].least_mm - (7.5 - 8.0) / 2.0).abs() < 1e-12);
    assert_eq!(through[0].outer_at.z, 30.0);
    let touching = walls(
        &[line(1, &[(0.0, 8.0), (40.0, 8.0)])],
        &[line(2, &[(0.0, 8.0), (30.0, 8.0)])],
        |_, _| true,
    );
    assert_eq!(touching[0].least_mm, 0.0);
}

/// The waist's lowest place by the circle's own centre and radius, wherever along it that lies.
#[test]
fn a_waist_that_a_bore_breaks_through_is_deepest_at_its_lowest() {
    let waist = Arc::circular(Point::new(0.0, 6.0), Point::new(18.0, 6.5), 40.0, false).unwrap();
    let lowest = Point::new(waist.centre().z, waist.centre().r - 40.0);
    assert!(0.0 < lowest.z && lowest.z < 18.0, "{lowest:?}");
    let outer = Chain::new(vec![Segment {
        curve: Curve::Arc(waist),
        tag: Tag(1),
    }]);
    let bore = line(2, &[(0.0, 12.0), (18.0, 12.0)]);
    let through = of(&walls(&[outer.unwrap()], &[bore], |_, _| true), 1, 2);
    assert!(
        (through.least_mm - (lowest.r - 6.0)).abs() < 1e-12,
        "{through:?}"
    );
    assert!((through.outer_at.z - lowest.z).abs() < 1e-9, "{through:?}");
}

/// The tenon's end at 8 and 5, and a bore that stops at 8.3 with 4.6: 0.3 by 0.4.
#[test]
fn a_bore_that_stops_short_of_a_shoulder_leaves_a_neck() {
    let tenon = line(1, &[(0.0, 10.0), (8.0, 10.0)]);
    let shoulder = tenon.then_line(Tag(2), Point::new(8.0, 6.5)).unwrap();
    let outer = shoulder.then_line(Tag(2), Point::new(30.0, 6.5)).unwrap();
    let with_bore = |from: f64, dia: f64| {
        let bore = line(3, &[(from, dia), (30.0, dia)]);
        let bore = greatest(&[bore, line(4, &[(0.0, 4.0), (30.0, 4.0)])], 0.0, 30.0);
        walls(std::slice::from_ref(&outer), &bore, |_, _| true)
    };
    let neck = of(&with_bore(8.3, 9.2), 1, 3);
    assert!((neck.least_mm - 0.5).abs() < 1e-12, "{neck:?}");
    assert_eq!((neck.from_mm, neck.to_mm), (8.0, 8.3));
    // The drill is nearer to the tenon than a bore that stops further on.
    let far = with_bore(12.0, 9.2);
    assert!(
        far.iter()
            .all(|it| (it.outer, it.inner) != (Tag(1), Tag(3))),
        "{far:?}"
    );
    // A bore under the tenon is a wall over its own length.
    assert!((of(&with_bore(7.9, 9.2), 1, 3).least_mm - 0.4).abs() < 1e-12);
}
