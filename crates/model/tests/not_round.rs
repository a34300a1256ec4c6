//! Parts that are not round: what flats, holes and slots leave, and the two outlines.

use quillet_model::{Design, Origin, Part, Profiles, Texts, load, resolve};
use quillet_syntax::Severity;
use std::f64::consts::PI;
use std::path::Path;

fn design(text: &str) -> Design {
    let texts = Texts::default().with("part.quillet", text);
    resolve(&load(Path::new("part.quillet"), &texts).expect("the text is there"))
}

/// A ⌀14 × 70 rod of acrylic over a bore, with these lines besides.
fn rod(bore: &str, side: &str) -> Design {
    let text = format!(
        "part rod from front to back {{\n blank of acrylic rod 15\n length 70\n outside dia 14\n \
         side {{\n{side}\n }}\n from front {{\n{bore}\n }}\n}}\n"
    );
    let design = design(&text);
    sound(&design);
    design
}

fn sound(design: &Design) {
    let mut errors = design
        .findings
        .iter()
        .filter(|it| it.severity == Severity::Error);
    assert!(errors.next().is_none(), "{:#?}", design.findings);
}

fn part(design: &Design) -> (&Part, &Profiles) {
    let part = &design.parts[0];
    (part, part.profiles.as_ref().expect("it has a shape"))
}

fn near(found: f64, wanted: f64, within: f64) {
    assert!(
        (found - wanted).abs() <= within,
        "{found} where {wanted} was wanted"
    );
}

/// Eight flats 13.2 across from 10 to 60, over a bore of 10: the closed forms N a² tan(π/N) and
/// π r² - N (r² acos(a/r) - a √(r² - a²)), by hand; 500.489 mm³ less than round.
#[test]
fn an_octagon_weighs_and_measures_what_its_closed_form_says() {
    let design = rod("drill 10 through", "flat across 13.2 at 10..60 indexed 8");
    let (part, profiles) = part(&design);
    let found = profiles.properties();
    near(found.volume_mm3, 4_777.386, 5e-4);
    near(
        profiles.metal.properties().volume_mm3 - found.volume_mm3,
        500.489,
        5e-4,
    );
    near(found.centroid_mm, 35.0, 1e-9);
    let mass = part.weigh().expect("its material is known");
    near(mass.mass_g, 5.685, 5e-4);
    assert_eq!(profiles.crest.outer.radii_at(35.0), Some((7.0, 7.0)));
    let (low, _) = profiles.root.outer.radii_at(35.0).expect("it is there");
    near(low, 6.6, 1e-12);
    let tag = profiles
        .root
        .outer
        .segment_at(35.0)
        .expect("it is there")
        .tag;
    assert!(matches!(profiles.origin(tag), Origin::Side(_)));
    let across = profiles.across_flats();
    assert_eq!(across.len(), 1);
    near(across[0].across_mm[0], 13.2, 1e-9);
    near(across[0].corners_mm[1], 14.0, 1e-9);
    assert_eq!(across[0].calipers_mm(), across[0].across_mm);
    near(
        profiles.across_at_mm(35.0).expect("it is there"),
        13.2,
        1e-12,
    );
    near(
        profiles.across_at_mm(5.0).expect("it is there"),
        14.0,
        1e-12,
    );
}

/// Six flats 12 across leave no round: 12 / cos 30° = 13.856 across corners.
#[test]
fn full_flats_lower_the_high_outline_but_not_what_is_turned() {
    let design = rod("drill 10 through", "flat across 12 at 10..60 indexed 6");
    let (_, profiles) = part(&design);
    let corner = 6.0 / (PI / 6.0).cos();
    let (high, _) = profiles.crest.outer.radii_at(35.0).expect("it is there");
    near(high, corner, 1e-12);
    assert_eq!(profiles.turned().radii_at(35.0), Some((7.0, 7.0)));
    let area = 6.0 * 36.0 * (PI / 6.0).tan() - 25.0 * PI;
    near(
        profiles.properties().volume_mm3,
        50.0 * area + 20.0 * 24.0 * PI,
        1e-6,
    );
}

/// One flat is read by calipers from the round opposite, three from the corner.
#[test]
fn an_odd_number_of_flats_is_read_from_what_lies_opposite() {
    let stop = rod("drill 4 to 40", "flat deep 0.5 at 20..36 clock 180");
    let across = part(&stop).1.across_flats();
    near(across[0].calipers_mm()[0], 6.5 + 7.0, 1e-9);
    let three = rod("drill 4 to 40", "flat sharp at 20..36 indexed 3");
    let across = part(&three).1.across_flats();
    near(across[0].across_mm[0], 7.0, 1e-9);
    near(across[0].calipers_mm()[0], 3.5 + 7.0, 1e-9);
}

/// A hole of 1.5 into a bore of 10 takes 3.541437 mm³ (polar quadrature), wherever it faces; a blind
/// slot 2 × 16 to 1 takes 2 (14 √(49 - y²)…): here only that the floor is the least wall.
#[test]
fn side_holes_open_and_blind_slots_leave_a_floor() {
    let design = rod(
        "drill 10 through",
        "drill 1.5 at 30 indexed 4 clock 45\n slot 2 to 1 at 44..60",
    );
    let (_, profiles) = part(&design);
    let taken = profiles.metal.properties().volume_mm3 - profiles.properties().volume_mm3;
    let (mut slot, steps) = (0.0, 20_000);
    for step in 0..steps {
        let turn = PI * ((f64::from(step) + 0.5) / f64::from(steps) - 0.5);
        let (y, dy) = (turn.sin(), turn.cos() * PI / f64::from(steps));
        slot += (14.0 + 2.0 * turn.cos()) * ((49.0 - y * y).sqrt() - 6.0) * dy;
    }
    near(taken, 4.0 * 3.541_437 + slot, 3e-6);
    // No wall where it opens, a wall over the floor.
    assert_eq!(profiles.root.outer.radii_at(30.0), Some((7.0, 7.0)));
    let (floor, _) = profiles.root.outer.radii_at(52.0).expect("it is there");
    near(floor, 6.0, 1e-12);
    assert_eq!(profiles.crest.outer.radii_at(52.0), Some((7.0, 7.0)));
}

/// Three flat-floored holes 3.1 by 2.1 on a pitch circle: π/4 × 3.1² × 2.1 each, at 6.25 from the axis.
#[test]
fn holes_on_a_pitch_circle_take_cylinders() {
    let text = "part ring from front to back {\n blank of acrylic rod 20\n length 10\n outside dia 18\n \
                from back {\n bore 3.1 to 2.1 on 12.5 indexed 3\n }\n}\n";
    let design = design(text);
    sound(&design);
    let (_, profiles) = part(&design);
    let one = PI / 4.0 * 3.1 * 3.1 * 2.1;
    let whole = PI * 81.0 * 10.0;
    let found = profiles.properties();
    near(found.volume_mm3, whole - 3.0 * one, 1e-9);
    let centroid = (whole * 5.0 - 3.0 * one * (10.0 - 1.05)) / (whole - 3.0 * one);
    near(found.centroid_mm, centroid, 1e-9);
    assert_eq!(profiles.crest.outer.radii_at(9.0), Some((9.0, 9.0)));
}

/// Their moments by hand: of a cylinder m r²/2 about its own axis and m (h²/12 + r²/4) across it (any
/// handbook), moved by the parallel axis theorem; of the two axes across the part three holes give the mean.
#[test]
fn holes_on_a_pitch_circle_take_inertia_by_the_parallel_axis_theorem() {
    let text = "part ring from front to back {\n blank of acrylic rod 20\n length 10\n outside dia 18\n \
                from back {\n bore 3.1 to 2.1 on 12.5 indexed 3 clock 20\n }\n}\n";
    let design = design(text);
    sound(&design);
    let found = part(&design).1.properties();
    let (whole, holes) = (PI * 81.0 * 10.0, 3.0 * PI / 4.0 * 3.1 * 3.1 * 2.1);
    let spun = whole * 40.5 - holes * (1.55 * 1.55 / 2.0 + 6.25 * 6.25);
    near(found.axial_mm5, spun, 1e-8);
    let middle = (whole * 5.0 - holes * 8.95) / (whole - holes);
    let disc = whole * (100.0 / 12.0 + 81.0 / 4.0 + (5.0 - middle).powi(2));
    let own = 2.1 * 2.1 / 12.0 + 1.55 * 1.55 / 4.0;
    let moved = 6.25 * 6.25 / 2.0 + (8.95 - middle).powi(2);
    near(found.transverse_mm5, disc - holes * (own + moved), 1e-7);
}

/// Six through a glued joint: of each material goes what lies in it.
#[test]
fn holes_through_a_glued_joint_are_weighed_piece_by_piece() {
    let text = "material light {\n kind acrylic\n density 1\n}\nmaterial heavy {\n kind brass\n density 8\n}\n\
                part rod from front to back {\n blank of light rod 15 to 4\n blank of heavy rod 15\n \
                length 10\n outside dia 14\n from front {\n drill 2 through on 9 indexed 6\n }\n}\n";
    let design = design(text);
    sound(&design);
    let mass = part(&design).0.weigh().expect("its materials are known");
    let left = PI * (49.0 - 6.0);
    near(mass.mass_g, left * (4.0 + 6.0 * 8.0) / 1000.0, 1e-7);
}

/// Two equal holes that cross share 16 r³ / 3 (Archimedes), at another angle that over its sine. Of a
/// knurl's ring a slot takes the whole of its place, and the knurl its share of the rest.
#[test]
fn what_two_cuts_take_is_taken_once() {
    let volume = |side: &str| {
        let design = rod("bore 4 to 5", side);
        part(&design).1.properties().volume_mm3
    };
    let whole = PI * (49.0 * 70.0 - 4.0 * 5.0);
    for dia in [1.5f64, 3.0] {
        let one = format!("drill {dia} through at 30");
        let hole = whole - volume(&one);
        let shared = 16.0 / 3.0 * (dia / 2.0).powi(3);
        for (clock, longer) in [(90.0, 1.0), (30.0, 2.0)] {
            let both = volume(&format!("{one}\n{one} clock {clock}"));
            near(whole - both, 2.0 * hole - shared * longer, 1e-5);
        }
        // Three through the middle, and six that come to it, are the same metal.
        near(
            volume(&format!("{one} indexed 3")),
            volume(&format!("drill {dia} at 30 indexed 6")),
            1e-5,
        );
    }
    // The knurl's half of its ring, and the whole of it where a slot of 5.5 takes the rest of the ring.
    let knurl = |share: f64| format!("pattern \"knurl\" deep 0.4 share {share} at 20..40");
    let ring = PI * (49.0 - 6.6 * 6.6) * 20.0;
    let slot = "slot 3 to 2 at 25..35";
    let alone = whole - volume(slot);
    let full = whole - volume(&format!("{slot}\n{}", knurl(1.0)));
    // What the slot takes below a knurl that took all is what it takes of a rod so much slimmer.
    let below = full - ring;
    for share in [0.5, 0.2] {
        let both = whole - volume(&format!("{slot}\n{}", knurl(share)));
        near(both, alone + share * (ring - (alone - below)), 1e-5);
    }
}

/// A stack of two materials, flats over the joint: each piece loses what is cut of it.
#[test]
fn flats_over_a_glued_joint_are_weighed_piece_by_piece() {
    let text = "material light {\n kind acrylic\n density 1\n}\nmaterial heavy {\n kind brass\n density 8\n}\n\
                part rod from front to back {\n blank of light rod 15 to 35\n blank of heavy rod 15\n \
                length 70\n outside dia 14\n side {\n flat across 13.2 at 10..60 indexed 8\n }\n}\n";
    let design = design(text);
    sound(&design);
    let (part, _) = part(&design);
    let flat = 49.0 * (6.6_f64 / 7.0).acos() - 6.6 * (49.0 - 6.6_f64 * 6.6).sqrt();
    let half = PI * 49.0 * 35.0 - 25.0 * 8.0 * flat;
    let mass = part.weigh().expect("its materials are known");
    near(mass.mass_g, half * 9.0 / 1000.0, 1e-9);
}

#[test]
fn a_round_part_has_one_outline() {
    let text =
        "part rod from front to back {\n blank of acrylic rod 15\n length 70\n outside dia 14\n}\n";
    let design = design(text);
    let (_, profiles) = part(&design);
    assert!(profiles.not_round.is_empty());
    assert_eq!(profiles.properties(), profiles.metal.properties());
    assert!(profiles.across_flats().is_empty());
}
