//! `Circle`: holes along the axis, evenly spaced on a pitch circle.

use std::f64::consts::PI;

use crate::{Moments, Point};

/// Alike holes along the axis beside it, their floors flat or drilled to a point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circle {
    /// The diameter of the circle that their middles lie on, mm.
    pub on_mm: f64,
    /// The diameter of each, mm.
    pub hole_mm: f64,
    /// Where they begin, mm.
    pub from_mm: f64,
    /// Where they end at their full width, after that, mm.
    pub to_mm: f64,
    /// The depths of the cones beyond those ends, mm; 0 for flat floors.
    pub tips_mm: [f64; 2],
    /// How many.
    pub count: u32,
    /// Where the first one lies, degrees clockwise of the mark, looking at the first end.
    pub clock_deg: f64,
}

impl Circle {
    /// What they take from solid material.
    pub fn removed(&self) -> Moments {
        let (length, off) = (self.to_mm - self.from_mm, self.on_mm / 2.0);
        let volume = PI / 4.0 * self.hole_mm.powi(2) * length;
        let middle = (self.from_mm + self.to_mm) / 2.0;
        let one = Moments {
            volume_mm3: volume,
            x_mm4: volume * off,
            y_mm4: 0.0,
            z_mm4: volume * middle,
            zz_mm5: volume * (middle * middle + length * length / 12.0),
            axial_mm5: volume * (off * off + self.hole_mm.powi(2) / 8.0),
        };
        let [before, after] = self.tips_mm;
        let one = one + self.tip(self.from_mm, -before) + self.tip(self.to_mm, after);
        one.turned(self.clock_deg).indexed(self.count)
    }

    /// The cone beyond an end of one, so far along the axis, mm: a third of the cylinder about it, its
    /// centroid a quarter of its height up, ∫z² a tenth and ∫(x² + y²) three tenths (any handbook).
    fn tip(&self, from_mm: f64, along_mm: f64) -> Moments {
        let (radius, off) = (self.hole_mm / 2.0, self.on_mm / 2.0);
        let volume = PI * radius * radius * along_mm.abs() / 3.0;
        let middle = from_mm + along_mm / 4.0;
        let square = from_mm * from_mm + from_mm * along_mm / 2.0 + along_mm * along_mm / 10.0;
        Moments {
            volume_mm3: volume,
            x_mm4: volume * off,
            y_mm4: 0.0,
            z_mm4: volume * middle,
            zz_mm5: volume * square,
            axial_mm5: volume * (off * off + 0.3 * radius * radius),
        }
    }

    /// One of them in the plane through its axis and the part's, round about: the outer corners of its beginning
    /// and its end, the point beyond that, the inner corners back, the point before the beginning. Where a
    /// floor is flat its point lies in it.
    pub fn outline(&self) -> [Point; 6] {
        let [low, high] = [-1.0, 1.0].map(|it| (self.on_mm + it * self.hole_mm) / 2.0);
        let (from, to, middle) = (self.from_mm, self.to_mm, self.on_mm / 2.0);
        let [before, after] = self.tips_mm;
        [
            Point::new(from, high),
            Point::new(to, high),
            Point::new(to + after, middle),
            Point::new(to, low),
            Point::new(from, low),
            Point::new(from - before, middle),
        ]
    }

    /// The metal outside them under an outside of a radius, mm.
    pub fn outer_wall_mm(&self, outside_mm: f64) -> f64 {
        outside_mm - (self.on_mm + self.hole_mm) / 2.0
    }

    /// The metal between them and a bore of a radius, mm.
    pub fn inner_wall_mm(&self, bore_mm: f64) -> f64 {
        (self.on_mm - self.hole_mm) / 2.0 - bore_mm
    }

    /// The metal between neighbours, mm: `on sin(π/N) - d`; none for one alone.
    pub fn between_mm(&self) -> Option<f64> {
        let chord = self.on_mm * (PI / f64::from(self.count)).sin();
        (self.count > 1).then_some(chord - self.hole_mm)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Chain, Properties, Tag};

    /// A hole of 3 on ⌀8 to 10: a cylinder of 1.5 by 10, 4 from the axis (parallel axis theorem).
    #[test]
    fn a_hole_beside_the_axis_is_a_moved_cylinder() {
        let hole = Circle {
            on_mm: 8.0,
            hole_mm: 3.0,
            from_mm: 0.0,
            to_mm: 10.0,
            tips_mm: [0.0; 2],
            count: 1,
            clock_deg: 90.0,
        };
        let taken = hole.removed();
        let volume = PI * 22.5;
        assert!((taken.volume_mm3 - volume).abs() < 1e-12);
        let [x, y] = taken.offset_mm().unwrap();
        assert!(x.abs() < 1e-12 && (y - 4.0).abs() < 1e-12);
        let round = volume * 1.5_f64.powi(2) / 2.0;
        assert!((taken.axial_mm5 - (round + volume * 16.0)).abs() < 1e-9);
        assert!((taken.zz_mm5 - volume * 100.0 / 3.0).abs() < 1e-9);
    }

    /// A drilled point is a cone, as it is on the axis.
    #[test]
    fn a_point_holds_what_a_turned_cone_holds() {
        let cone = [Point::new(10.0, 1.5), Point::new(11.0, 0.0)];
        let cone = Properties::within(&Chain::polyline(Tag(0), &cone).unwrap());
        let on_axis = Circle {
            on_mm: 0.0,
            hole_mm: 3.0,
            from_mm: 10.0,
            to_mm: 10.0,
            tips_mm: [0.0, 1.0],
            count: 1,
            clock_deg: 0.0,
        };
        let found = on_axis.removed().properties();
        assert!((found.volume_mm3 - cone.volume_mm3).abs() < 1e-12);
        assert!((found.centroid_mm - cone.centroid_mm).abs() < 1e-12);
        assert!((found.axial_mm5 - cone.axial_mm5).abs() < 1e-12);
        assert!((found.transverse_mm5 - cone.transverse_mm5).abs() < 1e-9);
        let other = Circle {
            tips_mm: [1.0, 0.0],
            ..on_axis
        };
        let mirrored = 20.0 - cone.centroid_mm;
        assert!((other.removed().properties().centroid_mm - mirrored).abs() < 1e-12);
    }

    #[test]
    fn walls_round_a_pitch_circle_are_plain_differences() {
        let three = Circle {
            on_mm: 12.5,
            hole_mm: 2.1,
            from_mm: 0.0,
            to_mm: 2.1,
            tips_mm: [0.0; 2],
            count: 3,
            clock_deg: 0.0,
        };
        assert!((three.outer_wall_mm(8.0) - 0.7).abs() < 1e-12);
        assert!((three.inner_wall_mm(4.0) - 1.2).abs() < 1e-12);
        let apart = 12.5 * 60.0_f64.to_radians().sin() - 2.1;
        assert!((three.between_mm().unwrap() - apart).abs() < 1e-12);
        assert_eq!(Circle { count: 1, ..three }.between_mm(), None);
        let [x, y] = three.removed().offset_mm().unwrap();
        assert!(x.abs().max(y.abs()) < 1e-15);
    }
}
