//! The least wall of parts that are not round against points all over their surfaces: a second
//! reckoning, in which nothing of the program's outlines is used.

use super::{Tally, open};
use quillet_check::{Role, walls};
use quillet_fixture::Random;
use quillet_model::Texts;

/// Parts that are tried where nothing else is asked.
const PARTS: usize = 60;
/// Points lie this far apart, mm.
const STEP_MM: f64 = 0.02;

/// A tapered rod over a stepped hole with a drill's point, with flats, a blind slot and a blind hole from
/// the side. All in mm; angles in radians.
struct Rod {
    length: f64,
    /// The outside's diameters at the front, at the waist and at the back.
    dias: [f64; 3],
    waist: f64,
    /// The wide bore's and the drill's diameter and depth.
    bore: [f64; 2],
    drill: [f64; 2],
    count: u32,
    /// Twice the apothem at both ends of the flats.
    across: [f64; 2],
    flats: [f64; 2],
    slot: [f64; 2],
    hole: [f64; 2],
    /// How deep the slot and the hole go.
    deep: [f64; 2],
}

/// Told to a hundredth, as it is written.
fn between(random: &mut Random, from: f64, to: f64) -> f64 {
    ((from + (to - from) * random.share()) * 100.0).round() / 100.0
}

impl Rod {
    fn at_random(random: &mut Random) -> Self {
        let length = between(random, 45.0, 75.0);
        let dias = [0; 3].map(|_| between(random, 12.5, 15.0));
        let least = dias.iter().copied().fold(f64::INFINITY, f64::min);
        let wide = between(random, 7.0, 8.5);
        let places = [0.1, 0.42, 0.5, 0.66, 0.8].map(|share| (share * length).round());
        Self {
            length,
            dias,
            waist: between(random, 0.2 * length, 0.9 * length),
            bore: [wide, between(random, 5.0, 0.7 * length)],
            drill: [
                between(random, 4.0, wide - 0.5),
                between(random, 0.72 * length, length - 4.0),
            ],
            count: 3 + (random.share() * 9.0) as u32,
            across: [0; 2].map(|_| between(random, 10.0, least)),
            flats: [places[0], places[1]],
            slot: [places[2], places[3]],
            hole: [places[4], between(random, 1.0, 3.0)],
            deep: [0; 2].map(|_| between(random, 0.2, 1.5)),
        }
    }

    fn text(&self) -> String {
        let Self {
            length,
            dias: [front, mid, back],
            waist,
            bore,
            drill,
            ..
        } = self;
        let Self {
            count,
            across,
            flats,
            slot,
            hole,
            deep,
            ..
        } = self;
        format!(
            "part rod from front to back {{\n blank of acrylic rod 16\n length {length}\n outside {{\n at 0 dia {front}\n \
             at {waist} dia {mid}\n at back dia {back}\n }}\n side {{\n flat across {} to {} at {}..{} indexed {count}\n \
             slot 2 to {} at {}..{}\n drill {} to {} at {} clock 70\n }}\n from front {{\n bore {} to {}\n drill {} to {}\n \
             }}\n}}\n",
            across[0],
            across[1],
            flats[0],
            flats[1],
            deep[0],
            slot[0],
            slot[1],
            hole[1],
            deep[1],
            hole[0],
            bore[0],
            bore[1],
            drill[0],
            drill[1],
        )
    }

    fn radius(&self, at: f64) -> f64 {
        let [front, mid, back] = self.dias.map(|dia| dia / 2.0);
        match at < self.waist {
            true => front + (mid - front) * at / self.waist,
            false => mid + (back - mid) * (at - self.waist) / (self.length - self.waist),
        }
    }

    /// The hole's outline from its mouth: the bore, its floor, the drill, its point of 118°.
    fn inside(&self) -> [(f64, f64); 5] {
        let ([wide, step], [narrow, depth]) = (self.bore, self.drill);
        let tip = narrow / 2.0 / 59f64.to_radians().tan();
        [
            (0.0, wide / 2.0),
            (step, wide / 2.0),
            (step, narrow / 2.0),
            (depth, narrow / 2.0),
            (depth + tip, 0.0),
        ]
    }

    /// How far a point so far along and out of the axis is from the hole's surface, which is round: in the
    /// plane through both.
    fn off_inside(&self, (at, out): (f64, f64)) -> f64 {
        let inside = self.inside();
        let lines = inside.windows(2).map(|line| {
            let [(x0, r0), (x1, r1)] = [line[0], line[1]];
            let (dx, dr) = (x1 - x0, r1 - r0);
            let along = ((at - x0) * dx + (out - r0) * dr) / (dx * dx + dr * dr);
            let along = along.clamp(0.0, 1.0);
            f64::hypot(at - x0 - along * dx, out - r0 - along * dr)
        });
        lines.fold(f64::INFINITY, f64::min)
    }

    /// Points of the outer surfaces: what is turned and flat, the two floors, the back's face.
    fn least(&self) -> f64 {
        let steps = |from: f64, to: f64| {
            let count = ((to - from) / STEP_MM).ceil() as u32;
            (0..=count).map(move |it| from + (to - from) * f64::from(it) / f64::from(count))
        };
        let half = std::f64::consts::PI / f64::from(self.count);
        let turned = steps(0.0, self.length).chain(self.flats).flat_map(|at| {
            let apothem = self.apothem(at);
            [0.0, 0.3, 0.7, 1.0].map(|share| {
                let flat = apothem / (share * half).cos();
                (at, self.radius(at).min(flat))
            })
        });
        let highest = |from: f64, to: f64| {
            steps(from, to)
                .map(|it| self.radius(it))
                .fold(0.0, f64::max)
        };
        let floor = |from: f64, to: f64, deep: f64| {
            let plane = highest(from, to) - deep;
            steps(from, to).map(move |at| (at, plane))
        };
        let [from, to] = self.slot;
        let [at, dia] = self.hole;
        let floors = floor(from, to, self.deep[0]).chain(floor(
            at - dia / 2.0,
            at + dia / 2.0,
            self.deep[1],
        ));
        let face = steps(0.0, self.dias[2] / 2.0).map(|out| (self.length, out));
        let all = turned
            .chain(floors)
            .chain(face)
            .map(|it| self.off_inside(it));
        all.fold(f64::INFINITY, f64::min)
    }

    /// Beyond the flats there is no apothem that takes anything.
    fn apothem(&self, at: f64) -> f64 {
        let ([from, to], [one, other]) = (self.flats, self.across);
        match (from..=to).contains(&at) {
            true => (one + (other - one) * (at - from) / (to - from)) / 2.0,
            false => f64::INFINITY,
        }
    }
}

#[test]
fn no_point_of_a_part_that_is_not_round_is_nearer_than_its_least_wall() {
    let mut random = Random(20);
    let mut tally = Tally::of("parts that are not round");
    for _ in 0..PARTS {
        let rod = Rod::at_random(&mut random);
        let design = open(
            "rod.quillet",
            &Texts::default().with("rod.quillet", &rod.text()),
        );
        assert!(design.findings.is_empty(), "{:#?}", design.findings);
        let wall =
            |it: &quillet_check::Wall| it.role == Role::End || it.least <= it.outer_dia.half();
        let least = walls(&design.parts[0])
            .into_iter()
            .filter(wall)
            .map(|it| it.least)
            .min();
        let least = least.expect("it has walls").to_mm();
        let sampled = rod.least();
        tally.hold((sampled, least, 2e-6), || rod.text());
        assert!(
            sampled - least <= STEP_MM,
            "{sampled} is far over {least}:\n{}",
            rod.text()
        );
    }
    tally.close(PARTS - 1);
}
