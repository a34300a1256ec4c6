//! What is taken of the maker's hand and tools where no bench says it.

use quillet_geometry::Length;
use quillet_model::{Bench, Design, Hand, Units};
use quillet_syntax::Span;
use quillet_syntax::ast::{self, ToleranceKind};

/// What is assumed of accuracies and tools, and the first name it is so of: said once for all of a design's
/// pens, and parts in no pen, whose bench does not say it; none where every bench says something.
pub fn of(design: &Design) -> Option<(Span, String)> {
    let pens = design
        .pens
        .iter()
        .map(|pen| (&pen.name, pen.bench.as_ref()));
    let in_pens = |name: &str| design.pens.iter().any(|pen| pen.part_id(name).is_some());
    let parts = design.parts.iter();
    let alone = parts.filter(|part| !part.is_bought() && !in_pens(&part.name.text));
    let alone = alone.map(|part| (&part.name, part.bench.as_ref()));
    let mut unsaid = pens.chain(alone).filter_map(|(name, wanted)| {
        let bench = design.bench(wanted).map(AsRef::as_ref);
        Some((name, words(bench, wanted.is_none(), design.units())?))
    });
    let (first, text): (&ast::Name, String) = unsaid.next()?;
    let mut names = vec![&*first.text];
    // Another bench is another matter, and told of when the first is named.
    names.extend(unsaid.filter(|it| it.1 == text).map(|it| &*it.0.text));
    Some((first.span, format!("{}: {text}", names.join(", "))))
}

/// What is assumed where this bench says nothing of its hand, or where there is none.
pub fn words(bench: Option<&Bench>, unnamed: bool, units: Units) -> Option<String> {
    let hand = Hand::at(bench);
    if ToleranceKind::ALL
        .iter()
        .any(|kept| hand.stated(*kept).is_some())
    {
        return None;
    }
    let within = |kept: ToleranceKind| units.short(hand.keeps(kept, Length::mm(10.0)));
    let hand = format!(
        "sizes as ISO 2768-1 f keeps them, depths as m, a drilled hole up to {} over, a nib within {}",
        within(ToleranceKind::Drill),
        within(ToleranceKind::Nib)
    );
    Some(match (bench, unnamed) {
        (Some(bench), _) => format!("bench {} keeps nothing said; {hand}", bench.name.text),
        (None, true) => format!("no bench is named; {hand}; no tool is known to be at hand"),
        (None, false) => {
            format!("the bench it names is not there; {hand}; no tool is known to be at hand")
        }
    })
}
