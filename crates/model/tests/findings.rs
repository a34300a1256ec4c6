//! What resolution says of a text, by carets under it.

use quillet_model::{Texts, load, resolve};
use quillet_syntax::{FileId, Finding};
use std::path::Path;

#[track_caller]
fn check(text: &str) {
    quillet_fixture::check(text, |source| {
        let texts = Texts::default()
            .with("pen.quillet", source)
            .with("round.quillet", "use \"pen.quillet\"")
            .with(
                "bench.quillet",
                "thread closing = M13x0.8 starts 3\nlet body = reed\nmaterial reed { kind acrylic }",
            );
        let design = resolve(&load(Path::new("pen.quillet"), &texts).expect("the text is there"));
        let here = |it: &Finding| it.span.file == FileId(0);
        design.findings.into_iter().filter(here).collect()
    });
}

#[test]
fn names() {
    check(
        r#"
use "bench.quillet"
let grip = gripe + 1
           ^^^^^ unknown-name: no named quantity is called gripe
let closing = 3
    ^^^^^^^ duplicate-name: closing is already the name of a thread; a name is given once
let a = b
        ^ unknown-name: b is worked out from itself
let b = a
let shoulder = 8
let near = shoulder-2
           ^^^^^^^^^^ unknown-name: no named quantity is called shoulder-2
thread again = M13x0.8
part ring from left to right {
  length 4
  outside dia 14
  from lef { bore 10 through }
       ^^^ unknown-name: ring has no end called lef
  from left { thread closng inside to 3 }
                     ^^^^^^ unknown-name: no thread is called closng
}
"#,
    );
}

#[test]
fn what_is_missing_before_a_word() {
    check(
        r#"
use "bench.quillet"
let cove = 2
part ring from left to right {
  length 4
  outside {
    at left  dia 14
    at 2     dia smooth
                 ^^^^^^ incomplete: a diameter is missing before smooth
    at right dia 14 bead dome
                         ^^^^ incomplete: a radius is missing before dome
  }
  from left { bore cove through }
}
"#,
    );
}

#[test]
fn units() {
    check(
        r#"
let a = 7/16in + 2
                 ^ mixed-units: 2 is read as millimetres beside a size in in
let b = 3g + 2mm
        ^^^^^^^^ unit-mismatch: a mass and a length do not go together here
let c = 4 / (2 - 2)
            ^^^^^^^ out-of-range: this comes to nothing, and nothing can be divided by it
let d = length(capped)
        ^^^^^^^^^^^^^^ unit-mismatch: length is measured on the finished pen
part ring from left to right {
  length 4g
         ^^ unit-mismatch: 4 g is a mass; a length is expected here
}
part bead from left to right {
  length 0
         ^ out-of-range: a length of 0 mm cannot be cut; more than 0 mm is expected
}
part far from left to right {
  length 1000000000
         ^^^^^^^^^^ out-of-range: this size is beyond anything that can be turned
}
"#,
    );
}

#[test]
fn inches() {
    check(
        r#"
dimensions in inches
let a = 1-5/8
let b = a + 3mm
let c = 0.5 + 3mm
        ^^^ mixed-units: 0.5 is read as inches beside a size in mm
"#,
    );
}

#[test]
fn use_of_files() {
    check(
        r#"
use "round.quillet"
use "bench.quillet"
use "pen.quillet"
    ^^^^^^^^^^^^^ use-cycle: pen.quillet uses itself
use "none.quillet"
    ^^^^^^^^^^^^^^ missing-file: none.quillet cannot be used: there is no such file
"#,
    );
}

#[test]
fn stations_and_cuts() {
    check(
        r#"
part cap from mouth to crown {
  length 60
  outside {
    at 0   dia 15
    at 30  dia 15.8
    at 20  dia 15.5
    ^^^^^^^^^^^^^^^ unordered-stations: the station at 20 mm is written after the one at 30 mm
    at 30  dia 14
    ^^^^^^^^^^^^^ duplicate-station: 30 mm from the first end has two diameters
    at 61  dia 12
       ^^ out-of-range: this station lies at 61 mm, beyond the 60 mm of cap
    at 50  dia 12 bead 1
    ^^^^^^^^^^^^^^^^^^^^ out-of-range: an arc of this radius does not reach from the station before
  }
  from mouth {
    drill 10 to 70
             ^^^^^ out-of-range: this cut reaches 70 mm into cap, which is 60 mm long
    bore 12 to 4 at 5
            ^^^^^^^^^ out-of-range: this cut starts at 5 mm and ends at 4 mm
    drill #99 to 10
          ^^^ out-of-range: there is no drill #99; number drills run from #1 to #80
    tenon for 4
    ^^^^^^^^^^^ incomplete: this tenon says no diameter, and no thread is cut on it
    drill -4 to 10
          ^^ out-of-range: a hole of -4 mm cannot be cut; more than 0 mm is expected
  }
}
"#,
    );
}

#[test]
fn what_is_left_unsaid_or_said_twice() {
    check(
        r#"
part cap from mouth to crown {
     ^^^ incomplete: cap says no length
  outside dia 15
}
part sleeve from left to right {
     ^^^^^^ unshaped-outside: the outside of sleeve says nothing from 0 mm to 4 mm
  length 10
  length 12
  ^^^^^^^^^ said-twice: this is said a second time; the first is taken
  outside { at 4 dia 12
    at 10 dia 12 }
}
material reed {
         ^^^^ incomplete: the material reed says no kind
}
material alder { kind acrilic }
                      ^^^^^^^ unknown-name: acrilic is no kind of material that is built in
"#,
    );
}

/// A word that several built-in materials share names none of them.
#[test]
fn a_material_by_half_its_name() {
    let found = |text: &str| {
        let texts = Texts::default().with("pen.quillet", text);
        let design = resolve(&load(Path::new("pen.quillet"), &texts).expect("the text is there"));
        let hints = design.findings.into_iter().filter_map(|it| it.hint);
        hints.map(|it| it.to_string()).collect::<Vec<_>>()
    };
    let part = "part p from a to b {\n  blank of resin rod 14\n  length 9\n  outside dia 10\n}\n";
    for text in [part, "material bay \"Bay\" { kind resin }\n"] {
        let hint = "there is polyester-resin, urethane-resin, flaked-resin";
        assert_eq!(found(text), [hint], "{text}");
    }
}

#[test]
fn threads() {
    check(
        r#"
thread a = M13x0.8 starts 0
                          ^ out-of-range: 0 starts cannot be cut; a whole number from 1 to 24 is expected
thread b = M13xPh2.4P0.8 starts 2
           ^^^^^^^^^^^^^^^^^^^^^^ out-of-range: M13xPh2.4P0.8 already has 3 starts
thread c = M13xPh2.4P0.8 starts 3
"#,
    );
}

#[test]
fn pens() {
    check(
        r#"
let grip = 11
part cap from mouth to crown { length 10
  outside dia 12 }
part barrel from mouth to tail { length 10
  outside dia 12 }
pen a {
  close cap.mouth onto barrel.mouth {
    seat cap.mouth on barrel.sholder
                             ^^^^^^^ unknown-name: barrel has no face called sholder
  }
  screw cap.mouth into cap.crown
        ^^^^^^^^^^^^^^^^^^^^^^^^ joined-twice: cap is joined to itself
  slip cap.mouth into clip.ring
                      ^^^^ unknown-name: no part is called clip
}
pen b like a {
  let gripp = 4
      ^^^^^ unknown-name: the file has no let gripp, so this one changes nothing
}
pen c like c {
           ^ unknown-name: c is like itself
}
"#,
    );
}

#[test]
fn lines_of_another_kind() {
    check(
        r#"
blank stick of brass rod 16 by 200
part barrel from mouth to tail {
  blank of acrylic rod 16
  length 40
  outside dia 13
  mass 12.5
  ^^^^^^^^^ syntax: only a bought part says its mass; what is cut is weighed by its material
  holds 0.6
  ^^^^^^^^^ syntax: only a bought part says what it holds
  arm 21
  ^^^^^^ syntax: only a bought part has an arm
  ring 7 by 1.2
  ^^^^^^^^^^^^^ syntax: only a bought part is a ring
}
bought sac "Sac" from mouth to foot {
  length 52
  outside dia 8.5
  holds 1.1
  blank of brass rod 10
  ^^^^^^^^^^^^^^^^^^^^^ syntax: a bought part is cut from no blank
}
bought seal "Nitrile ring" {
  ring 6.1 by 1.3
  blank stick
  ^^^^^^^^^^^ syntax: a bought part is cut from no blank
  holds 0.4
  ^^^^^^^^^ syntax: a ring holds no ink
  arm 9
  ^^^^^ syntax: a ring has no arm
}
"#,
    );
}
