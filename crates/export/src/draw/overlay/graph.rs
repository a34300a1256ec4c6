//! By how much two shapes differ, along the part.

use super::super::difference::{Notable, curve, notable};
use super::super::figures::LengthFormat;
use super::super::spread::spread_wide;
use super::{FIGURE_MM, PATTERN, TALL_MM, WIDTH_MM, WORDS_MM};
use crate::scene::{Anchor, Layer, Path, Scene, Text, Xy, hatch};
use quillet_geometry::put_in_order;
use quillet_model::{Profiles, Units};

/// The difference is drawn at one of these times its size: the first at which it stands no higher than it may.
const TIMES: [f64; 8] = [100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5];

/// No more figures than this stand at the line: the greatest differences.
const MOST: usize = 9;

/// The difference on diameter against the station.
pub(super) struct Graph {
    curve: Vec<(f64, f64)>,
    notable: Vec<Notable>,
    pub(super) scale: f64,
    times: f64,
    pub(super) figures: LengthFormat,
}

impl Graph {
    pub(super) fn of(old: &Profiles, new: &Profiles, scale: f64, figures: LengthFormat) -> Graph {
        let (old, new) = (&old.crest.outer, &new.crest.outer);
        let curve = curve(old, new);
        let most = curve.iter().fold(0.0f64, |most, it| most.max(it.1.abs()));
        let times = TIMES.into_iter().find(|it| most * it <= TALL_MM);
        let mut notable = notable(old, new);
        if notable.len() > MOST {
            let by = |it: &Notable| -(it.new_mm - it.old_mm).abs();
            put_in_order(&mut notable, by);
            notable.truncate(MOST);
            put_in_order(&mut notable, |it| it.z_mm);
        }
        Graph {
            curve,
            notable,
            scale,
            times: times.unwrap_or(0.1),
            figures,
        }
    }

    fn reach(&self, sign: f64) -> f64 {
        let most = self.curve.iter().map(|it| sign * it.1);
        most.fold(0.0, f64::max) * self.times
    }

    pub(super) fn height_mm(&self) -> f64 {
        match self.notable.is_empty() {
            true => 12.0,
            false => 34.0 + self.reach(1.0) + self.reach(-1.0),
        }
    }

    /// Draws it below a corner.
    pub(super) fn draw(&self, scene: &mut Scene, corner: Xy) {
        let says = match self.notable.is_empty() {
            true => "the outside is as it was".to_owned(),
            false => format!("new less old, on diameter, {} times", self.times),
        };
        scene.text(Text::new(corner.moved(0.0, -WORDS_MM - 2.0), WORDS_MM, says).bold());
        if self.notable.is_empty() {
            return;
        }
        let zero = corner.moved(0.0, -18.0 - self.reach(1.0));
        let place = |z: f64, mm: f64| zero.moved(z * self.scale, mm * self.times);
        let over = |sign: f64| {
            let clamped = |it: &(f64, f64)| if sign * it.1 > 0.0 { it.1 } else { 0.0 };
            let edge = self.curve.iter().map(|it| place(it.0, clamped(it)));
            let back = self.curve.last().map(|it| place(it.0, 0.0));
            Path::polygon(&edge.chain(back).chain([zero]).collect::<Vec<_>>())
        };
        scene.fill(Layer::Solid, vec![over(1.0)]);
        let taken = vec![over(-1.0)];
        scene.fill(Layer::CutGround, taken.clone());
        scene.lines(Layer::Cut, hatch(&taken, None, &[], PATTERN));
        let mut line = self.curve.iter().map(|(z, mm)| place(*z, *mm));
        if let Some(start) = line.next() {
            scene.stroke(Layer::Fine, line.fold(Path::open(start), Path::line));
        }
        let end = self.curve.last().map_or(0.0, |it| it.0);
        scene.line(Layer::Dimension, zero, place(end, 0.0));
        let nought = Text::new(zero.moved(-2.0, -WORDS_MM / 2.0), WORDS_MM, "0");
        scene.text(nought.anchored(Anchor::End));
        self.figures(scene, zero, 1.0);
        self.figures(scene, zero, -1.0);
    }

    /// The figures above the line, or below it.
    pub(super) fn figures(&self, scene: &mut Scene, zero: Xy, sign: f64) {
        let own = self.notable.iter();
        let own: Vec<&Notable> = own
            .filter(|it| sign * (it.new_mm - it.old_mm) > 0.0)
            .collect();
        let texts: Vec<[Text; 2]> = own.iter().map(|it| self.says(it)).collect();
        let wide = |it: &[Text; 2]| it[0].width_mm().max(it[1].width_mm());
        let widths: Vec<f64> = texts.iter().map(wide).collect();
        let wanted: Vec<f64> = own.iter().map(|it| zero.x + it.z_mm * self.scale).collect();
        let places = spread_wide(&wanted, &widths, 3.0, WIDTH_MM - 4.0);
        let level = zero.y + sign * (self.reach(sign) + 3.0);
        for ((it, [figure, words]), x) in own.iter().zip(texts).zip(places) {
            let at = zero.moved(it.z_mm * self.scale, (it.new_mm - it.old_mm) * self.times);
            let tip = Xy::new(x, level);
            scene.line(Layer::Dimension, at, tip);
            let base = match sign > 0.0 {
                true => [5.4, 1.2],
                false => [-1.2 - FIGURE_MM, -5.4 - WORDS_MM],
            };
            for (text, up) in [figure, words].into_iter().zip(base) {
                scene.text(
                    Text {
                        at: tip.moved(0.0, up),
                        ..text
                    }
                    .anchored(Anchor::Middle),
                );
            }
        }
    }

    /// `−0.40`, and under it `at 12: ⌀10 → 9.6`, or `at 18.0, nothing written`.
    fn says(&self, it: &Notable) -> [Text; 2] {
        let (by, sign) = (
            it.new_mm - it.old_mm,
            if it.new_mm < it.old_mm { "−" } else { "+" },
        );
        let figure = match self.figures.0 {
            Units::Millimetres => format!("{sign}{:.2}", by.abs()),
            Units::Inches => format!("{sign}{:.3}", by.abs() / 25.4),
        };
        let number = |mm: f64| self.figures.number(mm);
        let (figure, words) = match it.is_written {
            true => {
                let sizes = format!("⌀{} → {}", number(it.old_mm), number(it.new_mm));
                (figure, format!("at {}: {sizes}", number(it.z_mm)))
            }
            false => {
                let at = self.figures.rounded(it.z_mm, 1);
                (
                    format!("{figure} at {at}"),
                    "nothing is written here".to_owned(),
                )
            }
        };
        let text = |height: f64, words: String| Text::new(Xy::default(), height, words);
        [text(FIGURE_MM, figure).bold(), text(WORDS_MM, words)]
    }
}
