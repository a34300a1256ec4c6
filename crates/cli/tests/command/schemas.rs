//! Every JSON output is as its published schema says, and the schemas are strict enough to tell.

mod changes;

use crate::run::{examples, json, run, stdout};
use changes::changes;
use jsonschema::Validator;
use serde_json::Value;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Each schema, what is asked after the command's name, and whether it is asked of a file.
const OUTPUTS: [(&str, &str, &[&str]); 9] = [
    ("check", "check", &["--format", "json"]),
    ("check", "check", &["--full", "--format", "json"]),
    ("measure", "measure", &["--format", "json"]),
    ("measure", "measure", &["--format", "json", "--units", "in"]),
    ("profiles", "measure", &["--profiles"]),
    ("tools", "tools", &["--format", "json"]),
    ("cut", "cut", &["--format", "json"]),
    ("buy", "buy", &["--format", "json"]),
    (
        "cast",
        "cast",
        &[
            "--waste", "8", "--mix", "100:10", "by", "weight", "--format", "json", "--for",
        ],
    ),
];

/// Questions that need no file.
const QUESTIONS: [(&str, &[&str]); 19] = [
    ("thread", &["thread", "M13x0.8", "--starts", "3"]),
    (
        "thread",
        &["thread", "M10", "--drill", "8.7", "--wire", "0.9"],
    ),
    ("thread", &["thread", "7/16-28UNEF", "--material", "brass"]),
    ("thread", &["thread", "#10-32UNF"]),
    ("fit", &["fit", "10 H7/g6"]),
    ("fit", &["fit", "10 H7/k6"]),
    ("fit", &["fit", "25 H7/js5"]),
    ("fit", &["fit", "10 H7/p6"]),
    ("drill", &["drill", "6.35"]),
    ("drill", &["drill", "#80"]),
    ("drill", &["drill", "0.2"]),
    ("drill", &["drill", "49", "--point", "90"]),
    (
        "cast",
        &["cast", "rod", "20", "by", "90", "--density", "1.1"],
    ),
    (
        "cast",
        &[
            "cast",
            "square",
            "20",
            "by",
            "90",
            "--density",
            "1.1",
            "--mix",
            "2:1",
            "by",
            "volume",
        ],
    ),
    ("materials", &["material"]),
    ("material", &["material", "ebonite"]),
    ("material", &["material", "brass"]),
    ("material", &["material", "black-walnut"]),
    ("material", &["material", "acrylic"]),
];

/// Parts in no pen, one of them longer than its stock; a want of a part, one missed and accepted.
const LOOSE: &str = "blank stick of acrylic rod 15 by 90\nbench shed {\n  kerf 1.2\n}\n\
    part one from a to b {\n  blank stick\n  length 60\n  outside dia 12\n  \
    from a { drill 6 to 40 }\n}\npart two from a to b {\n  blank stick\n  length 95\n  \
    outside dia 12\n}\nwant mass(one) <= 4\nwant length(two) = 90 accept \"it is a sketch\"\n";

/// Nothing of the pen can be worked out: a bore as wide as its part, a part that says no mass.
const SHAPELESS: &str = "part tube from mouth to end {\n  blank of acrylic rod 14\n  length 50\n  \
    outside dia 12\n  from mouth {\n    bore 12.6 to 30\n  }\n}\nbought refill from point to end \
    {\n  length 30\n  outside dia 7\n}\npen sketch {\n  slip refill.end into tube.mouth\n  \
    want mass(uncapped) <= 24\n}\n";

fn schemas() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../export/schema")
}

fn validator(name: &str) -> Validator {
    let text = std::fs::read_to_string(schemas().join(name).with_extension("json")).unwrap();
    let schema: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(schema["$id"], format!("urn:quillet:schema:{name}:1"));
    jsonschema::draft202012::meta::validate(&schema).unwrap_or_else(|it| panic!("{name}: {it}"));
    jsonschema::draft202012::new(&schema).unwrap()
}

/// Every JSON output there is for the examples, the inch pen and damaged texts, by its schema.
fn outputs() -> Vec<(&'static str, Value)> {
    let mut all = Vec::new();
    let shipped = std::fs::read_dir(examples()).unwrap();
    let mut files: Vec<PathBuf> = shipped.map(|it| it.unwrap().path()).collect();
    files.push(examples().join("../crates/fixture/pens/turnstone.quillet"));
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in [("loose", LOOSE), ("shapeless", SHAPELESS)] {
        let file = folder.path().join(name).with_extension("quillet");
        std::fs::write(&file, text).unwrap();
        files.push(file);
    }
    files.sort();
    for file in files
        .iter()
        .filter(|it| it.extension().is_some_and(|it| it == "quillet"))
    {
        for (schema, command, more) in OUTPUTS {
            // `--for` comes last, right before the file.
            let file = file.to_str().unwrap();
            let args = match more.last() {
                Some(&"--for") => [&[command], more, &[file]].concat(),
                _ => [&[command, file], more].concat(),
            };
            let output = run(folder.path(), &args);
            // A file of bought parts alone has nothing to list.
            if output.status.code() != Some(2) {
                all.push((schema, json(&output)));
            }
        }
        let sheets = tempfile::tempdir().unwrap();
        for (unit, name) in [("mm", "mm.json"), ("in", "in.json")] {
            let (file, name) = (file.to_str().unwrap(), sheets.path().join(name));
            let name = name.to_str().unwrap();
            let args = ["sheet", file, "--anyway", "--units", unit, "-o", name];
            run(sheets.path(), &args);
        }
        for sheet in std::fs::read_dir(sheets.path()).unwrap() {
            let bytes = std::fs::read(sheet.unwrap().path()).unwrap();
            all.push(("sheet", serde_json::from_slice(&bytes).unwrap()));
        }
    }
    for (schema, args) in QUESTIONS {
        let args = [args, &["--format", "json"]].concat();
        all.push((schema, json(&run(folder.path(), &args))));
    }
    all.extend(compared());
    all.extend(moved());
    all
}

/// The examples beside the same with much changed in them: sizes, names, what is found, what is wanted.
fn compared() -> Vec<(&'static str, Value)> {
    let changed = tempfile::tempdir().unwrap();
    for (name, text) in quillet_fixture::EXAMPLES {
        let text = text
            .replace("let grip = 11.4", "let grip = 9.8")
            .replace("taps M9x0.75 lead 2", "taps M9x0.75 lead 2.6")
            .replace("pen godwit ", "pen black-tailed-godwit ");
        std::fs::write(changed.path().join(name), text).unwrap();
    }
    std::fs::remove_file(changed.path().join("dunlin.quillet")).unwrap();
    let (old, new) = (examples(), changed.path().to_path_buf());
    let sides = [[&old, &new], [&new, &old], [&old, &old]];
    let each = sides.map(|[old, new]| {
        let (old, new) = (old.to_str().unwrap(), new.to_str().unwrap());
        let args = ["compare", old, new, "--format", "json"];
        ("compare", json(&run(changed.path(), &args)))
    });
    each.into()
}

/// Numbers of Heron, moved.
fn moved() -> [(&'static str, Value); 7] {
    let heron = examples().join("heron.quillet");
    let heron = heron.to_str().unwrap();
    let asked: [(&str, &[&str]); 7] = [
        (
            "room",
            &[
                "--of",
                "cap.mouth.drill.dia",
                "--of",
                "heron.push.by",
                "--pen",
                "heron",
            ],
        ),
        (
            "vary",
            &[
                "grip=11..12",
                "step",
                "0.5",
                "--show",
                "mass(capped),turns",
                "--pen",
                "heron",
            ],
        ),
        ("vary", &["grip=11.4..11.4", "step", "1"]),
        (
            "aim",
            &[
                "length(capped) = 137",
                "--by",
                "cap.length=60..66",
                "--pen",
                "heron",
            ],
        ),
        (
            "aim",
            &[
                "length(capped) = 13.7",
                "--by",
                "cap.length=60..66",
                "--pen",
                "heron",
            ],
        ),
        ("spread", &["--cases", "3", "--until", "note"]),
        (
            "spread",
            &["--cases", "60", "--seed", "7", "--pen", "heron"],
        ),
    ];
    asked.map(|(command, more)| {
        let args = [&[command, heron], more, &["--format", "json"]].concat();
        (command, json(&run(&examples(), &args)))
    })
}

#[test]
fn every_output_is_as_its_schema_says() {
    let all = outputs();
    let named: BTreeSet<String> = all.iter().map(|(schema, _)| (*schema).to_owned()).collect();
    let published = std::fs::read_dir(schemas()).unwrap();
    let published = published.map(|it| it.unwrap().path());
    let published = published.map(|it| it.file_stem().unwrap().to_string_lossy().into_owned());
    assert_eq!(named, published.collect());
    for name in &named {
        let validator = validator(name);
        let mut known = BTreeSet::new();
        for (_, output) in all.iter().filter(|(schema, _)| schema == name) {
            let faults: Vec<String> = validator
                .iter_errors(output)
                .map(|it| format!("{}: {it}", it.instance_path()))
                .collect();
            assert!(faults.is_empty(), "{name}: {faults:#?}");
            for (change, output) in changes(output, &mut known) {
                assert!(!validator.is_valid(&output), "{name} lets pass: {change}");
            }
        }
    }
}

/// So that no new command gives out JSON without a schema.
#[test]
fn every_command_that_gives_json_is_asked() {
    let here = Path::new(".");
    let help = stdout(&run(here, &["--help"]));
    let commands = help.lines().skip_while(|line| *line != "Commands:").skip(1);
    let commands = commands.map_while(|line| line.split_whitespace().next());
    let gives = |command: &&str| stdout(&run(here, &[command, "--help"])).contains("- json:");
    let giving: BTreeSet<&str> = commands.filter(|it| *it != "help").filter(gives).collect();
    let of_files = OUTPUTS.iter().map(|(_, command, _)| *command);
    let asked = of_files.chain(QUESTIONS.iter().map(|(_, args)| args[0]));
    // Two states of the examples are compared, not a file; of Heron alone are numbers moved.
    let asked = asked.chain(["compare", "room", "vary", "aim", "spread"]);
    assert_eq!(giving, asked.collect());
}
