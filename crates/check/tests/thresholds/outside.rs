//! The outside.

use crate::{page, source};
use quillet_syntax::Severity::{Note, Warning};

/// Over 30 mm: 13 − 2·30·tan 1° = 11.952697, and tan 12° makes 0.246606; outwards as well.
#[test]
fn a_bend() {
    let it = page("kinked-outside").but("dia 9", "dia $");
    it.edge("11.952697", "11.952696").message("bends by 1.0°");
    it.edge("0.246606", "0.246607").message("bends by 12.0°");
    it.edge("14.047303", "14.047304").message("bends by 1.0°");
    it.edge("25.753394", "25.753393").message("bends by 12.0°");
    let limited = it.clone().and("limit kinked-outside = 3deg\n");
    limited
        .edge("9.855534", "9.855533")
        .message("bends by 3.0°");
    // What is proposed is written where nothing bends the surface yet.
    let both = [
        "write smooth here",
        "write smooth here and at the next station",
    ];
    it.speaks("9").proposes(&both);
    let here = it.clone().but("at 30 dia 13", "at 30 dia 13 smooth");
    here.silent("13");
}

/// Three times, or a third, of what stands beside it: 14 and 40 leave 4.666666 and 42 of 6 and 14.
/// What is meant must lie within 1.5 of them: ten times 2.1 is 21, half as much again as 14.
#[test]
fn a_size_out_of_proportion() {
    let it = page("out-of-proportion");
    let waist = it.clone().but("dia 1.4", "dia $");
    waist
        .edge("2.1", "2.099999")
        .message("⌀2.10 beside ⌀14.00 and ⌀12.00");
    waist
        .edge("80.000004", "80.000005")
        .message("⌀80.00 beside");
    let far = waist.clone().but("dia 12", "dia 40");
    far.edge("4.666667", "4.666666")
        .message("⌀4.67 beside ⌀14.00 and ⌀40.00");
    let near = waist.clone().but("dia 12", "dia 6");
    // An inch written as millimetres.
    waist.speaks("355.6").proposes(&["write 14"]);
    near.edge("42", "42.000001")
        .message("⌀42.00 beside ⌀14.00 and ⌀6.00")
        .proposes(&["write 4.2"]);
    let limited = near.and("limit out-of-proportion = 4\n");
    limited.edge("56", "56.000001").message("⌀56.00 beside");
    // Of an end the next two count.
    let whole = it.but("1.4", "14");
    let end = whole.clone().but("dia 12", "dia $");
    end.edge("93.333334", "93.333335")
        .message("⌀93.33 beside ⌀14.00 and ⌀14.00");
    // A point at an end is none, but where a wider hole opens in it.
    let mouth = whole.clone().but("at 0  dia 14", "at 0  dia $");
    mouth
        .edge("2.1", "2.099999")
        .message("⌀2.10 beside ⌀14.00 and ⌀12.00");
    mouth.but("drill 8", "drill 1").silent("1.3");
    let tail = whole
        .clone()
        .but("dia 12", "dia $")
        .but("\n  from mouth", "\n  from tail");
    tail.edge("2.1", "2.099999")
        .message("⌀2.10 beside ⌀14.00 and ⌀14.00");
    let drill = whole.but("drill 8", "drill $");
    drill
        .edge("42", "42.000001")
        .message("a drill of ⌀42.00 in a part of ⌀14.00");
}

/// 1 mm of radius over the relief of 12, and 5 to 25 mm behind the front.
#[test]
fn a_step_under_fingers() {
    let it = page("step-under-fingers");
    let high = it.clone().but("dia 17 as", "dia $ as");
    high.edge("14", "14.000003")
        .message("a sharp step of 1.000001 mm 8 mm behind the front");
    let limited = high.and("limit step-under-fingers = 1.5\n");
    limited
        .edge("15.000001", "15.000002")
        .message("1.500001 mm 8 mm");
    let rear = it.but("dia 17 as", "dia 13.9 as");
    let rear = rear.but("at 50", "at $ dia 13.9 step 10\n    at 50");
    rear.edge("25.000001", "25")
        .message("a sharp step of 1.95 mm 25 mm");
    let front = source(
        "step-under-fingers",
        "part cap from mouth to crown {
  blank of acrylic rod 20
  length 40
  outside dia 16
  from mouth {
    bore 14 to 30
  }
}
part barrel from mouth to tail {
  blank of acrylic rod 20
  length 50
  outside {
    at 0 dia 9
    at $ dia 9 step 12
    at 12 dia 12 step 13.5
    at 50 dia 13.5
  }
}
pen p {
  close cap.mouth onto barrel.mouth by 10
}
",
    );
    front
        .edge("4.999999", "5")
        .message("a sharp step of 1.50 mm 5 mm");
}

/// From 0.05 mm of radius to 0.25 mm, and beside `flush` from 0.005 mm on without an end.
#[test]
fn a_joint_that_stands_proud() {
    let it = page("proud-joint").but("step 13.8", "step $");
    let it = it.but("at 20 dia 13.8", "at 20 dia $");
    it.edge("13.900002", "13.900001")
        .message("tube.mouth stands 0.05 mm proud of plug.front where their outsides meet (⌀13.90 against ⌀14.00)");
    it.edge("13.499998", "13.499999");
    it.edge("14.099998", "14.099999")
        .message("plug.front stands 0.05 mm proud of tube.mouth where their outsides meet (⌀14.10 against ⌀14.00)");
    it.edge("14.500002", "14.500001");
    it.speaks("13.7")
        .proposes(&["make tube ⌀13.7 there", "make plug ⌀14 there"]);
    let limited = it.clone().and("limit proud-joint = 0.08\n");
    limited.edge("14.159999", "14.16");
    assert_eq!(it.speaks("14.2").0.severity, Note);
    // Turned as one, what is drawn is its shape, but where it is to be flush.
    let glued = it.clone().but("slip  plug", "glue plug");
    glued
        .clone()
        .but("tube.mouth\n", "tube.mouth gap 0.1\n")
        .speaks("13.8");
    let as_one = glued
        .clone()
        .but("tube.mouth\n", "tube.mouth gap 0.1 before turning\n");
    as_one.silent("13.8");
    let flush_too = "tube.mouth gap 0.1 before turning {\n    flush\n  }\n";
    glued.but("tube.mouth\n", flush_too).speaks("13.8");
    let flush = it.but("tube.mouth\n", "tube.mouth {\n    flush\n  }\n");
    flush.edge("14.01", "14.010002");
    flush.edge("13.99", "13.989998");
    assert_eq!(flush.speaks("17").0.severity, Warning);
}

/// D1 of M13 × 0.8 is 13 − 1.082532·0.8 = 12.133975, and 0.1 less enters.
#[test]
fn a_land_ahead_of_a_thread() {
    let it = page("blocked-start");
    let relief = it
        .clone()
        .but("tenon 12.9", "relief $ for 1.5\n    tenon 12.9");
    relief
        .edge("12.033974", "12.033975")
        .message("the relief ahead of the M13x0.8 thread is ⌀12.03398; neither die nor mate starts over more than ⌀12.03397 (D1 ⌀12.13 less 0.1 mm)")
        .hints("add relief 12 for 1.5, or let the thread begin at the end")
        .proposes(&[
            "add relief 12 for 1.5",
            "add relief 12 for 1.5, add relief 12 for 2.5 at 5.5",
            "add relief 12 for 1.5, add relief 12 for 2.5 at 5.5, turn it to 12.9",
        ]);
    let begins = it.but("at 1.5", "at $");
    begins.edge("0.000001", "0.000002");
    // At the other end the land lies before the end.
    let tail = relief.but("\n  from mouth", "\n  from tail");
    tail.edge("12.033974", "12.033975");
}

/// The root of M12 × 0.8, 12 − 17/24·√3·0.8 = 11.018504.
#[test]
fn an_outside_ahead_of_a_thread() {
    let it = source(
        "die-wont-pass",
        "part section from tip to shank {
  blank of ebonite rod 16
  length 40
  outside {
    at 0  dia 10
    at 20 dia $ step 11.9
    at 40 dia 11.9
  }
  from tip {
    thread M12x0.8 outside for 4 at 20
  }
}
",
    );
    it.edge("11.018504", "11.018506").message(
        "a die for the M12x0.8 thread must pass ⌀11.01851 on its way; its root is ⌀11.01850",
    );
    let limited = it.clone().and("limit die-wont-pass = 0.2\n");
    limited
        .edge("11.2185", "11.218506")
        .message("must pass ⌀11.22 on its way; its root is ⌀11.02");
}

/// ISO 965-1: M10 × 0.75 − 6g, es −0.022, Td 0.140: 9.838 to 9.978.
#[test]
fn a_tenon() {
    let outside = source(
        "off-tenon",
        "part section from tip to shank {
  blank of acrylic rod 13
  length 30
  outside dia $
  from shank {
    thread M10x0.75 outside for 6
  }
}
",
    );
    outside
        .edge("9.837999", "9.837998")
        .message("⌀9.84 is too thin for the M10x0.75 thread; 9.838 to 9.978 mm wanted (6g)")
        .proposes(&["add tenon for 6"]);
    outside
        .edge("9.978", "9.978001")
        .message("⌀9.98 is too fat for");
    let tenon = outside
        .but("dia $", "dia 11")
        .but("thread", "tenon $ for 8\n    thread");
    tenon
        .edge("9.838", "9.837999")
        .message("⌀9.84 is too thin for");
    tenon
        .edge("9.978", "9.978001")
        .message("⌀9.98 is too fat for");
}

/// A land, a groove and a face of 0.1 mm; a step and an edge of 0.01 mm on the radius. Lengths are told to
/// the nanometre, diameters in steps of two.
#[test]
fn a_sliver() {
    let it = page("sliver").but("0.05", "$");
    it.edge("0.1", "0.099999")
        .message("the ⌀9.00 relief is 0.099999 mm wide, 6 mm from the shank; a tool leaves 0.1 mm at the least")
        .hints("make it wider, or let what stands beside it meet it");
    it.speaks("0.03").proposes(&[
        "take section's ⌀9.00 relief to 6.3",
        "take section's ⌀9.00 relief to 9",
        "take it out",
    ]);
    let limited = it.clone().and("limit sliver = 0.05\n");
    limited.edge("0.05", "0.049999");
    // What is left between two cuts is a land as well: 6 less 5.9.
    let land = it
        .clone()
        .but("for $ at 6", "for 2 at 6")
        .but("tenon", "groove 9.5 for $ at 3\n    tenon");
    land.edge("2.9", "2.900001")
        .message("the ⌀9.90 tenon is 0.099999 mm wide");
    // On the radius: 11 less 10.98 makes 0.01 of step.
    let step = it.clone().but("relief 9 for $ at 6", "").but("9.9", "$");
    step.edge("10.98", "10.980002")
        .message("makes a step of 0.009999 mm a side, 8 mm from the shank");
    step.silent("11");
    // A leg of 0.008 is 0.0113 wide, one of 0.007 0.0099.
    let edge = step.clone().but("tenon $ for 8", "chamfer $");
    edge.edge("0.008", "0.007")
        .message("a tool leaves 0.01 mm at the least");
    let round = step.but("tenon $ for 8", "round $");
    round.silent("0.02");
    round.speaks("0.001");
    // The face of a mouth: 11 less a countersink of 10.8.
    let face = page("sliver")
        .but("relief 9 for 0.05 at 6", "")
        .but("tenon 9.9 for 8", "drill 8 to 20\n    countersink $");
    face.edge("10.8", "10.800002").message(
        "the face left at the shank is 0.099999 mm wide; a tool leaves 0.1 mm at the least",
    );
}

/// Flats as far across as the outside is wide leave it; a nanometre less is a cut.
#[test]
fn flats_that_leave_the_outside() {
    let text = "part body from front to back {
  blank of acrylic rod 16
  length 60
  outside dia 13
  side {
    flat across $ at 10..20 indexed 6
  }
}
";
    source("cuts-nothing", text)
        .edge("12.999999", "13")
        .message("13 mm across leaves the ⌀13.00 outside as it is")
        .hints("make it less than 13 mm across, or take it out");
}
