//! Rest positions by hand and in closed form.

use quillet_geometry::contact::{over_male, reach, rest};
use quillet_geometry::walls::walls;
use quillet_geometry::{Arc, Chain, Point, Tag};

use super::{alone, joined, line};

/// Tenon 8 long and 9.9 thick under a shoulder, into a mouth of 10.0: by hand.
#[test]
fn a_tenon_goes_in_to_its_shoulder_or_to_the_bottom() {
    let male = line(1, &[(0.0, 9.9), (8.0, 9.9)]).after_face(Tag(8), 0.0);
    let male = joined(&[male, line(2, &[(8.0, 11.4), (22.0, 11.4)])]);
    let female = |depth: f64| {
        joined(&[
            line(3, &[(0.0, 10.0), (depth, 10.0)]).after_face(Tag(9), 7.0),
            line(4, &[(depth, 8.0), (50.0, 8.0)]),
        ])
    };
    let deep = alone(&male, &female(12.0)).unwrap();
    assert_eq!(deep.depth_mm, 8.0);
    assert_eq!(deep.contacts.len(), 1);
    assert_eq!(
        (deep.contacts[0].male, deep.contacts[0].female),
        (Tag(2), Tag(9))
    );
    let shallow = alone(&male, &female(6.0)).unwrap();
    assert_eq!(shallow.depth_mm, 6.0);
    assert_eq!(
        (shallow.contacts[0].male, shallow.contacts[0].female),
        (Tag(8), Tag(4))
    );
    let both = alone(&male, &female(7.96)).unwrap();
    assert_eq!(
        both.contacts
            .iter()
            .map(|contact| contact.reach_mm)
            .collect::<Vec<_>>(),
        [7.96, 8.0]
    );
    let gap = reach(
        std::slice::from_ref(&male),
        &[female(6.0)],
        |male, female| (male, female) == (Tag(2), Tag(9)),
    );
    assert_eq!(gap.unwrap().reach_mm - shallow.depth_mm, 2.0);
}

#[test]
fn what_is_never_fatter_passes_and_size_on_size_passes() {
    let through = line(3, &[(0.0, 8.0), (50.0, 8.0)]);
    assert_eq!(
        alone(
            &line(1, &[(0.0, 7.9), (90.0, 7.9)]).after_face(Tag(1), 0.0),
            &through
        ),
        None
    );
    assert_eq!(
        alone(
            &line(1, &[(0.0, 8.0), (90.0, 8.0)]).after_face(Tag(1), 0.0),
            &through
        ),
        None
    );
    assert_eq!(
        alone(&line(1, &[(0.0, 8.0), (90.0, 8.1)]), &through)
            .unwrap()
            .depth_mm,
        0.0
    );
}

/// A male cone of slope tan 5° in a female one of tan 3° touches at the female's mouth or at
/// the male's front, by similar triangles.
#[test]
fn cone_in_cone_touches_where_similar_triangles_say() {
    let (steep, slow) = (5_f64.to_radians().tan(), 3_f64.to_radians().tan());
    let cone = |front: f64, slope: f64| {
        line(
            1,
            &[(0.0, 2.0 * front), (20.0, 2.0 * (front + 20.0 * slope))],
        )
    };
    let taper = |mouth: f64, slope: f64| {
        line(
            2,
            &[(0.0, 2.0 * mouth), (20.0, 2.0 * (mouth - 20.0 * slope))],
        )
    };
    let found = alone(&cone(4.0, steep), &taper(5.0, slow)).unwrap();
    assert!((found.depth_mm - 1.0 / steep).abs() < 1e-12);
    assert!((found.contacts[0].radius_mm - 5.0).abs() < 1e-12);
    let found = alone(&cone(4.5, slow), &taper(5.0, steep)).unwrap();
    assert!((found.depth_mm - 0.5 / steep).abs() < 1e-12);
    assert!((found.contacts[0].radius_mm - 4.5).abs() < 1e-12);
}

/// A ball of radius R in a cone of half angle α has its centre R / sin α before the apex.
#[test]
fn a_ball_in_a_cone_rests_as_its_half_angle_says() {
    let (ball, half) = (4.0, 59_f64.to_radians());
    let at = Point::new;
    let sphere = Chain::single(
        Tag(1),
        Arc::circular(at(0.0, 0.0), at(2.0 * ball, 0.0), ball, true).unwrap(),
    );
    let apex = 12.0 + 5.0 / half.tan();
    let drilled = line(2, &[(0.0, 10.0), (12.0, 10.0), (apex, 0.0)]);
    let found = alone(&sphere, &drilled).unwrap();
    assert!(
        (found.depth_mm - (apex - ball / half.sin() + ball)).abs() < 1e-9,
        "{found:?}"
    );
    assert!((found.contacts[0].radius_mm - ball * half.cos()).abs() < 1e-6);
}

/// A ball of radius r in a hollow ball of radius R touches at the pole; a ball wider than a
/// hollow mouth rides on its edge, √(R² − m²) from the centre.
#[test]
fn ball_on_ball_and_ball_on_an_edge() {
    let at = Point::new;
    let sphere = |radius: f64| {
        Chain::single(
            Tag(1),
            Arc::circular(at(0.0, 0.0), at(2.0 * radius, 0.0), radius, true).unwrap(),
        )
    };
    let hollow = Chain::single(
        Tag(2),
        Arc::circular(at(0.0, 5.0), at(5.0, 0.0), 5.0, true).unwrap(),
    );
    assert!((alone(&sphere(4.0), &hollow).unwrap().depth_mm - 5.0).abs() < 1e-9);
    let ring = line(3, &[(0.0, 6.0), (10.0, 6.0)]).after_face(Tag(3), 8.0);
    let wanted = 5.0 - 16_f64.sqrt();
    assert!((alone(&sphere(5.0), &ring).unwrap().depth_mm - wanted).abs() < 1e-12);
}

/// A cap's mouth on a tapering barrel: where the barrel is as fat as the mouth.
#[test]
fn a_cap_posts_where_the_barrel_fills_its_mouth() {
    let dome = Arc::dome(Point::new(0.0, 0.0), Point::new(6.0, 5.4)).unwrap();
    let barrel = Chain::single(Tag(1), dome)
        .then_line(Tag(2), Point::new(40.0, 6.9))
        .unwrap();
    let cap = joined(&[
        line(3, &[(0.0, 13.1), (2.5, 13.1)]),
        line(4, &[(2.5, 12.2), (54.0, 12.2)]),
    ]);
    let found = alone(&barrel, &cap.after_face(Tag(5), 7.6)).unwrap();
    let fat = |r: f64| 6.0 + (r - 5.4) / 1.5 * 34.0;
    assert!((found.depth_mm - (fat(6.1) + 2.5)).abs() < 1e-9);
    assert_eq!(
        (found.contacts[0].male, found.contacts[0].female),
        (Tag(2), Tag(4))
    );
}

/// Male thread 13.0 behind a land, female thread of minor 12.13 behind a mouth of 13.1.
#[test]
fn threads_pass_each_other_and_nothing_else() {
    let (thread, minor) = (Tag(1), Tag(2));
    let male = |land: f64| {
        let fronted = joined(&[
            line(5, &[(0.0, land), (1.5, land)]),
            line(1, &[(1.5, 13.0), (5.5, 13.0)]),
        ]);
        joined(&[
            fronted,
            line(6, &[(5.5, 12.0), (8.0, 12.0)]),
            line(7, &[(8.0, 14.4), (40.0, 14.4)]),
        ])
        .after_face(Tag(8), 0.0)
    };
    let female = joined(&[
        line(3, &[(0.0, 13.1), (2.5, 13.1)]),
        line(2, &[(2.5, 12.13), (7.5, 12.13)]),
        line(4, &[(7.5, 12.2), (54.0, 12.2)]),
    ]);
    let female = female.after_face(Tag(9), 7.6);
    let excused = |one: Tag, other: Tag| (one, other) == (thread, minor);
    let closed =
        |land: f64| rest(&[male(land)], std::slice::from_ref(&female), excused, 0.05).unwrap();
    // The thread has passed the female one and stops on the bore behind it.
    let free = closed(12.0);
    assert_eq!(
        (
            free.depth_mm,
            free.contacts[0].male,
            free.contacts[0].female
        ),
        (8.0, Tag(7), Tag(9))
    );
    // A land fatter than the crest of the female thread cannot enter it.
    let blocked = closed(12.2);
    assert_eq!(
        (
            blocked.depth_mm,
            blocked.contacts[0].male,
            blocked.contacts[0].female
        ),
        (2.5, Tag(8), Tag(2))
    );
    let travel = reach(
        &[male(12.0)],
        std::slice::from_ref(&female),
        |one, other| (one, other) == (thread, Tag(4)),
    );
    assert_eq!(travel.unwrap().reach_mm, 9.0);
}

#[test]
fn clearances_lie_between_the_two_at_rest() {
    let male = line(1, &[(0.0, 7.4), (40.0, 7.4)]).after_face(Tag(1), 0.0);
    let female = line(2, &[(0.0, 8.0), (50.0, 8.0), (52.0, 0.0)]);
    let found = walls(&[over_male(&female, 45.0)], &[male], |_, _| true);
    assert!((found[0].least_mm - 0.3).abs() < 1e-12);
    assert_eq!((found[0].from_mm, found[0].to_mm), (0.0, 40.0));
}
