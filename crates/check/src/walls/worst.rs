//! What is left of a wall at worst.

use super::Wall;
use quillet_geometry::Length;
use quillet_model::{Cut, End, Feature, Hand, Origin, Part};
use quillet_standards::thread::Side as ThreadSide;
use quillet_syntax::ast::{Side, ToleranceKind};

impl Wall {
    /// The least distance with every size at its worst: both surfaces across the axis, and along
    /// it, where the wall looks that way, the depth, the outside's station and the length between
    /// the ends they are measured from. Threads by their limits; the rest as the hand keeps it.
    pub fn worst(&self, part: &Part, hand: &Hand) -> Length {
        let along = (self.outer_at - self.at).to_mm();
        let across = (self.outer_dia - self.inner_dia).to_mm() / 2.0;
        let distance = along.hypot(across);
        // Where they touch there is no way to look; a wall looks across.
        let (along, across) = match distance > 1e-9 {
            true => (along.abs() / distance, across.abs() / distance),
            false => (0.0, 1.0),
        };
        let radii = outside(part, hand, self) + inside(part, hand, self);
        let planes = match along > 1e-9 {
            true => between(part, hand, self),
            false => Length::ZERO,
        };
        self.least - radii.scaled(across) - planes.scaled(along)
    }
}

fn cut(part: &Part, origin: Origin) -> Option<&Feature> {
    part.features.get(origin.feature()?)
}

/// How far the outer surface may lie under its drawn radius.
fn outside(part: &Part, hand: &Hand, wall: &Wall) -> Length {
    let turned = hand.keeps(ToleranceKind::Dia, wall.outer_dia);
    let on_diameter = match cut(part, wall.outer) {
        Some(feature) => match &feature.cut {
            Cut::Thread {
                thread,
                side: Side::Outside,
            } => {
                let form = &thread.thread;
                let limits = form.external_limits(form.class(ThreadSide::External));
                limits.map_or(Length::ZERO, |it| form.root_diameter() - it.root_min)
            }
            Cut::Tenon { dia, .. } => part.tenon(feature).map_or(turned, |it| *dia - it.0.min()),
            _ => turned,
        },
        None => match wall.outer {
            Origin::Face(_) => Length::ZERO,
            _ => turned,
        },
    };
    on_diameter.max(Length::ZERO).half()
}

/// How far the inner surface may lie over its drawn radius.
fn inside(part: &Part, hand: &Hand, wall: &Wall) -> Length {
    let bored = hand.keeps(ToleranceKind::Bore, wall.inner_dia);
    let on_diameter = cut(part, wall.inner).map_or(bored, |feature| match &feature.cut {
        Cut::Thread {
            thread,
            side: Side::Inside,
        } => {
            let form = &thread.thread;
            let limits = form.internal_limits(form.class(ThreadSide::Internal));
            limits.map_or(Length::ZERO, |it| it.major_max - form.major())
        }
        Cut::Drill { dia, .. } => hand.keeps(ToleranceKind::Drill, *dia),
        _ => bored,
    });
    on_diameter.max(Length::ZERO).half()
}

/// How much nearer along the axis the two may lie than drawn.
fn between(part: &Part, hand: &Hand, wall: &Wall) -> Length {
    let kept = |kept, at: Length| match at.is_positive() {
        true => hand.keeps(kept, at),
        false => Length::ZERO,
    };
    // A cut that begins below its face has two planes: the one that the wall begins at counts.
    let plane = |it: &Feature, at: Length| {
        let from = part.station(it.end, it.from);
        match (from - at).abs() <= Length::from_nm(2) {
            true => it.from,
            false => it.to,
        }
    };
    let depth =
        cut(part, wall.inner).map(|it| (it.end, kept(ToleranceKind::Depth, plane(it, wall.at))));
    let outer = match wall.outer {
        Origin::Face(end) => Some((end, Length::ZERO)),
        Origin::Outside(index) => part.stations.get(index).map(|it| {
            let end = if it.at == part.length {
                End::Second
            } else {
                it.from
            };
            let at = match end {
                End::First => it.at,
                End::Second => part.length - it.at,
            };
            (end, kept(ToleranceKind::Shoulder, at))
        }),
        origin => cut(part, origin).map(|it| {
            (
                it.end,
                kept(ToleranceKind::Shoulder, plane(it, wall.outer_at)),
            )
        }),
    };
    let (Some((one, inner)), Some((other, outer))) = (depth, outer) else {
        return Length::ZERO;
    };
    let length = match one == other {
        true => Length::ZERO,
        false => hand.keeps(ToleranceKind::Length, part.length),
    };
    inner + outer + length
}

#[cfg(test)]
mod tests {
    use crate::{Role, Wall, walls};
    use quillet_geometry::Length;
    use quillet_model::{Hand, Texts, load, resolve};
    use std::path::Path;

    fn worst(bench: &str, role: Role, outside: &str, cuts: &str) -> (f64, f64) {
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
            .filter(|it| it.role == role)
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
}
