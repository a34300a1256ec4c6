//! A chapter's Markdown as HTML, with links that stay within the one page and pictures beside the text.

use super::data_uri;
use askama::filters::{Escaper, Html};
use pulldown_cmark::{CodeBlockKind, CowStr, Event, HeadingLevel, Options, Parser, Tag, TagEnd};
use std::collections::BTreeMap;

/// What stands beside the text of a chapter.
pub enum Illustration<'t> {
    /// The picture of this name.
    Named(&'t str),
    /// What a block of the language shows that has just ended: the word after `quillet`, which says what
    /// it belongs to, and its text.
    After(&'t str, &'t str),
}

/// Draws what is asked for, as SVG; none where there is nothing to show.
pub(super) type Illustrator<'a> = dyn FnMut(Illustration<'_>) -> Option<String> + 'a;

/// What a chapter comes to.
pub(super) struct Rendered {
    pub(super) html: String,
    /// Its headings below the first: what they are called within the page, and what they say.
    pub(super) headings: Vec<(String, String)>,
}

/// A chapter called `stem` within the page, among those of which `is_chapter` knows the stems; its first
/// heading becomes one of the level `below` + 1.
pub(super) fn render(
    stem: &str,
    text: &str,
    below: usize,
    is_chapter: &dyn Fn(&str) -> bool,
    draw: &mut Illustrator<'_>,
) -> Rendered {
    let events: Vec<Event<'_>> = Parser::new_ext(text, Options::ENABLE_TABLES).collect();
    let mut headings = Headings::new(stem, below);
    let mut out = Vec::with_capacity(events.len());
    let mut at = 0;
    while let Some(event) = events.get(at) {
        at += 1;
        let rest = &events[at..];
        match event {
            Event::Start(Tag::Heading { level, .. }) => {
                out.push(headings.begun(*level, said(rest)))
            }
            Event::End(TagEnd::Heading(level)) => {
                out.push(Event::End(TagEnd::Heading(headings.lower(*level))));
            }
            Event::Start(Tag::Link { dest_url, .. }) => {
                out.push(opened(link(stem, dest_url, is_chapter)));
            }
            Event::End(TagEnd::Link) => out.push(Event::InlineHtml("</a>".into())),
            Event::Start(Tag::Image { dest_url, .. }) => {
                let svg = draw(Illustration::Named(dest_url));
                out.extend(svg.map(|svg| Event::InlineHtml(image(&svg, &said(rest)))));
                at += until(rest, TagEnd::Image);
            }
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(kind))) => {
                let length = until(rest, TagEnd::CodeBlock);
                out.push(event.clone());
                out.extend_from_slice(&rest[..length]);
                at += length;
                let within = kind.strip_prefix("quillet").map(str::trim);
                let shown = within.and_then(|it| draw(Illustration::After(it, &said(rest))));
                let figure = |svg: String| format!("<figure>{}</figure>\n", image(&svg, ""));
                out.extend(shown.map(|svg| Event::Html(figure(svg).into())));
            }
            // A chapter brings no marks of its own into the page.
            Event::Html(_) | Event::InlineHtml(_) => {}
            other => out.push(other.clone()),
        }
    }
    let mut html = String::with_capacity(text.len() * 2);
    pulldown_cmark::html::push_html(&mut html, out.into_iter());
    Rendered {
        html,
        headings: headings.listed,
    }
}

/// How many events there are up to an end, with it.
fn until(events: &[Event<'_>], end: TagEnd) -> usize {
    let before = events.iter().take_while(|it| **it != Event::End(end));
    (before.count() + 1).min(events.len())
}

/// The headings of a chapter, each an anchor of its own.
struct Headings<'s> {
    stem: &'s str,
    below: usize,
    ids: BTreeMap<String, u32>,
    listed: Vec<(String, String)>,
}

impl<'s> Headings<'s> {
    fn new(stem: &'s str, below: usize) -> Self {
        Headings {
            stem,
            below,
            ids: BTreeMap::new(),
            listed: Vec::new(),
        }
    }

    /// What begins a heading that says so much.
    fn begun<'e>(&mut self, level: HeadingLevel, said: String) -> Event<'e> {
        let id = match level {
            HeadingLevel::H1 => self.stem.to_owned(),
            _ => format!("{}-{}", self.stem, slug(&said)),
        };
        let id = self.once(id);
        if level == HeadingLevel::H2 {
            self.listed.push((id.clone(), said));
        }
        Event::Start(Tag::Heading {
            level: self.lower(level),
            id: Some(id.into()),
            classes: Vec::new(),
            attrs: Vec::new(),
        })
    }

    /// A name that stands once: the second of it ends in `-1`, as forges have it.
    fn once(&mut self, id: String) -> String {
        let seen = self.ids.entry(id.clone());
        match seen.and_modify(|it| *it += 1).or_insert(0) {
            0 => id,
            more => format!("{id}-{more}"),
        }
    }

    fn lower(&self, level: HeadingLevel) -> HeadingLevel {
        HeadingLevel::try_from(level as usize + self.below).unwrap_or(HeadingLevel::H6)
    }
}

/// The words up to the end of what has just begun.
fn said(events: &[Event<'_>]) -> String {
    let mut depth = 0;
    let mut said = String::new();
    for event in events {
        match event {
            Event::Start(_) => depth += 1,
            Event::End(_) if depth == 0 => break,
            Event::End(_) => depth -= 1,
            Event::Text(text) | Event::Code(text) => said += text,
            Event::SoftBreak | Event::HardBreak => said.push(' '),
            _ => {}
        }
    }
    said
}

/// A heading as forges make it an anchor: small letters, hyphens for blanks, no other signs.
fn slug(heading: &str) -> String {
    let kept = heading
        .chars()
        .filter(|it| it.is_alphanumeric() || " -_".contains(*it));
    kept.flat_map(char::to_lowercase)
        .map(|it| if it == ' ' { '-' } else { it })
        .collect()
}

/// Where a link leads from the page: to a chapter of it or a place in one, or out; none where it led to
/// a file that is not in the page.
fn link(stem: &str, to: &str, is_chapter: &dyn Fn(&str) -> bool) -> Option<String> {
    if to.starts_with("https://") {
        return Some(to.to_owned());
    }
    let (file, place) = to.split_once('#').unwrap_or((to, ""));
    let name = file.rsplit('/').next().unwrap_or_default();
    let target = match name.strip_suffix(".md") {
        None if name.is_empty() => stem,
        Some(other) if is_chapter(other) => other,
        _ => return None,
    };
    Some(match place {
        "" => format!("#{target}"),
        place => format!("#{target}-{place}"),
    })
}

fn opened(to: Option<String>) -> Event<'static> {
    let to = to.map_or_else(String::new, |to| format!(" href=\"{}\"", escaped(&to)));
    Event::InlineHtml(format!("<a{to}>").into())
}

fn image(svg: &str, alt: &str) -> CowStr<'static> {
    format!("<img src=\"{}\" alt=\"{}\">", data_uri(svg), escaped(alt)).into()
}

fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    // Into a string nothing can fail to be written.
    let _ = Html.write_escaped_str(&mut out, text);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn html(text: &str) -> Rendered {
        let known = |stem: &str| ["language", "thin-wall"].contains(&stem);
        render("language", text, 1, &known, &mut |wanted| match wanted {
            Illustration::Named(name) => Some(format!("<svg>{name}</svg>")),
            Illustration::After(within, text) => {
                (within == "heron").then(|| format!("<svg>{}</svg>", text.trim()))
            }
        })
    }

    #[test]
    fn headings_are_anchors_a_level_lower() {
        let page = html("# The language\n\n## How it is `written`: lines\n");
        assert!(
            page.html.contains("<h2 id=\"language\">The language</h2>"),
            "{}",
            page.html
        );
        assert!(
            page.html
                .contains("<h3 id=\"language-how-it-is-written-lines\">"),
            "{}",
            page.html
        );
        let wanted = (
            "language-how-it-is-written-lines".to_owned(),
            "How it is written: lines".to_owned(),
        );
        assert_eq!(page.headings, [wanted]);
        let twice = html("# A\n\n### B\n\n### B\n").html;
        assert!(
            twice.contains("id=\"language-b\"") && twice.contains("id=\"language-b-1\""),
            "{twice}"
        );
    }

    #[test]
    fn links_stay_in_the_page_or_lead_nowhere() {
        let page =
            html("[a](#x) [b](../rules/thin-wall.md) [c](thin-wall.md#why) [d](../grammar.ebnf)")
                .html;
        for wanted in [
            "<a href=\"#language-x\">a</a>",
            "<a href=\"#thin-wall\">b</a>",
            "<a href=\"#thin-wall-why\">c</a>",
            "<a>d</a>",
        ] {
            assert!(page.contains(wanted), "{wanted} is not in {page}");
        }
    }

    #[test]
    fn pictures_stand_by_themselves_and_under_what_they_show() {
        let page = html("![A \"pen\"](pictures/heron.svg)\n\n```quillet heron\npart a {\n```\n\n```quillet part\nlet a = 1\n```\n").html;
        let named = "<img src=\"data:image/svg+xml,%3Csvg%3Epictures/heron.svg%3C/svg%3E\" alt=\"A &#34;pen&#34;\">";
        assert!(page.contains(named), "{page}");
        let after = "</code></pre>\n<figure><img src=\"data:image/svg+xml,%3Csvg%3Epart a {%3C/svg%3E\" alt=\"\"></figure>";
        assert!(page.contains(after), "{page}");
        assert_eq!(page.matches("<img").count(), 2, "{page}");
    }

    #[test]
    fn marks_of_a_chapter_do_not_come_into_the_page() {
        let page = html("<!-- written -->\n\na <b onclick=\"x\">b</b> `<c>`\n").html;
        assert!(!page.contains("<b") && !page.contains("<!--"), "{page}");
        assert!(page.contains("<code>&lt;c&gt;</code>"), "{page}");
    }
}
