//! The pictures of the manual: its own, and a part or pen of Heron under the block that it is whole after.

use quillet_export::book::Illustration;
use quillet_export::picture::{self, Captioned};
use quillet_export::write::{Background, svg};
use quillet_model::{Design, Texts};
use quillet_pen::Analysis;
use std::collections::BTreeMap;
use std::ops::Range;
use std::path::Path;

const NAMED: [(&str, &str); 5] = [
    (
        "finding.svg",
        include_str!("../../manual/pictures/finding.svg"),
    ),
    ("heron.svg", include_str!("../../manual/pictures/heron.svg")),
    (
        "heron-apart.svg",
        include_str!("../../manual/pictures/heron-apart.svg"),
    ),
    (
        "heron-cap-2.svg",
        include_str!("../../manual/pictures/heron-cap-2.svg"),
    ),
    (
        "heron-ida.svg",
        include_str!("../../manual/pictures/heron-ida.svg"),
    ),
];

/// The design that the manual builds, and what it uses.
const HERON: (&str, &str) = (
    "heron.quillet",
    include_str!("../../../../examples/heron.quillet"),
);
const USED: [(&str, &str); 2] = [
    (
        "saltings.quillet",
        include_str!("../../../../examples/saltings.quillet"),
    ),
    (
        "bought.quillet",
        include_str!("../../../../examples/bought.quillet"),
    ),
];

/// Draws for the manual.
pub(super) struct Drawn {
    /// Each block after which a part or pen of Heron is whole, with its picture.
    whole: BTreeMap<&'static str, String>,
}

impl Drawn {
    /// Of a chapter that builds Heron, block by block.
    pub(super) fn of(chapter: &'static str) -> Self {
        let (name, heron) = HERON;
        let texts = USED.iter().fold(
            Texts::default().with(Path::new(name), heron),
            |all, (name, text)| all.with(Path::new(name), text),
        );
        let drawn = Analysis::of(Path::new(name), &texts, None).map(|it| items(&it.design));
        let drawn = drawn.unwrap_or_default();
        let blocks = chapter.split("\n```quillet heron\n").skip(1);
        let blocks = blocks.filter_map(|it| it.split("```").next());
        let mut last: BTreeMap<usize, &str> = BTreeMap::new();
        for block in blocks {
            let place = heron.find(block);
            let item = place.and_then(|at| drawn.iter().position(|(item, _)| item.contains(&at)));
            item.map(|item| last.insert(item, block));
        }
        let picture = |item: usize| drawn.get(item).and_then(|(_, svg)| svg.clone());
        let whole = last
            .into_iter()
            .filter_map(|(item, block)| Some((block, picture(item)?)));
        Drawn {
            whole: whole.collect(),
        }
    }

    /// The picture that is wanted; none where there is none.
    pub(super) fn svg(&self, wanted: &Illustration<'_>) -> Option<String> {
        match wanted {
            Illustration::Named(path) => {
                let name = path.rsplit('/').next()?;
                let (_, svg) = NAMED.iter().find(|(it, _)| *it == name)?;
                Some((*svg).to_owned())
            }
            Illustration::After("heron", block) => self.whole.get(block).cloned(),
            Illustration::After(..) => None,
        }
    }
}

/// Where the parts and pens of a design stand in its text, each with its picture.
fn items(design: &Design) -> Vec<(Range<usize>, Option<String>)> {
    let units = design.units();
    let root = design.root().map(|file| file.id);
    let drawn = |it: &Captioned| svg(&it.scene, Background::Either);
    let parts = design.parts.iter().filter(|it| Some(it.span.file) == root);
    let parts = parts.map(|it| {
        (
            it.span.range(),
            picture::sized(it, units).as_ref().map(drawn),
        )
    });
    let pens = design.pens.iter().filter(|it| Some(it.span.file) == root);
    let pens = pens.map(|it| (it.span.range(), picture::seen(it, units).first().map(drawn)));
    parts.chain(pens).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_part_and_pen_of_heron_is_shown_where_it_is_whole() {
        let drawn = Drawn::of(include_str!("../../manual/language.md"));
        let last: Vec<_> = drawn.whole.keys().map(|it| it.trim()).collect();
        // Cap, barrel, section, Heron and its variant.
        assert_eq!(drawn.whole.len(), 5, "{last:#?}");
        let ida = drawn
            .whole
            .iter()
            .find(|(block, _)| block.starts_with("pen heron-ida"));
        assert!(
            ida.is_some_and(|(_, svg)| svg.contains("<svg")),
            "{last:#?}"
        );
    }
}
