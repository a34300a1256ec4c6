//! The ISO 68-1 profile: heights, diameters, lead, and the metal a thread holds.

use std::f64::consts::PI;

use quillet_geometry::{Angle, Length};

use super::class::ThreadSide;
use super::form::{ThreadForm, ThreadSize};

const MM_PER_INCH: f64 = 25.4;
const SQRT_3: f64 = 1.732_050_807_568_877_2;

/// What a real part leaves of a thread's full form.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Clip {
    /// The full basic form, crest flat P/8 and root flat P/4.
    #[default]
    Full,
    /// A hole bored to this diameter before the thread was cut: crests end there.
    Bore(Length),
    /// A tenon turned to this diameter before the thread was cut: crests end there.
    Tenon(Length),
}

/// Basic sizes by ISO 724 (d2 = d - 3H/4, D1 = d - 5H/4, d3 = d - 17H/12, H = P·√3/2). The pitch,
/// never the lead, enters them, however many starts there are.
impl ThreadForm {
    /// The nominal major diameter, d or D.
    pub const fn major(&self) -> Length {
        match self.size() {
            ThreadSize::Metric { major, .. } | ThreadSize::Inch { major, .. } => major,
        }
    }

    /// The pitch P, rounded to the nanometre for inch threads; [`ThreadForm::pitch_mm`] is exact.
    pub fn pitch(&self) -> Length {
        Length::mm(self.pitch_mm())
    }

    /// The pitch P in millimetres.
    pub fn pitch_mm(&self) -> f64 {
        match self.size() {
            ThreadSize::Metric { pitch, .. } => pitch.to_mm(),
            ThreadSize::Inch { tpi, .. } => MM_PER_INCH / f64::from(tpi),
        }
    }

    /// Travel in one turn: pitch times starts.
    pub fn lead(&self) -> Length {
        match self.size() {
            ThreadSize::Metric { pitch, .. } => pitch * i64::from(self.starts()),
            ThreadSize::Inch { .. } => Length::mm(self.lead_mm()),
        }
    }

    /// Travel in one turn, in millimetres.
    pub fn lead_mm(&self) -> f64 {
        match self.size() {
            ThreadSize::Metric { .. } => self.lead().to_mm(),
            ThreadSize::Inch { tpi, .. } => MM_PER_INCH * f64::from(self.starts()) / f64::from(tpi),
        }
    }

    /// The height of the sharp triangle, H = P·√3/2.
    pub fn height(&self) -> Length {
        Length::mm(self.height_mm())
    }

    /// The pitch diameter, d2 = D2 = d - 3H/4.
    pub fn pitch_diameter(&self) -> Length {
        Length::mm(self.pitch_diameter_mm())
    }

    /// The minor diameter of the hole and of the basic profile, D1 = d - 5H/4.
    pub fn minor_diameter(&self) -> Length {
        Length::mm(self.minor_diameter_mm())
    }

    /// The diameter at the root of an outside thread cut with a rounded root, d3 = d - 17H/12.
    pub fn root_diameter(&self) -> Length {
        Length::mm(self.major().to_mm() - 17.0 / 12.0 * self.height_mm())
    }

    /// The angle the thread climbs at its pitch diameter: tan = lead / (π·d2).
    pub fn lead_angle(&self) -> Angle {
        Angle::deg(climb_deg(self.lead_mm(), self.pitch_diameter_mm()))
    }

    /// The angle the thread climbs at its major diameter.
    pub fn lead_angle_at_crest(&self) -> Angle {
        Angle::deg(climb_deg(self.lead_mm(), self.major().to_mm()))
    }

    /// The turn from one start to the next: 360° over the starts. A cap catches within it.
    pub fn start_spacing(&self) -> Angle {
        Angle::deg(360.0 / f64::from(self.starts()))
    }

    /// The radius in millimetres of the plain cylinder with the same volume as the thread:
    /// √(mean of r² over a pitch) of the basic profile, as far as `clip` leaves it.
    ///
    /// Inside and outside threads share the basic profile, so a hole's and a shaft's are one
    /// number. The number of starts does not matter.
    pub fn equal_volume_radius_mm(&self, clip: Clip) -> f64 {
        let crest = self.major().to_mm() / 2.0;
        let root = self.minor_diameter_mm() / 2.0;
        let (low, high) = match clip {
            Clip::Full => (root, crest),
            Clip::Bore(bore) => (bore.to_mm() / 2.0, crest),
            Clip::Tenon(tenon) => (root, tenon.to_mm() / 2.0),
        };
        // A bore wider than the thread, or a tenon thinner than its root, leaves plain cylinders.
        if low >= crest {
            return low;
        }
        if high <= root {
            return high;
        }
        self.mean_square_mm2(low.max(root), high.min(crest)).sqrt()
    }

    /// The same where the crests end at this radius in millimetres, and how fast it grows with
    /// that: a chamfer or a countersink moves the crests along the thread, station by station.
    ///
    /// The crest is taken into the basic profile, between its root and its crest: beyond the one
    /// nothing is left of the thread, beyond the other nothing is taken of it.
    pub fn equal_volume_at_crest(&self, side: ThreadSide, crest_mm: f64) -> (f64, f64) {
        let crest = self.major().to_mm() / 2.0;
        let root = self.minor_diameter_mm() / 2.0;
        let here = crest_mm.clamp(root, crest);
        // The share of a pitch on which the crest's own flat lies: what the square grows by.
        let (square, flat) = match side {
            ThreadSide::External => (self.mean_square_mm2(root, here), self.crest_flat_mm(here)),
            ThreadSide::Internal => (self.mean_square_mm2(here, crest), self.root_flat_mm(here)),
        };
        let radius = square.sqrt();
        (radius, here * flat / self.pitch_mm() / radius)
    }

    /// The mean of r² over a pitch of the basic profile between two radii of it.
    fn mean_square_mm2(&self, low: f64, high: f64) -> f64 {
        let flanks = 2.0 * (high - low) / SQRT_3;
        (self.root_flat_mm(low) * low * low
            + self.crest_flat_mm(high) * high * high
            + flanks * (low * low + low * high + high * high) / 3.0)
            / self.pitch_mm()
    }

    /// How much of a pitch lies below this radius of the profile; each flank runs 1/√3 along the
    /// axis for one of radius.
    fn root_flat_mm(&self, low: f64) -> f64 {
        self.pitch_mm() / 4.0 + 2.0 * (low - self.minor_diameter_mm() / 2.0) / SQRT_3
    }

    fn crest_flat_mm(&self, high: f64) -> f64 {
        self.pitch_mm() / 8.0 + 2.0 * (self.major().to_mm() / 2.0 - high) / SQRT_3
    }

    pub(super) fn height_mm(&self) -> f64 {
        self.pitch_mm() * SQRT_3 / 2.0
    }

    pub(super) fn pitch_diameter_mm(&self) -> f64 {
        self.major().to_mm() - 0.75 * self.height_mm()
    }

    pub(super) fn minor_diameter_mm(&self) -> f64 {
        self.major().to_mm() - 1.25 * self.height_mm()
    }
}

fn climb_deg(lead_mm: f64, diameter_mm: f64) -> f64 {
    (lead_mm / (PI * diameter_mm)).atan().to_degrees()
}

#[cfg(test)]
mod tests;
