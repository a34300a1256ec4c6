//! A folder's pens on one page, a card each.

use super::data_uri;
use crate::draw::{self, Look};
use crate::mark::MARK;
use crate::picture::long;
use crate::write::{Background, svg};
use askama::Template;
use quillet_model::{Configured, Pen, Units};

/// A pen as the gallery shows it, or a file that gives none.
pub struct Card {
    /// The pen's title, or the file's name.
    pub title: String,
    /// The file it stands in, where the title does not say it.
    pub file: Option<String>,
    /// Its drawing as SVG, as it is carried.
    pub drawing: Option<String>,
    /// How long it is, what it weighs and where it balances, as far as it is known.
    pub figures: Vec<String>,
    /// The note above the pen.
    pub note: Option<String>,
    /// What is wrong with its file.
    pub wrong: Option<String>,
    /// Where it can be opened.
    pub link: Option<String>,
}

impl Card {
    /// The card of a pen, in units.
    pub fn of(pen: &Pen, units: Units) -> Card {
        let how = [Configured::Capped, Configured::Uncapped];
        let shown = how.into_iter().find_map(|how| {
            let look = draw::outside(pen, how, f64::MAX)?;
            Some((how, look))
        });
        Card {
            title: pen.title_or_name().to_owned(),
            figures: shown
                .as_ref()
                .map_or_else(Vec::new, |(how, _)| figures(pen, *how, units)),
            drawing: shown.map(|(_, Look { scene, .. })| svg(&scene, Background::Either)),
            note: pen.note.as_ref().map(|it| it.text.to_string()),
            file: None,
            wrong: None,
            link: None,
        }
    }
}

fn figures(pen: &Pen, how: Configured, units: Units) -> Vec<String> {
    let Some(it) = pen.assembly.configuration(how) else {
        return Vec::new();
    };
    let length = it
        .length_mm
        .map(|mm| format!("{} {}", long(mm, units), how.word()));
    let filled = it.filled.as_ref();
    let mass = filled.map(|it| format!("{:.1} g filled", it.mass_g));
    let balance = filled.map(|it| format!("balance at {}", long(it.centre_mm, units)));
    [length, mass, balance].into_iter().flatten().collect()
}

struct HtmlCard<'c> {
    card: &'c Card,
    picture: Option<String>,
}

#[derive(Template)]
#[template(path = "gallery.html")]
struct HtmlGallery<'c> {
    mark: &'static str,
    title: &'c str,
    cards: Vec<HtmlCard<'c>>,
}

/// The page of this title, with the cards in the order that they are given in.
pub fn gallery(title: &str, cards: &[Card]) -> String {
    let cards = cards.iter().map(|card| HtmlCard {
        card,
        picture: card.drawing.as_deref().map(data_uri),
    });
    let page = HtmlGallery {
        mark: MARK,
        title,
        cards: cards.collect(),
    };
    // A template over strings that are there cannot fail.
    page.render().unwrap_or_default()
}
