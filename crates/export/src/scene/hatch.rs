//! Hatching, cut exactly where the section ends.

use super::cross::{both, less, stretches};
use super::{Path, Xy};

/// How a cut face is hatched.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hatch {
    /// Angle to the `x` axis, degrees.
    pub angle_deg: f64,
    /// Between the lines, mm.
    pub spacing_mm: f64,
}

impl Hatch {
    /// Hatches told apart by angle and spacing, for pieces that touch (ISO 128-3).
    pub fn numbered(which: usize) -> Hatch {
        let angle_deg = if which.is_multiple_of(2) { 45.0 } else { 135.0 };
        let spacing_mm = [1.6, 1.6, 1.1, 1.1, 2.2, 2.2][which % 6];
        Hatch {
            angle_deg,
            spacing_mm,
        }
    }
}

/// A shorter line of a hatch is no line, mm.
const LEAST_MM: f64 = 0.02;

/// The lines that hatch a region (even-odd), within `clip` too if one is given, and outside of each of
/// `covers`.
pub fn hatch(
    region: &[Path],
    clip: Option<&[Path]>,
    covers: &[Vec<Path>],
    pattern: Hatch,
) -> Vec<[Xy; 2]> {
    let (sin, cos) = pattern.angle_deg.to_radians().sin_cos();
    let normal = Xy::new(-sin, cos);
    let place = |along: f64, offset: f64| {
        Xy::new(
            normal.x * offset + normal.y * along,
            normal.y * offset - normal.x * along,
        )
    };
    let offsets = region
        .iter()
        .flat_map(|path| path.flattened(0.5))
        .map(|at| at.x * normal.x + at.y * normal.y);
    let (least, most) = offsets.fold(
        (f64::INFINITY, f64::NEG_INFINITY),
        |(least, most), offset| (least.min(offset), most.max(offset)),
    );
    if !(least < most && pattern.spacing_mm > 0.0) {
        return Vec::new();
    }
    // The flattened outline may fall short of a bulge by its tolerance.
    let first = ((least - 0.5) / pattern.spacing_mm).floor() as i64;
    let last = ((most + 0.5) / pattern.spacing_mm).ceil() as i64;
    (first..=last)
        .flat_map(|count| {
            // Off the round number, so that a corner seldom lies on a line.
            let offset = (count as f64 + 0.37) * pattern.spacing_mm;
            let mut inside = stretches(region, normal, offset);
            if let Some(clip) = clip {
                inside = both(&inside, &stretches(clip, normal, offset));
            }
            for cover in covers {
                inside = less(&inside, &stretches(cover, normal, offset));
            }
            inside
                .into_iter()
                .filter(|(from, to)| to - from > LEAST_MM)
                .map(move |(from, to)| [place(from, offset), place(to, offset)])
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn total(lines: &[[Xy; 2]]) -> f64 {
        lines
            .iter()
            .map(|[a, b]| (b.x - a.x).hypot(b.y - a.y))
            .sum()
    }

    #[test]
    fn the_lines_measure_the_region() {
        // Lines a spacing apart cover spacing times their length of any region (Cavalieri).
        let ring = [
            Path::circle(Xy::new(20.0, 20.0), 15.0),
            Path::circle(Xy::new(20.0, 20.0), 9.0),
        ];
        let lines = hatch(
            &ring,
            None,
            &[],
            Hatch {
                angle_deg: 45.0,
                spacing_mm: 0.05,
            },
        );
        let area = std::f64::consts::PI * (15.0 * 15.0 - 9.0 * 9.0);
        assert!((total(&lines) * 0.05 / area - 1.0).abs() < 1e-4);
        for end in lines.iter().flatten() {
            let off = (end.x - 20.0).hypot(end.y - 20.0);
            assert!(
                (off - 15.0).abs() < 1e-9 || (off - 9.0).abs() < 1e-9,
                "{off}"
            );
        }
    }

    #[test]
    fn a_clip_keeps_what_both_hold() {
        let square = [Path::rectangle(Xy::new(0.0, 0.0), 10.0, 10.0)];
        let right = [Path::rectangle(Xy::new(5.0, -5.0), 20.0, 20.0)];
        let lines = hatch(
            &square,
            Some(&right),
            &[],
            Hatch {
                angle_deg: 135.0,
                spacing_mm: 0.02,
            },
        );
        assert!((total(&lines) * 0.02 / 50.0 - 1.0).abs() < 1e-3);
        assert!(
            lines
                .iter()
                .flatten()
                .all(|end| end.x > 5.0 - 1e-9 && end.x < 10.0 + 1e-9)
        );
    }
}
