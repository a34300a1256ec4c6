//! What a snippet inserts can be read as it stands, and names what there is.

use crate::asked::{BARREL, PEN, at, in_pen};
use quillet_ide::Choice;
use quillet_syntax::{FileId, parse};
use std::collections::BTreeMap;

/// A snippet with its stops left as they come: of a choice the first.
fn inserted(snippet: &str) -> String {
    let mut stops: BTreeMap<String, String> = BTreeMap::new();
    let (mut out, mut rest) = (String::new(), snippet);
    while let Some((before, after)) = rest.split_once('$') {
        out += before;
        let (number, first, behind) = match after.strip_prefix('{') {
            None => (&after[..1], None, &after[1..]),
            Some(stop) => {
                let at = stop.find([':', '|']).unwrap();
                let (number, stop) = stop.split_at(at);
                let end = if stop.starts_with('|') { "|}" } else { "}" };
                let (text, behind) = stop[1..].split_once(end).unwrap();
                let first = match end {
                    "|}" => text.split(',').next().unwrap(),
                    _ => text,
                };
                (number, Some(first), behind)
            }
        };
        let text = first.map(str::to_owned);
        out += &text.unwrap_or_else(|| stops.get(number).cloned().unwrap_or_default());
        if let Some(first) = first {
            stops.insert(number.to_owned(), first.to_owned());
        }
        rest = behind;
    }
    out + rest
}

/// The choices at each stop that has some.
fn choices(snippet: &str) -> Vec<Vec<&str>> {
    let stops = snippet.split("${").skip(1);
    let chosen = stops.filter_map(|stop| {
        let (_, rest) = stop
            .split_once('|')
            .filter(|(before, _)| !before.contains(['}', ':']))?;
        Some(rest.split_once("|}").unwrap().0.split(',').collect())
    });
    chosen.collect()
}

fn snippet(choices: &[Choice], label: &str) -> String {
    let found = choices.iter().find(|it| it.label == label);
    found
        .and_then(|it| it.snippet.clone())
        .unwrap_or_else(|| panic!("no {label}"))
}

fn in_a_pen(more: &str) -> Vec<Choice> {
    at(&format!("{PEN}{BARREL}{more}pen heron {{\n  |\n}}\n")).choices()
}

#[test]
fn a_joint_is_begun_with_the_faces_there_are() {
    let all = in_a_pen("");
    let screw = snippet(&all, "screw");
    assert_eq!(
        screw,
        "screw ${1|cap.mouth,cap.crown,barrel.mouth,barrel.tail,unit.point,unit.heel,barrel.shoulder|} \
         into ${2|barrel.mouth,barrel.tail,unit.point,unit.heel,barrel.shoulder,cap.mouth,cap.crown|}"
    );
    // Nothing is joined to itself, and where nothing is known a stop says what it wants.
    for (label, joints) in [
        ("screw", 2),
        ("close", 2),
        ("push", 2),
        ("close, with its seat", 3),
    ] {
        let snippet = snippet(&all, label);
        let found = choices(&snippet);
        assert_eq!(found.len(), joints, "{snippet}");
        let part = |face: &str| face.split('.').next().unwrap().to_owned();
        assert_ne!(part(found[0][0]), part(found[1][0]), "{snippet}");
    }
    let bare = at("pen heron {\n  |\n}\n").choices();
    assert_eq!(snippet(&bare, "screw"), "screw ${1:face} into ${2:face}");
}

#[test]
fn no_more_than_twenty_faces_are_to_choose_from() {
    let many: String = (0..30)
        .map(|it| format!("part p{it} from a to b {{\n  length 20\n}}\n"))
        .collect();
    let screw = snippet(&in_a_pen(&many), "screw");
    let counts: Vec<usize> = choices(&screw).iter().map(Vec::len).collect();
    assert_eq!(counts, [20, 20]);
}

#[test]
fn other_lines_name_what_there_is_too() {
    let part = in_pen("length 64\n", "  |\n").choices();
    assert!(snippet(&part, "blank").starts_with("blank of ${1|reed,"));
    assert_eq!(snippet(&part, "from"), "from ${1|crown,mouth|} {\n\t$0\n}");
    assert_eq!(snippet(&in_a_pen(""), "fill"), "fill ${1|cap,barrel|}");
}

/// Texts with the cursor at the start of a line of each kind of block.
fn blocks() -> Vec<String> {
    let within = |open: &str, close: &str| format!("{PEN}{BARREL}{open}\n|\n{close}\n");
    vec![
        within("", ""),
        within("material tide {", "}"),
        within("part liner from front to back {", "}"),
        within("part liner from front to back {\noutside {", "}\n}"),
        within("part liner from front to back {\nfrom front {", "}\n}"),
        within("part liner from front to back {\nside {", "}\n}"),
        within("bought clip from top to foot {", "}"),
        within("pen heron {", "}"),
        within("pen heron {\nclose cap.mouth onto barrel.mouth {", "}\n}"),
        within("bench saltings {", "}"),
        within("shelf saltings {", "}"),
        within("made first of heron {", "}"),
    ]
}

#[test]
fn what_is_inserted_can_be_read() {
    let (mut read, mut wrong) = (0, String::new());
    for text in blocks() {
        for choice in at(&text).choices() {
            let Some(snippet) = &choice.snippet else {
                continue;
            };
            let written = text.replacen('|', &inserted(snippet), 1);
            let found = parse(FileId::default(), &written).findings;
            for slip in found.iter() {
                wrong += &format!("{snippet}: {}\n", slip.message);
            }
            read += 1;
        }
    }
    assert!(wrong.is_empty(), "\n{wrong}");
    assert!(read > 100, "{read}");
}
