//! What a maker ticks and fills in on a page.

use super::{Canvas, Field, TICK_MM};
use crate::scene::{Layer, Path};

impl Canvas {
    /// A box to tick, its left upper corner given.
    pub(in crate::sheet) fn tick(&mut self, x: f64, down: f64, key: &str) {
        self.tick_of((x, down), TICK_MM, key);
    }

    /// A box of another size.
    pub(in crate::sheet) fn tick_of(&mut self, (x, down): (f64, f64), side: f64, key: &str) {
        let corner = self.at(x, down + side);
        self.scene
            .stroke(Layer::Fine, Path::rectangle(corner, side, side));
        self.fields.push(Field {
            key: key.to_owned(),
            ticks: true,
            at: (x, down),
            size: (side, side),
        });
    }

    /// A box that is ticked: nothing is to be filled in.
    pub(in crate::sheet) fn ticked(&mut self, x: f64, down: f64) {
        let corner = self.at(x, down + 4.0);
        let square = Path::rectangle(corner, 4.0, 4.0);
        self.scene.stroke(Layer::Fine, square);
        let (elbow, top) = (corner.moved(1.6, 0.8), corner.moved(3.4, 3.4));
        let tick = Path::open(corner.moved(0.6, 2.0)).line(elbow).line(top);
        self.scene.stroke(Layer::Head, tick);
    }

    /// A line to write on, and what is above it to be filled in.
    pub(in crate::sheet) fn blank(&mut self, (x, to): (f64, f64), down: f64, high: f64, key: &str) {
        self.rule(Layer::Frame, x, to, down);
        self.field((x, down - high), (to - x, high), key);
    }

    /// Lines to write on side by side, one for each of what is to be filled in.
    pub(in crate::sheet) fn blanks(
        &mut self,
        (x, to): (f64, f64),
        down: f64,
        high: f64,
        keys: &[String],
    ) {
        const BETWEEN: f64 = 1.6;
        let wide = (to - x + BETWEEN) / keys.len().max(1) as f64;
        for (at, key) in keys.iter().enumerate() {
            let from = x + wide * at as f64;
            self.blank((from, from + wide - BETWEEN), down, high, key);
        }
    }

    /// Room to write in without a line.
    pub(in crate::sheet) fn field(&mut self, at: (f64, f64), size: (f64, f64), key: &str) {
        self.fields.push(Field {
            key: key.to_owned(),
            ticks: false,
            at,
            size,
        });
    }
}
