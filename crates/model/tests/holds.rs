//! What holds a joint, in newtons: estimates, each by hand or by the figures of its formula.

use quillet_model::{Design, HeldBy, Texts, load, resolve};
use quillet_syntax::ast::Verb;
use std::path::Path;

fn design(text: &str) -> Design {
    let texts = Texts::default().with("pen.quillet", text);
    let design = resolve(&load(Path::new("pen.quillet"), &texts).expect("the text is there"));
    assert!(design.findings.is_empty(), "{:#?}", design.findings);
    design
}

/// What holds the cap, and with how much.
fn cap(text: &str) -> (Vec<HeldBy>, Option<f64>, Option<f64>) {
    let design = design(text);
    let pen = design.pen("sketch").expect("a pen");
    let mut joints = pen.joints.with_ids();
    let (id, _) = joints
        .rfind(|(_, it)| matches!(it.verb, Verb::Close | Verb::Press))
        .expect("a joint");
    let verdict = &pen.assembly.joints[id].verdict;
    assert!(verdict.is_sure(), "{:?}", verdict.closing);
    (verdict.held_by.clone(), pen.hold_n(id), pen.new_hold_n(id))
}

fn near(found: Option<f64>, expected: f64, within: f64) {
    let found = found.expect("a force");
    assert!((found - expected).abs() <= within, "{found}, {expected}");
}

/// A plain cap 15/12 on a tenon, 8 long, over 8; the tenon's diameter and a joint.
fn plain(tenon: &str, option: &str) -> String {
    format!(
        "part cap from mouth to crown {{\n blank of acrylic rod 18\n length 50\n outside dia 15\n\
         from mouth {{\n bore 12 to 10\n drill 11 to 40\n}}\n}}\n\
         part body from mouth to tail {{\n blank of acrylic rod 18\n length 90\n\
         outside {{\n at 8 dia 15 as shoulder\n at tail dia 14\n}}\n\
         from mouth {{\n tenon {tenon} for 8\n drill 8 to 60\n}}\n}}\n\
         pen sketch {{\n close cap.mouth onto body.mouth{option} {{\n\
         seat cap.mouth on body.shoulder\n}}\n}}\n"
    )
}

/// Lamé by hand, of one material: p = 0.05 E / (d ((225+d²)/(225-d²) + (d²+64)/(d²-64))), d = 12.05,
/// E = 3 GPa: 370.2025/79.7975 = 4.63928, 209.2025/81.2025 = 2.57631; p = 150 / (12.05 × 7.21559) =
/// 1.72515 MPa; 0.25 p π 12.05 × 8 = 130.6 N while new, half of it when it has crept.
#[test]
fn a_cap_a_twentieth_too_tight_goes_on_and_holds_far_too_much() {
    let (held, hold, new) = cap(&plain("12.05", ""));
    assert!(
        matches!(held[..], [HeldBy::Interference { .. }]),
        "{held:?}"
    );
    near(new, 130.6, 0.1);
    near(hold, 65.3, 0.1);
}

/// A ring with a land 12.1 wide to 2.6 and a groove behind it, slit or not; a ridge of 12.26 on a tenon.
fn snap(slots: &str, overlap: &str) -> String {
    format!(
        "part clutch from mouth to back {{\n blank of shell rod 15\n length 16\n outside dia 14\n\
         {slots}from mouth {{\n bore 12.1 through\n recess 12.3 for 2.1 at 2.6\n}}\n}}\n\
         material shell {{\n kind polycarbonate\n modulus 2.35\n strain 2\n}}\n\
         part body from mouth to tail {{\n blank of acrylic rod 18\n length 90\n\
         outside {{\n at 0 dia 12\n at 3 dia 12\n at 3.6 dia 12.26\n at 4.2 dia 12.26\n\
         at 4.8 dia 12\n at 8 dia 12 step 15 as shoulder\n at tail dia 14\n}}\n\
         from mouth {{\n drill 8 to 60\n}}\n}}\n\
         pen sketch {{\n close clutch.mouth onto body.mouth snap {overlap} {{\n\
         seat clutch.mouth on body.shoulder\n}}\n}}\n"
    )
}

/// Six slots 1 wide and 9.5 long leave fingers 6.9 long from their root to the land at 2.6: the figures
/// of `standards`, 3.0 N and 0.44 %.
#[test]
fn six_fingers_spring_over_a_ridge() {
    let slots = "side {\n slot 1 at 0..9.5 indexed 6\n}\n";
    let (held, hold, _) = cap(&snap(slots, "0.16"));
    let [HeldBy::Snap(snap)] = held[..] else {
        panic!("{held:?}")
    };
    assert_eq!(snap.fingers, Some(6));
    near(Some(snap.overlap.to_mm()), 0.16, 1e-9);
    near(snap.strain, 0.0044, 5e-5);
    near(hold, 3.0, 0.05);
}

/// Three slots right through leave six as well; fingers half as long hold eight times as much (F ~ 1/L³):
/// the slot's root at 6.05, 3.45 from the land.
#[test]
fn fingers_go_by_their_number_and_the_cube_of_their_length() {
    let slots = |of: &str| format!("side {{\n slot 1 {of}\n}}\n");
    let (_, six, _) = cap(&snap(&slots("at 0..9.5 indexed 6"), "0.16"));
    let (_, three, _) = cap(&snap(&slots("through at 0..9.5 indexed 3"), "0.16"));
    near(three, six.unwrap(), 1e-9);
    let (_, short, _) = cap(&snap(&slots("at 0..6.05 indexed 6"), "0.16"));
    near(short, 8.0 * six.unwrap(), 1e-6);
}

/// Unslit, the same ridge takes hundreds of newtons: Hetényi's compliance by hand, β⁴ = 3(1-ν²)/(r²t²),
/// D = Et³/12(1-ν²). Clutch r 6.525, t 0.95, x 2.6, E 2350: β = 0.51161, D = 191.34, c = 5.1004e-03. Body r 5.025,
/// t 2.05, x 4.2, E 3000: β = 0.39687, D = 2454.5, c = 8.4987e-04. Q = 0.08 / (c + c) = 13.445 N/mm; 2π 6.05 Q = 511.1 N
/// on the radius; the flank falls 0.13 in 0.6: × (0.25 + 0.21667) / (1 - 0.05417) = 0.49339.
#[test]
fn a_closed_ring_hardly_springs() {
    let (held, hold, _) = cap(&snap("", "0.16"));
    let [HeldBy::Snap(snap)] = held[..] else {
        panic!("{held:?}")
    };
    assert_eq!(snap.fingers, None);
    near(snap.strain, 0.16 / 12.1, 1e-9);
    near(hold, 252.2, 0.1);
}

/// A ring of 8.6 × 1.2 in a groove of 8.6 under a bore of 10.64: 15 % of its cord, on the mean of 9.8:
/// π 9.8 × 1.2 × 5.5 = 203.19, × 0.073188 × 0.3 = 4.46 N.
#[test]
fn an_o_ring_holds_by_its_squeeze() {
    let (held, hold, _) = cap(
        "bought ring \"O-ring\" {\n ring 8.6 by 1.2\n mass 0.05\n}\n\
         part cap from mouth to crown {\n blank of acrylic rod 18\n length 50\n outside dia 15\n\
         from mouth {\n bore 10.64 to 40\n}\n}\n\
         part body from mouth to tail {\n blank of acrylic rod 18\n length 80\n\
         outside {\n at 10 dia 15 as shoulder\n at tail dia 15\n}\n\
         from mouth {\n tenon 10.5 for 10\n groove 8.6 for 1.6 at 4 takes ring\n drill 5 to 60\n}\n}\n\
         pen sketch {\n close cap.mouth onto body.mouth {\n seat cap.mouth on body.shoulder\n}\n}\n",
    );
    assert!(matches!(held[..], [HeldBy::Ring { .. }]), "{held:?}");
    near(hold, 4.46, 0.01);
}

/// Two rings 14/11.4 × 1.5 that pull 9 N in contact, 0.1 below the faces of a butt each: 0.627 of it is
/// left over 0.2 (`standards`, held against a magnetics library); of unlike ones the weaker counts.
#[test]
fn magnets_pull_over_what_is_left_between_them() {
    let text = |other: &str| {
        format!(
            "bought magnet from north to south {{\n length 1.5\n mass 0.57\n outside dia 14\n\
             from north {{\n bore 11.4 through\n}}\n pulls 9\n}}\n\
             bought other from north to south {{\n length 1.5\n mass 0.57\n outside dia 14\n\
             from north {{\n bore 11.4 through\n}}\n pulls {other}\n}}\n\
             part cap from mouth to crown {{\n blank of acrylic rod 20\n length 50\n outside dia 18\n\
             from mouth {{\n bore 14.1 to 1.6\n drill 11 to 40\n}}\n}}\n\
             part body from mouth to tail {{\n blank of acrylic rod 20\n length 80\n outside dia 18\n\
             from mouth {{\n bore 14.1 to 1.6\n drill 11 to 60\n}}\n}}\n\
             pen sketch {{\n glue magnet.south into body.mouth gap 0.1\n\
             glue other.north into cap.mouth gap 0.1\n\
             close cap.mouth onto body.mouth {{\n seat cap.mouth on body.mouth\n}}\n}}\n"
        )
    };
    let (held, hold, _) = cap(&text("9"));
    let [HeldBy::Magnets(pair)] = held[..] else {
        panic!("{held:?}")
    };
    near(Some(pair.gap_mm), 0.2, 1e-6);
    near(hold, 9.0 * 0.627, 0.01 * 9.0);
    let (_, weaker, _) = cap(&text("4.5"));
    near(weaker, hold.unwrap() / 2.0, 1e-9);
}

/// What a bought part grips holds without a figure.
#[test]
fn a_bought_part_grips_what_lies_in_its_range() {
    let text = |bore: &str| {
        format!(
            "bought click from nose to button {{\n length 20\n mass 3\n\
             outside {{\n at 0 dia 8.4\n at 10 dia 8.4 step 9.4 as collar\n at button dia 9.4\n}}\n\
             grips 8.3..8.5\n}}\n\
             part body from mouth to tail {{\n blank of acrylic rod 18\n length 80\n outside dia 14\n\
             from tail {{\n drill {bore} to 20\n}}\n}}\n\
             pen sketch {{\n press click.nose into body.tail\n}}\n"
        )
    };
    let (held, hold, _) = cap(&text("8.4"));
    assert!(matches!(held[..], [HeldBy::Grips { .. }]), "{held:?}");
    assert_eq!(hold, None);
    let (held, ..) = cap(&text("8.6"));
    assert!(held.is_empty(), "{held:?}");
}

/// A hole that opens the cap from its side is a vent, one with a floor is none.
#[test]
fn a_hole_from_the_side_vents_the_cap() {
    let vented = |side: &str| {
        let text =
            plain("11.99", "").replace("outside dia 15\n", &format!("outside dia 15\n{side}"));
        let design = design(&text);
        let air = design.pen("sketch").unwrap().assembly.air.clone();
        air.expect("air").is_vented()
    };
    assert!(!vented(""));
    assert!(vented("side {\n drill 1 at 20\n}\n"));
    assert!(!vented("side {\n drill 1 to 1 at 20\n}\n"), "it is blind");
}

/// A cap 50 long that screws onto both ends of a body 80 long: posted, its mouth meets the rear shoulder 10
/// from the tail, so it is 80 + 50 - 10; of 4 mm of thread at 2 to 6 and 3.5 to 7.5 from the end, rest at
/// 10 puts the tail's at 2.5 to 6.5: 4 of it lies in the cap's 2 to 7; and it lets go after 10 - 2 - 3.5 = 4.5,
/// 1.875 turns of a lead of 2.4.
#[test]
fn a_cap_screws_onto_the_tail() {
    let end = |end: &str| {
        format!(
            "from {end} {{\n tenon for 10\n thread closing outside for 4 at 3.5\n relief 11.5 for 2.5 at 7.5\n\
             relief 11.5 for 3.5\n}}\n"
        )
    };
    let text = format!(
        "thread closing = M13x0.8 starts 3\n\
         part cap from mouth to crown {{\n blank of acrylic rod 18\n length 50\n outside dia 16\n\
         from mouth {{\n bore 13.1 to 2\n thread closing inside to 7 at 2\n drill 12.2 to 44\n}}\n}}\n\
         part body from mouth to tail {{\n blank of acrylic rod 18\n length 80\n\
         outside {{\n at 10 dia 16 as shoulder\n at 10 from tail dia 16 as rear\n}}\n{}{}}}\n\
         pen sketch {{\n close cap.mouth onto body.mouth {{\n seat cap.mouth on body.shoulder\n}}\n\
         post cap.mouth onto body.tail {{\n seat cap.mouth on body.rear\n}}\n}}\n",
        end("mouth"),
        end("tail")
    );
    let design = design(&text);
    let pen = design.pen("sketch").expect("a pen");
    let posted = pen.assembly.posted.as_ref().expect("posted");
    near(posted.length_mm, 120.0, 1e-9);
    let rest = pen.assembly.joints.iter().next_back().expect("the post");
    let [HeldBy::Thread(thread)] = rest.verdict.held_by[..] else {
        panic!("{:?}", rest.verdict)
    };
    near(Some(thread.overlap_mm), 4.0, 1e-9);
    near(Some(thread.travel_mm), 4.5, 1e-9);
    near(Some(thread.turns()), 1.875, 1e-9);
}

/// Three discs ⌀2 × 3 of 1.4 N on a circle at either side, each 0.1 under its face. What one keeps over 0.2 is
/// ∫ J₁(k)² e^(-0.2 k) (1 - e^(-3k))² dk/k over the same without the gap: 0.635828 by another library's Bessel
/// functions, Gauss on 40,000 panels to k = 20,000; three times 1.4 × that.
#[test]
fn magnets_in_pockets_on_one_circle_pull_together() {
    let text = |count: &str, on: &str| {
        format!(
            "bought magnet from north to south {{\n length 3\n mass 0.07\n outside dia 2\n pulls 1.4\n}}\n\
             part cap from mouth to crown {{\n blank of acrylic rod 20\n length 50\n outside dia 18\n\
             from mouth {{\n drill 8 to 40\n drill 2.1 to 3.1 on 12 indexed 3 takes magnet\n}}\n}}\n\
             part body from mouth to tail {{\n blank of acrylic rod 20\n length 80\n outside dia 18\n\
             from mouth {{\n drill 8 to 60\n\
             drill 2.1 to 3.1 on {on} indexed {count} takes magnet\n}}\n}}\n\
             pen sketch {{\n close cap.mouth onto body.mouth {{\n seat cap.mouth on body.mouth\n}}\n}}\n"
        )
    };
    let (held, hold, _) = cap(&text("3", "12"));
    let [HeldBy::Magnets(pair)] = held[..] else {
        panic!("{held:?}")
    };
    assert_eq!(pair.pairs, 3);
    near(Some(pair.gap_mm), 0.2, 1e-6);
    near(hold, 3.0 * 1.4 * 0.635_828, 1e-5);
    for (count, on) in [("2", "12"), ("3", "12.2")] {
        let (held, ..) = cap(&text(count, on));
        assert!(held.is_empty(), "{count} on {on}: {held:?}");
    }
    // Weighed with the part that they sit in, on the floor of their pockets.
    let design = design(&text("3", "12"));
    let pen = design.pen("sketch").expect("a pen");
    let id = pen.part_id("cap").expect("a cap");
    let (bare, with) = (
        pen.parts[id].weigh().unwrap(),
        pen.assembly.weights[id].unwrap(),
    );
    near(Some(with.mass_g - bare.mass_g), 0.21, 1e-9);
    let turns = with.mass_g * with.centre_mm - bare.mass_g * bare.centre_mm;
    near(Some(turns), 0.21 * 1.6, 1e-9);
}
