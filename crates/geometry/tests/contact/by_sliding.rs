//! Rest positions against a slide by micrometres, over random profiles.

use proptest::prelude::*;
use quillet_geometry::{Chain, Length, Shape, Station, Tag, outside};

use super::rest;

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
        let found = rest(&male, &female);
        prop_assert_eq!(found.is_some(), slid != usize::MAX);
        if let Some(found) = found {
            let late = slid as f64 - 1000.0 * found.travel_mm;
            prop_assert!((-1e-5..2.5).contains(&late), "slid to {slid} µm, computed {found:?}");
        }
    }
}
