//! What is left of a wall at worst.

use super::{Role, Wall};
use quillet_geometry::{Length, Point};
use quillet_model::{Hand, Part, WorstCase};
use quillet_syntax::ast::ToleranceKind;

impl Wall {
    /// The least distance with every size at its worst, as the hand keeps it, threads by their
    /// limits.
    pub fn worst(&self, part: &Part, hand: &Hand) -> Length {
        Length::mm(self.at_worst(part, hand).least_mm)
    }

    /// The same, with the sizes that it is the sum of.
    pub fn at_worst(&self, part: &Part, hand: &Hand) -> WorstCase {
        let outer = Point::turned(self.outer_at, self.outer_dia);
        let inner = Point::turned(self.at, self.inner_dia);
        let (outer, inner) = ((self.outer, outer), (self.inner, inner));
        let mut worst = part.worst_between(hand, outer, inner, self.least.to_mm());
        worst.least_mm -= self.holes_off_mm(part, hand);
        worst
    }

    /// How much of it holes beside the axis take that come out wide and off their circle, mm: half of
    /// what the hole and the circle are kept to on each side; between two of one circle both.
    fn holes_off_mm(&self, part: &Part, hand: &Hand) -> f64 {
        let Some(holes) = self.beside().and_then(|it| part.circle(it)) else {
            return 0.0;
        };
        if self.role == Role::End {
            return 0.0;
        }
        let kind = match holes.point {
            Some(_) => ToleranceKind::Drill,
            None => ToleranceKind::Bore,
        };
        let kept = |kind, dia| match part.made.stands_at(holes.span) {
            true if !hand.is_exact() => hand.measured_dia(),
            _ => hand.keeps(kind, dia),
        };
        let wide = kept(kind, holes.dia).to_mm() / 2.0;
        let circle = kept(ToleranceKind::Dia, holes.on).to_mm() / 2.0;
        match self.outer == self.inner {
            true => {
                let turn = std::f64::consts::PI / f64::from(holes.around.count);
                2.0 * (wide + circle * turn.sin())
            }
            false => wide + circle,
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::{Role, Wall, walls};
    use quillet_geometry::Length;
    use quillet_model::{Hand, Texts, load, resolve};
    use std::path::Path;

    fn worst(bench: &str, role: Role, outside: &str, cuts: &str) -> (f64, f64) {
        worst_of(bench, outside, cuts, |it| it.role == role)
    }

    /// The least of some walls of a tube, as drawn and at worst, mm.
    fn worst_of(
        bench: &str,
        outside: &str,
        cuts: &str,
        counts: impl Fn(&Wall) -> bool,
    ) -> (f64, f64) {
        let text = format!(
            "bench shed {{\n{bench}\n}}\npart tube from mouth to tail {{\nblank of acrylic rod \
             30\nlength 60\n{outside}\nfrom mouth {{\n{cuts}\n}}\n}}\n"
        );
        let texts = Texts::default().with("t.quillet", &text);
        let design = resolve(&load(Path::new("t.quillet"), &texts).expect("the text is there"));
        assert!(design.findings.is_empty(), "{:#?}", design.findings);
        let part = design.part("tube").expect("it is there");
        let hand = Hand::at(design.bench(None).map(AsRef::as_ref));
        let all = walls(part);
        let found: &Wall = all
            .iter()
            .filter(|it| counts(it))
            .min_by_key(|it| it.least)
            .expect("it has one");
        let mm = |length: Length| length.to_mm();
        (mm(found.least), mm(found.worst(part, &hand)))
    }

    fn near(found: (f64, f64), wanted: (f64, f64)) {
        let apart = (found.0 - wanted.0).abs().max((found.1 - wanted.1).abs());
        assert!(apart < 1e-5, "{found:?} where {wanted:?} was wanted");
    }

    #[test]
    fn a_wall_loses_half_of_each_diameters_tolerance() {
        let plain = |bench, cuts| worst(bench, Role::Plain, "outside dia 14", cuts);
        // ISO 2768-1 f gives 14 mm 0.1; a drill comes out up to 0.15 over.
        near(plain("", "drill 10 to 40"), (2.0, 2.0 - 0.05 - 0.075));
        near(plain("", "bore 10 to 40"), (2.0, 2.0 - 0.05 - 0.05));
        let kept = "keeps dia 0.04\nkeeps bore 0.02\nkeeps drill 0.06";
        near(plain(kept, "drill 10 to 40"), (2.0, 2.0 - 0.02 - 0.03));
        near(plain(kept, "bore 10 to 40"), (2.0, 2.0 - 0.02 - 0.01));
    }

    #[test]
    fn a_lip_is_turned_and_bored() {
        let cuts = "bore 12 to 3\ndrill 8 to 40";
        near(
            worst("", Role::Lip, "outside dia 14", cuts),
            (1.0, 1.0 - 0.05 - 0.05),
        );
    }

    #[test]
    fn a_recess_begins_where_it_is_begun() {
        // From the step's face at 20 to the recess at 24: ISO 2768-1 gives the shoulder 0.1 and the
        // depth of 24 mm 0.2; that of 40 mm, 0.3, has no part in it.
        let outside = "outside {\nat 0 dia 10\nat 20 dia 10 step 26\nat tail dia 26\n}";
        let cuts = "drill 1 to 50\nrecess 12 for 16 at 24";
        let found = worst("", Role::Plain, outside, cuts);
        near(found, (4.0, 4.0 - 0.1 - 0.2));
    }

    #[test]
    fn a_closed_end_loses_depth_and_length() {
        let flat = |bench, cuts| worst(bench, Role::End, "outside dia 14", cuts);
        // 60 and 57 mm: ISO 2768-1 f 0.15, m 0.3.
        near(flat("", "bore 8 to 57"), (3.0, 3.0 - 0.15 - 0.3));
        let kept = "keeps depth 0.1\nkeeps length 0.07";
        near(flat(kept, "bore 8 to 57"), (3.0, 3.0 - 0.07 - 0.1));
    }

    #[test]
    fn a_corner_under_a_cone_moves_along_it_too() {
        // The cone's radius is 10 - z / 12, the corner at 30 and 3: 7.5 - 3 = 4.5 across, in truth
        // 4.5 cos (atan 1/12). At worst the cone runs from 9.95 to 4.95 in 59.85, the corner lies at
        // 30.2 and 3.025: (9.95 - 5 * 30.2 / 59.85 - 3.025) cos (atan 5 / 59.85).
        let cone = "outside {\nat 0 dia 20\nat tail dia 10\n}";
        let found = worst("", Role::Plain, cone, "bore 6 to 30");
        near(found, (4.484_456, 4.386744));
    }

    #[test]
    fn a_thread_is_judged_by_its_roots() {
        // ISO 965-1, M10x1 6H: D2 max 9.500 and 0.793857 P give the roots 10.294; the outside of
        // 16 mm keeps 0.1.
        let cuts = "drill 9 to 20\nthread M10x1 inside to 12\nchamfer 0.2";
        let found = worst("keeps drill 0", Role::Plain, "outside dia 16", cuts);
        near(found, (3.0, 3.0 - 0.05 - 0.147));
    }

    #[test]
    fn a_steps_face_is_not_the_slope_before_it() {
        // From the point's tip, 17.4635, to the step's inner corner at 28 and 6.65; along that way the
        // shoulder takes 0.1, half the diameter 0.05, the depth of 15 0.2 and the drill's tip
        // 0.075 / tan 59.
        let outside = "outside {\nat 0 dia 18.67\nat 28 dia 17.93 step 13.3\nat tail dia 18.85\n}";
        let found = worst("", Role::End, outside, "drill 8.2 to 15");
        near(found, (12.459524, 12.141031));
    }

    #[test]
    fn a_broken_corner_moves_with_its_corner() {
        // Between two nearly level slopes. By the second reckoning of `tests/oracles/figures.py`.
        let outside =
            "outside {\nat 0 dia 17.63\nat 35.5 dia 17.6 chamfer 0.39\nat tail dia 18.01\n}";
        let found = worst("", Role::End, outside, "drill 3.2 to 12");
        near(found, (24.560508, 24.173758));
    }

    #[test]
    fn a_taper_is_drawn_anew_between_its_own_ends() {
        // Up to where a broken corner leaves the outside; by the same reckoning.
        let outside = "outside {\nat 0 dia 18.2\nat tail dia 16\n}";
        let cuts = "drill 8 to 40\ntaper 9.2 to 8 for 6\nchamfer 0.46";
        let found = worst_of("", outside, cuts, |it| it.at < Length::mm(1.0));
        near(found, (4.515041, 4.415477));
    }

    /// The wall under an outside whose inner surface lies between two stations, mm.
    fn between(from_mm: f64, to_mm: f64) -> impl Fn(&Wall) -> bool {
        move |it| it.from >= Length::mm(from_mm) && it.to <= Length::mm(to_mm)
    }

    #[test]
    fn a_root_that_a_bore_swallows_runs_on_into_it_at_worst() {
        // ISO 965-1, M10x0.75 6H: D2 max 9.645 and 0.793857 P give roots on 10.240, which stand out
        // of a bore of 10.15 up to the mouth, 14 less 0.1 across: 6.95 - 5.12. One of 10.3 keeps them
        // behind its 3 mm, under a cone that grows by 0.1 a mm on the radius: 2.3 across as drawn.
        let cone = "outside {\nat 0 dia 14\nat 20 dia 18\nat tail dia 18\n}";
        let worst = |bore, bench| {
            let cuts = format!("drill 9.2 to 30\nbore {bore} to 3\nthread M10x0.75 inside to 9");
            worst_of(bench, cone, &cuts, between(2.9, 9.1))
        };
        let leans = (1.0_f64 + 0.1 * 0.1).sqrt();
        near(worst(10.15, ""), (2.3 / leans, 1.83));
        near(
            worst(10.3, "keeps depth 0\nkeeps shoulder 0"),
            (2.3 / leans, (2.3 - 0.05 - 0.12) / leans),
        );
    }

    #[test]
    fn a_countersink_closes_where_its_cone_does() {
        // 5.8 / tan 20 under the mouth, through the blunt point of its drill; of the 60 mm ISO 2768-1 f
        // keeps 0.15, of the 11.6 across 0.1, which moves the tip by 0.05 / tan 20.
        let tan = 20.0_f64.to_radians().tan();
        let cuts = "drill 11 to 13 point 150\ncountersink 11.6 angle 40";
        let found = worst("", Role::End, "outside dia 14", cuts);
        near(found, (60.0 - 5.8 / tan, 60.0 - 0.15 - 5.85 / tan));
    }

    #[test]
    fn an_outside_ends_where_a_root_comes_out_of_it() {
        // Under the root of its own thread, at worst 4 mm further along than drawn. By the second
        // reckoning of `tests/oracles/figures.py`, and so the next.
        let outside = "outside {\nat 0 dia 9.07\nat 5 dia 9.25 smooth\nat 9 dia 9.34 smooth step 18\nat \
                       tail dia 17.6\n}";
        let cuts = "thread M10x0.75 outside for 8\n}\nfrom tail {\ndrill 11 to 16";
        let crossing = |it: &Wall| it.outer_at < Length::mm(2.0) && it.outer_at > Length::ZERO;
        near(
            worst_of("", outside, cuts, crossing),
            (40.720947, 36.875592),
        );
    }

    #[test]
    fn a_root_begins_where_a_taper_lets_it_out() {
        let outside =
            "outside {\nat 0 dia 14.2\nat 30 dia 17.37 smooth\nat tail dia 14.88 smooth\n}";
        let cuts = "drill 8.9 to 20\ntaper 10.9 to 9.21 for 6\nthread M10x0.75 inside to 7";
        near(
            worst_of("", outside, cuts, between(3.1, 7.1)),
            (2.39524, 2.106249),
        );
    }
}
