//! The data of paths in few letters: places on a grid, each told by the way from the last.

use crate::scene::{Path, PathElement, Xy};
use std::f64::consts::PI;
use std::fmt::Write as _;

/// Paths one after the other, as the data of one. What is rounded is each place, never the way to it, so
/// nothing adds up.
pub(super) struct CompactPaths {
    data: String,
    height_mm: f64,
    /// How many places after the point, and how many of the last one make a millimetre.
    places: usize,
    unit: f64,
    /// Where the pen is, on the grid; `y` runs down.
    at: [i64; 2],
    /// What is done where no letter says so.
    goes_on: char,
    /// The last number has a point.
    pointed: bool,
}

impl CompactPaths {
    pub(super) fn new(height_mm: f64, places: usize) -> CompactPaths {
        CompactPaths {
            data: String::new(),
            height_mm,
            places,
            unit: 10_f64.powi(i32::try_from(places).unwrap_or(0)),
            at: [0; 2],
            goes_on: ' ',
            pointed: false,
        }
    }

    /// What was added, written.
    pub(super) fn data(self) -> String {
        self.data
    }

    pub(super) fn path(&mut self, path: &Path) {
        let start = self.grid(path.start);
        self.begin(start);
        for step in &path.steps {
            match *step {
                PathElement::Line(to) => self.line(to),
                PathElement::Cubic(a, b, to) => {
                    let from = self.at;
                    self.letter('c');
                    for place in [a, b, to].map(|it| self.grid(it)) {
                        self.way(from, place);
                        self.at = place;
                    }
                }
                PathElement::Arc {
                    semi,
                    sweep_rad,
                    to,
                    ..
                } => {
                    self.letter('a');
                    let radii = [semi.x, semi.y].map(|it| self.steps(it));
                    radii.into_iter().for_each(|it| self.number(it));
                    // `y` runs down here, so anticlockwise on paper is the negative sense.
                    let flags = [false, sweep_rad.abs() > PI, sweep_rad < 0.0];
                    flags
                        .into_iter()
                        .for_each(|it| self.number(i64::from(it) * self.unit as i64));
                    let place = self.grid(to);
                    self.way(self.at, place);
                    self.at = place;
                }
            }
        }
        if path.closed {
            self.data.push('z');
            (self.goes_on, self.at) = (' ', start);
        }
    }

    /// A line by itself.
    pub(super) fn segment(&mut self, [from, to]: [Xy; 2]) {
        let start = self.grid(from);
        self.begin(start);
        self.line(to);
    }

    fn begin(&mut self, start: [i64; 2]) {
        // The first way is from the corner, and a line follows where no letter says otherwise.
        self.letter('m');
        self.way(self.at, start);
        (self.at, self.goes_on) = (start, 'l');
    }

    /// Along and across, one number says where to.
    fn line(&mut self, to: Xy) {
        let place = self.grid(to);
        let [across, down] = [place[0] - self.at[0], place[1] - self.at[1]];
        match (across, down) {
            (_, 0) => {
                self.letter('h');
                self.number(across);
            }
            (0, _) => {
                self.letter('v');
                self.number(down);
            }
            _ => {
                self.letter('l');
                self.way(self.at, place);
            }
        }
        self.at = place;
    }

    /// A letter, unless what it says goes on by itself.
    fn letter(&mut self, letter: char) {
        if letter == 'm' || self.goes_on != letter {
            self.data.push(letter);
            self.pointed = false;
        }
        self.goes_on = letter;
    }

    fn way(&mut self, from: [i64; 2], to: [i64; 2]) {
        self.number(to[0] - from[0]);
        self.number(to[1] - from[1]);
    }

    /// A number of the last place, parted from the one before only where it must be.
    fn number(&mut self, steps: i64) {
        let unit = self.unit as u64;
        let (whole, rest) = (steps.unsigned_abs() / unit, steps.unsigned_abs() % unit);
        let bare = whole == 0 && rest > 0;
        let parted = match self.data.chars().last() {
            Some(last) if last.is_ascii_digit() => steps >= 0 && !(bare && self.pointed),
            _ => false,
        };
        if parted {
            self.data.push(' ');
        }
        if steps < 0 {
            self.data.push('-');
        }
        if !bare {
            let _ = write!(self.data, "{whole}");
        }
        if rest > 0 {
            let _ = write!(self.data, ".{rest:0places$}", places = self.places);
            let kept = self.data.trim_end_matches('0').len();
            self.data.truncate(kept);
        }
        self.pointed = rest > 0;
    }

    fn grid(&self, at: Xy) -> [i64; 2] {
        [at.x, self.height_mm - at.y].map(|it| self.steps(it))
    }

    fn steps(&self, mm: f64) -> i64 {
        (mm * self.unit).round() as i64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn data(paths: &[Path]) -> String {
        let mut all = CompactPaths::new(10.0, 2);
        paths.iter().for_each(|it| all.path(it));
        all.data()
    }

    /// By the grammar of path data (SVG 2, 9.3.9): `m` first is from the corner, lines go on after it.
    #[test]
    fn each_place_is_told_by_the_way_from_the_last() {
        let open = Path::open(Xy::new(1.0, 9.0))
            .line(Xy::new(1.5, 8.75))
            .line(Xy::new(2.0, 8.5))
            .line(Xy::new(2.0, 8.0))
            .line(Xy::new(0.0, 8.0));
        assert_eq!(data(&[open]), "m1 1 .5.25.5.25v.5h-2");
        let box_at = |x: f64| Path::rectangle(Xy::new(x, 0.0), 2.0, 1.0);
        assert_eq!(
            data(&[box_at(0.0), box_at(3.05)]),
            "m0 10h2v-1h-2zm3.05 0h2v-1h-2z"
        );
    }

    #[test]
    fn half_a_circle_turns_the_way_it_was_drawn() {
        let circle = Path::circle(Xy::new(5.0, 5.0), 2.0);
        assert_eq!(data(&[circle]), "m7 5a2 2 0 0 0-4 0 2 2 0 0 0 4 0z");
        let curve = Path::open(Xy::new(0.0, 10.0)).then(PathElement::Cubic(
            Xy::new(0.0, 9.0),
            Xy::new(0.25, 9.0),
            Xy::new(1.0, 8.0),
        ));
        assert_eq!(data(&[curve]), "m0 0c0 1 .25 1 1 2");
    }

    /// Three ways of 0.004 are a hundredth, though each by itself is none.
    #[test]
    fn what_is_rounded_does_not_add_up() {
        let steps = [0.004, 0.008, 0.012].map(|it| Xy::new(it, 0.0));
        let path = steps
            .into_iter()
            .fold(Path::open(Xy::default()), Path::line);
        assert_eq!(data(&[path]), "m0 10h0 .01 0");
    }
}
