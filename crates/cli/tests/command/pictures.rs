//! `quillet draw` from end to end: pictures of a pen, of a holding, of what has changed.

use crate::run::{command, examples, run, stderr};
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// What `quillet draw` writes of an example's file.
fn drawn(folder: &Path, args: &[&str]) -> String {
    let path = folder.join("picture.svg");
    let mut command = command(&examples());
    let output = command.arg("draw").args(args).arg("-o").arg(&path);
    let output = output.output().unwrap();
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    fs::read_to_string(path).unwrap()
}

/// The words of a picture, a line each.
fn words(svg: &str) -> Vec<&str> {
    let texts = svg.split("<text").skip(1);
    let texts = texts.filter_map(|it| it.split_once('>')?.1.split_once('<'));
    texts.map(|it| it.0).collect()
}

/// A pen as the design's figures have it: the waist of the section at 9.6 instead of 10, its grip 10.8
/// instead of 11.4.
fn changed(folder: &Path) -> PathBuf {
    for file in ["saltings.quillet", "bought.quillet"] {
        fs::copy(examples().join(file), folder.join(file)).unwrap();
    }
    let heron = fs::read_to_string(examples().join("heron.quillet")).unwrap();
    let new = heron
        .replace("at 12           dia 10.0  smooth", "at 12 dia 9.6 smooth")
        .replace("let grip = 11.4", "let grip = 10.8");
    assert_eq!(
        new.lines()
            .zip(heron.lines())
            .filter(|it| it.0 != it.1)
            .count(),
        2
    );
    let path = folder.join("new.quillet");
    fs::write(&path, new).unwrap();
    path
}

/// The figures were worked out by hand from the two shapes: the Hermite curve of each between its stations.
#[test]
fn an_old_shape_under_the_new_says_where_and_by_how_much_it_differs() {
    let folder = TempDir::new().unwrap();
    let new = changed(folder.path());
    let old = examples().join("heron.quillet");
    let [new, old] = [&new, &old].map(|it| it.to_str().unwrap());
    let args = [new, "--over", old, "--pen", "heron", "--part", "section"];
    let svg = drawn(folder.path(), &args);
    let words = words(&svg);
    for says in ["−0.40", "−0.60", "+0.23 at 18.0", "nothing is written here"] {
        assert!(words.contains(&says), "{says}: {words:?}");
    }
    let holds = |part: &str| words.iter().any(|it| it.contains(part));
    assert!(holds("weighs 1.19 → 1.14 g"), "{words:?}");
    assert!(holds("comes: thin-wall"), "{words:?}");
    // With nothing but the section changed, it is the only picture there is.
    let all = drawn(folder.path(), &[new, "--over", old, "--pen", "heron"]);
    assert_eq!(all, svg);
}

#[test]
fn what_cannot_be_compared_is_said() {
    let folder = TempDir::new().unwrap();
    let ends = |args: &[&str], says: &str| {
        let output = run(
            &examples(),
            &[&["draw"], args, &["-o", "none.svg"]].concat(),
        );
        assert_eq!(output.status.code(), Some(2), "{args:?}");
        assert!(
            stderr(&output).contains(says),
            "{args:?}: {}",
            stderr(&output)
        );
    };
    let other = folder.path().join("rail.quillet");
    fs::write(
        &other,
        "part rail from head to foot {\n  blank of acrylic rod 12\n  length 40\n}\n",
    )
    .unwrap();
    let other = other.to_str().unwrap();
    let heron = ["heron.quillet", "--pen", "heron"];
    ends(
        &[&heron[..], &["--with", "heron"]].concat(),
        "no shape differs",
    );
    ends(
        &["heron.quillet", "--over", other],
        "it has rail; here there is",
    );
    ends(
        &[&heron[..], &["--with", "dotterel"]].concat(),
        "no pen dotterel",
    );
    ends(
        &[&heron[..], &["--part", "cap", "--holding", "9"]].concat(),
        "one of 1 to",
    );
    let posted = ["--assembled", "--look", "outside", "--state", "posted"];
    ends(&[&heron[..], &posted].concat(), "cannot be shown posted");
}

#[test]
fn a_look_is_the_same_bytes_twice_and_no_burden() {
    let folder = TempDir::new().unwrap();
    let look = |name| {
        [
            "heron.quillet",
            "--pen",
            "heron",
            "--assembled",
            "--look",
            name,
        ]
    };
    for name in ["outside", "cutaway", "exploded", "line"] {
        let [one, two] = [(); 2].map(|()| drawn(folder.path(), &look(name)));
        assert!(one == two, "{name}");
        assert!(one.len() < 120_000, "{name}: {} bytes", one.len());
    }
}

/// The profile of heron's cap, as its file has it: 64 long, 15.2 at the mouth, at most 15.8.
#[test]
fn a_profile_is_one_line_from_axis_to_axis() {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("cap.dxf");
    let args = [
        "draw",
        "heron.quillet",
        "--pen",
        "heron",
        "--part",
        "cap",
        "--profile",
        "-o",
    ];
    let output = command(&examples()).args(args).arg(&path).output().unwrap();
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    let text = fs::read_to_string(path).unwrap();
    let lines: Vec<&str> = text.lines().map(str::trim).collect();
    let pairs: Vec<(&str, &str)> = lines.chunks_exact(2).map(|it| (it[0], it[1])).collect();
    let is = |name: &str| pairs.iter().filter(|it| **it == ("0", name)).count();
    assert_eq!((is("POLYLINE"), is("LINE"), is("TEXT")), (1, 0, 0));
    assert!(
        pairs
            .windows(2)
            .any(|it| it == [("9", "$INSUNITS"), ("70", "4")])
    );
    let start = pairs.iter().position(|it| *it == ("0", "VERTEX")).unwrap();
    let of = |code: &str| -> Vec<f64> {
        let own = pairs[start..].iter().filter(|it| it.0 == code);
        own.map(|it| it.1.parse().unwrap()).collect()
    };
    let (along, out) = (of("10"), of("20"));
    assert_eq!((along[0], out[0], out[1]), (0.0, 0.0, 7.6));
    // Its crown is a dome, which ends on the axis.
    assert_eq!((along.last(), out.last()), (Some(&64.0), Some(&0.0)));
    let most = out.iter().fold(0.0f64, |most, it| most.max(*it));
    assert!((most - 7.9).abs() < 0.002, "{most}");
}

/// Pictures of the readme and the manual, and how each was drawn.
const SHOWN: [(&str, &[&str]); 4] = [
    (
        "heron.svg",
        &["heron.quillet", "--pen", "heron", "--gallery"],
    ),
    (
        "heron-apart.svg",
        &[
            "heron.quillet",
            "--pen",
            "heron",
            "--assembled",
            "--look",
            "exploded",
        ],
    ),
    (
        "heron-cap-2.svg",
        &[
            "heron.quillet",
            "--pen",
            "heron",
            "--part",
            "cap",
            "--holding",
            "2",
        ],
    ),
    (
        "heron-ida.svg",
        &[
            "heron.quillet",
            "--pen",
            "heron-ida",
            "--with",
            "heron",
            "--part",
            "section",
        ],
    ),
];

/// `QUILLET_DRAW=1 cargo test -p quillet --test command shown` draws them anew.
#[test]
fn what_the_readme_and_the_manual_show_is_what_is_drawn() {
    let pictures = Path::new(env!("CARGO_MANIFEST_DIR")).join("manual/pictures");
    let folder = TempDir::new().unwrap();
    let manual = include_str!("../../manual/language.md");
    let readme = include_str!("../../../../README.md");
    for (name, args) in SHOWN {
        let now = drawn(folder.path(), args);
        let path = pictures.join(name);
        if std::env::var_os("QUILLET_DRAW").is_some() {
            fs::create_dir_all(&pictures).unwrap();
            fs::write(&path, &now).unwrap();
        }
        let kept = fs::read_to_string(&path).unwrap();
        assert!(
            kept == now,
            "{name} is not what quillet draw {} writes",
            args.join(" ")
        );
        let shown = format!("(pictures/{name})");
        assert!(manual.contains(&shown), "the manual does not show {name}");
    }
    assert!(readme.contains("(crates/cli/manual/pictures/heron.svg)"));
}
