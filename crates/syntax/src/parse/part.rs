//! Lines of parts, stations and cuts.

use super::common::*;
use super::expect::Thing;
use super::expr::Sums;
use super::input::*;
use crate::ast::*;
use chumsky::prelude::*;

/// A line of a part, without what its block holds.
pub(super) fn part_line<'s>(sums: &Sums<'s>) -> impl Reads<'s, LineKind> + use<'s> {
    let length = word("length").ignore_then(sums.span(Thing::Length));
    let outside = word("outside").ignore_then(
        sums.after("dia", Thing::Diameter)
            .map(LineKind::OutsideDia)
            .or(open().map(|()| LineKind::Outside(Vec::new()))),
    );
    let from = word("from")
        .ignore_then(needed_name(Thing::End))
        .then_ignore(open())
        .map(|end| LineKind::From {
            end,
            features: Vec::new(),
        });
    let mass = sums
        .after("mass", Thing::Mass)
        .then(sums.after("at", Thing::Length).or_not())
        .map(|(mass, at)| LineKind::Mass { mass, at });
    let ring = sums
        .after("ring", Thing::Diameter)
        .then_ignore(needed_word("by"))
        .then(sums.needed(Thing::Diameter))
        .map(|(inside, cord)| LineKind::Ring { inside, cord });
    choice((
        let_(sums).map(LineKind::Let),
        limit(sums).map(LineKind::Limit),
        want(sums).map(LineKind::Want),
        accept(sums).map(LineKind::Accept),
        bench_named().map(LineKind::Bench),
        blank(sums),
        length.map(LineKind::Length),
        outside,
        from,
        mass,
        sums.after("holds", Thing::Volume).map(LineKind::Holds),
        ring,
        sums.after("arm", Thing::Length).map(LineKind::Arm),
    ))
    .then_ignore(line_end())
}

fn blank<'s>(sums: &Sums<'s>) -> impl Reads<'s, LineKind> + use<'s> {
    let spigot = sums
        .after("spigot", Thing::Diameter)
        .then_ignore(needed_word("for"))
        .then(sums.needed(Thing::Length))
        .then(sums.after("gap", Thing::Length).or_not())
        .map_with(|((dia, length), gap), extra| Spigot {
            span: extra.span(),
            dia,
            length,
            gap,
        });
    let piece = stock(sums)
        .then(sums.after("to", Thing::Length).or_not())
        .then(spigot.or_not())
        .map(|((stock, to), spigot)| LineKind::Blank(Box::new(BlankPiece { stock, to, spigot })));
    word("blank").ignore_then(piece.or(needed_name(Thing::Name).map(LineKind::BlankNamed)))
}

/// A station.
pub(super) fn station<'s>(sums: &Sums<'s>) -> impl Reads<'s, StationSaid> + use<'s> {
    let from = word("from").ignore_then(needed_name(Thing::End));
    let shape = choice((
        word("smooth").to(ShapeKind::Smooth),
        word("dome").to(ShapeKind::Dome),
        sums.after("bead", Thing::Radius).map(ShapeKind::Bead),
        sums.after("cove", Thing::Radius).map(ShapeKind::Cove),
    ))
    .map_with(|kind, extra| Shape {
        span: extra.span(),
        kind,
    });
    sums.after("at", Thing::StationPlace)
        .then(from.or_not())
        .then_ignore(needed_word("dia"))
        .then(sums.needed(Thing::Diameter))
        .then(shape.or_not())
        .then(sums.after("step", Thing::Diameter).or_not())
        .then(edge(sums).or_not())
        .then(as_face())
        .map(
            |((((((at, from), dia), shape), step), edge), face)| StationSaid {
                at,
                from,
                dia,
                shape,
                step,
                edge,
                face,
            },
        )
        .then_ignore(line_end())
}

/// A line of a `from` block.
pub(super) fn feature<'s>(
    sums: &Sums<'s>,
) -> impl Reads<'s, (FeatureKind, Option<Name>)> + use<'s> {
    let accept = accept(sums).map(|accept| (FeatureKind::Accept(accept), None));
    accept.or(cut(sums).then(as_face())).then_ignore(line_end())
}

fn cut<'s>(sums: &Sums<'s>) -> impl Reads<'s, FeatureKind> + use<'s> {
    let reach = reach(sums).boxed();
    let tenon = word("tenon")
        .ignore_then(sums.maybe(Thing::Diameter))
        .then_ignore(needed_word("for"))
        .then(sums.needed(Thing::Length))
        .map(|(dia, length)| FeatureKind::Tenon { dia, length });
    let sized = |text| word(text).ignore_then(sums.size()).then(reach.clone());
    let drill = sized("drill")
        .then(sums.after("point", Thing::Angle).or_not())
        .map(|((size, reach), point)| FeatureKind::Drill { size, reach, point });
    let bore = sized("bore").map(|(size, reach)| FeatureKind::Bore { size, reach });
    let ream = sized("ream").map(|(size, reach)| FeatureKind::Ream { size, reach });
    let relief = sums
        .after("relief", Thing::Diameter)
        .then(reach.clone())
        .map(|(dia, reach)| FeatureKind::Relief { dia, reach });
    let taking = |text| {
        sums.after(text, Thing::Diameter)
            .then(reach.clone())
            .then(word("takes").ignore_then(needed_name(Thing::Part)).or_not())
    };
    let groove =
        taking("groove").map(|((dia, reach), takes)| FeatureKind::Groove { dia, reach, takes });
    let recess =
        taking("recess").map(|((dia, reach), takes)| FeatureKind::Recess { dia, reach, takes });
    let taper = sums
        .after("taper", Thing::Diameter)
        .then_ignore(needed_word("to"))
        .then(sums.needed(Thing::Diameter))
        .then(reach.clone())
        .map(|((from, to), reach)| FeatureKind::Taper { from, to, reach });
    let countersink = sums
        .after("countersink", Thing::Diameter)
        .then(sums.after("angle", Thing::Angle).or_not())
        .map(|(dia, angle)| FeatureKind::Countersink { dia, angle });
    choice((
        tenon,
        drill,
        bore,
        ream,
        thread(sums, reach.clone()),
        relief,
        groove,
        recess,
        taper,
        countersink,
        edge(sums).map(FeatureKind::Edge),
    ))
}

fn thread<'s>(sums: &Sums<'s>, reach: Rule<'s, Reach>) -> impl Reads<'s, FeatureKind> + use<'s> {
    let side = choice((
        word("inside").to(Side::Inside),
        word("outside").to(Side::Outside),
    ));
    word("thread")
        .ignore_then(thread_ref(sums))
        .then(side)
        .then(reach)
        .then(sums.after("clock", Thing::Angle).or_not())
        .map(|(((thread, side), reach), clock)| FeatureKind::Thread {
            thread,
            side,
            reach,
            clock,
        })
}

fn reach<'s>(sums: &Sums<'s>) -> impl Reads<'s, Reach> + use<'s> {
    let missing = empty().map_with(|(), extra| {
        ReachKind::To(Expr {
            span: nothing(extra.span()),
            kind: ExprKind::Bad,
        })
    });
    choice((
        sums.after("for", Thing::Length).map(ReachKind::For),
        sums.after("to", Thing::Length).map(ReachKind::To),
        word("through").to(ReachKind::Through),
    ))
    .recover_with(via_parser(missing))
    .then(sums.after("at", Thing::Length).or_not())
    .map_with(|(kind, at), extra| Reach {
        span: extra.span(),
        kind,
        at,
    })
}
