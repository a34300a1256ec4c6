//! A file for what the caliper reads: written, filled in, and judged.

mod left;

use crate::run::{repository, run, stderr, stdout};
use quillet_fixture::MORE_EXAMPLES;
use std::fs;

/// The file with every comment that is a statement made one.
fn uncommented(text: &str) -> String {
    let lines = text.lines().map(|line| {
        let statement = line.trim_start().strip_prefix("-- ");
        match statement.filter(|_| line.starts_with("  ") && !line.contains("measured")) {
            Some(statement) => format!("{statement}\n"),
            None => format!("{line}\n"),
        }
    });
    lines.collect()
}

#[test]
fn every_size_of_a_shipped_pen_is_written_and_as_drawn_nothing_is_found() {
    let folder = repository("");
    for (name, text) in MORE_EXAMPLES {
        fs::write(folder.path().join(name), text.replace("\"../", "\"")).unwrap();
    }
    for (file, pen, least) in [
        ("heron", "heron", 25),
        ("heron", "heron-ida", 25),
        ("dunlin", "dunlin", 25),
        ("curlew", "curlew", 25),
        ("avocet", "avocet", 15),
        ("godwit", "godwit", 15),
        ("whimbrel", "whimbrel", 15),
        ("snipe", "snipe", 30),
        ("sandpiper", "sandpiper", 15),
        ("dotterel", "dotterel", 25),
    ] {
        let drawn = format!("{file}.quillet");
        let name = format!("{pen}-1");
        let path = folder.path().join(format!("{name}.quillet"));
        let written = run(
            folder.path(),
            &["made", &drawn, "--pen", pen, "--name", &name],
        );
        assert_eq!(written.status.code(), Some(0), "{}", stderr(&written));
        let text = fs::read_to_string(&path).unwrap();
        let checked = |text: &str| {
            fs::write(&path, text).unwrap();
            let shown = path.display().to_string();
            let out = run(folder.path(), &["check", &shown]);
            let formatted = run(folder.path(), &["format", "--check", &shown]);
            (stdout(&out), formatted.status.code())
        };
        let (found, _) = checked(&text);
        assert!(found.contains("nothing found"), "{name}: {found}");
        let filled = uncommented(&text);
        let statements = filled.lines().filter(|it| it.contains(" -- ")).count();
        assert!(statements >= least, "{name}: {statements}");
        let (found, _) = checked(&filled);
        assert!(found.contains("nothing found"), "{name}: {found}\n{filled}");
    }
}

#[test]
fn what_was_written_is_never_written_over_and_a_name_is_free() {
    let folder = repository("");
    let made = |file: &str, pen: &str, name: &str| {
        let words = ["made", file, "--pen", pen, "--name", name];
        let out = run(folder.path(), &words);
        (out.status.code(), stderr(&out))
    };
    assert_eq!(made("heron.quillet", "heron", "ida-1").0, Some(0));
    for (file, pen, name, why) in [
        ("heron.quillet", "heron", "ida-1", "is there already"),
        ("heron.quillet", "heron", "cap", "cannot name what is made"),
        (
            "heron.quillet",
            "heron",
            "Ida 1",
            "cannot name what is made",
        ),
        ("heron.quillet", "herron", "ida-2", "heron"),
        (
            "ida-1.quillet",
            "ida-1",
            "ida-2",
            "is itself one that was made",
        ),
        ("knot.quillet", "knot", "knot-1", "has errors"),
    ] {
        let (code, told) = made(file, pen, name);
        assert_eq!(code, Some(2), "{name}: {told}");
        assert!(told.contains(why), "{name}: {told}");
    }
    let out = run(folder.path(), &["made", "heron.quillet", "--name", "x-1"]);
    assert!(
        stderr(&out).contains("say which pen with --pen: heron, heron-ida"),
        "{}",
        stderr(&out)
    );
}

#[test]
fn what_was_measured_is_shown_beside_what_is_drawn() {
    let folder = repository("");
    let text = "use \"heron.quillet\"\nmade ida-1 on \"3 May\" of heron-ida {\n  part cap { length 64.1; from mouth { drill 12.2 \
                to 53.7 } }\n  measured mass(uncapped) 15.6\n}\n";
    fs::write(folder.path().join("ida-1.quillet"), text).unwrap();
    let out = run(
        folder.path(),
        &["measure", "ida-1.quillet", "--format", "json"],
    );
    let json: serde_json::Value = serde_json::from_str(&stdout(&out)).unwrap();
    let pens = json["pens"].as_array().unwrap();
    let pen = pens.iter().find(|it| it["name"] == "ida-1").unwrap();
    let made = &pen["made"];
    assert_eq!(
        (&made["of"], &made["on"]),
        (&"heron-ida".into(), &"3 May".into())
    );
    let size = |kind: &str| {
        let sizes = made["sizes"].as_array().unwrap();
        let found = sizes.iter().find(|it| it["kind"] == kind).unwrap();
        let near = |key: &str| (found[key].as_f64().unwrap() * 1000.0).round() / 1000.0;
        (
            near("drawn_mm"),
            near("made_mm"),
            near("difference_mm"),
            found["within"].as_bool().unwrap(),
        )
    };
    // The bench keeps a depth to 0.15; it says nothing of lengths, of which 0.15 is kept (ISO 2768-1 f).
    assert_eq!(size("depth"), (54.0, 53.7, -0.3, false));
    assert_eq!(size("length"), (64.0, 64.1, 0.1, true));
    assert_eq!(made["figures"][0]["measured"], "15.6 g");
    // Its cap longer than drawn is no part of it uncapped; the drawn pen is told without.
    assert_eq!(made["figures"][0]["drawn"], made["figures"][0]["reckoned"]);
    let drawn = pens.iter().find(|it| it["name"] == "heron-ida").unwrap();
    assert!(drawn.get("made").is_none());
    // One pen alone, with its own parts.
    let alone = [
        "measure",
        "ida-1.quillet",
        "--pen",
        "ida-1",
        "--format",
        "json",
    ];
    let alone = stdout(&run(folder.path(), &alone));
    let alone: serde_json::Value = serde_json::from_str(&alone).unwrap();
    let names = |of: &str| -> Vec<String> {
        let all = alone[of].as_array().unwrap().iter();
        all.map(|it| it["name"].as_str().unwrap().to_owned())
            .collect()
    };
    assert_eq!(names("pens"), ["ida-1"]);
    assert!(names("parts").contains(&"cap".to_owned()));
    assert!(pens.len() > 1);
    let unknown = ["measure", "ida-1.quillet", "--pen", "ida-2"];
    assert_eq!(run(folder.path(), &unknown).status.code(), Some(2));
}

/// Dunlin's cap and barrel are made, its section is not.
#[test]
fn the_sheet_of_one_that_was_made_is_ticked_and_says_what_was_read() {
    let folder = repository("");
    let write = |args: &[&str], name: &str| {
        let path = folder.path().join(name);
        let shown = path.display().to_string();
        let out = run(folder.path(), &[&["sheet"], args, &["-o", &shown]].concat());
        assert_eq!(out.status.code(), Some(0), "{}", stderr(&out));
        fs::read_to_string(&path).unwrap()
    };
    let made = include_str!("../../../../examples/made/dunlin-1.quillet");
    let made = made.replace("\"../", "\"");
    fs::write(folder.path().join("dunlin-1.quillet"), made).unwrap();
    let asked = ["dunlin-1.quillet", "--made", "dunlin-1"];
    let text = write(&asked, "d.txt");
    let says = |part: &str| assert!(text.contains(part), "{part}\n{text}");
    says("One dunlin, as made on 3 May: what is ticked is done.");
    says("[x] cap to 69 (58 long)\n  [x] barrel to 67 (56 long)");
    says("[ ] section to 36 (31 long)");
    says(
        "[x]  8  TENON ⌀12.9 to 8; bushing 12.9; 1100 rev/min\n        ⌀ 12.83–12.90   as made 12.80\n        length 7.95–8.05   as made 8.05",
    );
    says("[ ] 11  RELIEF ⌀12 5.5 to 8.05");
    says("  49    13.0      12.0      12.05");
    let html = write(&asked, "d.html");
    assert!(html.contains("<input type=\"checkbox\" checked disabled"));
    let json = write(&asked, "d.json");
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!(json["sheet"]["made"]["of"], "dunlin");
    // Said in a file beside, it is found from the drawing.
    fs::write(
        folder.path().join("ida-1.quillet"),
        "use \"heron.quillet\"\nmade ida-1 of heron { part cap { length 64.1 } }\n",
    )
    .unwrap();
    let beside = write(&["heron.quillet", "--made", "ida-1"], "i.txt");
    assert!(beside.contains("One heron, as made: what is ticked is done."));
    assert!(beside.contains("as made 64.10"), "{beside}");
    for (made, why) in [
        ("heron", "heron is not one that was made"),
        ("ida-2", "ida-2.quillet could not be read"),
    ] {
        let out = run(folder.path(), &["sheet", "heron.quillet", "--made", made]);
        assert_eq!(out.status.code(), Some(2));
        assert!(stderr(&out).contains(why), "{}", stderr(&out));
    }
}

/// A flat of 0.5 on ⌀14 is read from it to the round, 13.5, by f to 0.1; of two of 13 across the reading is the
/// size. A circle's holes are drilled up to 0.15 over (common practice) to a depth of 5 within 0.1 (ISO 2768-1 m).
#[test]
fn cuts_off_the_axis_are_written_with_what_calipers_read_and_ticked_when_made() {
    let folder = tempfile::tempdir().unwrap();
    let drawn = "part stem from mouth to tail {
  blank of acrylic rod 16
  length 40
  outside dia 14
  side {
    flat deep 0.5 at 20..6 from tail
    flat across 13 at 4..10 indexed 2 clock 90
  }
  from mouth { bore 6 to 20 }
  from tail { drill 2 to 5 on 8 indexed 3 }
}
part cap from mouth to crown {
  blank of acrylic rod 18
  length 10
  outside dia 16
  from mouth { bore 14.1 to 5 }
}
pen sanderling { slip stem.mouth into cap.mouth }
";
    fs::write(folder.path().join("sanderling.quillet"), drawn).unwrap();
    let made = run(
        folder.path(),
        &["made", "sanderling.quillet", "--name", "one-1"],
    );
    assert_eq!(made.status.code(), Some(0), "{}", stderr(&made));
    let path = folder.path().join("one-1.quillet");
    let text = fs::read_to_string(&path).unwrap();
    for row in [
        "-- flat deep 0.5 at 20..6 from tail -- 0.40 to 0.60 deep, begins at 19.90 to 20.10, ends at 33.85 to 34.15, \
         where it begins calipers read 13.40 to 13.60 from flat to round: write 14.00 less that\n",
        "-- flat across 13 at 4..10 indexed 2 clock 90 -- across 12.90 to 13.10, begins at 3.95 to 4.05, ends at \
         9.90 to 10.10\n",
        "-- drill 2 to 5 on 8 indexed 3 -- ⌀2.00 to ⌀2.15, on ⌀7.90 to ⌀8.10, 4.90 to 5.10 deep\n",
        "-- bore 6 to 20               -- ⌀5.95 to ⌀6.05, 19.80 to 20.20 deep\n",
    ] {
        assert!(text.contains(row), "{row}\n{text}");
    }
    let filled = uncommented(&text).replace("flat deep 0.5", "flat deep 0.55");
    fs::write(&path, filled).unwrap();
    let sheet = folder.path().join("s.txt");
    let shown = sheet.display().to_string();
    let args = ["sheet", "one-1.quillet", "--made", "one-1", "-o", &shown];
    let out = run(folder.path(), &args);
    assert_eq!(out.status.code(), Some(0), "{}", stderr(&out));
    let sheet = fs::read_to_string(sheet).unwrap();
    for words in ["⌀ 13.4–13.6   as made 13.45", "⌀ 12.9–13.1   as made 13.00"] {
        assert!(sheet.contains(words), "{words}\n{sheet}");
    }
    let row = sheet.lines().find(|it| it.contains("on ⌀8")).unwrap();
    assert!(row.starts_with("[x]"), "{row}");
}
