//! What the sheets of the pens that ship say, against figures worked out by hand.

use crate::common::example;
use quillet_check::examine;
use quillet_export::draw::Paper;
use quillet_export::scene::{Path, Scene, Shape};
use quillet_export::sheet::{self, Content};

/// The pens that ship, each in a file of its name.
pub(super) const SHIPPED: [&str; 12] = [
    "heron",
    "dunlin",
    "godwit",
    "curlew",
    "whimbrel",
    "avocet",
    "dotterel",
    "plover",
    "sandpiper",
    "snipe",
    "stilt",
    "bittern",
];

/// The sheet of a pen that ships, by the file's name.
pub(super) fn shipped(name: &str) -> Content {
    let design = example(&format!("{name}.quillet"));
    let pen = design.pen(name).expect("the pen bears the file's name");
    sheet::content(&design, pen, &examine(&design), design.units())
}

/// Stilt's tip of ⌀11.2 rests where its stand's cone, 0.1 narrower a millimetre, has come from 12.4 to that:
/// 12 below the top. From the tip to the tail are 22 and 123, the stand is 46 high: 145 − 12 + 46.
#[test]
fn a_pen_in_its_stand_has_a_row_of_figures() {
    let content = shipped("stilt");
    let states: Vec<&str> = content.figures.iter().map(|it| &*it.state).collect();
    assert_eq!(states, ["to write", "in its stand"]);
    let stood = &content.figures[1];
    assert_eq!((&*stood.cells[0], &*stood.from), ("179.0", "the top"));
    let page = &sheet::pages(&content, Paper::A4)[0];
    for said in ["in its stand", "179.0"] {
        assert!(page.texts().any(|it| it.words == said), "{said}");
    }
    assert!(content.order.iter().any(|it| it.1 == "rest"));
}

/// Avocet's dies cut M12x0.8 and M9x0.75: by ISO 965 d3 = d − 1.2269 P, so 11.018 and 8.080, and what stands
/// out of a plug keeps 0.3 under it, to a tenth: 10.7 and 7.7. M10x0.75, as Stilt's, comes to 9.080 and 8.7.
#[test]
fn every_die_passes_what_stands_out_of_its_plug() {
    let mut said = Vec::new();
    for name in ["avocet", "stilt"] {
        let content = shipped(name);
        for it in &content.turning {
            let Some((_, most)) = it.serves.split_once("the die passes ⌀") else {
                continue;
            };
            let most: f64 = most.parse().expect("a size");
            // A headless stud has no size outside the face.
            let outside = it.sizes.first().and_then(|it| it.strip_prefix('⌀'));
            let outside = outside.and_then(|it| it.split(' ').next());
            let outside: f64 = outside.map_or(0.0, |it| it.parse().expect("a size"));
            assert!(
                outside <= most,
                "{name}, {}: {outside} over {most}",
                it.letter
            );
            said.push((name, most));
        }
    }
    assert_eq!(said, [("avocet", 10.7), ("avocet", 7.7), ("stilt", 8.7)]);
    let content = shipped("avocet");
    let nose = content.turning.iter().find(|it| it.letter == "D");
    let nose = nose.and_then(|it| it.sizes[0].strip_prefix("nose ⌀"));
    assert!(nose.is_some_and(|it| it.parse::<f64>().is_ok_and(|it| it >= 10.0)));
    // The brass of 5 is faced and bored where it is glued.
    let rows = content.parts.iter().flat_map(|it| &it.holdings);
    let verbs: Vec<(&str, &str)> = rows
        .flat_map(|it| &it.rows)
        .map(|it| (&*it.verb, &*it.size))
        .collect();
    let at = |wanted: (&str, &str)| verbs.iter().position(|it| *it == wanted);
    let glued = at(("GLUE", "piece 2")).expect("the brass is glued");
    assert!(at(("FACE", "piece 2")) > Some(glued) && at(("BORE", "⌀10.1")) > Some(glued));
}

/// Heron's barrel is 82 long: so wide is the profile cut out of its card, which goes on by 10 at either side;
/// the check line is 40.
#[test]
fn the_card_and_the_check_line_are_true_to_size() {
    let content = shipped("heron");
    for paper in [Paper::A4, Paper::Letter] {
        let pages = sheet::pages(&content, paper);
        for (name, long_mm) in [("cap", 64.0), ("barrel", 82.0), ("section", 30.0)] {
            let caption = format!("{name} 1 : 1");
            let page = pages
                .iter()
                .find(|it| it.texts().any(|it| it.words == caption));
            // Where the card meets the axis: its foot, the profile, its other foot.
            let cards: Vec<f64> = strokes(page.expect("it has a card"))
                .filter_map(|path| {
                    let places = path.flattened(0.01);
                    let low = places.iter().map(|it| it.y).fold(f64::INFINITY, f64::min);
                    let mut feet: Vec<f64> = places
                        .iter()
                        .filter(|it| it.y < low + 1e-6)
                        .map(|it| it.x)
                        .collect();
                    feet.sort_by(f64::total_cmp);
                    feet.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
                    match feet.as_slice() {
                        [a, b, c, d] if (d - a - long_mm - 20.0).abs() < 1e-3 => Some(c - b),
                        _ => None,
                    }
                })
                .collect();
            assert_eq!(cards.len(), 1, "{name}, {paper:?}");
            assert!((cards[0] - long_mm).abs() < 1e-3, "{name}: {}", cards[0]);
        }
        for page in &pages {
            let wide = |path: &Path| {
                let places = path.flattened(0.01);
                (places[0].x - places[places.len() - 1].x).abs()
            };
            assert!(strokes(page).any(|it| (wide(it) - 40.0).abs() < 1e-3));
        }
    }
}

/// Whether a page says something, by itself.
pub(super) fn mentions(page: &Scene, words: &str) -> bool {
    page.texts().any(|it| it.words == words)
}

fn strokes(page: &Scene) -> impl Iterator<Item = &Path> {
    page.items.iter().filter_map(|it| match &it.shape {
        Shape::Stroke(path) => Some(path),
        _ => None,
    })
}
