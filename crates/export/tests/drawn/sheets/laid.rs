//! How the pages of the shipped pens' sheets are laid out, and what their pictures show.

use super::shipped::{SHIPPED, mentions, shipped};
use super::told::part;
use quillet_export::draw::{self, Paper};
use quillet_export::scene::{Item, Layer, Shape};
use quillet_export::sheet::{self, HoldingRows};

/// Godwit's barrel is 72 and keeps a nub of 15, its section is 44.5 and goes 10 in: as they are held 34.5 of
/// the section stands out of the barrel, and in the section's picture 77 of the barrel out of the section.
#[test]
fn a_part_is_drawn_joined_with_its_mate() {
    let content = shipped("godwit");
    for (name, work, mate) in [("barrel", 87.0, 44.5), ("section", 44.5, 87.0)] {
        let held = part(&content, name).holdings.iter();
        let joined = held.filter(|it| it.title == "Nub in collet ⌀10");
        let joined: Vec<&HoldingRows> = joined.collect();
        assert_eq!(joined.len(), 1, "{name}");
        let picture = joined[0].picture.as_ref().expect("it is at the lathe");
        let (drawn, beside) = (
            reach(&picture.items, Layer::Paper),
            reach(&picture.items, Layer::View),
        );
        let scale = (drawn.1 - drawn.0) / work;
        assert!(
            ((beside.1 - beside.0) / scale - mate).abs() < 0.01,
            "{name}"
        );
        let out = (drawn.0 - beside.0).max(beside.1 - drawn.1);
        assert!((out / scale - (mate - 10.0)).abs() < 0.01, "{name}");
    }
}

/// From where to where what is filled in a layer reaches, along the paper.
fn reach(items: &[Item], layer: Layer) -> (f64, f64) {
    let filled = items.iter().filter(|it| it.layer == layer);
    let paths = filled.filter_map(|it| match &it.shape {
        Shape::Fill(paths) => Some(paths),
        _ => None,
    });
    let places = paths.flatten().flat_map(|it| it.flattened(0.01));
    places.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
        (low.min(at.x), high.max(at.x))
    })
}

/// Each on the side on which it comes out of the others: a clutch out of the cap's mouth, a refill and its
/// spring behind what they are pushed into; a tube and a bush that were glued in before turning stay in.
#[test]
fn parts_taken_apart_stand_where_they_come_out() {
    for (name, order) in [
        ("heron", "cap nib-unit section converter barrel"),
        ("plover", "cap nib-unit section converter barrel"),
        ("snipe", "cap clutch nib-unit section converter barrel"),
        ("curlew", "finial clip cap section refill spring barrel"),
        ("sandpiper", "front spring refill barrel click"),
        ("whimbrel", "cap nib-unit section barrel knob"),
    ] {
        let design = crate::common::example(&format!("{name}.quillet"));
        let pen = design.pen(name).expect("it is there");
        let (look, gaps) = draw::exploded(pen, 170.0).expect("it is put together");
        let names = look.parts.iter().map(|it| pen.parts.get(it.0));
        let names: Vec<_> = names.flatten().map(|it| &*it.name.text).collect();
        assert_eq!(names.join(" "), order, "{name}");
        // No gap is said twice.
        let mut gaps: Vec<f64> = gaps.into_iter().flatten().collect();
        gaps.sort_by(f64::total_cmp);
        assert!(
            gaps.windows(2).all(|it| it[1] - it[0] > 5.0),
            "{name}: {gaps:?}"
        );
    }
}

#[test]
fn a_stilt_taken_apart_has_its_parts_names_below_it() {
    let content = shipped("stilt");
    let pages = sheet::pages(&content, Paper::A4);
    let last = pages.last().expect("it has pages");
    let names = ["No. 6 nib unit", "section", "Piston converter", "holder"];
    let lines = names.map(|name| {
        let text = last.texts().find(|it| it.words == name);
        text.expect("it is named").at
    });
    assert!(
        lines
            .windows(2)
            .all(|it| it[0].x < it[1].x && it[0].y == it[1].y)
    );
    // The stand is no part of what is screwed together.
    assert!(!mentions(last, "stand"));
}

/// Plover's tube has two rows and no strip, its bush ten: one page, so that eight are all.
#[test]
fn parts_of_few_rows_share_a_page() {
    let content = shipped("plover");
    for paper in [Paper::A4, Paper::Letter] {
        let pages = sheet::pages(&content, paper);
        assert_eq!(pages.len(), 8, "{paper:?}");
        let shared = pages.iter().filter(|it| mentions(it, "Tube, Bush"));
        assert_eq!(shared.count(), 1, "{paper:?}");
        let numbers = pages[0].texts().filter(|it| it.words == "page 5");
        assert_eq!(numbers.count(), 2, "{paper:?}");
    }
}

/// On Letter Snipe's first page has more to say of what was accepted than its left-hand column has room for.
#[test]
fn what_was_accepted_leaves_the_pictures_their_air() {
    let content = shipped("snipe");
    let page = &sheet::pages(&content, Paper::Letter)[0];
    let at = |words: &str| {
        let text = page.texts().find(|it| it.words == words);
        text.expect("it is said").at.y
    };
    assert!(at("138.0") - at("to write") > 6.0);
    assert!(at("Balance from the foremost end: ▼ in the picture.") - at("Parts") > 5.0);
    let accepted = page.texts().filter(|it| it.words.starts_with("Accepted:"));
    let mut columns: Vec<f64> = accepted.map(|it| it.at.x).collect();
    assert_eq!(columns.len(), 5, "each is said once");
    columns.sort_by(f64::total_cmp);
    columns.dedup();
    assert_eq!(columns, [20.0, 131.0]);
}

#[test]
fn every_page_for_a_browser_is_small() {
    for name in SHIPPED {
        let bytes = sheet::html(&shipped(name), Paper::A4).len();
        assert!(bytes < 500_000, "{name}: {bytes} bytes");
    }
}

/// Two bands of one shape are one page: what is done is said once, what they come to is written for each.
#[test]
fn two_parts_alike_share_all_but_what_they_come_to() {
    let design = crate::common::example("alike.quillet");
    let judged = quillet_check::CheckReport::default();
    let content = sheet::content(&design, &design.pens[0], &judged, design.units());
    let pages = sheet::pages(&content, Paper::A4);
    let named = pages.iter().filter(|it| mentions(it, "Band, Ring"));
    let both: Vec<_> = named.collect();
    assert_eq!(both.len(), 1);
    let said = |words: &str| both[0].texts().filter(|it| it.words == words).count();
    for once in [
        "2 of these: Alike: acrylic ⌀18, sawn 32.5, 0.8 g",
        "band, ring 1 : 1",
        "band as made",
        "ring as made",
        "finished ⌀",
        "ROUGH",
    ] {
        assert_eq!(said(once), 1, "{once}");
    }
    // The barrel comes next; the first page sends both bands to theirs.
    let sent = |words: &str| pages[0].texts().filter(|it| it.words == words).count();
    assert_eq!((sent("page 3"), sent("page 4")), (2, 1));
    let html = sheet::html(&content, Paper::A4);
    for key in [
        "band/1/4/length",
        "ring/1/4/length",
        "band/0/at8",
        "ring/0/at8",
    ] {
        assert!(html.contains(&format!("aria-label=\"{key}\"")), "{key}");
    }
}
