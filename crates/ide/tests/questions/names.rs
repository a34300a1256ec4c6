//! Names across files: where they come from, who uses them, what they are changed to.

use crate::asked::{PEN, at, at_pen, path};
use std::path::{Path, PathBuf};

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
fn symbols_tell_sizes() {
    let asked = at_pen("cap from");
    let symbols = quillet_ide::symbols(&asked.analysis, asked.cursor().file);
    let reported: Vec<_> = symbols
        .iter()
        .map(|it| (it.name.as_str(), it.detail.as_str()))
        .collect();
    assert_eq!(reported, [("grip", "11.4"), ("cap", "64 mm, ⌀ 15.6")]);
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

/// A shelf may bear a bench's name: what is changed is its own.
#[test]
fn a_shelf_has_a_place_in_the_outline_a_hover_and_a_name_of_its_own() {
    let text = |name: &str| {
        format!(
            "{PEN}bench home {{\n}}\nshelf {name} {{\n  have reed rod 18 by 150, 96.5\n  have unit 3\n  \
             price unit = 24\n}}\nshelf loft {{\n}}\n"
        )
    };
    let asked = at(&text("|home"));
    let symbols = quillet_ide::symbols(&asked.analysis, asked.cursor().file);
    let shelves: Vec<_> = symbols
        .iter()
        .filter(|it| it.name.starts_with("shelf"))
        .map(|it| (it.name.as_str(), it.detail.as_str()))
        .collect();
    assert_eq!(
        shelves,
        [("shelf home", "5 things kept, 1 price"), ("shelf loft", "")]
    );
    let hover = asked.hover();
    assert!(hover.contains("**home**, shelf"), "{hover}");
    assert!(hover.contains("5 things kept, 1 price"), "{hover}");
    let rename = |new: &str| quillet_ide::rename(&asked.snapshot, asked.cursor(), new, &|| false);
    assert!(quillet_ide::renamable(asked.cursor()).is_some());
    let edits = rename("cellar").unwrap();
    let places: Vec<_> = edits.values().flatten().map(|it| asked.text(*it)).collect();
    assert_eq!(places, ["home"]);
    assert!(rename("loft").is_err() && rename("Cellar 1").is_err());
}
