use super::*;

fn station(at: f64, dia: f64, shape: Shape) -> Station {
    let dia = Length::mm(dia);
    let tag = Tag((at * 10.0) as u32);
    Station {
        at: Length::mm(at),
        arrives: dia,
        leaves: dia,
        shape,
        edge: None,
        tag,
        edge_tag: Tag(9999),
    }
}

fn radius(outside: &Outside, z: f64) -> f64 {
    outside.chain.as_ref().unwrap().radii_at(z).unwrap().1
}

#[test]
fn the_worked_barrel_is_smooth_into_its_dome() {
    let barrel = outside(&[
        station(8.0, 14.4, Shape::Straight),
        station(42.0, 13.8, Shape::Smooth),
        station(76.0, 10.8, Shape::Smooth),
        station(82.0, 0.0, Shape::Dome),
    ]);
    assert_eq!(barrel.flaws, []);
    let chain = barrel.chain.as_ref().unwrap();
    assert!((radius(&barrel, 42.0) - 6.9).abs() < 1e-15);
    assert!(
        chain.kinks().all(|kink| kink.turn_deg.abs() < 1e-9),
        "{:?}",
        chain.kinks().collect::<Vec<_>>()
    );
    assert_eq!(
        chain
            .segments()
            .iter()
            .map(|piece| piece.tag.0)
            .collect::<Vec<_>>(),
        [420, 760, 820]
    );
    assert_eq!(chain.end(), Point::new(82.0, 0.0));
}

#[test]
fn a_smooth_takes_the_slope_of_a_line_and_is_free_at_a_step() {
    let mut stations = [
        station(0.0, 10.0, Shape::Straight),
        station(10.0, 12.0, Shape::Straight),
        station(20.0, 16.0, Shape::Smooth),
    ];
    let slope = |outside: &Outside| {
        outside
            .chain
            .as_ref()
            .unwrap()
            .segments()
            .last()
            .unwrap()
            .curve
            .slope(0.0)
    };
    assert!((slope(&outside(&stations)) - 0.1).abs() < 1e-12);
    stations[1].leaves = Length::mm(13.0);
    assert!((slope(&outside(&stations)) - 0.15).abs() < 1e-12);
    assert_eq!(
        outside(&stations).chain.unwrap().segments()[1].tag,
        Tag(100)
    );
}

#[test]
fn beads_and_coves_pass_through_their_stations() {
    for (shape, middle) in [
        (Shape::Bead(Length::mm(5.0)), 8.0),
        (Shape::Cove(Length::mm(5.0)), 6.0),
    ] {
        // Over a chord of 6 a radius of 5 rises by 1.
        let ring = outside(&[
            station(0.0, 14.0, Shape::Straight),
            station(6.0, 14.0, shape),
        ]);
        assert!((radius(&ring, 3.0) - middle).abs() < 1e-12);
    }
}

#[test]
fn an_arc_too_tight_is_said_with_the_least_that_can_be_made() {
    let made = |radius: Length| {
        outside(&[
            station(0.0, 14.0, Shape::Straight),
            station(4.0, 20.0, Shape::Bead(radius)),
        ])
    };
    let tight = made(Length::mm(3.0));
    let [
        StationFlaw {
            station: 1,
            flaw: Flaw::ArcTooTight { least },
        },
    ] = tight.flaws[..]
    else {
        panic!("{:?}", tight.flaws)
    };
    assert_eq!(least, Length::mm(3.125));
    assert!((radius(&tight, 2.0) - 8.5).abs() < 1e-12);
    assert_eq!(made(least).flaws, []);
    assert_eq!(made(least - Length::mm(0.001)).flaws.len(), 1);
}

#[test]
fn edges_are_broken_at_ends_and_steps() {
    let mut stations = [
        station(0.0, 10.0, Shape::Straight),
        station(10.0, 10.0, Shape::Straight),
        station(20.0, 12.0, Shape::Straight),
    ];
    stations[1].leaves = Length::mm(12.0);
    for station in &mut stations {
        station.edge = Some(Edge::Round(Length::mm(0.5)));
    }
    let made = outside(&stations);
    assert_eq!(made.flaws, []);
    let chain = made.chain.as_ref().unwrap();
    assert_eq!(
        chain
            .segments()
            .iter()
            .filter(|piece| piece.tag == Tag(9999))
            .count(),
        3
    );
    assert_eq!(
        (chain.start(), chain.end()),
        (Point::new(0.0, 4.5), Point::new(20.0, 5.5))
    );
    stations[2].edge = Some(Edge::Chamfer(Length::mm(30.0)));
    assert_eq!(
        outside(&stations).flaws,
        [StationFlaw {
            station: 2,
            flaw: Flaw::Edge(EdgeFlaw::TooLarge)
        }]
    );
}

#[test]
fn absurd_stations_give_flaws_and_no_panic() {
    assert_eq!(outside(&[]).chain, None);
    assert_eq!(outside(&[station(0.0, 10.0, Shape::Dome)]).chain, None);
    let odd = [
        station(5.0, 10.0, Shape::Straight),
        station(5.0, 12.0, Shape::Straight),
        station(1.0, 12.0, Shape::Smooth),
        station(1e9, 1e9, Shape::Smooth),
        station(1e9 + 1.0, 0.0, Shape::Dome),
    ];
    let made = outside(&odd);
    assert_eq!(
        made.flaws
            .iter()
            .map(|flaw| flaw.station)
            .collect::<Vec<_>>(),
        [1, 2]
    );
    assert!(made.chain.is_some());
    for shape in [
        Shape::Straight,
        Shape::Smooth,
        Shape::Dome,
        Shape::Bead(Length::ZERO),
        Shape::Cove(Length::MAX),
    ] {
        for dia in [0.0, -5.0, 1e9] {
            let mut last = station(1e-6, dia, shape);
            last.edge = Some(Edge::Round(Length::mm(1.0)));
            outside(&[station(0.0, 10.0, shape), last]);
        }
    }
}
