//! From text to plan without a disk.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_model::{ReadError, Texts};
use quillet_pen::{Analysis, Cache, Planned};
use std::cell::Cell;
use std::path::Path;
use std::sync::Arc;

const BENCHES: &str = "bench shed {\n  saw kerf 1\n}\nbench boathouse {\n  saw kerf 2\n}\n";
const TUBE: &str = "use \"benches.quillet\"\n\
    part tube from mouth to end {\n  blank of acrylic rod 14\n  length 70\n  outside dia 12\n  \
    from mouth {\n    drill 6 to 60\n  }\n}\n\
    pen sketch \"A sketch\" {\n  slip plug.tip into tube.mouth\n  \
    accept nothing-holds because \"a sketch\"\n}\n\
    part plug from tip to tail {\n  blank of brass rod 10\n  length 12\n  outside dia 9\n  \
    from tip {\n    tenon 5.9 for 8\n  }\n}\n";

fn root() -> &'static Path {
    Path::new("pen.quillet")
}

fn texts(pen: &str) -> Texts {
    Texts::default()
        .with("pen.quillet", pen)
        .with("benches.quillet", BENCHES)
}

#[test]
fn a_text_comes_to_its_findings_and_its_plan() {
    let source = texts(TUBE);
    let analysis = Analysis::of(root(), &source, Some("boathouse")).unwrap();
    assert_eq!(analysis.files().len(), 2);
    let examined = analysis.examined();
    assert_eq!(examined.errors(), 0, "{:#?}", examined.findings);
    assert_eq!(examined.accepted.len(), 1);
    let pen = analysis.design.pen("sketch").unwrap();
    let planned = Planned::of_pen(&analysis.design, pen);
    assert_eq!(planned.title, "A sketch");
    assert_eq!(planned.plan.routes.len(), 2);
    // Of two benches in sight none would count; one was chosen.
    assert_eq!(&*planned.bench.unwrap().name.text, "boathouse");
    let parts = Planned::of_parts(&analysis.design, &analysis.design.parts);
    assert_eq!(parts.title, "tube, plug");
}

#[test]
fn what_is_not_there_is_said_and_a_used_file_is_found_missing() {
    let none = Analysis::of(Path::new("none.quillet"), &texts(TUBE), None);
    assert_eq!(none.unwrap_err(), ReadError::Missing);
    let alone = Texts::default().with("pen.quillet", TUBE);
    let analysis = Analysis::of(root(), &alone, None).unwrap();
    let missing: Vec<_> = analysis.missing().collect();
    assert_eq!(missing, [Path::new("benches.quillet")]);
    assert!(analysis.examined().errors() > 0);
}

#[test]
fn what_is_called_off_gives_nothing_and_is_worked_out_when_asked_again() {
    let source = texts(TUBE);
    let analysis = Analysis::of(root(), &source, None).unwrap();
    assert!(analysis.findings(&|| true).is_none());
    assert!(analysis.findings_with_cures(&source, &|| true).is_none());
    assert!(analysis.mended(&source, &|| true).is_none());
    let found = analysis.findings(&|| false).unwrap();
    assert_eq!(found.len(), analysis.examined().findings.len());
    assert!(analysis.mended(&source, &|| false).is_some());
}

#[test]
fn a_cure_that_is_found_holds() {
    let slip = TUBE.replace("of acrylic", "of acrilic");
    let source = texts(&slip);
    let analysis = Analysis::of(root(), &source, None).unwrap();
    let found = analysis.findings(&|| false).unwrap();
    let at = found.iter().position(|it| it.message.contains("acrilic"));
    let cures = analysis.cures(at.unwrap(), &source, &|| false).unwrap();
    let again = analysis.cures(at.unwrap(), &source, &|| false).unwrap();
    assert!(!cures.is_empty() && Arc::ptr_eq(&cures, &again));
    let edit = &cures[0].edits[0];
    let mut cured = slip.clone();
    cured.replace_range(edit.span.range(), &edit.text);
    let cured = Analysis::of(root(), &texts(&cured), None).unwrap();
    assert_eq!(cured.examined().errors(), 0);
    let all = analysis.findings_with_cures(&source, &|| false).unwrap();
    assert_eq!(all[at.unwrap()].fixes.len(), cures.len());
}

#[test]
fn an_analysis_is_kept_while_its_files_are_the_same() {
    let (cache, source) = (Cache::default(), texts(TUBE));
    let ask = |source: &Texts, bench: Option<&str>, keep: bool| {
        let keep = move |_: &Path| keep;
        cache.analysis(root(), source, bench, &keep, &|| false)
    };
    let first = ask(&source, None, true).unwrap();
    assert!(Arc::ptr_eq(&first, &ask(&source, None, true).unwrap()));
    let other_bench = ask(&source, Some("shed"), true).unwrap();
    assert!(!Arc::ptr_eq(&first, &other_bench));
    assert_eq!(other_bench.design.benches.len(), 1);
    // The file it uses reads otherwise.
    let changed = texts(TUBE).with("benches.quillet", "bench shed {\n  saw kerf 3\n}\n");
    let after = ask(&changed, None, true).unwrap();
    assert_eq!(after.design.benches.len(), 1);
    // What is not to be kept is worked out each time.
    let once = ask(&changed, Some("shed"), false).unwrap();
    let twice = ask(&changed, Some("shed"), false).unwrap();
    assert!(!Arc::ptr_eq(&once, &twice));
    assert!(ask(&Texts::default(), None, true).is_none());
}

#[test]
fn a_cache_that_is_called_off_works_nothing_out() {
    let asked = Cell::new(0);
    let off = || {
        asked.set(asked.get() + 1);
        true
    };
    let cache = Cache::default();
    let found = cache.analysis(root(), &texts(TUBE), None, &|_| true, &off);
    assert!(found.is_none() && asked.get() == 1);
}
