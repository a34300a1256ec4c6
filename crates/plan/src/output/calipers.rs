//! Caliper tables: diameters at stations, for turning an outside down and for checking it.

use crate::AskedSize;
use crate::tasks::passes::{FINISH_OVER, ROUGH_OVER};
use quillet_geometry::Length;
use quillet_model::{End, Part};
use quillet_standards::fit::ZoneLimits;

/// Diameters along a part, from the face the maker measures from.
#[derive(Clone, Debug, PartialEq)]
pub struct CaliperTable {
    /// The end whose face is nought.
    pub from: End,
    /// One row a station, outward along the part.
    pub rows: Vec<CaliperRow>,
    /// The holes that a joint's fit gives limits of size, in the order of the joints.
    pub holes: Vec<AskedSize>,
}

/// One station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CaliperRow {
    /// The distance from the face.
    pub at: Length,
    /// The diameter that is turned and sanded to where the surface comes to it: the finished one, less
    /// what a coat brings.
    pub before: Length,
    /// The same where it leaves: another one at a step.
    pub after: Length,
    /// Where the parting tool stops: the larger of both, with what roughing leaves, to the
    /// nearest tenth.
    pub rough: Length,
    /// What it measures before sanding: the larger of both, with what finishing leaves.
    pub before_sanding: Length,
    /// It lies in a tenon or thread that is finished before the outside is turned: nothing is turned
    /// here any more.
    pub finished: bool,
    /// A feature begins or ends here; else it is a step of the table.
    pub edge: bool,
    /// The class that a joint's fit asks for here, with its limits of size.
    pub asked: Option<ZoneLimits>,
}

/// Stations nearer than this are one.
const SAME_MM: f64 = 0.005;
/// Diameters and places this near are those drawn.
const SAME_DIA: Length = Length::from_nm(1_000);
/// A step finer than this is no help.
const LEAST_STEP: Length = Length::from_nm(100_000);

/// The table of a part every `step` and at every edge of a feature, with what the fits of its
/// joints ask; none where the part's shape could not be worked out.
pub fn caliper_table(
    part: &Part,
    asked: &[AskedSize],
    from: End,
    step: Length,
) -> Option<CaliperTable> {
    let outer = part.profiles.as_ref()?.turned();
    let length = part.length.to_mm();
    let zones = crate::tasks::feature_map::ENDS.map(|end| part.zone(end));
    let inward = |at: f64| if from == End::First { at } else { length - at };
    let edges = outer.segments().iter();
    let edges = edges.flat_map(|it| [it.curve.start().z, it.curve.end().z]);
    let edges = [0.0, length].into_iter().chain(edges).map(inward);
    let kept = stations(edges, length, step.max(LEAST_STEP).to_mm());
    let row = |(at, edge): (f64, bool)| {
        let (low, high) = outer.radii_at(inward(at).clamp(0.0, length))?;
        let (before, after) = if from == End::First {
            (low, high)
        } else {
            (high, low)
        };
        let (before, after) = (Length::mm(before * 2.0), Length::mm(after * 2.0));
        let station = Length::mm(inward(at));
        let fitted = asked.iter().find(|it| {
            let near = |dia: Length| (dia - it.drawn).abs() <= SAME_DIA;
            let along = it.from - SAME_DIA <= station && station <= it.to + SAME_DIA;
            !it.inside && along && (near(before) || near(after))
        });
        let finished =
            zones[0] > station && station >= Length::ZERO || station > part.length - zones[1];
        // What is joined there is masked when the coat goes on.
        let masked = finished || fitted.is_some();
        let coat = if masked {
            Length::ZERO
        } else {
            part.coat_on_dia()
        };
        let (before, after) = (before - coat, after - coat);
        let larger = before.max(after);
        let tenths = ((larger + ROUGH_OVER).to_mm() * 10.0).round() / 10.0;
        let (rough, before_sanding) = (Length::mm(tenths), larger + FINISH_OVER);
        Some(CaliperRow {
            at: Length::mm(at),
            before,
            after,
            rough,
            before_sanding,
            finished,
            edge,
            asked: fitted.map(|it| it.class),
        })
    };
    Some(CaliperTable {
        from,
        rows: kept.into_iter().filter_map(row).collect(),
        holes: asked.iter().copied().filter(|it| it.inside).collect(),
    })
}

/// The edges and the steps of a length, inward, mm; beside each whether it is an edge.
fn stations(edges: impl Iterator<Item = f64>, length: f64, step: f64) -> Vec<(f64, bool)> {
    let mut stations: Vec<(f64, bool)> = edges.map(|at| (at, true)).collect();
    let steps = (length / step).floor() as u32;
    stations.extend((1..=steps).map(|count| (f64::from(count) * step, false)));
    // An edge stands for a step that falls on it.
    stations.sort_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)));
    let mut kept: Vec<(f64, bool)> = Vec::new();
    for (at, edge) in stations {
        match kept.last_mut() {
            Some(last) if at - last.0 < SAME_MM => {
                if edge && !last.1 {
                    *last = (at, true);
                }
            }
            _ => kept.push((at, edge)),
        }
    }
    kept
}
