//! Lines of a bench.

use super::phrase::thread_ref;
use super::shared::limit;
use super::{Holds, Statement, Visit, all, goes_on, one, some, statement};
use crate::Span;
use crate::ast::*;
use crate::grammar::expect::Thing;
use crate::grammar::expr::ExprParsers;
use crate::grammar::input::*;
use crate::grammar::{Place, Word};
use crate::token::TokenKind as T;
use chumsky::prelude::*;

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::Bench, "drills SIZE..SIZE [step STEP] [reach LENGTH]", "Drills by size", "drills 1..13 step 0.1, 8.25")
        .rule("drills SIZES [reach LENGTH]"),
    statement(Place::Bench, "flats SIZE [..SIZE step STEP]", "Flat-bottomed drills and counterbores by size", "flats 8.6, 13.1")
        .rule("flats SIZES"),
    statement(Place::Bench, "boring DIAMETER [reach LENGTH]", "A boring bar by the smallest hole it enters", "boring 6 reach 35")
        .rule("boring SIZES [reach LENGTH]"),
    statement(Place::Bench, "reamers SIZE [..SIZE step STEP]", "Reamers by size", "reamers 6, 8, 10")
        .rule("reamers SIZES"),
    statement(Place::Bench, "collets SIZE..SIZE [step STEP]", "Collets by size", "collets 3..16 step 1")
        .rule("collets SIZES"),
    statement(Place::Bench, "bushings SIZE [..SIZE step STEP] [pilot DIAMETER]", "Tenon-cutter bushings by size", "bushings 9.9, 12.9 pilot 6.3")
        .rule("bushings SIZES [pilot DIAMETER]"),
    statement(Place::Bench, "mandrels SIZE [..SIZE step STEP]", "Mandrel stock by diameter", "mandrels 12, 16")
        .rule("mandrels SIZES"),
    statement(Place::Bench, "index COUNT [..COUNT step STEP]", "How many stops round the spindle can be locked at", "index 24, 36, 48")
        .rule("index SIZES"),
    statement(Place::Bench, "cutters SIZE [..SIZE step STEP]", "Milling cutters and slot drills by width", "cutters 1, 2, 3")
        .rule("cutters SIZES"),
    statement(Place::Bench, "taps THREAD [starts COUNT] [lead LENGTH]", "Taps by thread", "taps M9x0.75, M10x0.75 lead 2")
        .rule("taps THREADS [lead LENGTH]"),
    statement(Place::Bench, "dies THREAD [starts COUNT] [lead LENGTH]", "Dies by thread", "dies M13x0.8 starts 3 lead 1.5")
        .rule("dies THREADS [lead LENGTH]"),
    statement(Place::Bench, "saw kerf WIDTH", "The saw that cuts the blanks, by its kerf", "saw kerf 1.2"),
    statement(Place::Bench, "lathe LOW..HIGH [bore DIAMETER] [centres LENGTH] [travel LENGTH] [screwcutting]", "The lathe's spindle speeds in rev/min, as ranges or steps", "lathe 250, 500, 900, 1600 bore 20 travel 60")
        .rule("lathe LOW..HIGH (bore DIAMETER | centres LENGTH | travel LENGTH | screwcutting)*"),
    statement(Place::Bench, "keeps (depth | shoulder | length | dia | bore | drill | nib) LENGTH", "How closely a kind of size is kept by hand, either way", "keeps depth 0.15"),
    statement(Place::Bench, "caliper LENGTH", "To how much a measured size is known, either way", "caliper 0.02"),
    statement(Place::Bench, "limit RULE = SUM", "Sets the threshold of a rule on this bench", "limit drill-wander = 0.5"),
];

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    goes_on(Place::BenchTail, "step", "The step of a run of sizes", "drills 1..13 step 0.1"),
    goes_on(Place::BenchTail, "reach", "How deep these drills or this boring bar go", "drills 7.8 reach 110"),
    goes_on(Place::BenchTail, "lead", "The tapered lead-in of these taps or dies, as measured or by the letter of its form", "taps M9x0.75 lead 2"),
    goes_on(Place::BenchTail, "pilot", "The pin of a tenon cutter that runs in the hole", "bushings 9.9, 12.9 pilot 6.3"),
    goes_on(Place::BenchTail, "kerf", "The width a saw cut turns to dust", "saw kerf 1.2"),
    goes_on(Place::BenchTail, "bore", "The spindle's bore, which stock passes through; bored diameters, where it says how they are kept", "lathe 250..3000 bore 20"),
    goes_on(Place::BenchTail, "centres", "The length the lathe takes between its centres", "lathe 250..3000 centres 400"),
    goes_on(Place::BenchTail, "travel", "How far the tailstock's spindle goes", "lathe 250..3000 travel 60"),
    goes_on(Place::BenchTail, "depth", "Inside depths from the face, where it says how they are kept", "keeps depth 0.15"),
    goes_on(Place::BenchTail, "shoulder", "Outside stations from the face, where it says how they are kept", "keeps shoulder 0.05"),
    goes_on(Place::BenchTail, "length", "Lengths over all, where it says how they are kept", "keeps length 0.1"),
    goes_on(Place::BenchTail, "dia", "Turned diameters, where it says how they are kept", "keeps dia 0.05"),
    goes_on(Place::BenchTail, "drill", "Drilled holes, where it says by how much they come out over size", "keeps drill 0.05"),
    goes_on(Place::BenchTail, "nib", "How far out of its place a nib is set, where it says how it is kept", "keeps nib 0.3"),
    goes_on(Place::BenchTail, "screwcutting", "The lathe is geared to cut threads with a single point", "lathe 90..2000 screwcutting"),
];

/// `bench name "title" { … }`
#[derive(Clone, Debug, PartialEq)]
pub struct Bench {
    /// The name it defines.
    pub name: Name,
    /// Its title.
    pub title: Option<Text>,
    /// The block, braces included.
    pub block: Option<Span>,
    /// The lines of the block.
    pub tools: Vec<ToolLine>,
}

/// A line of a bench.
#[derive(Clone, Debug, PartialEq)]
pub struct ToolLine {
    /// The statement.
    pub span: Span,
    /// What it says.
    pub kind: ToolLineKind,
}

/// What a bench's line says.
#[derive(Clone, Debug, PartialEq)]
pub enum ToolLineKind {
    /// `drills`, `reamers`, … with sizes.
    Sizes {
        /// Which tools.
        tools: SizedTools,
        /// The sizes.
        runs: Vec<Run>,
        /// `reach L` (drills, boring bars).
        reach: Option<Expr>,
        /// `pilot D` (bushings).
        pilot: Option<Expr>,
    },
    /// `taps` or `dies` with threads.
    Threads {
        /// Taps or dies.
        tools: ThreadTools,
        /// The threads.
        forms: Vec<super::ThreadRef>,
        /// `lead …`: the lead-in of the tool.
        lead: Option<LeadForm>,
    },
    /// `saw kerf K`: what a saw cut turns to dust.
    Saw {
        /// The width of the cut.
        kerf: Expr,
    },
    /// `lathe SPEEDS …`
    Lathe {
        /// Spindle speeds, rev/min: steps, ranges, or both.
        speeds: Vec<SumSpan>,
        /// What else it says, in the order written.
        options: Vec<LatheOption>,
    },
    /// `keeps KEPT L`: how closely a kind of size is kept.
    Keeps {
        /// What is kept.
        kept: ToleranceKind,
        /// Either way; of a drilled hole, over size.
        within: Expr,
    },
    /// `caliper L`: to how much a measured size is known.
    Caliper {
        /// Either way.
        within: Expr,
    },
    /// `limit …`
    Limit(Limit),
    /// Text that is no tool line.
    Bad,
}

/// The lead-in of a tap or die.
#[derive(Clone, Debug, PartialEq)]
pub enum LeadForm {
    /// As measured, a length.
    Length(Expr),
    /// By its form, a capital letter (DIN 2197).
    Form {
        /// Where it stands.
        span: Span,
        /// The letter.
        letter: char,
    },
}

/// A phrase after a lathe's speeds.
#[derive(Clone, Debug, PartialEq)]
pub struct LatheOption {
    /// The phrase.
    pub span: Span,
    /// What it says.
    pub kind: LatheOptionKind,
}

/// What a lathe's phrase says.
#[derive(Clone, Debug, PartialEq)]
pub enum LatheOptionKind {
    /// `bore D`: the spindle's bore.
    Bore(Expr),
    /// `centres L`: the length it takes between centres.
    Centres(Expr),
    /// `travel L`: how far the tailstock's spindle goes.
    Travel(Expr),
    /// `screwcutting`: it is geared to cut threads with a single point.
    Screwcutting,
}

/// Tools given by sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "the variants are the grammar's words")]
pub enum SizedTools {
    Drills,
    Flats,
    Boring,
    Reamers,
    Collets,
    Bushings,
    Mandrels,
    /// How many stops; counts, not lengths.
    Index,
    Cutters,
}

/// Tools given by threads.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "the variants are the grammar's words")]
pub enum ThreadTools {
    Taps,
    Dies,
}

/// A kind of size that a hand keeps more or less closely.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ToleranceKind {
    /// Inside depths, from the face they are cut from.
    Depth,
    /// Outside stations, from the face they are measured from.
    Shoulder,
    /// Lengths over all.
    Length,
    /// Turned diameters.
    Dia,
    /// Bored, reamed and recessed diameters.
    Bore,
    /// How much over size a drilled hole comes out.
    Drill,
    /// How far out of its place a nib is set.
    Nib,
}

impl ToleranceKind {
    /// All of them, in the manual's order.
    pub const ALL: [ToleranceKind; 7] = [
        ToleranceKind::Depth,
        ToleranceKind::Shoulder,
        ToleranceKind::Length,
        ToleranceKind::Dia,
        ToleranceKind::Bore,
        ToleranceKind::Drill,
        ToleranceKind::Nib,
    ];

    /// The grammar's word.
    pub fn word(self) -> &'static str {
        match self {
            ToleranceKind::Depth => "depth",
            ToleranceKind::Shoulder => "shoulder",
            ToleranceKind::Length => "length",
            ToleranceKind::Dia => "dia",
            ToleranceKind::Bore => "bore",
            ToleranceKind::Drill => "drill",
            ToleranceKind::Nib => "nib",
        }
    }
}

/// One size, or a run of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Where it stands.
    pub span: Span,
    /// The size, or the first of the run.
    pub from: Size,
    /// The last of the run.
    pub to: Option<Size>,
    /// `step S`
    pub step: Option<Expr>,
}

/// A line of a bench.
#[expect(
    clippy::too_many_lines,
    reason = "a parser a line: it is read as a table"
)]
pub(crate) fn tool_line<'s>(
    sums: &ExprParsers<'s>,
) -> impl TokenParser<'s, ToolLineKind> + use<'s> {
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
        word("flats").to(SizedTools::Flats),
        word("reamers").to(SizedTools::Reamers),
        word("collets").to(SizedTools::Collets),
        word("mandrels").to(SizedTools::Mandrels),
        word("index").to(SizedTools::Index),
        word("cutters").to(SizedTools::Cutters),
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
fn keeps<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, ToolLineKind> + use<'s> {
    let kept = choice(ToleranceKind::ALL.map(|kept| word(kept.word()).to(kept)));
    word("keeps")
        .ignore_then(kept)
        .then(sums.needed(Thing::Length))
        .map(|(kept, within)| ToolLineKind::Keeps { kept, within })
}

/// `lathe speeds { option }`
fn lathe<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, ToolLineKind> + use<'s> {
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
fn lead<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, LeadForm> + use<'s> {
    let form = text_of(T::Capital, Thing::Capital).map(|(text, span)| LeadForm::Form {
        span,
        letter: text.chars().next().unwrap_or('A'),
    });
    word("lead").ignore_then(form.or(sums.needed(Thing::Length).map(LeadForm::Length)))
}

fn run<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, Run> + use<'s> {
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

impl Holds for ToolLine {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match &self.kind {
            ToolLineKind::Sizes {
                runs, reach, pilot, ..
            } => {
                all(runs, visit);
                some(reach, visit);
                some(pilot, visit);
            }
            ToolLineKind::Threads { forms, lead, .. } => {
                for form in forms {
                    form.each(visit);
                }
                if let Some(LeadForm::Length(length)) = lead {
                    one(length, visit);
                }
            }
            ToolLineKind::Saw { kerf: sum }
            | ToolLineKind::Keeps { within: sum, .. }
            | ToolLineKind::Caliper { within: sum } => one(sum, visit),
            ToolLineKind::Lathe { speeds, options } => {
                for speed in speeds {
                    one(&speed.from, visit);
                    some(&speed.to, visit);
                }
                for option in options {
                    match &option.kind {
                        LatheOptionKind::Bore(length)
                        | LatheOptionKind::Centres(length)
                        | LatheOptionKind::Travel(length) => one(length, visit),
                        LatheOptionKind::Screwcutting => {}
                    }
                }
            }
            ToolLineKind::Limit(limit) => one(limit, visit),
            ToolLineKind::Bad => {}
        }
    }
}

impl Holds for Run {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        one(&self.from, visit);
        some(&self.to, visit);
        some(&self.step, visit);
    }
}
