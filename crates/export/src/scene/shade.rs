//! Turned surfaces in the light of a long window, as a picture shows them.

use super::{Path, Xy};
use quillet_standards::Colour;
use std::f64::consts::FRAC_PI_2;

/// A turned surface of one colour, cut across into strips.
#[derive(Clone, Debug, PartialEq)]
pub struct Shaded {
    /// What it is made of.
    pub colour: Colour,
    /// Only what lies below the axis is seen.
    pub is_half: bool,
    /// Where its axis lies, mm up the paper.
    pub axis_mm: f64,
    /// From left to right, each a little over the next, so that no seam shows.
    pub strips: Vec<Strip>,
}

/// A strip of a turned surface: how far from the axis it reaches, at three places along it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    /// How steep it is.
    pub slope: SlopeClass,
    /// Where it begins: along the paper, and off the axis.
    pub from: Xy,
    /// Where it ends.
    pub to: Xy,
    /// How far it lies under the next.
    pub under: Xy,
}

/// How steep a turned surface is, in steps of three degrees from straight up to straight down: finer than
/// the eye tells one from the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SlopeClass(i8);

impl SlopeClass {
    /// Steps to each side of level.
    const STEPS: f64 = 30.0;

    /// Of a slope, radius over length, on the paper from left to right.
    pub fn of(slope: f64) -> SlopeClass {
        let step = (slope.atan() / FRAC_PI_2 * Self::STEPS).round();
        SlopeClass(step.clamp(-Self::STEPS, Self::STEPS) as i8)
    }

    /// Its number, 0 to 60.
    pub fn number(self) -> u8 {
        (self.0 + Self::STEPS as i8).unsigned_abs()
    }

    /// The slope it stands for.
    fn slope(self) -> f64 {
        (f64::from(self.0) / Self::STEPS * FRAC_PI_2 * 0.999).tan()
    }
}

impl Shaded {
    /// A strip's outline.
    pub fn outline(&self, strip: &Strip) -> Path {
        let up = |at: Xy| Xy::new(at.x, self.axis_mm + if self.is_half { 0.0 } else { at.y });
        let down = |at: Xy| Xy::new(at.x, self.axis_mm - at.y);
        let Strip {
            from, to, under, ..
        } = *strip;
        match self.is_half {
            true => Path::polygon(&[up(from), up(under), down(under), down(to), down(from)]),
            false => Path::polygon(&[
                up(from),
                up(to),
                up(under),
                down(under),
                down(to),
                down(from),
            ]),
        }
    }

    /// Moved.
    #[must_use]
    pub fn moved(&self, dx: f64, dy: f64) -> Shaded {
        let strips = self.strips.iter().map(|it| Strip {
            slope: it.slope,
            from: it.from.moved(dx, 0.0),
            to: it.to.moved(dx, 0.0),
            under: it.under.moved(dx, 0.0),
        });
        Shaded {
            colour: self.colour,
            is_half: self.is_half,
            axis_mm: self.axis_mm + dy,
            strips: strips.collect(),
        }
    }
}

impl Strip {
    /// The farthest it reaches from the axis, mm.
    pub fn radius_mm(&self) -> f64 {
        self.from.y.max(self.to.y).max(self.under.y)
    }
}

/// Something in a colour of its own, whatever it is shown on: a slit, a thread's turns.
#[derive(Clone, Debug, PartialEq)]
pub struct Paint {
    /// Lines and curves.
    pub paths: Vec<Path>,
    /// What is inside them, by the even-odd rule.
    pub fill: Option<Colour>,
    /// Their line, and how wide it is, mm.
    pub line: Option<(Colour, f64)>,
}

/// Where the light is reckoned, from the top of a surface to its foot, as shares of its radius.
const HEIGHTS: [f64; 25] = [
    1.0, 0.985, 0.95, 0.88, 0.8, 0.74, 0.7, 0.66, 0.6, 0.54, 0.48, 0.44, 0.38, 0.25, 0.05, -0.2,
    -0.45, -0.65, -0.74, -0.8, -0.86, -0.92, -0.96, -0.985, -1.0,
];

/// The colours of a surface from its top, 0, to its foot, 1.
pub fn stops(colour: Colour, slope: SlopeClass) -> [(f64, Colour); 25] {
    HEIGHTS.map(|height| ((1.0 - height) / 2.0, lit(colour, height, slope.slope())))
}

/// The colours of a surface at so many even steps from its top to its foot.
pub fn samples(colour: Colour, slope: SlopeClass, count: usize) -> Vec<Colour> {
    let stops = stops(colour, slope);
    let at = |share: f64| {
        let next = stops.partition_point(|it| it.0 < share).clamp(1, 24);
        let [(from, one), (to, two)] = [stops[next - 1], stops[next]];
        let part = ((share - from) / (to - from)).clamp(0.0, 1.0);
        let mixed = |a: u8, b: u8| (f64::from(a) + (f64::from(b) - f64::from(a)) * part).round();
        Colour::new(
            mixed(one.red, two.red) as u8,
            mixed(one.green, two.green) as u8,
            mixed(one.blue, two.blue) as u8,
        )
    };
    let last = count.saturating_sub(1).max(1) as f64;
    (0..count).map(|step| at(step as f64 / last)).collect()
}

/// The colour of a plane face that looks so far up: 1 straight up, 0 at the reader.
pub fn facing(colour: Colour, upward: f64) -> Colour {
    lit(colour, upward, 0.0)
}

/// A colour so much darker, in light.
pub fn darker(colour: Colour, share: f64) -> Colour {
    shown(linear(colour).map(|it| it * share))
}

/// What a place of a turned surface looks like under a window above and before it, a little of whose
/// light the bench throws back.
fn lit(colour: Colour, height: f64, slope: f64) -> Colour {
    let light = unit([-0.22, 0.78, 0.58]);
    let halfway = unit([light[0], light[1], light[2] + 1.0]);
    let long = (1.0 + slope * slope).sqrt();
    let toward = (1.0 - height * height).max(0.0).sqrt();
    let normal = [-slope / long, height / long, toward / long];
    let faces = dot(normal, light).max(0.0);
    let thrown_back = 0.10 * ramp(-0.2, -1.0, height);
    let gleam = 0.10 * dot(normal, halfway).max(0.0).powi(18);
    let across = normal[1];
    let window = 0.55
        * ramp(0.40, 0.47, across)
        * ramp(0.72, 0.63, across)
        * ramp(0.35, 0.0, normal[0].abs());
    let rim = 0.10 * ramp(-0.74, -0.86, across) * ramp(-0.98, -0.93, across);
    let matt = 0.20 + thrown_back + 0.95 * faces;
    shown(linear(colour).map(|it| it * matt + gleam + window + rim))
}

/// The brightness a screen makes of a number is near its power of 2.2.
const GAMMA: f64 = 2.2;

fn linear(colour: Colour) -> [f64; 3] {
    colour.parts().map(|it| it.powf(GAMMA))
}

fn shown(light: [f64; 3]) -> Colour {
    let byte = |it: f64| (it.clamp(0.0, 1.0).powf(1.0 / GAMMA) * 255.0).round() as u8;
    let [red, green, blue] = light.map(byte);
    Colour::new(red, green, blue)
}

/// From 0 at one value to 1 at another, without a corner.
fn ramp(from: f64, to: f64, at: f64) -> f64 {
    let share = ((at - from) / (to - from)).clamp(0.0, 1.0);
    share * share * (3.0 - 2.0 * share)
}

fn dot(one: [f64; 3], two: [f64; 3]) -> f64 {
    one.iter().zip(two).map(|(a, b)| a * b).sum()
}

fn unit(vector: [f64; 3]) -> [f64; 3] {
    let long = dot(vector, vector).sqrt();
    vector.map(|it| it / long)
}

#[cfg(test)]
mod tests {
    use super::*;

    const GREEN: Colour = Colour::new(0x6d, 0x8a, 0x34);

    /// What the window strikes is far brighter than what turns away from it, in grey too (WCAG's
    /// luminance), so that a form is seen on paper printed without colour.
    #[test]
    fn a_cylinder_is_round_in_grey() {
        for colour in [
            GREEN,
            Colour::new(0x2d, 0x2a, 0x29),
            Colour::new(0xe4, 0xe2, 0xda),
        ] {
            let stops = stops(colour, SlopeClass::of(0.0));
            let bright = |height: f64| {
                let near = |it: &&(f64, Colour)| (it.0 - (1.0 - height) / 2.0).abs() < 1e-9;
                stops.iter().find(near).unwrap().1.luminance()
            };
            assert!(bright(0.54) > 1.8 * bright(-0.74), "{colour}");
            assert!(bright(0.54) >= bright(0.25), "{colour}");
        }
    }

    #[test]
    fn samples_are_the_stops_where_they_meet() {
        let slope = SlopeClass::of(0.1);
        let samples = samples(GREEN, slope, 201);
        for (share, colour) in stops(GREEN, slope) {
            let at = share * 200.0;
            if (at - at.round()).abs() < 1e-9 {
                assert_eq!(samples[at.round() as usize], colour);
            }
        }
    }

    #[test]
    fn slopes_fall_into_steps() {
        assert_eq!(SlopeClass::of(f64::INFINITY).number(), 60);
        assert_eq!(SlopeClass::of(0.0).number(), 30);
        assert_eq!(SlopeClass::of(f64::NEG_INFINITY).number(), 0);
    }
}
