//! `quillet spread`: how many pens of a hand pass.

use super::by_the_standard;
use crate::run::{command, ended, examples, json, run, stderr};

/// One thread or four, once or again: the same bytes.
#[test]
fn a_spread_is_the_same_bytes_on_any_number_of_threads() {
    for format in ["text", "json", "csv"] {
        let args = [
            "spread",
            "heron.quillet",
            "--cases",
            "40",
            "--format",
            format,
        ];
        let with = |threads: &str| {
            let mut command = command(&examples());
            let command = command.args(args).env("RAYON_NUM_THREADS", threads);
            let output = command.output().unwrap();
            assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
            output.stdout
        };
        let one = with("1");
        assert_eq!(one, with("4"), "{format}");
        assert_eq!(one, with("3"), "{format}");
        let other = run(&examples(), &[&args[..], &["--seed", "2"]].concat());
        assert_ne!(one, other.stdout, "{format}: another seed makes other pens");
    }
}

/// The fifth case, of 20,000 pens where `QUILLET_CASES` says so: 3.43 of 100 by Φ(−0.9635 / 0.5292), where the cap is drilled to 51.5: half a point either way of 20,000;
/// `QUILLET_CASES` says how many are made, and wider by so much.
#[test]
fn a_shallow_cap_fails_as_often_as_its_chain_says() {
    let folder = by_the_standard();
    let path = folder.path().join("heron.quillet");
    let text = std::fs::read_to_string(&path).unwrap();
    let shallow = text.replace(
        "drill 12.2              to 54",
        "drill 12.2              to 51.5",
    );
    assert_ne!(text, shallow);
    std::fs::write(&path, shallow).unwrap();
    let cases = std::env::var("QUILLET_CASES").unwrap_or_else(|_| "500".to_owned());
    let args = [
        "spread",
        "heron.quillet",
        "--pen",
        "heron",
        "--cases",
        &cases,
    ];
    let found = json(&run(
        folder.path(),
        &[&args[..], &["--format", "json"]].concat(),
    ));
    let failures = found["pens"][0]["failures"].as_array().unwrap();
    let strikes = failures
        .iter()
        .find(|it| it["rule"] == "nib-strikes-cap")
        .unwrap();
    let share = strikes["share"].as_f64().unwrap();
    let within = 0.005 * (20_000.0 / cases.parse::<f64>().unwrap()).sqrt();
    assert!((share - 0.0343).abs() < within, "{share}");
    let (_, text, _) = ended(&run(folder.path(), &args));
    let wanted =
        "fail by nib-strikes-cap (line 79), nearly always where nib-unit sits further out\n";
    assert!(text.contains(wanted), "{text}");
}
