//! Measuring a pitch diameter over three wires.

use std::f64::consts::PI;

use quillet_geometry::{Length, Limits};

use super::form::ThreadForm;
use super::limits::ExternalLimits;
use crate::Source;

/// A thread measured over three wires of one diameter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OverWires {
    /// The wire that touches the flanks at the pitch diameter, P / (2 cos 30°) = 0.577350 P.
    pub best: Length,
    /// The wire that is used.
    pub wire: Length,
    /// Wires that touch the flanks and stand above the crests.
    pub usable: Limits,
    /// The pitch diameter that is measured, in mm.
    pub pitch_diameter_mm: f64,
    /// The size over the wires, in mm, with the lead-angle correction.
    pub over_mm: f64,
    /// The correction for the lead angle that it contains, in mm.
    pub lead_correction_mm: f64,
    /// The size over the wires by contact of a straight wire with the helical flanks, in mm. It
    /// differs from `over_mm` by less than 0.1 µm for the best wire up to a lead angle of 5.5°.
    pub contact_mm: f64,
    /// Where the formula comes from.
    pub source: Source,
}

impl OverWires {
    /// True where the wire touches the flanks and stands above the crests.
    pub fn wire_is_usable(&self) -> bool {
        self.usable.contains(self.wire)
    }
}

const SOURCE: Source = Source::new(
    "three-wire formula with the lead-angle correction of the screw-thread handbook H28: M = d2 + 3W - 0.866025 P + (W/2) tan²λ cos α cot α",
);

/// Bounds of a usable wire, as shares of the pitch: it must stand above sharp crests, and touch the
/// flanks below the crest flat (screw-thread handbooks).
const LEAST_WIRE: f64 = 0.505_182;
const GREATEST_WIRE: f64 = 1.010_363;

impl ThreadForm {
    /// The best wire, 0.577350 P.
    pub fn best_wire(&self) -> Length {
        Length::mm(self.pitch_mm() / 3f64.sqrt())
    }

    /// The size over three wires, of the best diameter or of wires at hand, at the basic pitch
    /// diameter.
    pub fn over_wires(&self, wire: Option<Length>) -> OverWires {
        self.over_wires_at(self.pitch_diameter_mm(), wire)
    }

    /// Limits of the size over three wires for limits of the pitch diameter.
    pub fn over_wires_limits(&self, limits: &ExternalLimits, wire: Option<Length>) -> Limits {
        let at = |pitch_diameter: Length| {
            Length::mm(self.over_wires_at(pitch_diameter.to_mm(), wire).over_mm)
        };
        Limits::new(at(limits.pitch.min()), at(limits.pitch.max()))
    }

    fn over_wires_at(&self, pitch_diameter_mm: f64, wire: Option<Length>) -> OverWires {
        let pitch_mm = self.pitch_mm();
        let best = self.best_wire();
        let wire_mm = wire.map_or(pitch_mm / 3f64.sqrt(), Length::to_mm);
        let contact = Contact {
            half_angle: 30f64.to_radians(),
            pitch_diameter: pitch_diameter_mm,
            pitch: pitch_mm,
            lead: self.lead_mm(),
            wire: wire_mm,
        };
        let lead_correction_mm = contact.lead_correction();
        let over_mm = contact.without_lead() + lead_correction_mm;
        OverWires {
            best,
            wire: wire.unwrap_or(best),
            usable: Limits::new(
                Length::mm(LEAST_WIRE * pitch_mm),
                Length::mm(GREATEST_WIRE * pitch_mm),
            ),
            pitch_diameter_mm,
            over_mm,
            lead_correction_mm,
            contact_mm: contact.solved().unwrap_or(over_mm),
            source: SOURCE,
        }
    }
}

/// A wire in a thread groove; lengths in one unit, angles in radians.
struct Contact {
    half_angle: f64,
    pitch_diameter: f64,
    pitch: f64,
    lead: f64,
    wire: f64,
}

impl Contact {
    fn without_lead(&self) -> f64 {
        self.pitch_diameter + self.wire * (1.0 + 1.0 / self.half_angle.sin())
            - self.pitch / 2.0 / self.half_angle.tan()
    }

    fn lead_correction(&self) -> f64 {
        let climb = self.lead / (PI * self.pitch_diameter);
        self.wire / 2.0 * climb * climb * self.half_angle.cos() / self.half_angle.tan()
    }

    /// The size over wires that lie where straight cylinders touch the helical flanks.
    ///
    /// The flank is z = kθ + P/4 + (r - d2/2) tan α; the wire's axis passes the thread's at the
    /// distance c, tilted by β. A point of the flank asks for c = r cos θ + √(W²/4 - n²), n being
    /// its distance from the plane of both axes. At rest c is greatest over the flank and the
    /// wire free to turn: three equations in r, θ and β, solved by Newton's method.
    fn solved(&self) -> Option<f64> {
        let climb = self.lead / (2.0 * PI);
        let radius = self.wire / 2.0;
        let mean = self.pitch_diameter / 2.0;
        let flare = self.half_angle.tan();
        let flank = |r: f64, turn: f64| climb * turn + self.pitch / 4.0 + (r - mean) * flare;
        let rest = |[r, turn, tilt]: [f64; 3]| {
            let (y, z) = (r * turn.sin(), flank(r, turn));
            let n = z * tilt.cos() - y * tilt.sin();
            let s = (radius * radius - n * n).sqrt();
            let n_r = flare * tilt.cos() - turn.sin() * tilt.sin();
            let n_turn = climb * tilt.cos() - r * turn.cos() * tilt.sin();
            [
                turn.cos() - n * n_r / s,
                -turn.sin() * r - n * n_turn / s,
                y * tilt.cos() + z * tilt.sin(),
            ]
        };
        // Begin where the wire would lie in a groove without lead.
        let axis = (self.without_lead() - self.wire) / 2.0;
        let mut at = [
            axis - radius * self.half_angle.sin(),
            0.0,
            (climb / mean).atan(),
        ];
        for _ in 0..50 {
            let now = rest(at);
            let mut jacobian = [[0.0; 3]; 3];
            for column in 0..3 {
                let step = 1e-6 * if column == 0 { mean } else { 1.0 };
                let (mut up, mut down) = (at, at);
                up[column] += step;
                down[column] -= step;
                let (up, down) = (rest(up), rest(down));
                for row in 0..3 {
                    jacobian[row][column] = (up[row] - down[row]) / (2.0 * step);
                }
            }
            let step = solve(jacobian, now)?;
            for (value, step) in at.iter_mut().zip(step) {
                *value -= step;
            }
            if step.iter().all(|step| step.abs() < 1e-12 * mean) {
                break;
            }
        }
        let [r, turn, tilt] = at;
        let n = flank(r, turn) * tilt.cos() - r * turn.sin() * tilt.sin();
        let over = 2.0 * (r * turn.cos() + (radius * radius - n * n).sqrt()) + self.wire;
        over.is_finite().then_some(over)
    }
}

/// The solution of three linear equations by Cramer's rule.
fn solve(m: [[f64; 3]; 3], v: [f64; 3]) -> Option<[f64; 3]> {
    let det = |m: [[f64; 3]; 3]| {
        m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
            - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
            + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0])
    };
    let whole = det(m);
    if whole == 0.0 || !whole.is_finite() {
        return None;
    }
    let mut solution = [0.0; 3];
    for (column, value) in solution.iter_mut().enumerate() {
        let mut replaced = m;
        for row in 0..3 {
            replaced[row][column] = v[row];
        }
        *value = det(replaced) / whole;
    }
    Some(solution)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every row, Acme ones included: the formula to 0.1 µm, the contact to 0.1 µm, and printed
    /// values as closely as their tables round.
    #[test]
    fn sizes_over_wires_are_those_published() {
        for row in quillet_reference::rows("three_wire.csv") {
            let unit_mm = if row.text("unit") == "inch" {
                25.4
            } else {
                1.0
            };
            let pitch = row.number("pitch");
            let contact = Contact {
                half_angle: row.number("half_angle_deg").to_radians(),
                pitch_diameter: row.number("d2"),
                pitch,
                lead: pitch * row.number("starts"),
                wire: row.number("wire"),
            };
            let best = pitch / (2.0 * contact.half_angle.cos());
            let corrected = contact.without_lead() + contact.lead_correction();
            for (column, found) in [
                ("best_wire", best),
                ("M_simple", contact.without_lead()),
                ("lead_correction", contact.lead_correction()),
                ("M_corrected", corrected),
                (
                    "M_exact",
                    contact.solved().unwrap_or_else(|| panic!("{row}")),
                ),
            ] {
                let off_mm = (found - row.number(column)).abs() * unit_mm;
                assert!(off_mm < 1e-4, "{row}: {column} {found}, off by {off_mm} mm");
            }
        }
    }

    #[test]
    fn metric_threads_of_the_table_are_measured_from_their_designation() {
        for row in quillet_reference::rows("three_wire.csv") {
            if row.text("unit") != "mm" {
                continue;
            }
            let name = row.text("designation").split(' ').next().unwrap();
            let form: ThreadForm = name.parse().unwrap();
            let form = form.with_starts(row.number("starts") as u32);
            let found = form.over_wires(Length::parse_mm(row.text("wire")));
            assert!(
                (found.over_mm - row.number("M_corrected")).abs() < 1e-4,
                "{row}"
            );
            assert!(
                (found.contact_mm - row.number("M_exact")).abs() < 1e-4,
                "{row}"
            );
            assert!(found.wire_is_usable(), "{row}");
        }
    }

    #[test]
    fn limits_and_unusable_wires() {
        let form: ThreadForm = "M12x1".parse().unwrap();
        let limits = form.external_limits("6g".parse().unwrap()).unwrap();
        let over = form.over_wires_limits(&limits, None);
        assert!((over.width().to_mm() - limits.pitch.width().to_mm()).abs() < 1e-5);
        assert!(!form.over_wires(Some(Length::mm(0.4))).wire_is_usable());
        let far = form.over_wires(Some(Length::mm(5.0)));
        assert!(far.over_mm.is_finite() && far.contact_mm.is_finite());
    }
}
