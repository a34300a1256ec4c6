//! What stands between the words.

use crate::asked::{BARREL, PEN, at, at_pen};
use quillet_ide::Units;
use quillet_syntax::Span;

#[test]
fn a_joint_tells_its_turns_before_what_may_be_cut_off() {
    let pen = "pen heron {\n  close cap.mouth onto barrel.mouth\n}\n";
    let asked = at(&format!("{PEN}{BARREL}{pen}"));
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
    let reported = hints(&settings);
    assert!(
        reported.iter().any(|hint| hint == "tap drill 12.2"),
        "{reported:?}"
    );
    assert!(
        reported.iter().any(|hint| hint.starts_with("wall ")),
        "{reported:?}"
    );
    settings.units = quillet_ide::Units::Inches;
    // 12.2 mm over 25.4.
    assert!(hints(&settings).contains(&"tap drill 0.4803in".into()));
    settings.units = quillet_ide::Units::File;
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

/// What stands after a length is the unit that sizes are told in, where it is written otherwise.
#[test]
fn a_file_in_inches_is_not_told_in_millimetres_unless_it_is_asked() {
    let text = "dimensions in inches\npart a from x to y {\n  length 2\n  mass 3 at 12.7mm\n  \
        from x { drill 7/16in to 1.5 point 135 }\n}\n";
    let reported = |units| {
        let asked = at(text).rendered_in(units);
        let file = &asked.cursor().file;
        let all = Span::new(file.id, 0, file.text.len());
        let hints = quillet_ide::inlays(&asked.analysis, asked.snapshot.settings(), file, all);
        let ends = |it: &quillet_ide::Inlay| it.text.ends_with(" mm") || it.text.ends_with(" in");
        let hints = hints.into_iter().filter(ends).map(|hint| {
            let before = text[..hint.offset].rsplit(' ').next().unwrap();
            (before.to_owned(), hint.text)
        });
        hints.collect::<Vec<_>>()
    };
    let pairs = |reported: &[(&str, &str)]| {
        let pairs = reported
            .iter()
            .map(|(one, two)| ((*one).to_owned(), (*two).to_owned()));
        pairs.collect::<Vec<_>>()
    };
    assert_eq!(reported(Units::File), pairs(&[("12.7mm", "0.5 in")]));
    assert_eq!(reported(Units::Inches), pairs(&[("12.7mm", "0.5 in")]));
    let in_mm = [
        ("2", "50.8 mm"),
        ("7/16in", "11.113 mm"),
        ("1.5", "38.1 mm"),
    ];
    assert_eq!(reported(Units::Millimetres), pairs(&in_mm));
    assert_eq!(reported(Units::Both), pairs(&in_mm));
}

#[test]
fn lenses_tell_sizes_in_the_unit_that_is_chosen() {
    let asked = at(&format!(
        "{PEN}{BARREL}pen heron {{\n  close cap.mouth onto barrel.mouth\n}}\n"
    ));
    let file = &asked.cursor().file;
    let lenses = |units| {
        let settings = quillet_ide::Settings {
            units,
            ..quillet_ide::Settings::default()
        };
        let lenses = quillet_ide::lenses(&asked.analysis, &settings, file, &|| false).unwrap();
        lenses.into_iter().map(|lens| lens.text).collect::<Vec<_>>()
    };
    let of_pen = |lenses: Vec<String>| lenses.into_iter().find(|it| it.starts_with("capped: "));
    // Cap 64 and barrel 40, 8 of it in the cap: 96 mm, over 25.4.
    for units in [quillet_ide::Units::File, quillet_ide::Units::Both] {
        let mm = of_pen(lenses(units)).unwrap();
        assert!(mm.starts_with("capped: 96 mm, "), "{mm}");
    }
    let inches = of_pen(lenses(quillet_ide::Units::Inches)).unwrap();
    assert!(inches.starts_with("capped: 3.78 in, "), "{inches}");
}

/// A joint of which a part has no shape, and one that waits for a joint that does not close, tell no
/// figure.
#[test]
fn a_joint_that_is_not_known_to_rest_tells_no_figure() {
    let pen = "pen heron {\n  close cap.mouth onto barrel.mouth\n}\n";
    let hints = |text: &str| {
        let asked = at(text);
        let file = &asked.cursor().file;
        let all = Span::new(file.id, 0, file.text.len());
        let hints = quillet_ide::inlays(&asked.analysis, asked.snapshot.settings(), file, all);
        hints.iter().filter(|it| it.text.starts_with("in ")).count()
    };
    let text = format!("{PEN}{BARREL}{pen}");
    assert_eq!(hints(&text), 1);
    for unknown in ["bore thirteen", "bore 16.5"] {
        assert_eq!(hints(&text.replace("bore 13.1", unknown)), 0, "{unknown}");
    }
}

/// What takes its time is worked out where it is asked for, of the numbers in sight, until it is called off.
#[test]
fn room_is_hinted_at_where_it_is_asked_for() {
    let asked = at_pen("54");
    let file = &asked.cursor().file;
    assert!(!quillet_ide::HintKinds::default().room);
    let depth = Span::new(file.id, asked.offset, asked.offset + 2);
    let hints = quillet_ide::room_hints(&asked.analysis, file, depth, &|| false);
    let [hint] = hints.as_slice() else {
        panic!("{hints:#?}");
    };
    assert_eq!(hint.offset, asked.offset + 2);
    assert!(
        hint.text.contains('┃') && hint.text.contains(" .. "),
        "{}",
        hint.text
    );
    let off = quillet_ide::room_hints(&asked.analysis, file, depth, &|| true);
    assert!(off.is_empty());
}

#[test]
fn a_spread_is_told_of_a_pen_until_it_is_called_off() {
    let text = format!("{PEN}{BARREL}pen heron {{\n  close cap.mouth onto barrel.mouth\n}}\n");
    let asked = at(&text);
    let told = quillet_ide::spread(&asked.analysis, "heron", &|| false).unwrap();
    assert!(told.starts_with("heron: "), "{told}");
    assert!(told.contains("; 2000 made, seed 1)\n"), "{told}");
    assert_eq!(
        quillet_ide::spread(&asked.analysis, "heron", &|| true),
        None
    );
    assert_eq!(
        quillet_ide::spread(&asked.analysis, "egret", &|| false),
        None
    );
    let settings = quillet_ide::Settings::default();
    let file = &asked.cursor().file;
    let lenses = quillet_ide::lenses(&asked.analysis, &settings, file, &|| false).unwrap();
    let opens = quillet_ide::LensTarget::Spread("heron".to_owned());
    assert!(lenses.iter().any(|it| it.opens == opens), "{lenses:#?}");
}
