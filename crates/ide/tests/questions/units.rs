//! Everything an editor is told of a file is in the unit of that file.

use quillet_ide::{Cursor, Settings, Snapshot, Workspace};
use quillet_syntax::Span;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// A pen in inches, and one in millimetres.
const INCHES: &str = "../fixture/pens/turnstone.quillet";
const MM: &str = "../../examples/heron.quillet";

/// Each thing that is told of a file, with where.
fn everything(name: &str) -> Vec<(String, String)> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(name);
    let mut workspace = Workspace::default();
    let folder = path.parent().unwrap();
    let beside = fs::read_dir(folder).unwrap().map(|it| it.unwrap().path());
    for file in beside.filter(|it| it.is_file()) {
        workspace.set(&file, fs::read_to_string(&file).unwrap().into());
    }
    let snapshot = workspace.snapshot();
    let mut reported = in_the_text(&snapshot, &path);
    let analysis = snapshot.analysis(&path, &|| false).unwrap();
    let design = &analysis.design;
    let parts = design.parts.iter().map(|it| &it.name.text);
    for name in parts.chain(design.pens.iter().map(|it| &it.name.text)) {
        if let Some(preview) = quillet_ide::preview_of(&analysis, name) {
            let measures = preview.measures.into_iter().map(|(_, message)| message);
            reported.extend(measures.map(|message| (format!("preview of {name}"), message)));
            reported.extend(preview.legend.into_iter().map(|it| ("legend".into(), it)));
            let drawn = preview.pictures.iter().flat_map(|it| it.svg.split('>'));
            let texts = drawn.filter_map(|it| it.split_once('<'));
            reported.extend(texts.map(|(text, _)| ("picture".into(), text.to_owned())));
        }
    }
    reported
}

fn in_the_text(snapshot: &Snapshot, path: &Path) -> Vec<(String, String)> {
    let analysis = snapshot.analysis(path, &|| false).unwrap();
    let settings = Settings::default();
    let file = analysis.files()[0].clone();
    let all = Span::new(file.id, 0, file.text.len());
    let mut reported = Vec::new();
    for hint in quillet_ide::inlays(&analysis, &settings, &file, all) {
        reported.push(("hint".to_owned(), hint.text));
    }
    for lens in quillet_ide::lenses(&analysis, &settings, &file, &|| false).unwrap() {
        reported.push(("lens".into(), lens.text));
    }
    for symbol in quillet_ide::symbols(&analysis, &file) {
        reported.push((format!("symbol {}", symbol.name), symbol.detail));
    }
    let mut asked = BTreeSet::new();
    for token in &file.parsed.tokens {
        let at = file.text.get(token.span.range()).unwrap().to_owned();
        let cursor = Cursor::at(&analysis, token.span.start as usize).unwrap();
        // Room is told in the number's own unit, and takes its time.
        if let Some(hover) = quillet_ide::hover_until(snapshot, cursor, &|| true) {
            reported.push((format!("hover on {at}"), hover.text));
        }
        // What may follow a word is much the same wherever it stands.
        if !asked.insert(at.clone()) {
            continue;
        }
        let actions = quillet_ide::actions(snapshot, &analysis, cursor.place(), &|| false);
        for action in actions.unwrap() {
            // To say it in the other unit is what this one is for.
            if !action.title.starts_with("write ") || action.title.contains("out: ") {
                reported.push((format!("action on {at}"), action.title));
            }
        }
        let offered = quillet_ide::complete(snapshot, cursor).into_iter();
        for choice in offered.flat_map(|it| it.choices) {
            let about = quillet_ide::about(&analysis, &choice.about).unwrap_or_default();
            let what = format!("completion {} at {at}", choice.label);
            reported.push((what.clone(), choice.detail));
            // What a word means is told with an example; the example is not of this file.
            if !matches!(
                choice.about,
                quillet_ide::DocumentationKey::Word(_) | quillet_ide::DocumentationKey::Rule(_)
            ) {
                reported.push((what, about));
            }
        }
    }
    reported
}

/// The lines that speak of a unit, apart from the names of drills.
fn of_unit<'a>(reported: &'a [(String, String)], unit: &str) -> Vec<(&'a str, &'a str)> {
    let speaks = |line: &&str| {
        let words = line.split([' ', ',', ')', '(', '|', ';']);
        let words: Vec<&str> = words.filter(|it| !it.is_empty()).collect();
        words
            .windows(2)
            .any(|pair| pair[1] == unit && pair[0].ends_with(|it: char| it.is_ascii_digit()))
    };
    let lines = reported
        .iter()
        .flat_map(|(what, message)| message.lines().map(move |it| (&**what, it)));
    let lines = lines.filter(|(_, line)| speaks(line));
    // A page of a rule is the same for every file, and so are the words of the language.
    lines
        .filter(|(_, line)| !line.contains("also called"))
        .collect()
}

#[test]
fn a_pen_in_inches_is_told_in_inches() {
    let reported = everything(INCHES);
    assert_eq!(of_unit(&reported, "mm"), [("", ""); 0]);
    assert!(of_unit(&reported, "in").len() > 100);
    assert!(
        reported
            .iter()
            .any(|(_, message)| message.contains("17/64in exactly"))
    );
}

#[test]
fn a_pen_in_millimetres_is_told_in_millimetres() {
    let reported = everything(MM);
    assert_eq!(of_unit(&reported, "in"), [("", ""); 0]);
    assert!(of_unit(&reported, "mm").len() > 100);
}
