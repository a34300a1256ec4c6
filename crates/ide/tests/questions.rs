//! Questions asked at `|` of small texts; one helper, one string each.
#![allow(clippy::unwrap_used, reason = "tests may")]

use quillet_ide::{Analysis, Cursor, Snapshot, Workspace};
use quillet_syntax::{Edit, Span};
use std::path::{Path, PathBuf};
use std::sync::Arc;

const SHARED: &str = "\
material reed \"Reed\" {
  kind acrylic
}
thread closing = M13x0.8 starts 3
bought unit from point to heel {
  length 40
  outside dia 8
}
";

const PEN: &str = "\
use \"shared.quillet\"

let grip = 11.4

-- the cap
part cap from mouth to crown {
  blank of reed rod 18
  length 64
  outside {
    at 0     dia 15.2
    at 40    dia 15.6
    at crown dia 14
  }
  from mouth {
    bore 13.1 to 2.5
    thread closing inside to 7.5 at 2.5
    drill 12.2 to 54
  }
}
";

/// The texts of two files, one using the other, and a place in the second.
struct Asked {
    snapshot: Snapshot,
    analysis: Arc<Analysis>,
    offset: usize,
}

fn path() -> PathBuf {
    PathBuf::from("/bench/pen.quillet")
}

/// A text with `|` at the place asked about.
fn at(text: &str) -> Asked {
    let offset = text.find('|').unwrap_or(0);
    with_shared(&text.replacen('|', "", 1), offset)
}

/// The pen with `after` (which holds the `|`) written after `before`.
fn in_pen(before: &str, after: &str) -> Asked {
    let place = PEN.find(before).unwrap() + before.len();
    let text = format!("{}{after}{}", &PEN[..place], &PEN[place..]);
    at(&text)
}

/// The pen, asked at the start of `needle`.
fn at_pen(needle: &str) -> Asked {
    with_shared(PEN, PEN.find(needle).unwrap())
}

fn with_shared(text: &str, offset: usize) -> Asked {
    let mut workspace = Workspace::default();
    workspace.set(Path::new("/bench/shared.quillet"), SHARED.into());
    workspace.set(&path(), text.into());
    let snapshot = workspace.snapshot();
    let analysis = snapshot.analysis(&path(), &|| false).unwrap();
    Asked {
        snapshot,
        analysis,
        offset,
    }
}

impl Asked {
    fn cursor(&self) -> Cursor<'_> {
        Cursor::at(&self.analysis, self.offset).unwrap()
    }

    fn text(&self, span: Span) -> &str {
        self.analysis.design.text(span)
    }

    fn labels(&self) -> Vec<String> {
        let completion = quillet_ide::complete(&self.snapshot, self.cursor());
        let choices = completion
            .map(|completion| completion.choices)
            .unwrap_or_default();
        choices.into_iter().map(|choice| choice.label).collect()
    }

    fn hover(&self) -> String {
        quillet_ide::hover(&self.snapshot, self.cursor())
            .map(|hover| hover.text)
            .unwrap_or_default()
    }

    /// The text after the action of this title, which must be there.
    fn after(&self, title: &str) -> String {
        let place = self.cursor().place();
        let actions = quillet_ide::actions(&self.analysis, place, &|| false).unwrap();
        let titles: Vec<_> = actions.iter().map(|action| action.title.clone()).collect();
        let action = actions
            .into_iter()
            .find(|action| action.title.starts_with(title));
        let action = action.unwrap_or_else(|| panic!("no {title:?} in {titles:?}"));
        edited(&self.cursor().file.text, action.edits)
    }
}

fn edited(text: &str, mut edits: Vec<Edit>) -> String {
    let mut text = text.to_owned();
    edits.sort_by_key(|edit| edit.span);
    for edit in edits.iter().rev() {
        text.replace_range(edit.span.range(), &edit.text);
    }
    text
}

#[test]
fn completion_knows_the_words_of_its_place() {
    assert!(
        at("let a = 1\n|")
            .labels()
            .starts_with(&["use".into(), "let".into()])
    );
    assert_eq!(in_pen("from mouth {\n", "    dr|\n").labels()[1], "drill");
    assert!(at("-- a no|te").labels().is_empty());
}

#[test]
fn completion_knows_the_names_in_scope_and_no_others() {
    let threads = in_pen("from mouth {\n", "    thread |\n").labels();
    assert_eq!(threads[0], "closing");
    assert!(!threads.contains(&"cap".into()));
    assert_eq!(
        in_pen("from mouth {\n", "  }\n  from |\n").labels(),
        ["mouth", "crown"]
    );
    let faces = at(&format!("{PEN}pen heron {{\n  screw |\n}}\n")).labels();
    assert!(faces.contains(&"cap.mouth".into()) && faces.contains(&"unit.heel".into()));
    let faces = at(&format!("{PEN}pen heron {{\n  screw unit.|\n}}\n")).labels();
    assert_eq!(faces, ["point", "heel"]);
    assert!(in_pen("blank of ", "|").labels().contains(&"reed".into()));
    assert_eq!(at("use |\n").labels(), ["\"shared.quillet\""]);
    assert_eq!(at("use \"|\"\n").labels(), ["\"shared.quillet\""]);
}

#[test]
fn completion_offers_sizes_and_measures() {
    let drills = in_pen("from mouth {\n", "    drill |\n").labels();
    assert!(drills.contains(&"11.2".into()), "ISO 235 lists 11.2 mm");
    assert!(drills.contains(&"grip".into()));
    // A bored hole is of any size; a number drill begins with its sign.
    let bores = in_pen("from mouth {\n", "    bore |\n").labels();
    assert_eq!(bores, ["grip", "min", "max"]);
    let numbered = in_pen("from mouth {\n", "    drill #|\n").labels();
    assert!(numbered.contains(&"#7".into()) && !numbered.contains(&"11.2".into()));
    let wants = want("|");
    assert!(wants.contains(&"balance".into()) && wants.contains(&"grip".into()));
    assert_eq!(want("mass(|"), ["capped", "uncapped", "posted"]);
    let tests = ["<=", ">=", "within", "="];
    assert_eq!(want("length(capped) |"), tests);
}

/// What is offered at `|` of a `want` in a pen.
fn want(said: &str) -> Vec<String> {
    at(&format!("{PEN}pen heron {{\n  want {said}\n}}\n")).labels()
}

#[test]
fn completion_knows_what_a_measure_takes() {
    assert_eq!(want("wall(|"), ["unit", "cap"]);
    assert_eq!(want("diameter(cap, |"), ["grip"]);
    assert_eq!(want("clearance(cap, |"), ["unit", "cap"]);
    assert_eq!(
        want("clearance(cap, unit, |"),
        ["capped", "uncapped", "posted"]
    );
    assert!(want("distance(|").contains(&"cap.crown".into()));
    assert_eq!(want("distance(cap.|"), ["mouth", "crown"]);
    assert!(want("distance(cap.mouth, |").contains(&"unit.heel".into()));
    // Plain parentheses hold a sum of measures together.
    assert!(want("(mass(capped) + |").contains(&"mass".into()));
}

#[test]
fn completion_offers_quantities_and_materials_each_in_their_place() {
    let body = PEN.replace("let grip", "let body = reed\nlet grip");
    let asked = |before: &str, after: &str| {
        let place = body.find(before).unwrap() + before.len();
        at(&format!("{}{after}{}", &body[..place], &body[place..])).labels()
    };
    let materials = asked("blank of ", "|");
    assert!(materials.contains(&"body".into()) && !materials.contains(&"grip".into()));
    assert_eq!(asked("length ", "|"), ["grip", "min", "max"]);
    // Nothing is told by itself, nor like itself.
    assert_eq!(
        at(&format!("{body}let a = |\n")).labels(),
        ["grip", "min", "max"]
    );
    assert_eq!(
        at(&format!("{body}part a like |\n")).labels(),
        ["unit", "cap"]
    );
}

#[test]
fn completion_in_a_joint_keeps_to_its_two_parts() {
    const LINER: &str = "part liner from front to back {\n  length 20\n}\n";
    let joint = |said: &str| at(&format!("{PEN}{LINER}pen heron {{\n  {said}\n}}\n")).labels();
    let second = joint("glue liner.front into |");
    assert!(second.contains(&"cap.mouth".into()) && !second.contains(&"liner.back".into()));
    assert_eq!(
        joint("glue liner.front into cap.mouth {\n    seat |\n  }"),
        ["cap.mouth", "cap.crown", "liner.front", "liner.back"]
    );
    assert_eq!(joint("glue liner.front into cap.mouth through |"), ["unit"]);
    assert_eq!(
        joint("glue liner.front into cap.mouth |"),
        ["gap", "through"]
    );
    assert_eq!(joint("push liner.front onto cap.mouth |"), ["by"]);
}

#[test]
fn completion_offers_the_rules_that_can_be_said() {
    let limits = at("limit |\n").labels();
    assert!(limits.contains(&"thin-wall".into()) && !limits.contains(&"unknown-name".into()));
    let thin = PEN.replace("drill 12.2 to 54", "drill 14.4 to 54");
    let asked = at(&thin.replace("  from mouth {", "  accept |\n  from mouth {"));
    // What was found in this part comes first.
    assert!(
        asked.labels()[..3].contains(&"thin-wall".into()),
        "{:?}",
        asked.labels()
    );
    assert!(!asked.labels().contains(&"broken-through".into()));
}

#[test]
fn completion_knows_its_part_before_the_braces_are_closed() {
    let open = "part a from left to right {\n  let rim = 2\n  outside {\n    ";
    assert_eq!(
        at(&format!("{open}at |")).labels()[..3],
        ["left", "right", "rim"]
    );
    assert_eq!(
        at(&format!("{open}at 0 dia 3\n  }}\n  from |")).labels(),
        ["left", "right"]
    );
    assert!(
        !at(&format!("{open}|"))
            .labels()
            .contains(&"dimensions in inches".into())
    );
}

#[test]
fn completion_begins_a_file_and_whole_items() {
    assert!(at("|").labels().contains(&"dimensions in inches".into()));
    assert!(
        !at("let a = 1\n|")
            .labels()
            .contains(&"dimensions in inches".into())
    );
    assert!(at("|").labels().contains(&"part, whole".into()));
    assert_eq!(at("thread |\n").labels(), [""; 0]);
    let usual = at("thread a = |\n").labels();
    let place = |size: &str| usual.iter().position(|label| label == size).unwrap();
    assert!(place("M13x0.8") < place("M10x1"));
}

#[test]
fn hover_tells_what_was_worked_out() {
    let cap = at_pen("cap from").hover();
    assert!(
        cap.contains("**cap**, part") && cap.contains("the cap"),
        "{cap}"
    );
    assert!(cap.contains("| length | 64 mm · 2.5197 in |"), "{cap}");
    let drill = at_pen("drill 12.2").hover();
    // 54 + 12.2/2/tan 59° for the usual 118° point.
    assert!(drill.contains("depth to the apex | 57.665 mm"), "{drill}");
    // 76.98/0.8·(13 − 12.2), the tap-chart formula.
    assert!(drill.contains("77 % of 3H/4"), "{drill}");
    let thread = at_pen("closing inside").hover();
    assert!(
        thread.contains("minor ⌀, inside") && !thread.contains("root ⌀, outside"),
        "{thread}"
    );
    assert!(
        drill.contains("nearest fraction | 31/64in − 0.103 mm"),
        "{drill}"
    );
    let number = at_pen("13.1 to").hover();
    assert!(number.contains("33/64in"), "{number}");
    let station = at_pen("at 40").hover();
    assert!(station.contains("| from the mouth | 40 mm"), "{station}");
    assert!(station.contains("| from the crown | 24 mm"), "{station}");
    let value = at("let a = 1in\nlet b = (a + 2mm) / 2|\n").hover();
    assert_eq!(value, "");
    let value = at("let a = 1in\nlet |b = (a + 2mm) / 2\n").hover();
    assert!(value.contains("| comes to | 13.7 mm"), "{value}");
    let file = at_pen("shared.quillet").hover();
    assert!(file.contains("| thread | closing |"), "{file}");
}

#[test]
fn hover_tells_what_a_tenth_of_a_millimetre_weighs() {
    // By hand: ⌀ 12.2 becomes 12.3 from 7.5 to 54, where the bore and the thread leave it the hole:
    // π/4·(12.3² − 12.2²)·46.5 = 89.48 mm³, at 1.19 g/cm³ (the built-in acrylic).
    let drill = at_pen("drill 12.2").hover();
    assert!(
        drill.contains("| 0.1 mm wider | about −0.106 g,"),
        "{drill}"
    );
    // By hand: two cones meet at 40; both take part, the whole of the tenth there and none of it
    // at their other ends.
    let station = at_pen("at 40").hover();
    let cone =
        |a: f64, b: f64, long: f64| std::f64::consts::PI / 12.0 * long * (a * a + a * b + b * b);
    let wider = cone(15.2, 15.7, 40.0) + cone(15.7, 14.0, 24.0);
    let grown_g = (wider - cone(15.2, 15.6, 40.0) - cone(15.6, 14.0, 24.0)) * 1.19e-3;
    let says = format!("| 0.1 mm wider | about +{grown_g:.3} g,");
    assert!(station.contains(&says), "{says} in {station}");
}

#[test]
fn a_preview_draws_a_pen_and_its_parts_at_one_scale() {
    const PENS: &str = "part liner from front to back {\n  blank of reed rod 9\n  length 20\n  outside dia 8\n}\n\
        pen heron \"Heron\" {\n  glue liner.front into cap.mouth\n  want mass(capped) <= 50\n}\n";
    let asked = at(&format!("{PEN}{PENS}"));
    let preview = quillet_ide::preview_of(&asked.analysis, "heron").unwrap();
    assert_eq!(preview.title, "Heron");
    let [picture] = preview.pictures.as_slice() else {
        panic!("{:?}", preview.pictures);
    };
    for caption in [">cap<", ">liner<", ">20 mm, 1.2 g<"] {
        assert!(picture.svg.contains(caption), "{caption}");
    }
    // What is asked for by variables or by the viewer's colours is lost in some viewers.
    assert!(!picture.svg.contains("var(") && !picture.svg.contains("currentColor"));
    let part = quillet_ide::preview_of(&asked.analysis, "cap").unwrap();
    let told: Vec<_> = part.measures.iter().map(|it| it.0.as_str()).collect();
    assert_eq!(
        told,
        ["length", "greatest ⌀", "mass", "balance", "least wall"]
    );
}

#[test]
fn hover_on_a_word_explains_it() {
    let bore = at_pen("bore 13.1").hover();
    assert!(bore.starts_with("A bored hole"), "{bore}");
    let rule = at(&format!("{PEN}limit thin|-wall = 0.9\n")).hover();
    assert!(rule.starts_with("# thin-wall"), "{rule}");
}

#[test]
fn a_name_leads_to_its_definition_in_another_file() {
    let asked = at_pen("reed rod");
    let target = quillet_ide::definition(asked.cursor()).unwrap();
    assert_eq!(target.path, Path::new("/bench/shared.quillet"));
    assert_eq!(asked.text(target.name), "reed");
    let file = at_pen("shared.quillet");
    assert_eq!(
        quillet_ide::definition(file.cursor()).unwrap().path,
        target.path
    );
    let made_of = quillet_ide::type_definition(at_pen("cap from").cursor());
    let names: Vec<_> = made_of.iter().map(|it| asked.text(it.name)).collect();
    assert_eq!(names, ["reed", "closing"]);
    let like = at(&format!("{PEN}part oth|er like cap {{\n  length 60\n}}\n"));
    let like_what = quillet_ide::type_definition(like.cursor());
    assert_eq!(like.text(like_what[0].name), "cap");
}

#[test]
fn renaming_reaches_every_file_and_refuses_what_is_no_name() {
    let asked = at_pen("closing inside");
    let rename = |new: &str| quillet_ide::rename(&asked.snapshot, asked.cursor(), new, &|| false);
    let edits = rename("cap-thread").unwrap();
    let files: Vec<_> = edits
        .keys()
        .map(|path| path.file_name().unwrap().to_owned())
        .collect();
    assert_eq!(files, ["pen.quillet", "shared.quillet"]);
    assert!(rename("Closing").unwrap_err().contains("is no name"));
    assert!(rename("letter").unwrap_err().contains("is no name"));
    assert!(rename("grip").unwrap_err().contains("already"));
    // An end is named within its part, so another part's `point` is in nobody's way.
    let end = at_pen("mouth to crown");
    assert!(quillet_ide::rename(&end.snapshot, end.cursor(), "point", &|| false).is_ok());
    assert!(quillet_ide::rename(&end.snapshot, end.cursor(), "crown", &|| false).is_err());
}

#[test]
fn an_ends_name_is_linked_within_its_part() {
    let asked = at_pen("mouth to crown");
    let spans = quillet_ide::linked(asked.cursor()).unwrap();
    assert_eq!(spans.len(), 2);
    assert!(spans.iter().all(|span| asked.text(*span) == "mouth"));
    assert!(quillet_ide::linked(at_pen("closing inside").cursor()).is_none());
}

#[test]
fn the_form_of_a_statement_follows_the_cursor() {
    let active = |asked: &Asked| {
        let signature = quillet_ide::signature(asked.cursor()).unwrap();
        let active = signature.active.map(|active| signature.phrases[active]);
        active.map_or("", |(from, to)| &signature.form[from..to])
    };
    let cut = |after: &str| active(&in_pen("from mouth {\n", after));
    let reach = "(to DEPTH | for LENGTH | through)";
    assert_eq!(cut("    drill |\n"), "SIZE");
    assert_eq!(cut("    drill 8|\n"), "SIZE");
    assert_eq!(cut("    drill letter |\n"), "SIZE");
    assert_eq!(cut("    drill 8 |\n"), reach);
    assert_eq!(cut("    drill 8 to 12 + |\n"), reach);
    assert_eq!(cut("    drill 8 to 12 at |\n"), "[at START]");
    assert_eq!(cut("    drill 8 through |\n"), "[at START]");
    assert_eq!(
        cut("    taper 9 to 8 |\n"),
        "(for LENGTH | to DEPTH | through)"
    );
    assert_eq!(cut("    thread closing inside |\n"), reach);
    assert_eq!(cut("    tenon |\n"), "[DIAMETER]");
    assert_eq!(cut("    chamfer 1 as rim |\n"), "");
    let station = |after: &str| active(&in_pen("outside {\n", after));
    assert_eq!(station("    at 5 dia 12 smooth |\n"), "[step DIAMETER]");
    let shapes = "[smooth | dome | bead RADIUS | cove RADIUS]";
    assert_eq!(station("    at 5 dia 12 bead |\n"), shapes);
    assert_eq!(active(&at("thread a = |\n")), "= DESIGNATION");
    assert_eq!(active(&at("let a = |\n")), "= SUM");
    assert_eq!(
        active(&at("part a like |\n")),
        "(from FIRST to SECOND | like PART)"
    );
    assert_eq!(active(&at("pen a \"A\" |\n")), "[like PEN]");
    let tests = "(<= VALUE | >= VALUE | within LOW..HIGH | = VALUE +- TOLERANCE)";
    assert_eq!(active(&at("pen a {\nwant length(capped) |\n}\n")), tests);
    assert_eq!(active(&at("pen a {\nwant min(1, |\n}\n")), "MEASURE");
    assert!(quillet_ide::signature(at("-- drill |").cursor()).is_none());
}

#[test]
fn selections_grow_to_the_file() {
    let asked = at_pen("12.2 to");
    let grown: Vec<_> = quillet_ide::selections(asked.cursor());
    assert_eq!(asked.text(grown[0]), "12.2");
    assert_eq!(asked.text(grown[1]), "drill 12.2 to 54");
    assert_eq!(asked.text(*grown.last().unwrap()).len(), PEN.len());
    assert!(grown.windows(2).all(|pair| pair[1].contains(pair[0])));
}

#[test]
fn actions_rewrite_numbers() {
    assert!(
        at("let a = 1|2.7mm\n")
            .after("write 1/2in")
            .contains("let a = 1/2in")
    );
    assert!(
        at("let a = 7/1|6in\n")
            .after("write 11.1125")
            .contains("let a = 11.1125\n")
    );
    let named = at_pen("12.2 to").after("name this number");
    assert!(
        named.contains("let size = 12.2\n\n-- the cap\npart cap"),
        "{named}"
    );
    assert!(named.contains("drill size to 54"), "{named}");
}

#[test]
fn actions_write_out_what_is_assumed() {
    let without = PEN.replace("    drill 12.2 to 54\n", "");
    let place = without.find("thread closing inside").unwrap();
    let asked = with_shared(&without, place);
    let after = asked.after("write the tap drill out");
    assert!(after.contains("    drill 12.2 to "), "{after}");
    let assumed = |asked: &Asked| {
        let parts = asked.analysis.design.parts.iter();
        let drills = parts.flat_map(|part| &part.features).filter(|feature| {
            matches!(
                &feature.cut,
                quillet_model::Cut::Drill {
                    assumed_for: Some(_),
                    ..
                }
            )
        });
        drills.count()
    };
    assert_eq!(assumed(&asked), 1);
    assert_eq!(assumed(&with_shared(&after, 0)), 0);
}

#[test]
fn actions_add_what_is_missing_and_accept_with_a_reason() {
    let asked = in_pen("from mouth {\n", "    thread |tail inside to 3\n");
    assert!(
        asked
            .after("add the thread tail")
            .contains("thread tail = M10x0.75\n\n")
    );
    let thin = PEN.replace(
        "drill 12.2 to 54",
        "drill 12.2 to 54\n    drill 14.9 to 12 at 8",
    );
    let place = thin.find("drill 14.9").unwrap();
    let after = with_shared(&thin, place).after("accept thin-wall");
    assert!(
        after.contains("accept thin-wall because \"why\"\n}"),
        "{after}"
    );
}

#[test]
fn a_missing_part_gets_the_ends_its_joints_name() {
    let pen =
        "pen heron {\n  glue li|ner.front into cap.mouth\n  glue liner.back into cap.crown\n}\n";
    let after = at(&format!("{PEN}{pen}")).after("add the part liner");
    assert!(
        after.contains("part liner from front to back {\n  length 60\n}\n\npen"),
        "{after}"
    );
}

#[test]
fn a_thread_that_one_part_lacks_is_cut_on_it() {
    let barrel = |cuts: &str| {
        format!(
            "part barrel from mouth to tail {{\n  blank of reed rod 18\n  length 40\n  outside dia 16\n{cuts}}}\n"
        )
    };
    let pen = "pen heron {\n  cl|ose cap.mouth onto barrel.mouth\n}\n";
    let after = at(&format!("{PEN}{}{pen}", barrel(""))).after("cut the closing thread on barrel");
    let cuts = "  from mouth {\n    tenon for 7.5\n    thread closing outside for 7.5\n  }\n";
    assert!(after.contains(&barrel(cuts)), "{after}");
    // And the other way about, in the block that is there.
    let unthreaded = PEN.replace("    thread closing inside to 7.5 at 2.5\n", "");
    let after =
        at(&format!("{unthreaded}{}{pen}", barrel(cuts))).after("cut the closing thread on cap");
    assert!(
        after.contains("    drill 12.2 to 54\n    thread closing inside to 7.5\n  }\n"),
        "{after}"
    );
}

#[test]
fn what_is_found_on_a_line_is_cured_from_anywhere_on_it() {
    let asked = in_pen("from mouth {\n", "    dr|ill 3 to 5 at taill\n");
    let text = asked.cursor().file.text.replace("taill", "gripe");
    let asked = with_shared(&text, asked.offset);
    assert!(asked.after("write grip").contains("drill 3 to 5 at grip\n"));
}

#[test]
fn a_joint_tells_its_turns_before_what_may_be_cut_off() {
    let male = "part barrel from mouth to tail {\n  blank of reed rod 18\n  length 40\n  outside {\n    \
        at 8    dia 15 as shoulder\n    at tail dia 15\n  }\n  from mouth {\n    tenon for 8\n    relief 12 for 1.5\n    \
        thread closing outside for 4 at 1.5\n  }\n}\n";
    let pen = "pen heron {\n  close cap.mouth onto barrel.mouth\n}\n";
    let asked = at(&format!("{PEN}{male}{pen}"));
    let file = &asked.cursor().file;
    let all = Span::new(file.id, 0, file.text.len());
    let hints = quillet_ide::inlays(&asked.analysis, asked.snapshot.settings(), file, all);
    let joint = hints.iter().find(|hint| hint.text.starts_with("in "));
    // Travel 5.5 + 2.5 less 1.5 + 2.5 is 4, over a lead of 2.4.
    assert_eq!(
        joint.unwrap().text,
        "in 8 mm, 1.67 turns, barrel.shoulder on cap.mouth"
    );
}

#[test]
fn hints_can_be_turned_off_by_kind() {
    let asked = at_pen("cap from");
    let file = &asked.cursor().file;
    let all = Span::new(file.id, 0, file.text.len());
    let mut settings = quillet_ide::Settings::default();
    let hints = |settings: &quillet_ide::Settings| {
        let hints = quillet_ide::inlays(&asked.analysis, settings, file, all);
        hints.into_iter().map(|hint| hint.text).collect::<Vec<_>>()
    };
    let told = hints(&settings);
    assert!(told.iter().any(|hint| hint == "tap drill 12.2"), "{told:?}");
    assert!(
        told.iter().any(|hint| hint.starts_with("wall ")),
        "{told:?}"
    );
    settings.units = quillet_ide::Units::Inches;
    // 12.2 mm over 25.4.
    assert!(hints(&settings).contains(&"tap drill 0.4803in".into()));
    settings.units = quillet_ide::Units::Both;
    settings.hints.walls = false;
    assert!(
        !hints(&settings)
            .iter()
            .any(|hint| hint.starts_with("wall "))
    );
    settings.hints.drills = false;
    assert_eq!(hints(&settings), Vec::<String>::new());
}

#[test]
fn inches_are_told_in_millimetres() {
    let asked = at("let a = 7/16in\n");
    let file = &asked.cursor().file;
    let all = Span::new(file.id, 0, file.text.len());
    let hints = quillet_ide::inlays(&asked.analysis, asked.snapshot.settings(), file, all);
    // 7/16 in = 11.1125 mm exactly.
    assert_eq!(hints[0].text, "11.113 mm");
    assert_eq!(hints[0].offset, "let a = 7/16in".len());
}

#[test]
fn a_renamed_file_is_followed_by_its_users() {
    let asked = at_pen("cap from");
    let moved = (
        PathBuf::from("/bench/shared.quillet"),
        PathBuf::from("/bench/box/bought.quillet"),
    );
    let edits = quillet_ide::renamed(&asked.snapshot, &[moved]);
    assert_eq!(edits.len(), 1);
    assert_eq!(edits[0].text, "\"box/bought.quillet\"");
    assert_eq!(asked.text(edits[0].span), "\"shared.quillet\"");
    // And a file that moves itself still finds what it uses.
    let moved = (path(), PathBuf::from("/bench/slim/pen.quillet"));
    assert_eq!(
        quillet_ide::renamed(&asked.snapshot, &[moved])[0].text,
        "\"../shared.quillet\""
    );
}

#[test]
fn what_uses_what_can_be_followed_both_ways() {
    let asked = at_pen("closing inside");
    let users = quillet_ide::used_by(&asked.snapshot, asked.cursor(), &|| false);
    assert_eq!(
        users
            .iter()
            .map(|it| it.item.name.as_str())
            .collect::<Vec<_>>(),
        ["cap"]
    );
    let used = quillet_ide::uses(at_pen("cap from").cursor());
    let mut names: Vec<_> = used.iter().map(|it| it.item.name.as_str()).collect();
    names.sort_unstable();
    assert_eq!(names, ["closing", "reed"]);
}

#[test]
fn a_new_line_is_indented_by_its_block() {
    let asked = at("part a from x to y {\n|\n}\n");
    let edits = quillet_ide::format_on_type(asked.cursor().file, asked.offset);
    let indent: Vec<_> = edits.iter().map(|edit| edit.text.as_str()).collect();
    assert_eq!(indent, ["  "]);
}

#[test]
fn symbols_tell_sizes() {
    let asked = at_pen("cap from");
    let symbols = quillet_ide::symbols(&asked.analysis, asked.cursor().file);
    let told: Vec<_> = symbols
        .iter()
        .map(|it| (it.name.as_str(), it.detail.as_str()))
        .collect();
    assert_eq!(told, [("grip", "11.4"), ("cap", "64 mm, ⌀ 15.6")]);
    let inner: Vec<_> = symbols[1].inner.iter().map(|it| it.name.as_str()).collect();
    assert_eq!(inner, ["outside", "from mouth"]);
    let found = quillet_ide::find(&asked.snapshot, "cls", &|| false);
    assert_eq!(
        found
            .iter()
            .map(|it| it.symbol.name.as_str())
            .collect::<Vec<_>>(),
        ["closing"]
    );
}
