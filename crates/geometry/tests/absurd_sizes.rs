//! Whatever finite sizes are asked for, every question is answered; and long parts take no more a
//! station than short ones.

use proptest::prelude::*;
use quillet_geometry::envelope::{greatest, smallest};
use quillet_geometry::walls::walls;
use quillet_geometry::{
    Chain, Edge, Length, MetalSide, Point, Properties, Shape, Station, Surface, Tag, outside,
};

fn sizes() -> impl Strategy<Value = Length> {
    prop_oneof![
        4 => (-20_000_000..90_000_000_i64).prop_map(Length::from_nm),
        1 => prop::sample::select(vec![0, 1, 2, -1, 1_000, 1_000_000_000_000_000, -1_000_000_000_000_000]).prop_map(Length::from_nm),
        1 => any::<i64>().prop_map(Length::from_nm),
    ]
}

fn stations() -> impl Strategy<Value = Station> {
    let shape = prop_oneof![
        Just(Shape::Straight),
        Just(Shape::Smooth),
        Just(Shape::Dome),
        sizes().prop_map(Shape::Bead),
        sizes().prop_map(Shape::Cove),
    ];
    let edge = prop::option::of(prop_oneof![
        sizes().prop_map(Edge::Round),
        sizes().prop_map(Edge::Chamfer)
    ]);
    (sizes(), sizes(), sizes(), any::<bool>(), shape, edge).prop_map(
        |(at, dia, other, step, shape, edge)| Station {
            at,
            arrives: dia,
            leaves: if step { other } else { dia },
            shape,
            edge,
            tag: Tag(1),
            edge_tag: Tag(2),
        },
    )
}

fn bores() -> impl Strategy<Value = Option<Chain>> {
    (sizes(), sizes(), sizes(), sizes()).prop_map(|(from, to, dia, end)| {
        let (from, to) = (
            Point::turned(from.min(to), dia),
            Point::turned(from.max(to), end),
        );
        Chain::polyline(Tag(3), &[from, to])
    })
}

proptest! {
    #[test]
    fn every_question_is_answered(
        stations in prop::collection::vec(stations(), 0..6),
        bores in prop::collection::vec(bores(), 0..4),
        edge in sizes(), z in sizes(), sorted in any::<bool>(),
    ) {
        let mut stations = stations;
        if sorted {
            stations.sort_by_key(|station| station.at);
        }
        let outer = smallest(&outside(&stations).chain.into_iter().collect::<Vec<_>>());
        let bores: Vec<Chain> = bores.into_iter().flatten().collect();
        let inner = greatest(&bores, 0.0, 82.0);
        smallest(&bores);
        walls(&outer, &inner, |_, _| true);
        Properties::between(&outer, &inner);
        let pieces = |chains: &[Chain]| -> Vec<_> {
            chains.iter().flat_map(Chain::segments).flat_map(|segment| segment.curve.monotone_pieces()).collect()
        };
        for one in pieces(&outer) {
            for other in pieces(&inner).iter().chain(&pieces(&outer)) {
                one.meeting(other);
                one.approach(other);
            }
        }
        for chain in outer.iter().chain(&inner) {
            Surface::of(chain);
            chain.kinks().count();
            chain.radii_at(z.to_mm());
            for side in [MetalSide::Outside, MetalSide::Bore] {
                for edge in [Edge::Round(edge), Edge::Chamfer(edge)] {
                    let _ = chain.with_edge(chain.start().z, edge, side, Tag(4));
                }
            }
        }
    }
}

#[test]
fn a_part_of_fifty_thousand_stations_is_cut() {
    let stations: Vec<Station> = (0..50_000)
        .map(|at| {
            let dia = Length::mm(12.0 + f64::from(at % 2));
            let leaves = Length::mm(12.5);
            let shape = if at % 3 == 0 {
                Shape::Smooth
            } else {
                Shape::Straight
            };
            let edge = (at % 2 == 1).then_some(Edge::Chamfer(Length::mm(0.1)));
            Station {
                at: Length::mm(f64::from(at)),
                arrives: dia,
                leaves,
                shape,
                edge,
                tag: Tag(at as u32),
                edge_tag: Tag(0),
            }
        })
        .collect();
    let made = outside(&stations);
    assert_eq!(made.flaws, []);
    let relief = |at: u32| {
        Chain::polyline(
            Tag(at),
            &[
                Point::new(f64::from(at), 5.0),
                Point::new(f64::from(at) + 0.5, 5.0),
            ],
        )
    };
    let mut chains: Vec<Chain> = made.chain.into_iter().collect();
    chains.extend((0..20_000).filter_map(relief));
    let cut = smallest(&chains);
    assert_eq!(cut.len(), 1);
    let drills: Vec<Chain> = (1..20_000_u32)
        .filter_map(|at| {
            Chain::polyline(
                Tag(at),
                &[
                    Point::new(0.0, 5.0 / f64::from(at)),
                    Point::new(f64::from(at), 5.0 / f64::from(at)),
                ],
            )
        })
        .collect();
    assert_eq!(
        greatest(&drills, 0.0, 50_000.0)[0].segments().len(),
        2 * 19_999
    );
}
