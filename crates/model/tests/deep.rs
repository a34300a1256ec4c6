//! Texts that go on and on: each comes to an end, and is told of where it goes too far.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_model::{JointId, Texts, load, resolve};
use std::path::Path;

fn reported(text: &str) -> Vec<String> {
    let texts = Texts::default().with("pen.quillet", text);
    let design = resolve(&load(Path::new("pen.quillet"), &texts).unwrap());
    design
        .findings
        .into_iter()
        .map(|it| it.message.to_string())
        .collect()
}

#[test]
fn sums_through_one_another_stop_somewhere() {
    let chain = |count: usize| -> String {
        let links = (0..count).map(|it| format!("let a{it} = a{} + 1\n", it + 1));
        links.chain([format!("let a{count} = 1\n")]).collect()
    };
    assert!(reported(&chain(150)).is_empty());
    let deep = reported(&chain(20_000));
    assert!(deep[0].contains("is worked out through more than 200 others"));
}

#[test]
fn parts_like_one_another_stop_somewhere() {
    let chain = |count: usize| -> String {
        let first = "part p0 from a to b {\n  length 4\n  outside dia 3\n}\n".to_owned();
        let links = (1..count).map(|it| format!("part p{it} like p{}\n", it - 1));
        std::iter::once(first).chain(links).collect()
    };
    assert!(reported(&chain(50)).is_empty());
    assert!(reported(&chain(60))[0].contains("is like another through more than 50"));
}

#[test]
fn names_that_are_not_known_are_not_all_compared() {
    let text: String = (0..3_000)
        .map(|it| format!("let side{it} = sidf{it}\n"))
        .collect();
    let reported = reported(&text);
    // A thousand of a kind are told of, and that there are more.
    let (rest, told) = reported.split_last().unwrap();
    assert_eq!(told.len(), 1_000);
    assert!(told.iter().all(|it| it.starts_with("no named quantity")));
    assert!(rest.starts_with("the first 1000 of these"), "{rest}");
}

/// So many joints one behind the other, each as every other, in a pen.
fn chained(joints: usize) -> quillet_model::Design {
    let part = |nth: usize| {
        format!(
            "part p{nth:03} from a to b {{\n  blank of acrylic rod 14\n  length 12\n  outside dia 10\n  \
             from a {{\n    bore 6.05 to 5\n  }}\n  from b {{\n    tenon 6 for 4\n  }}\n}}\n"
        )
    };
    let joint = |nth: usize| format!("  press p{:03}.b into p{nth:03}.a\n", nth + 1);
    let parts: String = (0..=joints).map(part).collect();
    let joints: String = (0..joints).map(joint).collect();
    let text = format!("{parts}pen long {{\n{joints}}}\n");
    let texts = Texts::default().with("pen.quillet", &text);
    resolve(&load(Path::new("pen.quillet"), &texts).unwrap())
}

#[test]
fn a_joint_amid_many_is_as_it_is_amid_few() {
    let (few, many) = (chained(5), chained(150));
    let (few, many) = (&few.pens[0].assembly, &many.pens[0].assembly);
    assert_eq!(many.joints.len(), 150);
    let own = &few.joints[JointId::nth(2)].clearances;
    assert!(own.iter().any(|it| !it.chain.is_empty()));
    for rest in many.joints.iter().take(148).skip(2) {
        let reported = |rest: &quillet_model::AtRest| -> Vec<String> {
            let of = |it: &quillet_model::Clearance| {
                let mut sizes: Vec<f64> = it.chain.iter().map(|link| link.factor).collect();
                sizes.sort_by(f64::total_cmp);
                format!(
                    "{:?} {:.6} {:.6} {sizes:?}",
                    it.kind, it.nominal_mm, it.least_mm
                )
            };
            let mut all: Vec<String> = rest.clearances.iter().map(of).collect();
            all.sort();
            all
        };
        assert!((rest.goes_in_mm - few.joints[JointId::nth(2)].goes_in_mm).abs() < 1e-9);
        assert_eq!(rest.verdict.closing, quillet_model::Closing::Closes);
        assert_eq!(reported(rest), reported(&few.joints[JointId::nth(2)]));
    }
    let length =
        |assembly: &quillet_model::Assembly| assembly.uncapped.as_ref().and_then(|it| it.length_mm);
    let (few, many) = (length(few).unwrap(), length(many).unwrap());
    assert!((many - few - 145.0 * 8.0).abs() < 1e-6, "{few} {many}");
}

/// A corner broken twice is cut from the surface beyond both.
#[test]
fn two_broken_corners_of_one_end_stop_somewhere() {
    let text = "\
part tube from mouth to end {
  blank of acrylic rod 16
  length 30
  outside dia 14
  from mouth {
    bore 10.2 to 10
    drill 8 to 20
  }
}
part rod from tip to end {
  blank of acrylic rod 16
  length 30
  outside dia 10
  from tip {
    chamfer 0.5
    round 0.3
    chamfer 0.1
  }
}
pen test {
  slip rod.tip into tube.mouth
}
";
    let texts = Texts::default().with("pen.quillet", text);
    let design = resolve(&load(Path::new("pen.quillet"), &texts).unwrap());
    let joint = &design.pens[0].assembly.joints[JointId::nth(0)];
    assert!(joint.clearances.iter().all(|it| it.least_mm.is_finite()));
    assert!(!joint.clearances.is_empty());
}
