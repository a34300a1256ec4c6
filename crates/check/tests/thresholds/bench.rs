//! What the bench and the plan ask.

use crate::{page, source};
use quillet_syntax::Severity::{Error, Note, Warning};

/// 60, a nub of 6 and two facings of 2.5 are 71; and 0.3 a side over ⌀14.
#[test]
fn a_blank() {
    let it = page("blank-too-short").but("by 62", "by $");
    it.edge("71", "70.999999")
        .message("of stock for 60 mm of barrel; 71.000000 mm is wanted with what is cut away")
        .proposes(&["take it by 71"]);
    it.graver(("60", Warning), ("59.999999", Error));
    let it = page("blank-too-thin").but("rod 14.2", "rod $");
    it.edge("14.6", "14.599999")
        .message("of stock for a part of ⌀14.00; 0.3 mm a side to turn off is wanted")
        .hints("take stock of 14.6 mm or more")
        .proposes(&["take rod 14.6"]);
    it.graver(("14", Warning), ("13.999999", Error));
}

/// A second piece of a stack is as long as it is, not as where it ends.
#[test]
fn a_piece_of_a_stack() {
    let it = page("blank-too-short").but(
        "rod 18 by 62",
        "rod 18 to 40\n  blank of brass rod 18 by $ spigot 8 for 10 gap 0.1",
    );
    it.graver(("20", Warning), ("19.999999", Error));
    it.speaks("19")
        .message("19 mm of stock for 20 mm of barrel");
}

/// ISO 235 gives a drill of 6 flutes of 57: one diameter less, and a point of 1.802582, are 49.197418.
#[test]
fn a_reach() {
    let it = page("beyond-reach").but("to 67", "to $");
    it.edge("49.197417", "49.197419").message("the drill goes");
    let travels = "0.1\n  drills 6 reach 100\n  lathe 200..3000 travel 40\n";
    let travels = it.clone().but("0.1\n", travels);
    travels
        .edge("38.197417", "38.197419")
        .message("the tailstock travels");
    assert_eq!(travels.speaks("67").0.severity, Note);
    let bar = it.but("0.1\n", "0.1\n  boring 5 reach 30\n");
    bar.but("drill 6", "bore 6.23")
        .edge("30", "30.000001")
        .message("the boring bar goes");
}

/// A collet closes on half a millimetre less; a bushing is one within 0.03; a drill within 0.005.
#[test]
fn tools() {
    let it = page("no-such-collet").but("collets 6, 8", "collets 6, $");
    it.edge("18.5", "18.500001")
        .message("no collet on the bench grips this 18 mm stock, nor any size down to the 14.6 mm that barrel needs")
        .hints("a collet from 14.6 mm to 18 mm would do");
    it.edge("14.6", "14.599999");
    let it = page("no-such-bushing").but("bushings 12.9", "bushings $");
    it.edge("9.93", "9.930001")
        .message("no bushing of ⌀9.90 is on the bench")
        .hints("the nearest bushing is 9.93");
    it.edge("9.87", "9.869999");
    let it = page("no-such-drill").but("drill 9.3", "drill $");
    it.edge("9.495", "9.494999")
        .proposes(&["write 9", "write 9.5"]);
    it.edge("9.505", "9.505001")
        .proposes(&["write 9.5", "write 10"]);
    it.speaks("9.3")
        .hints("buy it, or take 9 (0.15 mm more wall a side, 103 % of thread by 3H/4), or 9.5 (0.1 mm less wall a side, 51 % of thread by 3H/4)");
}

/// Holes from the side and beside the axis ask for a drill as others do.
#[test]
fn drills_off_the_axis() {
    let it = page("no-such-drill").but("drill 9.3", "drill 9.5");
    let holes = [
        "side {\n    drill $ at 12",
        "from tail {\n    drill $ to 4 on 8 indexed 3",
    ];
    for hole in holes {
        let hole = format!("  {hole}\n  }}\n  from mouth {{");
        let it = it.clone().but("  from mouth {", &hole);
        it.edge("2.005", "2.005001");
        it.speaks("2.2")
            .message("no drill of ⌀2.20 is on the bench shed")
            .hints("buy it, or take 2, or 2.5");
    }
}

/// Each hole of a part is told of, and its outside once, whatever is turned of it.
#[test]
fn speeds() {
    let found = page("no-such-speed").found("");
    let said: Vec<_> = found.iter().map(|it| it.message.to_string()).collect();
    let wants = [
        "the outside wants 159 to 265 rev/min; the lathe's slowest is 900",
        "the drill wants 159 to 318 rev/min; the lathe's slowest is 900",
    ];
    assert_eq!(said, wants);
}

/// Stock that is too thin has more to mend than its collet.
#[test]
fn a_collet_for_stock_that_is_too_thin() {
    let it = page("no-such-collet").but("rod 18", "rod $");
    it.edge("14.599999", "14.6");
}

/// Three pitches of M10 × 0.75 on a mandrel; a ring of 0.3 mm round M9; a spigot three times as
/// long as it is thick.
#[test]
fn mandrels() {
    let grip = page("short-grip")
        .but("to 6", "to 20")
        .but("inside to 2", "inside to $");
    grip.edge("5.25", "5.249999")
        .message("to hold barrel by at its mouth; 2.250000 mm is wanted");
    // Half an inch less four pitches of 1/14 in is three of them, though none is a whole number of
    // nanometres.
    let inch = "dimensions in inches\nthread j = 7/16-14\npart p from mouth to tail {\n  \
                blank of acrylic rod 3/4\n  length 3\n  outside dia 0.6\n  from mouth {\n    \
                drill letter U to 0.65\n    thread j inside to $\n  }\n}\n";
    source("short-grip", inch).edge("0.5", "0.4999");
    page("narrow-bearing")
        .but("outside dia 9.4", "outside dia $")
        .edge("9.6", "9.599999")
        .message("bears at the shank on a ring of 0.299999 mm a side; 0.300000 mm is wanted");
    page("slender-mandrel")
        .but("inside to 8", "inside to $")
        .but("M5x0.5", "M6x0.5")
        .but("4.4 to 12", "5.4 to 40")
        .edge("16.1", "16.100001")
        .message("the mandrel for the mouth of barrel stands 15.6 mm out at ⌀5.20");
}
