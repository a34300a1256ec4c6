//! What the rows and the cells of the shipped pens' sheets tell.

use super::shipped::{mentions, shipped};
use quillet_export::draw::Paper;
use quillet_export::sheet::{self, Content, HoldingRow, PartSheet};

pub(super) fn part<'c>(content: &'c Content, name: &str) -> &'c PartSheet {
    let part = content.parts.iter().find(|it| it.name == name);
    part.expect("it is turned")
}

/// The first row of a part that does something.
fn row<'c>(content: &'c Content, name: &str, verb: &str) -> &'c HoldingRow {
    let rows = part(content, name).holdings.iter().flat_map(|it| &it.rows);
    let mut rows = rows.filter(|it| it.verb == verb);
    rows.next().expect("it is done")
}

/// Ebonite is turned at 45 to 90 m/min, a wide tool at half: 500 √(45 · 90) / (π 13) is 779, and of the
/// bench's steps 700 is nearer than 1100.
#[test]
fn a_pattern_is_cut_at_half_the_speed_of_turning() {
    let content = shipped("sandpiper");
    let cut = row(&content, "front", "PATTERN");
    assert_eq!(cut.size, "three grooves 0.4 wide");
    assert_eq!(cut.reach, "0.3 deep, 22 to 30 from the tip");
    assert_eq!((&*cut.speed, &*cut.how.join("; ")), ("700", "pattern tool"));
    assert_eq!(row(&content, "front", "TURN").speed, "1700");
}

/// Plover's barrel is 15 across with 0.05 of lacquer on it: 14.9 bare. Stilt's stand has 0.02 of oil on 60.
#[test]
fn what_is_coated_is_turned_to_what_stands_under_the_coat() {
    for (name, of, bare, coat) in [
        (
            "plover",
            "barrel",
            "⌀14.9",
            "then lacquer, 0.05 thick, joints masked",
        ),
        (
            "stilt",
            "stand",
            "⌀59.96",
            "then oil, 0.02 thick, joints masked",
        ),
    ] {
        let content = shipped(name);
        let sanded = row(&content, of, "SAND");
        assert_eq!(sanded.size, bare);
        assert!(sanded.how.iter().any(|it| it == coat), "{:?}", sanded.how);
        let rows = part(&content, of).holdings.iter().flat_map(|it| &it.rows);
        let said = rows.filter(|it| it.how.iter().any(|it| it == "sizes before the coat"));
        let verbs: Vec<&str> = said.map(|it| &*it.verb).collect();
        assert_eq!(verbs, ["TURN"], "{name}");
        let strip = part(&content, of).strip.as_ref().expect("it is shaped");
        let most = strip.columns.iter().map(|it| &*it.finished);
        let most = most.filter_map(|it| it.parse::<f64>().ok());
        let figure: f64 = bare.trim_start_matches('⌀').parse().expect("a size");
        assert!((most.fold(0.0, f64::max) - figure).abs() <= 0.051);
    }
}

/// Snipe's nib ends 0.5 before the plane in which its cap's ⌀12 ends at 55, and 0.7 of that may be lost:
/// −0.2. But no metal is there: the nib's ⌀4 meets the point of 118° at 55 + (6 − 2) / tan 59° = 57.40.
#[test]
fn a_plane_that_may_be_passed_is_not_told() {
    let content = shipped("snipe");
    let mut of_nib = content.contacts.iter();
    let of_nib = of_nib.find(|it| it.between.starts_with("nib-unit point to cap"));
    let of_nib = of_nib.expect("it is told");
    assert_eq!(of_nib.between, "nib-unit point to cap at 57.4");
    assert_eq!(of_nib.left, Some(("2.90".into(), "2.20".into())));
    let below = content.contacts.iter().filter_map(|it| it.left.as_ref());
    let below: Vec<_> = below.filter(|it| it.1.starts_with(['-', '−'])).collect();
    assert!(below.is_empty(), "{below:?}");
}

/// Of a plane and the point behind it one is told, the nearer; and nothing of what is never come to: the clutch
/// bears on the floor at 16.5.
#[test]
fn each_place_must_keep_clear_once() {
    for (name, begins, left) in [
        ("plover", "tube front to barrel", "1.00"),
        ("stilt", "converter end to holder", "1.00"),
        ("stilt", "nib-unit point to stand", "3.50"),
    ] {
        let content = shipped(name);
        let told = content.contacts.iter();
        let told: Vec<_> = told.filter(|it| it.between.starts_with(begins)).collect();
        assert_eq!(told.len(), 1, "{name}: {told:?}");
        let drawn = told[0].left.as_ref().map(|it| &*it.0);
        assert_eq!(drawn, Some(left), "{name}");
    }
    let content = shipped("snipe");
    let floor = content
        .contacts
        .iter()
        .filter(|it| it.between.ends_with("cap at 16.5"));
    assert!(floor.clone().all(|it| it.touches) && floor.count() == 1);
}

/// The bench has collets to 20; the stand's stock is 65.
#[test]
fn what_is_wider_than_every_collet_goes_in_a_chuck() {
    let content = shipped("stilt");
    let stand = part(&content, "stand");
    assert_eq!(stand.holdings[0].title, "Chuck ⌀65");
    for (name, words) in [
        ("stand", "in a chuck of Ø65"),
        ("section", "in a collet of Ø14"),
    ] {
        let holds = part(&content, name).route.iter();
        let mut holds = holds.filter_map(|it| it.hold.as_deref());
        assert!(holds.any(|it| it.starts_with(words)), "{name}");
    }
}

/// Snipe's flat is 0.4 deep in an outside of 17.4: 17, and at its narrow end 15.08. Both within 0.1 (ISO
/// 2768-f), each on a line of its own.
#[test]
fn a_flat_that_narrows_has_two_limits_in_its_cell() {
    let content = shipped("snipe");
    let filed = row(&content, "cap", "FILE");
    assert_eq!(filed.size, "17 to 15.08");
    let limits = ["16.9–17.1", "14.98–15.18"];
    assert_eq!(filed.dia, Some(limits.join(" ")));
    let pages = sheet::pages(&content, Paper::A4);
    for said in limits {
        assert!(pages.iter().any(|it| mentions(it, said)), "{said}");
    }
}

/// A facing that brings the mouth level with the bush glued into it says so, and nothing of being clean.
#[test]
fn a_facing_says_one_measure() {
    let content = shipped("plover");
    let rows = part(&content, "barrel")
        .holdings
        .iter()
        .flat_map(|it| &it.rows);
    let faced: Vec<_> = rows.filter(|it| it.verb.starts_with("FACE")).collect();
    let how: Vec<String> = faced.iter().map(|it| it.how.join("; ")).collect();
    assert_eq!(how, ["until clean", "level with bush"]);
    let route = &part(&content, "barrel").route;
    let notes: Vec<String> = route.iter().map(|it| it.notes.join("; ")).collect();
    assert!(
        notes
            .iter()
            .any(|it| it == "until barrel and bush are level"
                || it == "until part and bush are level"),
        "{notes:#?}"
    );
}

/// A thread that begins at the mark is not said to begin 0° past it.
#[test]
fn a_thread_begins_at_the_mark() {
    let tapped = shipped("dotterel");
    let tapped = row(&tapped, "cap", "TAP");
    assert!(
        tapped.how.iter().any(|it| it == "begin at the mark"),
        "{:?}",
        tapped.how
    );
}
