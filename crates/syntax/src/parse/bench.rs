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
    let drills = word("drills")
        .ignore_then(runs.clone())
        .then(sums.after("reach", Thing::Length).or_not())
        .map(|(runs, reach)| ToolLineKind::Sizes {
            tools: SizedTools::Drills,
            runs,
            reach,
        });
    let sized = choice((
        word("reamers").to(SizedTools::Reamers),
        word("collets").to(SizedTools::Collets),
        word("bushings").to(SizedTools::Bushings),
        word("mandrels").to(SizedTools::Mandrels),
    ))
    .then(runs)
    .map(|(tools, runs)| ToolLineKind::Sizes {
        tools,
        runs,
        reach: None,
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
    .then(sums.after("lead", Thing::Length).or_not())
    .map(|((tools, forms), lead)| ToolLineKind::Threads { tools, forms, lead });
    let lathe = word("lathe")
        .ignore_then(sums.range(Thing::Quantity))
        .then(sums.after("bore", Thing::Diameter).or_not())
        .map(|(speeds, bore)| ToolLineKind::Lathe { speeds, bore });
    choice((
        drills,
        sized,
        threads,
        lathe,
        limit(sums).map(ToolLineKind::Limit),
    ))
    .then_ignore(line_end())
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
