//! What edges leave of a thread's travel, the air a cap shuts in, the ink that a pen holds: figures
//! by hand, each beside its derivation.

mod travel;

use quillet_model::{Assembly, Design, Texts, load, resolve};
use std::f64::consts::PI;
use std::path::Path;

fn design(text: &str) -> Design {
    let texts = Texts::default().with("pen.quillet", text);
    let design = resolve(&load(Path::new("pen.quillet"), &texts).expect("the text is there"));
    assert!(design.findings.is_empty(), "{:#?}\n{text}", design.findings);
    design
}

fn assembly(text: &str) -> Assembly {
    let mut design = design(text);
    design.pens.remove(0).assembly
}

#[track_caller]
fn near(found: f64, wanted: f64, within: f64) {
    assert!(
        (found - wanted).abs() <= within,
        "{found} where {wanted} was wanted"
    );
}

/// The equal-volume radii of a basic profile (ISO 68-1) as areas: inside between the crest at hole
/// radius and the major, outside between the tenon and the minor; taken from the design itself,
/// whose masses are checked elsewhere, and here only put together.
#[test]
fn air_beside_a_thread_is_by_equal_volumes() {
    for (thread, bore, tenon, deep, engaged) in [
        ("M13x0.8 starts 3", 12.2, 12.9, 25.0, 9.0),
        ("M12x0.8", 11.2, 11.9, 30.0, 7.0),
        ("M14x0.8-LH", 13.2, 13.9, 40.0, 8.0),
    ] {
        let text = format!(
            "part cap from mouth to crown {{\n blank of acrylic rod 20\n length 50\n outside dia 18\n from mouth {{\n\
             bore {bore} to {deep}\n thread {thread} inside to 10\n}}\n}}\n\
             part barrel from mouth to tail {{\n blank of acrylic rod 20\n length 40\n outside {{\n at {engaged} dia 18 as ledge\n\
             at 40 dia 18\n}}\n from mouth {{\n tenon {tenon} for {engaged}\n thread {thread} outside for {engaged}\n}}\n}}\n\
             pen test {{\n close cap.mouth onto barrel.mouth\n}}\n"
        );
        let design = design(&text);
        let volume = |part: &str| {
            let profiles = design.part(part).and_then(|it| it.profiles.as_ref());
            profiles
                .expect("it has a shape")
                .metal
                .properties()
                .volume_mm3
        };
        let cylinder = |dia: f64, length: f64| PI / 4.0 * dia * dia * length;
        let hollow = cylinder(18.0, 50.0) - volume("cap");
        let plug = volume("barrel") - cylinder(18.0, 40.0 - engaged);
        let air = design.pens[0].assembly.air.as_ref().expect("it closes");
        near(air.volume_mm3, hollow - plug, 1e-6 * hollow);
        let major = thread[1..3].parse().expect("a diameter");
        let (inside, outside) = equal_volume_radii(major, 0.8, bore, tenon);
        let wanted = PI
            * (inside * inside * 10.0 + bore * bore / 4.0 * (deep - 10.0)
                - outside * outside * engaged);
        near(air.volume_mm3, wanted, 1e-6 * hollow);
        // Crest against crest would leave less than the plain bore beside the plain tenon.
        assert!(plug < cylinder(tenon, engaged) && hollow > cylinder(bore, deep));
    }
}

/// The radii of equal volume of an inside thread in a hole and of an outside one on a tenon, by the basic
/// profile of ISO 68-1 alone: at a radius r its ridge outside, and its groove inside, is
/// P/8 + 2 (d/2 - r) tan 30° wide, down to the minor diameter d - 5/4 H, H = P cos 30°. The integral
/// of 2 r w dr is d²-and-d³ terms of r.
fn equal_volume_radii(major: f64, pitch: f64, hole: f64, tenon: f64) -> (f64, f64) {
    let slope = 2.0 * (PI / 6.0).tan() / pitch;
    let at_axis = 0.125 + slope * major / 2.0;
    // ∫ 2 r (a - s r) dr = a r² - 2/3 s r³.
    let share = |r: f64| at_axis * r * r - 2.0 / 3.0 * slope * r.powi(3);
    let (top, crest) = (major / 2.0, tenon / 2.0);
    let minor = top - 0.625 * pitch * (PI / 6.0).cos();
    let bored = hole / 2.0;
    let inside = bored * bored + share(top) - share(bored);
    let outside = minor * minor + share(crest) - share(minor);
    (inside.sqrt(), outside.sqrt())
}

/// A tube for ink with a plug in its mouth and one in its end.
fn tube(length: f64, cuts: &str, front: &str, rear: &str) -> String {
    format!(
        "part tube from mouth to end {{\n blank of acrylic rod 20\n length {length}\n outside dia 16\n{cuts}\n}}\n\
         part front from tip to shank {{\n blank of acrylic rod 20\n length 30\n outside {{\n at 0 dia 16\n at 20 dia 16 step 10 as ledge\n\
         at 30 dia 10\n}}\n{front}\n}}\n\
         part rear from shank to tip {{\n blank of acrylic rod 20\n length 20\n outside {{\n at 0 dia 8\n at 6 dia 8 step 16\n at 20 dia 16\n}}\n{rear}\n}}\n\
         pen test {{\n slip front.shank into tube.mouth\n press rear.shank into tube.end\n fill tube\n}}\n"
    )
}

fn cylinder_ml(dia: f64, length: f64) -> f64 {
    PI / 4.0 * dia * dia * length / 1000.0
}

/// A drill's cone of 118°.
fn cone_ml(dia: f64) -> f64 {
    let height = dia / 2.0 / 59f64.to_radians().tan();
    PI / 12.0 * dia * dia * height / 1000.0
}

#[test]
fn ink_stops_at_a_web_and_goes_on_where_there_is_none() {
    let cuts = |deep: f64| {
        format!("from mouth {{\n drill 10 to {deep}\n}}\nfrom end {{\n drill 8 to 26\n}}")
    };
    // 80 long: from the end the point reaches to 80 - 26 - 2.404, from the mouth 40 + 3.004.
    let shut = assembly(&tube(80.0, &cuts(40.0), "", ""));
    let ink = shut.ink.expect("it is filled");
    near(
        ink.capacity_ml,
        cylinder_ml(10.0, 30.0) + cone_ml(10.0),
        1e-9,
    );
    assert_eq!((ink.stands_in.len(), ink.shut_off.len()), (1, 1));
    near(
        ink.shut_off[0].ml,
        cylinder_ml(8.0, 20.0) + cone_ml(8.0),
        1e-9,
    );
    // Half a millimetre short of meeting, and past it.
    let web = |deep: f64| {
        80.0 - 26.0
            - 8.0 / 2.0 / 59f64.to_radians().tan()
            - deep
            - 10.0 / 2.0 / 59f64.to_radians().tan()
    };
    assert!(web(48.0) > 0.0 && web(49.0) < 0.0);
    let ink = |deep: f64| {
        assembly(&tube(80.0, &cuts(deep), "", ""))
            .ink
            .expect("it is filled")
    };
    near(
        ink(48.0).capacity_ml,
        cylinder_ml(10.0, 38.0) + cone_ml(10.0),
        1e-9,
    );
    assert!(ink(49.0).shut_off.is_empty());
    assert!(ink(49.0).capacity_ml > cylinder_ml(10.0, 39.0) + cylinder_ml(8.0, 20.0));
}

#[test]
fn bores_that_open_into_the_ink_count_with_it() {
    let cuts = "from mouth {\n bore 10 to 54\n}\nfrom end {\n bore 8 to 26\n}";
    let plain = cylinder_ml(10.0, 44.0) + cylinder_ml(8.0, 20.0);
    let ink = |front: &str, rear: &str| {
        assembly(&tube(80.0, cuts, front, rear))
            .ink
            .expect("it is filled")
    };
    near(ink("", "").capacity_ml, plain, 1e-9);
    // A blind bore in each, open to the ink; one that opens the other way is not reached.
    let both = ink(
        "from shank {\n bore 5 to 12\n}",
        "from shank {\n bore 4 to 9\n}",
    );
    near(
        both.capacity_ml,
        plain + cylinder_ml(5.0, 12.0) + cylinder_ml(4.0, 9.0),
        1e-9,
    );
    assert_eq!(both.stands_in.len(), 3);
    near(both.stands_in[0].ml, plain, 1e-9);
    // Of 1020 kg/m³.
    near(both.mass_g, 1.02 * both.capacity_ml, 1e-9);
    near(
        ink("from tip {\n bore 5 to 12\n}", "").capacity_ml,
        plain,
        1e-9,
    );
}

/// What a converter holds is taken as amid it.
#[test]
fn ink_of_a_converter_lies_amid_it() {
    let bought = "bought converter from mouth to end {\n length 31\n outside dia 7\n mass 1\n holds 0.6\n}\n";
    let barrel = "part barrel from mouth to end {\n blank of acrylic rod 20\n length 60\n outside dia 14\n from mouth {\n bore 7.1 to 31\n}\n}\n";
    let pen = "pen test {\n slip converter.end into barrel.mouth\n}\n";
    let ink = assembly(&format!("{bought}{barrel}{pen}")).ink;
    let ink = ink.expect("it holds some");
    near(ink.at_mm, 15.5, 1e-12);
    near(ink.mass_g, 0.6 * 1.02, 1e-12);
}

#[test]
fn a_nib_unit_closes_the_section_and_its_own_bore_counts() {
    let text = |bore: &str| {
        let bought = format!(
            "bought unit from point to heel {{\n length 20\n mass 2\n outside {{\n at 0 dia 4\n at 8 dia 12 step 7\n at 20 dia 7\n}}\n{bore}\n}}\n"
        );
        let joint = "slip unit.heel into front.tip\n slip front.shank";
        bought
            + &tube(
                60.0,
                "from mouth {\n bore 10 to 40\n}",
                "from tip {\n bore 7.1 through\n}",
                "",
            )
            .replace("press rear.shank into tube.end\n", "")
            .replace("slip front.shank", joint)
    };
    // The heel lies 12 in; 18 of the front's 30 are open behind it.
    let open = cylinder_ml(10.0, 30.0) + cylinder_ml(7.1, 18.0);
    let of = |bore: &str| assembly(&text(bore)).ink.expect("it is filled").capacity_ml;
    near(of(""), open, 1e-9);
    near(
        of("from heel {\n bore 2 to 15\n}"),
        open + cylinder_ml(2.0, 15.0),
        1e-9,
    );
}

/// A heel longer than the section stands in the ink behind it: what it takes up is not ink, and its own
/// bore opens amid the barrel's.
#[test]
fn a_heel_that_stands_in_the_ink_takes_its_room_and_gives_its_bore() {
    let ink = |bore: &str| {
        let unit = format!(
            "bought unit from point to heel {{\n length 58\n mass 2\n outside {{\n at 0 dia 4\n at 8 dia 12 step 7\n at 58 dia 7\n}}\n{bore}\n}}\n"
        );
        let joint = "slip unit.heel into front.tip\n slip front.shank";
        let tube = tube(
            60.0,
            "from mouth {\n bore 10 to 40\n}",
            "from tip {\n bore 7.1 through\n}",
            "",
        );
        let tube = tube.replace("press rear.shank into tube.end\n", "");
        let text = unit + &tube.replace("slip front.shank", joint);
        assembly(&text).ink.expect("it is filled").capacity_ml
    };
    // 50 of heel through 30 of section: 20 stand in the 30 of bore behind the shank's 10.
    let beside = cylinder_ml(10.0, 30.0) - cylinder_ml(7.0, 20.0);
    near(ink(""), beside, 1e-9);
    let bored = ink("from heel {\n bore 2 to 15\n}");
    near(bored, beside + cylinder_ml(2.0, 15.0), 1e-9);
}
