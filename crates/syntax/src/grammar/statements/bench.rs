//! Lines of a bench.

use super::{Statement, statement, word};
use crate::grammar::{Place, Word};

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::Bench, "drills SIZE..SIZE [step STEP] [reach LENGTH]", "Drills by size", "drills 1..13 step 0.1, 8.25")
        .rule("drills SIZES [reach LENGTH]"),
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
    word(Place::BenchTail, "step", "The step of a run of sizes", "drills 1..13 step 0.1"),
    word(Place::BenchTail, "reach", "How deep these drills or this boring bar go", "drills 7.8 reach 110"),
    word(Place::BenchTail, "lead", "The tapered lead-in of these taps or dies, as measured or by the letter of its form", "taps M9x0.75 lead 2"),
    word(Place::BenchTail, "pilot", "The pin of a tenon cutter that runs in the hole", "bushings 9.9, 12.9 pilot 6.3"),
    word(Place::BenchTail, "kerf", "The width a saw cut turns to dust", "saw kerf 1.2"),
    word(Place::BenchTail, "bore", "The spindle's bore, which stock passes through; bored diameters, where it says how they are kept", "lathe 250..3000 bore 20"),
    word(Place::BenchTail, "centres", "The length the lathe takes between its centres", "lathe 250..3000 centres 400"),
    word(Place::BenchTail, "travel", "How far the tailstock's spindle goes", "lathe 250..3000 travel 60"),
    word(Place::BenchTail, "depth", "Inside depths from the face, where it says how they are kept", "keeps depth 0.15"),
    word(Place::BenchTail, "shoulder", "Outside stations from the face, where it says how they are kept", "keeps shoulder 0.05"),
    word(Place::BenchTail, "length", "Lengths over all, where it says how they are kept", "keeps length 0.1"),
    word(Place::BenchTail, "dia", "Turned diameters, where it says how they are kept", "keeps dia 0.05"),
    word(Place::BenchTail, "drill", "Drilled holes, where it says by how much they come out over size", "keeps drill 0.05"),
    word(Place::BenchTail, "nib", "How far out of its place a nib is set, where it says how it is kept", "keeps nib 0.3"),
    word(Place::BenchTail, "screwcutting", "The lathe is geared to cut threads with a single point", "lathe 90..2000 screwcutting"),
];
