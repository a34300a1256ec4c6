//! Cuts from the side: what they take from joints, and what they are cut with.

use crate::{Source, page, source};
use quillet_syntax::Severity;

/// 0.05 of a depth of 0.49 (0.6134 of a pitch of 0.8, ISO 68-1 with a rounded root) is let go by.
#[test]
fn what_a_flat_takes_of_a_thread() {
    let of_thread = page("side-cuts-joint")
        .but("12.4", "$")
        .but("tenon for", "tenon 12.9 for");
    of_thread
        .edge("12.8", "12.799998")
        .message("the flat takes 0.05 mm of the closing thread's 0.49 mm depth, from 2.50")
        .message("to 5.50");
    let begins = page("side-cuts-joint").but("2.5..30", "$..30");
    begins.edge("5.5", "5.499998");
}

/// A tenon of ⌀12 gives up 0.05 a side, and where the limit says so, more.
#[test]
fn what_a_flat_takes_of_a_tenon() {
    let tenon = source(
        "side-cuts-joint",
        "part barrel from mouth to tail {
  blank of acrylic rod 18
  length 60
  outside dia 14
  side {
    flat across $ at 4..30 indexed 2
  }
  from mouth {
    tenon 12 for 8
  }
}
",
    );
    tenon.edge("11.9", "11.899998").message(
        "takes 0.05 mm a side off the ⌀12.00 tenon, from 4.00 mm to 8.00 mm from the mouth",
    );
    let more = tenon.but(
        "outside dia 14",
        "limit side-cuts-joint = 0.2\n  outside dia 14",
    );
    more.edge("11.6", "11.599998");
}

/// Fingers are slit, and pins drilled, through tenons on purpose.
#[test]
fn what_is_cut_through_a_tenon() {
    let tenon = source(
        "side-cuts-joint",
        "bought pin from front to back {
  length 1
  mass 0.1
  outside dia 1
}
part barrel from mouth to tail {
  blank of acrylic rod 18
  length 60
  outside dia 14
  side {
    $
  }
  from mouth {
    tenon 12 for 8
    drill 8 to 20
  }
}
",
    );
    tenon.edge("slot 1 at 0..7 indexed 4", "slot 1 at 1..7 indexed 4");
    tenon.edge("drill 1 at 4 takes pin", "drill 1 at 4");
}

/// An inside thread that is opened is an error; a slot with a floor leaves that to the walls.
#[test]
fn an_inside_thread_opened() {
    let slot = source(
        "side-cuts-joint",
        "thread closing = M13x0.8
part cap from mouth to crown {
  blank of acrylic rod 18
  length 40
  outside dia 15.5
  side {
    slot $
  }
  from mouth {
    bore 13.1 to 2.5
    thread closing inside to 7.5 at 2.5
    drill 12 to 30
  }
}
",
    );
    let opened = slot.edge("2 to 0.5 at 4..6", "2 at 4..6");
    assert_eq!(opened.0.severity, Severity::Error);
    opened.message("the slot opens the closing thread from outside, from 4.00 mm to 6.00 mm");
    slot.edge("2 at 7.5..10", "2 at 7.499999..10");
    slot.edge("2 at 0.5..2.5", "2 at 0.5..2.500001");
}

/// The face that an O-ring is squeezed against: the hole of ⌀1 reaches the groove at 3 to 5.
#[test]
fn a_ring_runs_over_a_hole() {
    let hole = source(
        "side-cuts-joint",
        "bought seal {
  ring 9.6 by 1.5
  mass 0.05
}
part peg from front to back {
  blank of acrylic rod 20
  length 40
  outside {
    at 0  dia 12
    at 10 dia 12 step 18 as ledge
    at 40 dia 18
  }
  from front {
    groove 9.9 for 2 at 3 takes seal
  }
}
part tube from mouth to end {
  blank of acrylic rod 20
  length 50
  outside dia 18
  side {
    drill 1 at $
  }
  from mouth {
    bore 12.4 to 20
  }
}
pen test {
  close tube.mouth onto peg.front
}
",
    );
    // The tube stops on the ledge: the groove lies 5 to 7 from its mouth.
    let found = hole.edge("4.5", "4.500001");
    assert_eq!(found.0.severity, Severity::Error);
    found.message("opens the face that the ring on peg is squeezed against");
    hole.edge("7.5", "7.499999");
}

/// Seven is in neither 24 nor 36; right through, six are three pairs.
#[test]
fn stops_of_the_spindle() {
    let flats = page("no-such-index").but("indexed 7", "indexed $");
    flats
        .edge("9", "7")
        .message("made at 7 places round; the bench's spindle locks at 24 and 36");
    flats.edge("1", "5");
    let through = flats.but("flat across 13.2 at 10..50", "drill 1 through at 30");
    through.edge("24", "10").message("made at 5 places round");
    // A pattern is cut as the work turns.
    let pattern = page("no-such-index").but("flat across 13.2", "pattern \"knurl\" deep 0.2");
    pattern.silent("");
}

/// A cutter is the cutter asked for within 0.005 mm.
#[test]
fn cutters() {
    let slot = page("no-such-cutter").but("slot 2.4", "slot $");
    slot.edge("2.005", "2.005001")
        .message("no cutter 2.005 mm wide is on the bench; 2 mm and 3 mm are the nearest");
    slot.edge("3", "3.1").message("3 mm is the nearest");
}

/// A flat 0.3 deep where the pen is within 0.5 of its fattest keeps it.
#[test]
fn a_flat_that_keeps_a_pen() {
    let cap = page("rolls-away").but(
        "outside dia 15.5",
        "outside dia 15.5\n  side {\n    flat deep $ at 12..38\n  }",
    );
    cap.edge("0.3", "0.299999");
    let limit = cap.but("part cap", "limit rolls-away = 0.5\npart cap");
    limit.edge("0.5", "0.499999");
    let barrel = page("rolls-away").but("at 8  dia 14.4", "at 8  dia $").but(
        "at 50 dia 14\n  }",
        "at 50 dia $\n  }\n  side {\n    flat deep 0.4 at 20..40\n  }",
    );
    barrel.edge("15", "14.999999");
}

/// The cap of ⌀15.5 rests with its mouth of ⌀13.1 on a shoulder of ⌀14.4, a ring of 0.65: a flat from the
/// shoulder on leaves half of it where it is 13.75 across, and takes nothing where it begins behind.
#[test]
fn what_a_flat_leaves_of_a_seat() {
    let seat = page("rolls-away").of("side-cuts-joint").but(
        "at 50 dia 14\n  }",
        "at 50 dia 14\n  }\n  side {\n    flat across $ indexed 2\n  }",
    );
    seat.edge("13.750002 at 8..20", "13.749998 at 8..20")
        .message(
            "of barrel leaves 0.32 mm of the 0.65 mm wide ring that the joint comes to rest on",
        );
    seat.silent("13 at 8.001..20");
}

/// The page's cap and barrel with flats on both, whose marks meet with the threads cut at 90 and 30.
fn faced(cap: &str, barrel: &str) -> Source {
    let pages = quillet_check::rule("lettered-out-of-line").unwrap().page;
    let fails = pages.split("```quillet fails\n").nth(4).unwrap();
    source("lettered-out-of-line", fails.split("```").next().unwrap())
        .but("flat deep 0.3 at 10..38 indexed 8", cap)
        .but("flat deep 0.3 at 10..48 indexed 8", barrel)
}

/// Three starts and eight flats meet every 360/24 = 15°, so that 5° either way look in line; three and
/// six every 60°.
#[test]
fn flats_in_line() {
    let clocked = |it: Source| {
        it.but("to 7.5 at 2.5", "to 7.5 at 2.5 clock $")
            .but("for 4 at 1.5", "for 4 at 1.5 clock 30")
    };
    let flats =
        |count: u32, clock: &str| format!("flat deep 0.3 at 10..30 indexed {count} {clock}");
    let eight = clocked(faced(&flats(8, ""), &flats(8, "")));
    // 115° and 5° of a lead of 2.4 with marks alone; 10° and 5° to the next place here.
    eight
        .edge("95", "95.000001")
        .message("the flats of barrel and cap come to rest 5° apart")
        .hints("0.067 mm off the shoulder");
    eight.edge("115", "114.999999").hints("0.033 mm off");
    let six = clocked(faced(&flats(6, ""), &flats(6, "")));
    six.edge("95", "95.000001").hints("0.367 mm off");
    six.edge("145", "144.999999");
    // Both mouths are looked at as they face each other: what is clockwise of both marks is apart twice.
    let turned = clocked(faced(&flats(6, "clock 3"), &flats(6, "clock 4")));
    turned.edge("102", "102.000001");
    // Of a cap that is said from its crown, the other way round.
    let crown = turned.but("from mouth to crown", "from crown to mouth");
    crown.edge("96", "96.000001");
    let limited = six.and("limit lettered-out-of-line = 10deg\n");
    limited.edge("100", "100.000001");
}

/// gcd(s, n) of the s ways round bring them in line; where that is not 5° off either way nothing is said.
#[test]
fn flats_left_to_chance() {
    let it = faced(
        "flat deep 0.05 at 10..30 indexed $",
        "flat deep 0.05 at 10..30 indexed $",
    );
    let meets = |it: &Source, count: &str, says: &str| {
        let said = it
            .speaks(count)
            .0
            .labels
            .iter()
            .any(|it| it.text.to_string().contains(says));
        assert!(said, "{count}: {says}");
    };
    meets(&it, "9", "whichever start is caught");
    meets(&it, "10", "in one of 3 ways");
    // 360/33 and 360/36 by half; 35 share nothing with 3.
    it.sides(&["36", "35"], &["33"]);
    let four = it.but("starts 3", "starts 4");
    meets(&four, "6", "in 2 of 4 ways");
    // 12 on the one meet 6 on the other every 30°; 8 and 12 never all.
    let unlike = faced(
        "flat deep 0.3 at 10..30 indexed 12",
        "flat deep 0.3 at 10..30 indexed $",
    );
    unlike.sides(&["8"], &["6"]);
    let single = unlike.but("starts 3", "starts 1");
    single.speaks("6").message("come to rest in one way round");
}
