//! How far a male goes into a female, and what stops it.

use crate::chain::SAME;
use crate::{Chain, Curve, Point, Tag};

/// Where a male comes to rest in a female.
#[derive(Debug, Clone, PartialEq)]
pub struct Rest {
    /// How deep the male's zero station lies in the female when they touch, mm.
    pub depth_mm: f64,
    /// What touches, and what nearly does: the least reach first, at most one for each pair of tags.
    pub contacts: Vec<Contact>,
}

/// A place of the male that meets a place of the female.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contact {
    /// What of the male.
    pub male: Tag,
    /// What of the female.
    pub female: Tag,
    /// How deep the male's zero station lies in the female when these two meet, mm.
    pub reach_mm: f64,
    /// The radius at which they meet, mm.
    pub radius_mm: f64,
    /// The station on the male, mm behind its zero.
    pub male_at_mm: f64,
    /// The station on the female, mm inside its zero.
    pub female_at_mm: f64,
}

/// Slides the male in until it touches: `min over r of A(r) + D(r)`, where `A(r)` is the first
/// station of the male fatter than `r` and `D(r)` the first depth at which the female is narrower.
///
/// `males` are outsides, `z` running back from the leading end; `females` are insides, `z` running
/// in from the mouth. Each begins with the face that looks at the mate, if it has one: the male
/// with its leading face from the axis out, the female with its lip from the outside in. Several
/// chains are parts already joined, each in its place. Sizes that agree within 1e-9 mm pass.
///
/// Pairs of tags that `excused` names pass through each other (a male thread over the matching
/// female one). A face square to the axis passes as what it leads up to does: the front of a
/// thread is thread. A chamfer is asked about by its own tag.
///
/// Contacts up to `within_mm` past the least are listed with it. A face that has the tag of a
/// neighbour is named as what it leads up to. None where nothing ever touches.
pub fn rest(
    males: &[Chain],
    females: &[Chain],
    excused: impl Fn(Tag, Tag) -> bool,
    within_mm: f64,
) -> Option<Rest> {
    slide(
        males,
        females,
        &|male, female| !excused(male.passes_as, female.passes_as),
        within_mm,
    )
}

/// The contact of one pair of features, as if they alone could touch; less the depth at which the
/// male lies it is the axial clearance between them. None where they never meet.
pub fn reach(
    males: &[Chain],
    females: &[Chain],
    pair: impl Fn(Tag, Tag) -> bool,
) -> Option<Contact> {
    let named = |male: &Piece, female: &Piece| {
        [male.tag, male.passes_as].iter().any(|one| {
            [female.tag, female.passes_as]
                .iter()
                .any(|other| pair(*one, *other))
        })
    };
    slide(males, females, &named, 0.0)?
        .contacts
        .first()
        .copied()
}

fn slide(
    males: &[Chain],
    females: &[Chain],
    touch: &dyn Fn(&Piece, &Piece) -> bool,
    within_mm: f64,
) -> Option<Rest> {
    let (males, females) = (male_pieces(males), female_pieces(females));
    let meets = |male: &Piece, female: &Piece| {
        male.radius.1 > female.radius.1 + SAME && touch(male, female)
    };
    let mut contacts: Vec<Contact> = Vec::new();
    let mut least = f64::INFINITY;
    for (index, male) in males.iter().enumerate() {
        for (other, female) in females.iter().enumerate() {
            if male.at + female.at > least + within_mm || !meets(male, female) {
                continue;
            }
            let Some(contact) = meet(male, female) else {
                continue;
            };
            // A corner belongs to the piece that leads up to it, where that meets the mate at all.
            let on_male_corner =
                contact.male_at_mm <= male.at + SAME && contact.radius_mm <= male.corner;
            let on_female_corner =
                contact.female_at_mm <= female.at + SAME && contact.radius_mm >= female.corner;
            if (on_male_corner && male.follows && meets(&males[index - 1], female))
                || (on_female_corner && female.follows && meets(male, &females[other - 1]))
            {
                continue;
            }
            least = least.min(contact.reach_mm);
            contacts.push(contact);
        }
    }
    contacts.retain(|contact| contact.reach_mm <= least + within_mm);
    contacts.sort_by(|a, b| a.reach_mm.total_cmp(&b.reach_mm));
    let mut seen = Vec::new();
    contacts.retain(|contact| {
        let pair = (contact.male, contact.female);
        let first = !seen.contains(&pair);
        seen.push(pair);
        first
    });
    contacts.first().map(|first| Rest {
        depth_mm: first.reach_mm,
        contacts: contacts.clone(),
    })
}

/// A female's chain as it lies over the male's stations when the male is `depth_mm` in: for
/// clearances between the two by [`walls`](crate::walls::walls), the female outside.
pub fn over_male(female: &Chain, depth_mm: f64) -> Chain {
    female.reversed(depth_mm)
}

/// A piece that only comes nearer to the mate as `z` grows (a male's radius grows, a female's
/// falls), or one place.
struct Piece {
    tag: Tag,
    /// The tag by which it is excused.
    passes_as: Tag,
    /// True where the piece before leads up to its start.
    follows: bool,
    /// The radius of the corner at its start.
    corner: f64,
    shape: Option<Curve>,
    /// The first station.
    at: f64,
    /// The radius at the first and the last station.
    radius: (f64, f64),
}

impl Piece {
    fn station_at(&self, r: f64) -> f64 {
        self.shape
            .map_or(self.at, |curve| curve.point(curve.param_at_r(r)).z)
    }
}

fn male_pieces(chains: &[Chain]) -> Vec<Piece> {
    pieces(chains, |start, end| end > start, f64::max)
}

fn female_pieces(chains: &[Chain]) -> Vec<Piece> {
    pieces(chains, |start, end| end < start, f64::min)
}

fn pieces(
    chains: &[Chain],
    nears: fn(f64, f64) -> bool,
    foremost: fn(f64, f64) -> f64,
) -> Vec<Piece> {
    let mut pieces = Vec::new();
    for chain in chains {
        let segments = chain.segments();
        let mut follows = false;
        for (index, segment) in segments.iter().enumerate() {
            let is_face = segment.curve.is_vertical();
            let rises = nears(segment.curve.start().r, segment.curve.end().r);
            let before = index.checked_sub(1).and_then(|before| segments.get(before));
            // A face is the front of what it leads up to, or the back of what it leads away from.
            let beside = if rises {
                segments.get(index + 1)
            } else {
                before
            };
            let passes_as = beside
                .filter(|_| is_face)
                .map_or(segment.tag, |beside| beside.tag);
            let inherits = before.is_some_and(|before| before.tag == segment.tag);
            let tag = if inherits { passes_as } else { segment.tag };
            for curve in segment
                .curve
                .monotone_pieces()
                .iter()
                .flat_map(Curve::bent_to_one_side)
            {
                let (start, end) = (curve.start(), curve.end());
                let grows = nears(start.r, end.r);
                // Of a face only the foremost edge can touch, of a piece that draws back its start.
                let radius = match (is_face, grows) {
                    (true, _) => (foremost(start.r, end.r), foremost(start.r, end.r)),
                    (false, true) => (start.r, end.r),
                    (false, false) => (start.r, start.r),
                };
                pieces.push(Piece {
                    tag,
                    passes_as,
                    follows,
                    corner: start.r,
                    shape: (grows && !is_face).then_some(curve),
                    at: start.z,
                    radius,
                });
                follows = true;
            }
        }
    }
    pieces
}

/// The least reach of two pieces of which the male grows fatter than the female's narrowest.
fn meet(male: &Piece, female: &Piece) -> Option<Contact> {
    let contact = |a: f64, d: f64, radius_mm: f64| Contact {
        male: male.tag,
        female: female.tag,
        reach_mm: a + d,
        radius_mm,
        male_at_mm: a,
        female_at_mm: d,
    };
    // Radii at which both are on their way: between the male's first radius and its last, and
    // between the female's last and its first.
    let low = male.radius.0.max(female.radius.1);
    let high = male.radius.1.min(female.radius.0);
    if low >= high {
        // The male's start is fatter than the female's, or one of them is a single place.
        let r = if low > female.radius.0 {
            (male.radius.0 + female.radius.0) / 2.0
        } else {
            low
        };
        return Some(contact(male.station_at(r), female.station_at(r), r));
    }
    let (Some(one), Some(two)) = (&male.shape, &female.shape) else {
        return None;
    };
    let at = |r: f64| (male.station_at(r), female.station_at(r), r);
    let mut best = at(low);
    let mut offer = |found: (f64, f64, f64)| {
        if found.0 + found.1 < best.0 + best.1 {
            best = found;
        }
    };
    offer(at(high));
    // Between the ends they touch where their slopes are opposite: tangents parallel, one of them
    // turned end for end.
    match (one, two) {
        (Curve::Line(_), Curve::Line(_)) => {}
        (Curve::Line(line), curve) | (curve, Curve::Line(line)) => {
            let way = line.end - line.start;
            for t in curve.parallel_to(Point::new(way.z, -way.r)).as_slice() {
                offer(at(curve.point(*t).r.clamp(low, high)));
            }
        }
        _ => between_curves(one, two, (low, high), &mut |r| offer(at(r))),
    }
    let (a, d, r) = best;
    Some(contact(a, d, r))
}

/// Offers the radii between which `A + D` turns from falling to rising.
///
/// dA/dr and dD/dr only grow or only fall along pieces that bend to one side, so their values at
/// the ends of a stretch bound them between; a stretch is halved until the sum cannot be zero in
/// it or cannot matter by more than 1e-9 mm.
fn between_curves(one: &Curve, two: &Curve, (low, high): (f64, f64), offer: &mut dyn FnMut(f64)) {
    /// A radius with dz/dr of the male and of the female.
    type Node = (f64, f64, f64);
    const NO_MATTER_MM: f64 = 1e-9;
    let run = |curve: &Curve, r: f64| {
        let way = curve.tangent(curve.param_at_r(r));
        way.z / way.r.abs()
    };
    // Rounding may turn the sign where a curve runs level.
    let node = |r: f64| -> Node { (r, run(one, r), -run(two, r)) };
    let mut waiting = vec![(node(low), node(high), 0)];
    while let Some((left, right, depth)) = waiting.pop() {
        let least = left.1.min(right.1) + left.2.min(right.2);
        let most = left.1.max(right.1) + left.2.max(right.2);
        let settled =
            least >= 0.0 || most <= 0.0 || (most - least) * (right.0 - left.0) < NO_MATTER_MM;
        let middle = (left.0 + right.0) / 2.0;
        offer(middle);
        if !settled && depth < 50 {
            let middle = node(middle);
            waiting.push((left, middle, depth + 1));
            waiting.push((middle, right, depth + 1));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::walls::walls;
    use crate::{Arc, Length, Shape, Station, outside};
    use proptest::prelude::*;

    fn line(tag: u32, places: &[(f64, f64)]) -> Chain {
        let places: Vec<Point> = places
            .iter()
            .map(|&(z, dia)| Point::new(z, dia / 2.0))
            .collect();
        Chain::polyline(Tag(tag), &places).unwrap()
    }

    fn joined(chains: &[Chain]) -> Chain {
        Chain::new(chains.iter().flat_map(|chain| chain.segments().to_vec())).unwrap()
    }

    fn alone(male: &Chain, female: &Chain) -> Option<Rest> {
        rest(
            std::slice::from_ref(male),
            std::slice::from_ref(female),
            |_, _| false,
            0.05,
        )
    }

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

    /// Random profiles on whole micrometres: up to six spans, steps, tapers and curves.
    fn profiles() -> impl Strategy<Value = Chain> {
        let shape = prop_oneof![
            Just(Shape::Straight),
            Just(Shape::Smooth),
            Just(Shape::Dome),
            (300..900_i64).prop_map(|r| Shape::Bead(Length::from_nm(r * 1000))),
            (300..900_i64).prop_map(|r| Shape::Cove(Length::from_nm(r * 1000))),
        ];
        let station = (
            40..250_i64,
            300..1400_i64,
            prop::option::of(300..1400_i64),
            shape,
        );
        prop::collection::vec(station, 2..7).prop_filter_map("a chain", |stations| {
            let mut at = Length::ZERO;
            let stations: Vec<Station> = stations
                .iter()
                .enumerate()
                .map(|(index, (step, dia, leaves, shape))| {
                    let made = Station {
                        at,
                        arrives: Length::from_nm(dia * 1000),
                        leaves: Length::from_nm(leaves.unwrap_or(*dia) * 1000),
                        shape: *shape,
                        edge: None,
                        tag: Tag(index as u32),
                        edge_tag: Tag(99),
                    };
                    at += Length::from_nm(step * 1000);
                    made
                })
                .collect();
            // A step at an end would be a face that no station of the sampled profile shows.
            let last = stations.len() - 1;
            let mut stations = stations;
            stations[0].arrives = stations[0].leaves;
            stations[last].leaves = stations[last].arrives;
            outside(&stations).chain
        })
    }

    /// The radius at every micrometre, at steps the one that `pick` takes.
    fn every_micrometre(chain: &Chain, pick: fn(f64, f64) -> f64) -> Vec<f64> {
        let count = (chain.end().z * 1000.0).round() as usize;
        (0..=count)
            .filter_map(|at| chain.radii_at(at as f64 / 1000.0))
            .map(|(before, after)| pick(before, after))
            .collect()
    }

    proptest! {
        #[test]
        fn sliding_in_by_micrometres_stops_at_the_same_depth(male in profiles(), female in profiles()) {
            let (outside, inside) = (every_micrometre(&male, f64::max), every_micrometre(&female, f64::min));
            let mut slid = usize::MAX;
            for (a, fat) in outside.iter().enumerate() {
                if let Some(d) = inside.iter().take(slid.saturating_sub(a)).position(|narrow| *fat > narrow + 1e-9) {
                    slid = slid.min(a + d);
                }
            }
            let found = alone(&male, &female);
            prop_assert_eq!(found.is_some(), slid != usize::MAX);
            if let Some(found) = found {
                let late = slid as f64 - 1000.0 * found.depth_mm;
                prop_assert!((-1e-5..2.5).contains(&late), "slid to {slid} µm, computed {found:?}");
                for contact in &found.contacts {
                    prop_assert!((contact.male_at_mm + contact.female_at_mm - contact.reach_mm).abs() < 1e-12);
                    prop_assert!(contact.reach_mm <= found.depth_mm + 0.05);
                }
            }
        }

        #[test]
        fn excused_pairs_pass_and_no_others(
            male in prop::collection::vec((20..100_usize, 300..700_i32), 1..7),
            female in prop::collection::vec((20..100_usize, 300..700_i32), 1..7),
            excused in prop::collection::vec(any::<bool>(), 49),
        ) {
            let is_excused = |one: usize, other: usize| excused[7 * one + other];
            let steps = |spans: &[(usize, i32)]| -> Vec<(usize, i32)> {
                spans.iter().enumerate().flat_map(|(index, (long, r))| std::iter::repeat_n((index, *r), *long)).collect()
            };
            let (outside, inside) = (steps(&male), steps(&female));
            let slid = (0..outside.len()).flat_map(|a| (0..inside.len()).map(move |d| (a, d)))
                .filter(|&(a, d)| outside[a].1 > inside[d].1 && !is_excused(outside[a].0, inside[d].0))
                .map(|(a, d)| a + d).min();
            let chain = |spans: &[(usize, i32)]| {
                let mut z = 0;
                joined(&spans.iter().enumerate().map(|(index, (long, r))| {
                    let start = z as f64 / 1000.0;
                    z += long;
                    line(index as u32, &[(start, f64::from(*r) / 500.0), (z as f64 / 1000.0, f64::from(*r) / 500.0)])
                }).collect::<Vec<_>>())
            };
            let found = rest(&[chain(&male)], &[chain(&female)], |one, other| is_excused(one.0 as usize, other.0 as usize), 0.0);
            let depth = found.map(|rest| (rest.depth_mm * 1000.0).round() as usize);
            prop_assert_eq!(depth, slid);
        }
    }
}
