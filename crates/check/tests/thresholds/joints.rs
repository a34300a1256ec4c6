//! Joints that screw, close and post.

use crate::{Source, page, source};
use quillet_syntax::Severity::{Error, Warning};

/// A cap's thread that begins `$` in behind a plain mouth; the barrel's leading edge comes 6.5 in.
fn begins(rule: &'static str, of: &'static str) -> Source {
    let it = page(of).of(rule);
    match of {
        "slow-cap" => it.but(
            "thread closing inside to 7.5",
            "bore 13.1 to $\n    thread closing inside to 7.5 at $",
        ),
        _ => it
            .but("bore 13.1 to 5.6", "bore 13.1 to $")
            .but("at 5.6", "at $"),
    }
}

/// Two turns of a lead of 1.6 are 3.2 of travel, from 3.3 in; three are 4.8.
#[test]
fn turns() {
    let it = begins("slow-cap", "slow-cap");
    it.edge("3.3", "3.299999").message(
        "2.000001 turns to take the cap off: 3.20 mm of travel over a lead of 1.6 mm; 2 wanted at most",
    );
    it.speaks("2.5")
        .message("2.50 turns")
        .proposes(&["cut it with 3 starts"]);
    let limited = it.clone().and("limit slow-cap = 3\n");
    limited
        .edge("1.7", "1.699999")
        .message("3.000001 turns")
        .message("3 wanted at most");
    // More than four starts are not cut; 6.5 of travel want 4.06 pitches of lead, 6.4 want four.
    let single = it.but("starts 2", "starts 1");
    single.speaks("0.1").proposes(&["cut it with 4 starts"]);
    single.speaks("0.099999").proposes(&[]);
}

/// M13 × 0.8 in acrylic bears 300 N over 1.31 mm; a cap lets go within half a turn, 1.2 of 2.4.
#[test]
fn thread_that_holds() {
    let it = begins("short-engagement", "short-engagement");
    it.clone()
        .edge("5.188476", "5.188477")
        .message("1.311523 mm of thread lies in the other and bears about 299.9999 N in acrylic; 1.311524 mm bears the 300.0000 N wanted");
    // Nothing to bear: then a pitch, and half a turn.
    let limited = it.clone().and("limit short-engagement = 1\n");
    limited
        .edge("5.3", "5.300001")
        .message("the cap lets go after 0.4999996 turns; 0.5 wanted at least");
    let single = limited.but("starts 3", "starts 1");
    single
        .edge("5.7", "5.700001")
        .message("0.799999 mm of thread lies in the other, less than a pitch: it does not go all the way round; 0.800000 mm wanted");
    // 6.5 in the threads still touch.
    it.speaks("6.6")
        .message("the threads never reach each other: 0.10 mm are left between them");
    // What does not come home has more to mend.
    it.but("dia 14.4 as", "dia 13.0 as").silent("5.7");
}

/// Screwed it bears a lean as well: 300 N and 500 N·mm over half the pitch diameter of 9.513, 105 N.
/// The threads lie in each other from `$` to 8 less a corner broken by 0.5.
#[test]
fn a_screw_that_holds() {
    let it = page("no-runout").of("short-engagement");
    let it = it
        .but("to 9", "to 9 at $")
        .but("countersink 10.4", "bore 10.1 to $");
    let long = it.edge("5.163626", "5.163627");
    long.message("bears the 405.12085 N wanted");
}

/// Half a millimetre at worst: ±1, ±0.2 and ±0.1 are 1.3, and the apex of the ⌀12.2 drill stands
/// 3.665 beyond its depth.
#[test]
fn a_nib() {
    let it = page("nib-strikes-cap").but("to 27", "to $");
    it.edge("27.036041", "27.03604")
        .message("1.80 mm is left between nib-unit's point and the point of cap's ⌀12.20 drill, 0.96 mm past the corner; at worst, 0.499999 mm, 0.5 mm wanted")
        .proposes(&["take cap's ⌀12.20 drill to 27.5"]);
    let limited = it.clone().and("limit nib-strikes-cap = 1\n");
    limited
        .edge("27.536041", "27.53604")
        .message("0.999999 mm, 1 mm wanted")
        .proposes(&["take cap's ⌀12.20 drill to 28"]);
    it.graver(("26.536041", Warning), ("26.53604", Error));
    it.speaks("26")
        .message("at worst, they meet 0.54 mm early, 0.5 mm wanted")
        .proposes(&["take cap's ⌀12.20 drill to 27.5"]);
    it.speaks("24")
        .message("strikes the point of cap's ⌀12.20 drill, 1.24 mm before the cap is closed")
        .proposes(&["take cap's ⌀12.20 drill to 27.5"]);
}

/// 3° a side: over 30 mm, 14 − 2·30·tan 3° = 10.855533. And a diameter of 12 over the tail, two
/// thirds of the way from 14 to 11.
#[test]
fn a_cap_that_is_posted() {
    let it = page("wont-post").but("at 38 dia 14", "at 20 dia 14");
    let cone = it.clone().but("at 50 dia 8", "at 50 dia $");
    cone.edge("10.855534", "10.855532")
        .message("a half angle of 3.000001°, 3° at most holds");
    let limited = cone.clone().and("limit wont-post = 4deg\n");
    // 14 − 2·30·tan 4° = 9.804392
    limited
        .edge("9.804393", "9.804391")
        .message("a half angle of 4.0000003°, 4° at most holds");
    let over = source(
        "wont-post",
        "part cap from mouth to crown {
  blank of acrylic rod 18
  length 60
  outside dia 16
  from mouth {
    bore 12 to 50
  }
}
part barrel from mouth to tail {
  blank of acrylic rod 18
  length 50
  outside {
    at 0  dia 14
    at $  dia 14
    at 50 dia 11
  }
}
pen p {
  post cap.mouth onto barrel.tail
}
",
    );
    over.edge("14", "14.000003")
        .message("the cap would not hold where cap's mouth meets barrel at 38 (⌀12.000000): 11.999999 mm over the tail, 12.000000 mm at least wanted");
    // A cone is judged where the cap rides on it, whatever else is as thick: 14 to 11 over 12 mm.
    let land = over
        .clone()
        .but("at 0  dia 14", "at 0 dia 12\n    at 5 dia 12 step 14");
    land.speaks("38").message("a half angle of 7.1°");
    // Too slim to be touched.
    let slim = over.but("bore 12 to 50", "bore 14.1 through");
    slim.speaks("14")
        .message("cap.mouth never touches barrel.tail");
}

/// 5°, or what a limit says; beside 90 the marks of a cap at 90 and a barrel at 30 meet.
#[test]
fn marks_in_line() {
    let rule = "lettered-out-of-line";
    let pages = quillet_check::rule(rule).unwrap().page;
    let third = pages.split("```quillet fails\n").nth(3).unwrap();
    let it = source(rule, third.split("```").next().unwrap()).but("clock 50", "clock $");
    // 115° and 5° of a lead of 2.4, as the barrel goes on clockwise.
    it.edge("95", "95.000001")
        .message("the marks of barrel and cap come to rest 5° apart")
        .hints("0.767 mm off the shoulder");
    it.edge("85", "84.999999")
        .hints("0.033 mm off the shoulder");
    let limited = it.clone().and("limit lettered-out-of-line = 10deg\n");
    limited.edge("80", "79.999999").message("10° apart");
    let left = it.but("M13x0.8", "M13x0.8-LH");
    left.edge("85", "84.999999")
        .hints("0.767 mm off the shoulder");
}

/// A shoulder on the mouth of 13.1 is where it should be to 0.05 mm.
#[test]
fn what_stops() {
    let seat = page("rolls-away")
        .of("stops-early")
        .but("at 8  dia 14.4", "at 8  dia $");
    seat.edge("13.098928", "13.098927")
        .message("cap.mouth goes 0.05 mm past barrel.shoulder; barrel at 8.05 (⌀13.10) meets cap's mouth")
        .hints("make the seat fatter than the hole it is to stop at");
}

/// A spring of 10 in a bore of 20 before a plug of `$` has what 10 leave it, and rattles in 0.05 mm.
#[test]
fn loose() {
    let it = source(
        "loose-part",
        "bought spring from front to back {
  length 10
  mass 0.2
  outside dia 5.8
  from front {
    bore 4.8 through
  }
}
part tube from mouth to tail {
  blank of acrylic rod 16
  length 40
  outside dia 14
  from mouth {
    bore 8.1 to 20
  }
}
part plug from front to back {
  blank of acrylic rod 14
  length 20
  outside {
    at 0  dia 8
    at $  dia 8 step 12
    at 20 dia 12
  }
}
pen p {
  glue plug.front into tube.mouth gap 0.1 through spring
}
",
    );
    it.edge("9.950001", "9.95")
        .message("spring has 0.05 mm of room between the two; it would rattle");
}
