//! Lines of benches.

use super::common::*;
use super::expect::Thing;
use super::expr::Sums;
use super::input::*;
use crate::ast::*;
use crate::token::TokenKind as T;
use chumsky::prelude::*;

/// A line of a bench.
pub(super) fn tool_line<'s>(sums: &Sums<'s>) -> impl Reads<'s, ToolLineKind> + use<'s> {
    let runs = run(sums)
        .separated_by(token(T::Comma, Thing::Comma))
        .at_least(1)
        .collect::<Vec<_>>()
        .boxed();
    let drills = choice((
        word("drills").to(SizedTools::Drills),
        word("boring").to(SizedTools::Boring),
    ))
    .then(runs.clone())
    .then(sums.after("reach", Thing::Length).or_not())
    .map(|((tools, runs), reach)| ToolLineKind::Sizes {
        tools,
        runs,
        reach,
        pilot: None,
    });
    let bushings = word("bushings")
        .ignore_then(runs.clone())
        .then(sums.after("pilot", Thing::Diameter).or_not())
        .map(|(runs, pilot)| ToolLineKind::Sizes {
            tools: SizedTools::Bushings,
            runs,
            reach: None,
            pilot,
        });
    let sized = choice((
        word("reamers").to(SizedTools::Reamers),
        word("collets").to(SizedTools::Collets),
        word("mandrels").to(SizedTools::Mandrels),
    ))
    .then(runs)
    .map(|(tools, runs)| ToolLineKind::Sizes {
        tools,
        runs,
        reach: None,
        pilot: None,
    });
    let forms = thread_ref(sums)
        .separated_by(token(T::Comma, Thing::Comma))
        .at_least(1)
        .collect();
    let threads = choice((
        word("taps").to(ThreadTools::Taps),
        word("dies").to(ThreadTools::Dies),
    ))
    .then(forms)
    .then(lead(sums).or_not())
    .map(|((tools, forms), lead)| ToolLineKind::Threads { tools, forms, lead });
    let saw = word("saw")
        .ignore_then(needed_word("kerf"))
        .ignore_then(sums.needed(Thing::Length))
        .map(|kerf| ToolLineKind::Saw { kerf });
    let caliper = sums
        .after("caliper", Thing::Length)
        .map(|within| ToolLineKind::Caliper { within });
    choice((
        drills,
        bushings,
        sized,
        threads,
        saw,
        lathe(sums),
        keeps(sums),
        caliper,
        limit(sums).map(ToolLineKind::Limit),
    ))
    .then_ignore(line_end())
}

/// `keeps KEPT L`
fn keeps<'s>(sums: &Sums<'s>) -> impl Reads<'s, ToolLineKind> + use<'s> {
    let kept = choice(Kept::ALL.map(|kept| word(kept.word()).to(kept)));
    word("keeps")
        .ignore_then(kept)
        .then(sums.needed(Thing::Length))
        .map(|(kept, within)| ToolLineKind::Keeps { kept, within })
}

/// `lathe speeds { option }`
fn lathe<'s>(sums: &Sums<'s>) -> impl Reads<'s, ToolLineKind> + use<'s> {
    let speeds = sums
        .span(Thing::Quantity)
        .separated_by(token(T::Comma, Thing::Comma))
        .at_least(1)
        .collect();
    let option = choice((
        sums.after("bore", Thing::Diameter)
            .map(LatheOptionKind::Bore),
        sums.after("centres", Thing::Length)
            .map(LatheOptionKind::Centres),
        sums.after("travel", Thing::Length)
            .map(LatheOptionKind::Travel),
        word("screwcutting").to(LatheOptionKind::Screwcutting),
    ))
    .map_with(|kind, extra| LatheOption {
        span: extra.span(),
        kind,
    });
    word("lathe")
        .ignore_then(speeds)
        .then(option.repeated().collect())
        .map(|(speeds, options)| ToolLineKind::Lathe { speeds, options })
}

/// `lead L`, or `lead C` by the letter of its form.
fn lead<'s>(sums: &Sums<'s>) -> impl Reads<'s, Lead> + use<'s> {
    let form = text_of(T::Capital, Thing::Capital).map(|(text, span)| Lead::Form {
        span,
        letter: text.chars().next().unwrap_or('A'),
    });
    word("lead").ignore_then(form.or(sums.needed(Thing::Length).map(Lead::Length)))
}

fn run<'s>(sums: &Sums<'s>) -> impl Reads<'s, Run> + use<'s> {
    let to = token(T::DotDot, Thing::Range)
        .ignore_then(sums.last_size())
        .then(sums.after("step", Thing::Length).or_not());
    sums.size()
        .then(to.or_not())
        .map_with(|(from, rest), extra| {
            let (to, step) = rest.unzip();
            Run {
                span: extra.span(),
                from,
                to,
                step: step.flatten(),
            }
        })
}
