use super::*;
use crate::{Arc, Cubic, Properties};
use proptest::prelude::*;

fn rod(tag: u32, from: f64, to: f64, dia: f64) -> Chain {
    Chain::polyline(
        Tag(tag),
        &[Point::new(from, dia / 2.0), Point::new(to, dia / 2.0)],
    )
    .unwrap()
}

fn outline(chain: &Chain) -> Vec<(u32, f64, f64, f64)> {
    let show = |segment: &Segment| {
        let (start, end) = (segment.curve.start(), segment.curve.end());
        (segment.tag.0, start.z, 2.0 * start.r, 2.0 * end.r)
    };
    chain.segments().iter().map(show).collect()
}

#[test]
fn a_tenon_and_its_reliefs_cut_the_outside() {
    let cut = smallest(&[
        rod(1, 0.0, 82.0, 14.4),
        rod(2, 0.0, 8.0, 12.9),
        rod(3, 5.5, 8.0, 12.0),
    ]);
    let wanted = [
        (2, 0.0, 12.9, 12.9),
        (3, 5.5, 12.9, 12.0),
        (3, 5.5, 12.0, 12.0),
        (3, 8.0, 12.0, 14.4),
        (1, 8.0, 14.4, 14.4),
    ];
    assert_eq!(cut.len(), 1);
    assert_eq!(outline(&cut[0]), wanted);
}

#[test]
fn drills_from_both_ends_leave_two_bores_or_one() {
    let drills = [
        rod(1, 0.0, 12.0, 9.3),
        rod(2, -1.0, 30.0, 8.0),
        rod(3, 40.0, 60.0, 6.0),
    ];
    let bores = greatest(&drills, 0.0, 50.0);
    assert_eq!(bores.len(), 2);
    assert_eq!(
        outline(&bores[0]),
        [
            (1, 0.0, 9.3, 9.3),
            (1, 12.0, 9.3, 8.0),
            (2, 12.0, 8.0, 8.0),
            (2, 30.0, 8.0, 0.0)
        ]
    );
    assert_eq!(
        outline(&bores[1]),
        [(3, 40.0, 0.0, 6.0), (3, 40.0, 6.0, 6.0)]
    );
    assert_eq!(
        greatest(&[rod(1, 0.0, 60.0, 8.0)], 0.0, 50.0)[0].end(),
        Point::new(50.0, 4.0)
    );
    assert!(greatest(&[], 0.0, 50.0).is_empty());
}

#[test]
fn of_two_that_agree_the_first_is_kept() {
    let bores = greatest(&[rod(1, 0.0, 10.0, 8.0), rod(2, 0.0, 20.0, 8.0)], 0.0, 20.0);
    assert_eq!(
        outline(&bores[0]),
        [(1, 0.0, 8.0, 8.0), (2, 10.0, 8.0, 8.0)]
    );
}

#[test]
fn a_face_keeps_the_tag_it_was_given() {
    let stepped = Chain::new([
        Segment {
            curve: Curve::line(Point::new(0.0, 5.0), Point::new(10.0, 5.0)),
            tag: Tag(1),
        },
        Segment {
            curve: Curve::line(Point::new(10.0, 5.0), Point::new(10.0, 6.0)),
            tag: Tag(9),
        },
        Segment {
            curve: Curve::line(Point::new(10.0, 6.0), Point::new(20.0, 6.0)),
            tag: Tag(2),
        },
    ]);
    let cut = smallest(&[stepped.unwrap(), rod(3, 0.0, 20.0, 30.0)]);
    assert_eq!(outline(&cut[0])[1], (9, 10.0, 10.0, 12.0));
}

fn chains() -> impl Strategy<Value = Chain> {
    let whole = |a: f64| (a / 4.0).round();
    (
        0..4_u32,
        0.0..80.0_f64,
        4.0..80.0_f64,
        1.0..9.0_f64,
        1.0..9.0_f64,
        -1.0..1.0_f64,
    )
        .prop_filter_map(
            "an arc that can be made",
            move |(kind, from, long, a, b, bend)| {
                let (start, end) = (
                    Point::new(whole(from), a),
                    Point::new(whole(from) + whole(long), b),
                );
                let curve = match kind {
                    0 => Curve::line(start, end),
                    1 => Curve::line(start, Point::new(end.z, a)),
                    2 => Curve::Arc(Arc::circular(start, end, 30.0, bend > 0.0)?),
                    _ => Curve::Cubic(Cubic::with_slopes(start, end, bend, -bend)?),
                };
                Some(Chain::single(Tag(kind), curve))
            },
        )
}

proptest! {
    #[test]
    fn the_outline_is_the_least_and_the_greatest_at_every_station(
        chains in prop::collection::vec(chains(), 1..6), z in 0.0..40.0_f64,
    ) {
        let radii: Vec<f64> = chains.iter().filter_map(|chain| chain.radii_at(z)).map(|(_, after)| after).collect();
        let at = |envelope: &[Chain]| envelope.iter().rev().find_map(|chain| chain.radii_at(z)).map(|(_, after)| after);
        let least = radii.iter().copied().reduce(f64::min);
        let most = radii.iter().copied().reduce(f64::max);
        for (wanted, found) in [(least, at(&smallest(&chains))), (most, at(&greatest(&chains, 0.0, 100.0)))] {
            prop_assert_eq!(wanted.is_some(), found.is_some());
            if let (Some(wanted), Some(found)) = (wanted, found) {
                prop_assert!((wanted - found).abs() < 1e-8, "{found} for {wanted}");
            }
        }
    }

    #[test]
    fn least_and_greatest_hold_together_what_both_hold(a in chains(), b in chains()) {
        let volume = |chains: &[Chain]| Properties::between(chains, []).volume_mm3;
        let (least, most) = (smallest(&[a.clone(), b.clone()]), greatest(&[a.clone(), b.clone()], 0.0, 100.0));
        let both = volume(&[a.clone(), b.clone()]);
        // Where only one covers a station, both envelopes hold it.
        let shared = (a.start().z.max(b.start().z), a.end().z.min(b.end().z));
        let alone = |chain: &Chain| {
            let before = chain.between(-1.0, shared.0.max(chain.start().z));
            let after = chain.between(shared.1.min(chain.end().z), 100.0);
            before.iter().chain(&after).map(|part| volume(std::slice::from_ref(part))).sum::<f64>()
        };
        if shared.0 < shared.1 {
            let found = volume(&least) + volume(&most);
            let wanted = both + alone(&a) + alone(&b);
            prop_assert!((found / wanted - 1.0).abs() < 1e-9, "{found} for {wanted}");
        }
    }
}
