//! The solids of `revolution_oracle.csv`, built from their segments.

use std::collections::BTreeMap;

use quillet_geometry::{Arc, Chain, Cubic, Curve, Point, Segment, Tag};
use quillet_reference::Row;

/// One solid of the table and what is said of it.
#[derive(Default)]
pub(crate) struct Case {
    /// The rows that say a value, by the value's name.
    pub(crate) values: BTreeMap<String, Row>,
    segments: BTreeMap<String, Vec<Segment>>,
}

impl Case {
    /// The chain of this name, tagged by the place of each piece.
    pub(crate) fn chain(&self, name: &str) -> Option<Chain> {
        Chain::new(self.segments.get(name)?.iter().copied())
    }
}

/// All solids by name.
pub(crate) fn cases() -> BTreeMap<String, Case> {
    let mut cases: BTreeMap<String, Case> = BTreeMap::new();
    for row in quillet_reference::rows("revolution_oracle.csv") {
        let case = cases.entry(row.text("case").to_owned()).or_default();
        let item = row.text("item").to_owned();
        match row.text("kind") {
            "seg" => case.segments.entry(item).or_default().push(segment(&row)),
            "val" => assert!(
                case.values.insert(item, row.clone()).is_none(),
                "{row}: said twice"
            ),
            other => panic!("{row}: unknown kind {other:?}"),
        }
    }
    cases
}

fn segment(row: &Row) -> Segment {
    let (start, end) = (
        Point::new(row.number("z0"), row.number("r0")),
        Point::new(row.number("z1"), row.number("r1")),
    );
    let curve = match row.text("type") {
        "line" => Curve::line(start, end),
        "arc" => Arc::circular(start, end, row.number("c3"), row.number("c4") < 0.0)
            .expect("an arc")
            .into(),
        "bezier" => {
            let inner = |z: &str, r: &str| Point::new(row.number(z), row.number(r));
            Cubic::new([start, inner("c1", "c2"), inner("c3", "c4"), end])
                .expect("a cubic")
                .into()
        }
        other => panic!("{row}: unknown type {other:?}"),
    };
    if let Curve::Arc(arc) = curve {
        let centre = Point::new(row.number("c1"), row.number("c2"));
        assert!(
            arc.centre().distance(centre) < 1e-9,
            "{row}: centre {:?}",
            arc.centre()
        );
    }
    Segment {
        curve,
        tag: Tag(row.number("index") as u32),
    }
}
