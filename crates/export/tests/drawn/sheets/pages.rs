//! The pages of every sheet: how many they are, what stands on them, and that nothing meets.

use super::heron;
use super::shipped::SHIPPED;
use crate::common::example;
use quillet_check::{CheckReport, examine};
use quillet_export::draw::Paper;
use quillet_export::sheet::{self, Content};

/// All pens of all examples, and those kept for tests.
fn every_sheet(each: impl Fn(&str, &Content)) {
    let others = ["knot", "odd", "fitted", "dipped", "patient"];
    for file in SHIPPED.into_iter().chain(others) {
        let design = example(&format!("{file}.quillet"));
        let judged = examine(&design);
        for pen in &design.pens {
            let content = sheet::content(&design, pen, &judged, design.units());
            each(&format!("{file}: {}", pen.name.text), &content);
        }
    }
}

#[test]
fn no_text_meets_another_and_all_are_on_the_page() {
    let wrong = std::cell::RefCell::new(Vec::new());
    every_sheet(|name, content| {
        for paper in [Paper::A4, Paper::Letter] {
            for (number, page) in sheet::pages(content, paper).iter().enumerate() {
                let place = format!("{name}, {paper:?}, page {}", number + 1);
                let texts: Vec<_> = page.texts().collect();
                for (at, text) in texts.iter().enumerate() {
                    let frame = text.frame();
                    let on = frame.min.x > 5.0
                        && frame.min.y > 5.0
                        && frame.max.x < page.width_mm - 5.0
                        && frame.max.y < page.height_mm - 5.0;
                    if !on {
                        let caption = format!("{place}: {:?} is off it", text.words);
                        wrong.borrow_mut().push(caption);
                    }
                    for other in &texts[at + 1..] {
                        if frame.grown(-0.05).meets(&other.frame()) {
                            let caption =
                                format!("{place}: {:?} meets {:?}", text.words, other.words);
                            wrong.borrow_mut().push(caption);
                        }
                    }
                }
            }
        }
    });
    let wrong = wrong.into_inner();
    assert!(wrong.is_empty(), "{} places: {:#?}", wrong.len(), wrong);
}

/// A sheet is carried to the lathe: three pages, one a turned part and at most one more.
#[test]
fn a_sheet_is_no_longer_than_a_maker_reads() {
    every_sheet(|name, content| {
        let most = 4 + content.parts.len();
        for paper in [Paper::A4, Paper::Letter] {
            let pages = sheet::pages(content, paper).len();
            assert!(
                pages <= most,
                "{name}, {paper:?}: {pages} pages, {most} at most"
            );
        }
    });
    let content = heron(&examine(&example("heron.quillet")));
    assert_eq!(sheet::pages(&content, Paper::A4).len(), 6);
    assert!(sheet::pages(&content, Paper::Letter).len() <= 7);
}

#[test]
fn files_are_small() {
    let content = heron(&examine(&example("heron.quillet")));
    let (pdf, html) = (
        sheet::pdf(&content, Paper::A4).len(),
        sheet::html(&content, Paper::A4).len(),
    );
    assert!(pdf < 400_000 && html < 500_000, "{pdf} and {html} bytes");
    assert_eq!(
        sheet::pdf(&content, Paper::A4),
        sheet::pdf(&content, Paper::A4),
        "the same design gives the same bytes"
    );
}

/// A letter the font lacks is set as a box, and named.
#[test]
fn a_letter_that_is_not_in_the_font_is_named() {
    let mut content = heron(&CheckReport::default());
    content.title = "Heron 笔".into();
    let pages = sheet::pages(&content, Paper::A4);
    assert!(pages.iter().any(|it| it.lacking().contains(&'笔')));
}

/// A pen of one part ends on its second page where all of that has room: on A4, not on Letter.
#[test]
fn a_pen_of_one_part_takes_no_page_to_be_put_together() {
    let design = example("dipped.quillet");
    let pen = design.pen("sanderling").expect("it is there");
    let content = sheet::content(&design, pen, &examine(&design), design.units());
    let pages = sheet::pages(&content, Paper::A4);
    assert_eq!(pages.len(), 3);
    assert_eq!(sheet::pages(&content, Paper::Letter).len(), 4);
    let words: Vec<&str> = pages[1].texts().map(|it| &*it.words).collect();
    for said in [
        "Before you start",
        "Put together",
        "Must touch, all round",
        "14.0 turns",
    ] {
        assert!(words.contains(&said), "{said}: {words:?}");
    }
}
