//! Tube stock brings its bore and its outside; what nothing stops is set level.

use quillet_model::{AtRest, Design, MissingData, Pen, StoppedBy, Texts, load, resolve};
use std::f64::consts::PI;
use std::path::Path;

fn design(text: &str) -> Design {
    let texts = Texts::default().with("pen.quillet", text);
    let design = resolve(&load(Path::new("pen.quillet"), &texts).expect("the text is there"));
    assert!(design.findings.is_empty(), "{:#?}", design.findings);
    design
}

/// A tube of 9.5 by 0.45 by 50, with these lines.
fn tube(lines: &str) -> String {
    format!(
        "part tube from front to back {{\n blank of brass tube 9.5 wall 0.45\n length 50\n{lines}}}\n"
    )
}

fn volume_mm3(design: &Design) -> f64 {
    let tube = design.part("tube").expect("a part");
    assert_eq!(tube.lacks_mass(), None::<MissingData>);
    let profiles = tube.profiles.as_ref().expect("a shape");
    profiles.properties().volume_mm3
}

fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-6, "{found}, {expected}");
}

#[test]
fn a_tube_is_what_lies_between_its_outside_and_its_bore() {
    let ring = |outside: f64, bore: f64| PI / 4.0 * (outside * outside - bore * bore);
    near(volume_mm3(&design(&tube(""))), 50.0 * ring(9.5, 8.6));
    // Turned down all along, the bore is still the tube's.
    near(
        volume_mm3(&design(&tube("outside dia 9.3\n"))),
        50.0 * ring(9.3, 8.6),
    );
    // Bored wider for a way; narrower takes nothing.
    let bored = tube("from front {\n bore 9 to 10\n bore 8 to 20\n}\n");
    near(
        volume_mm3(&design(&bored)),
        10.0 * ring(9.5, 9.0) + 40.0 * ring(9.5, 8.6),
    );
}

#[test]
fn a_tube_in_a_glued_stack_is_hollow_where_it_lies() {
    let stack = "part tube from front to back {\n blank of brass tube 10 wall 1 to 20\n\
                 blank of acrylic rod 12\n length 30\n outside dia 10\n}\n";
    near(
        volume_mm3(&design(stack)),
        PI / 4.0 * (30.0 * 100.0 - 20.0 * 64.0),
    );
}

/// A barrel of 74, drilled through for the tube, and a rimmed wad that closes its mouth.
fn glued(joints: &str) -> String {
    format!(
        "{}part barrel from mouth to tail {{\n blank of acrylic rod 16\n length 74\n outside dia 14\n\
         from mouth {{\n drill 9.6 through\n}}\n}}\n\
         part wad from front to back {{\n blank of acrylic rod 14\n length 22\n\
         outside {{\n at 0 dia 12\n at 2 dia 12 step 9.5\n at back dia 9.5\n}}\n}}\n\
         pen sketch {{\n{joints}}}\n",
        tube("")
    )
}

fn rests<'d>(pen: &'d Pen, male: &str) -> &'d AtRest {
    let (joint, _) = pen
        .joints
        .with_ids()
        .find(|(_, it)| &*pen.parts[it.male.part].name.text == male)
        .expect("a joint");
    &pen.assembly.joints[joint]
}

#[test]
fn what_nothing_stops_is_glued_in_level_with_the_mouth() {
    let design = design(&glued("glue tube.front into barrel.tail gap 0.1\n"));
    let rest = rests(design.pen("sketch").expect("a pen"), "tube");
    assert_eq!(rest.stopped_by, StoppedBy::Level);
    near(rest.goes_in_mm, 50.0);
    assert_eq!(rest.short_mm, 0.0);
}

#[test]
fn by_sets_it_deeper() {
    let design = design(&glued("glue tube.front into barrel.tail gap 0.1 by 52\n"));
    let rest = rests(design.pen("sketch").expect("a pen"), "tube");
    assert_eq!(rest.stopped_by, StoppedBy::Overlap);
    near(rest.goes_in_mm, 52.0);
}

/// In whichever order they are written, and of names that sort the other way: the wad's rim stops it
/// 20 in, and the tube lies on it, 4 further than level.
#[test]
fn what_is_glued_in_before_stops_it() {
    let both = [
        "glue wad.back into barrel.mouth gap 0.1\n",
        "glue tube.front into barrel.tail gap 0.1\n",
    ];
    for joints in [both.concat(), [both[1], both[0]].concat()] {
        let design = design(&glued(&joints));
        let pen = design.pen("sketch").expect("a pen");
        assert_eq!(rests(pen, "wad").stopped_by, StoppedBy::Contact);
        near(rests(pen, "wad").goes_in_mm, 20.0);
        let tube = rests(pen, "tube");
        assert_eq!(tube.stopped_by, StoppedBy::Contact);
        near(tube.goes_in_mm, 54.0);
    }
}

#[test]
fn what_slides_still_has_nothing_to_stop_it() {
    let design = design(&glued("slip tube.front into barrel.tail\n"));
    let rest = rests(design.pen("sketch").expect("a pen"), "tube");
    assert_eq!(rest.stopped_by, StoppedBy::Nothing);
}
