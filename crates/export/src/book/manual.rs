//! The manual as one page, to read on a screen and to print.

use super::markdown::{Illustrator, Rendered, render};
use crate::mark::MARK;
use askama::Template;

/// A text of the manual.
pub struct Chapter<'t> {
    /// The name of its file without `.md`: what other chapters link to.
    pub stem: &'t str,
    /// Its Markdown, which begins with its title.
    pub text: &'t str,
}

/// Chapters that belong together.
pub struct Volume<'t> {
    /// What they are, over all of them.
    pub title: &'t str,
    /// Each of them, in order.
    pub chapters: Vec<Chapter<'t>>,
    /// Whether the contents list the headings of a chapter below its title.
    pub in_detail: bool,
}

struct HtmlVolume<'t> {
    title: &'t str,
    id: String,
    in_detail: bool,
    chapters: Vec<(String, String, Rendered)>,
}

#[derive(Template)]
#[template(path = "manual.html")]
struct HtmlManual<'t> {
    mark: &'static str,
    title: &'t str,
    volumes: Vec<HtmlVolume<'t>>,
}

/// The page of this title; `draw` gives the pictures.
pub fn manual(title: &str, volumes: &[Volume<'_>], draw: &mut Illustrator<'_>) -> String {
    let known = |stem: &str| {
        let mut chapters = volumes.iter().flat_map(|it| &it.chapters);
        chapters.any(|it| it.stem == stem)
    };
    let volumes = volumes.iter().enumerate().map(|(at, volume)| HtmlVolume {
        title: volume.title,
        id: format!("volume-{}", at + 1),
        in_detail: volume.in_detail,
        chapters: volume
            .chapters
            .iter()
            .map(|it| {
                let title = it.text.lines().find_map(|line| line.strip_prefix("# "));
                let rendered = render(it.stem, it.text, 1, &known, draw);
                (
                    it.stem.to_owned(),
                    title.unwrap_or(it.stem).to_owned(),
                    rendered,
                )
            })
            .collect(),
    });
    let page = HtmlManual {
        mark: MARK,
        title,
        volumes: volumes.collect(),
    };
    // A template over strings that are there cannot fail.
    page.render().unwrap_or_default()
}
