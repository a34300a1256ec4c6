//! Running dimensions in rows (ISO 129-1): distances from one datum, diameters beside them.

use super::column::DimensionColumn;
use super::spread::spread;
use super::view::{Half, ViewTransform};
use crate::scene::{Anchor, Layer, Path, Scene, Text, Xy};
use quillet_geometry::put_in_order;
use quillet_model::End;

/// Height of the figures, mm, and of those on a crowded drawing.
pub(super) const HEIGHTS_MM: [f64; 3] = [3.5, 2.5, 1.8];
/// From the outline to the first running line, and between two, mm.
const LINE_MM: f64 = 5.0;
/// The room in which extension lines spread, mm.
const SPREAD_MM: f64 = 4.5;
/// Between an extension line's end and its text, mm.
const GAP_MM: f64 = 0.6;
/// Between two rows, mm.
const ROW_GAP_MM: f64 = 2.2;

/// Rows of dimensions above or below a view.
pub(super) struct DimensionRows<'a> {
    half: Half,
    columns: &'a [DimensionColumn],
    height_mm: f64,
    pitch_mm: f64,
    /// How long the texts of the row beside the view are at most, and of the one beyond it.
    rows_mm: [f64; 2],
}

impl<'a> DimensionRows<'a> {
    /// Rows as large as a width lets them be, their figures no taller than `most_mm`.
    pub(super) fn new(
        half: Half,
        columns: &'a [DimensionColumn],
        width_mm: f64,
        most_mm: f64,
    ) -> DimensionRows<'a> {
        // A turned line takes its capitals and its descenders, and a little air.
        let pitch = |height: f64| 1.4 * height;
        let fits = |height: &f64| pitch(*height) * columns.len() as f64 <= width_mm;
        let heights = HEIGHTS_MM.into_iter().filter(|it| *it <= most_mm);
        let height_mm = heights.clone().find(fits).unwrap_or(HEIGHTS_MM[2]);
        DimensionRows {
            half,
            columns,
            height_mm,
            pitch_mm: pitch(height_mm),
            rows_mm: rows_mm(columns, height_mm),
        }
    }

    /// How far the rows reach from the view's outline, mm.
    pub(super) fn depth_mm(&self) -> f64 {
        if self.columns.is_empty() {
            return 4.0;
        }
        let [near, far] = self.rows_mm;
        let gap = if far > 0.0 { ROW_GAP_MM } else { 0.0 };
        self.lines_mm() + SPREAD_MM + near + gap + far
    }

    fn lines_mm(&self) -> f64 {
        let second = self
            .columns
            .iter()
            .any(|column| column.datum == Some(End::Second));
        LINE_MM + if second { LINE_MM } else { 0.0 }
    }

    /// Draws them, beginning `edge_mm` from the axis, within `x_mm` on the paper.
    pub(super) fn draw(
        &self,
        scene: &mut Scene,
        view: ViewTransform,
        edge_mm: f64,
        x_mm: (f64, f64),
        ends: [f64; 2],
    ) {
        if self.columns.is_empty() {
            return;
        }
        let sign = self.half.sign();
        let level = |from_edge: f64| view.origin.y + sign * (edge_mm + from_edge);
        let wanted: Vec<f64> = self
            .columns
            .iter()
            .map(|column| view.axis(column.at.z).x)
            .collect();
        // A turned text hangs to the left of its baseline: its middle is to stand on the line.
        let shift = self.height_mm / 2.0;
        let columns = spread(&wanted, self.pitch_mm, x_mm.0 + shift, x_mm.1 - shift);
        let lines = self.lines_mm();
        for ((column, x), want) in self.columns.iter().zip(&columns).zip(&wanted) {
            let from = view.place(self.half, column.at).moved(0.0, sign * 0.8);
            let path = Path::open(from)
                .line(Xy::new(*want, level(lines)))
                .line(Xy::new(*x, level(lines + SPREAD_MM - 1.5)))
                .line(Xy::new(*x, level(lines + SPREAD_MM - GAP_MM)));
            scene.stroke(Layer::Dimension, path);
            if column.datum.is_none() {
                scene.fill(
                    Layer::Dimension,
                    vec![Path::circle(view.place(self.half, column.at), 0.45)],
                );
            }
            self.write(scene, column, x + shift, level(lines + SPREAD_MM));
        }
        for (end, at) in [(End::First, 0), (End::Second, 1)] {
            let line = LINE_MM * (1.0 + at as f64);
            self.running(
                scene,
                view,
                end,
                ends[at],
                level(line),
                (level(0.0), level(lines)),
            );
        }
    }

    fn write(&self, scene: &mut Scene, column: &DimensionColumn, x: f64, y: f64) {
        let sign = self.half.sign();
        let anchor = if self.half == Half::Upper {
            Anchor::Start
        } else {
            Anchor::End
        };
        let mut put = |y: f64, words: String| {
            scene.text(turned(Xy::new(x, y), self.height_mm, words).anchored(anchor));
        };
        if column.datum.is_none() {
            return put(y, column.caption.clone());
        }
        put(y, distance(column));
        if !column.caption.is_empty() {
            let beyond = y + sign * (self.rows_mm[0] + ROW_GAP_MM);
            put(beyond, column.caption.clone());
        }
    }

    /// The line on which the distances from one end run: a circle at the datum, an arrowhead at
    /// each place.
    fn running(
        &self,
        scene: &mut Scene,
        view: ViewTransform,
        end: End,
        datum_z: f64,
        y: f64,
        reach: (f64, f64),
    ) {
        let datum = Xy::new(view.axis(datum_z).x, y);
        let mut places: Vec<f64> = self
            .columns
            .iter()
            .filter(|column| column.datum == Some(end))
            .map(|column| view.axis(column.at.z).x)
            .filter(|x| (x - datum.x).abs() > 1e-6)
            .collect();
        put_in_order(&mut places, |it| (it - datum.x).abs());
        let Some(last) = places.last() else { return };
        scene.line(Layer::Dimension, datum, Xy::new(*last, y));
        scene.line(
            Layer::Dimension,
            Xy::new(datum.x, reach.0),
            Xy::new(datum.x, reach.1),
        );
        scene.stroke(Layer::Dimension, Path::circle(datum, 1.0));
        let mut before = datum.x;
        for x in places {
            let room = (x - before).abs();
            if room > 1e-6 {
                scene.fill(
                    Layer::Dimension,
                    vec![mark(Xy::new(x, y), (x - before).signum(), room)],
                );
            }
            before = x;
        }
    }
}

/// An arrowhead of 2.5 mm, shorter where there is little room, a dot where there is none.
fn mark(at: Xy, way: f64, room_mm: f64) -> Path {
    let long = (room_mm - 0.4).min(2.5);
    if long < 1.0 {
        return Path::circle(at, 0.45);
    }
    let back = at.moved(-way * long, 0.0);
    // 15° between the sides (ISO 129-1).
    let half = long * 7.5_f64.to_radians().tan().max(0.16);
    Path::polygon(&[at, back.moved(0.0, half), back.moved(0.0, -half)])
}

/// How long the texts of both rows are at most; a name without a measure runs through both.
fn rows_mm(columns: &[DimensionColumn], height_mm: f64) -> [f64; 2] {
    let long = |words: String| turned(Xy::default(), height_mm, words).width_mm();
    let (mut near, mut far, mut both) = (0.0_f64, 0.0_f64, 0.0_f64);
    for column in columns {
        let caption = long(column.caption.clone());
        match column.datum {
            Some(_) => (near, far) = (near.max(long(distance(column))), far.max(caption)),
            None => both = both.max(caption),
        }
    }
    [near, far.max(both - near - ROW_GAP_MM)]
}

fn turned(at: Xy, height_mm: f64, words: String) -> Text {
    Text::new(at, height_mm, words).turned()
}

fn distance(column: &DimensionColumn) -> String {
    match column.datum {
        Some(End::Second) => format!("B {}", column.distance),
        _ => column.distance.clone(),
    }
}
