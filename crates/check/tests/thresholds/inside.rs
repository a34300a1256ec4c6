//! Holes and the threads in them.

use crate::{page, source};

/// 76.98/0.75·(10 − d) is 55 % at 9.464147 and 85 % at 9.171863, what resin takes.
#[test]
fn a_tap_drill() {
    let it = source(
        "off-tap-drill",
        "part barrel from mouth to tail {
  blank of acrylic rod 18
  length 60
  outside dia 14
  from mouth {
    drill $ to 14
    thread M10x0.75 inside to 9
  }
}
",
    );
    it.edge("9.464146", "9.464147")
        .message("⌀9.46 leaves 54.99998 % of 3H/4 (66 % of 5H/8) of the M10x0.75 thread, too little; 55 to 85 % of 3H/4 holds in acrylic")
        .hints("drill 9.2, which leaves 82 % of 3H/4");
    it.edge("9.171864", "9.171863").message("too much");
    // Nothing is left where the hole is as wide as the thread.
    it.speaks("9.999999").message("leaves 0 % of 3H/4");
    it.speaks("10")
        .message("⌀10.00 leaves nothing to cut the M10x0.75 thread in");
}

/// Four pitches beyond 9 are drilled for the tap, and a hole that goes on four more is kept.
#[test]
fn a_tap_drill_that_goes_on() {
    let it = source(
        "off-tap-drill",
        "part barrel from mouth to tail {
  blank of acrylic rod 18
  length 60
  outside dia 14
  from mouth {
    drill 8.9 to $
    thread M10x0.75 inside to 9
  }
}
",
    );
    it.speaks("15").proposes(&["drill 9.2"]);
    it.speaks("15.000001").proposes(&["add drill 9.2 to 12"]);
    // A wider one cannot be kept.
    it.but("drill 8.9", "drill 9.9")
        .speaks("20")
        .proposes(&["drill 9.2"]);
}

/// Two pitches beyond 9, or what a limit says.
#[test]
fn room_for_a_tap() {
    let it = page("no-room-for-tap").but("to 9.5", "to $");
    it.edge("10.5", "10.499999")
        .message("1.499999 mm of hole beyond the M10x0.75 thread; the tap's lead-in takes 1.5 mm (two pitches, form C of DIN 2197)")
        .hints("drill to 10.5 or more, or cut the thread 0.1 mm shorter")
        .proposes(&["drill to 10.5"]);
    it.speaks("9.75").hints("cut the thread 0.8 mm shorter");
    let limited = it.clone().and("limit no-room-for-tap = 3\n");
    limited
        .edge("12", "11.999999")
        .message("takes 3 mm (as the limit says)")
        .proposes(&["drill to 12"]);
    // No deeper than the part.
    let short = limited.but("length 60", "length 12");
    short.speaks("11").proposes(&[]);
    it.but("length 60", "length 10.500001")
        .speaks("10")
        .proposes(&["drill to 10.5"]);
}

/// A tap of 7.4 passes 7.4, from either end.
#[test]
fn a_throat_before_a_thread() {
    let it = page("tap-wont-reach").but("drill", "bore $ to 4\n    drill");
    it.edge("7.399999", "7.399998")
        .message(
            "the throat before the M7.4x0.5 thread is ⌀7.399998; its tap is ⌀7.400000 and will not pass",
        )
        .hints("bore 7.5 to 4 lets the tap in");
    let turned = it.but("\n  from tip", "\n  from shank");
    turned.edge("7.399999", "7.399998");
    let begins = page("tap-wont-reach").but("at 4", "at $");
    begins.edge("0.000001", "0.000002").message("is ⌀6.90");
}

/// The thread's inner end stands at 53, where it is ⌀9: the cone of ⌀12.2 is as wide as that
/// (6.1 − 4.5)/tan 59° = 0.961376 beyond its depth, at 52.088623 when 0.05 mm are lost.
#[test]
fn a_thread_from_the_other_end() {
    let it = page("thread-cut-away").but("to 54", "to $");
    it.edge("52.088622", "52.088623")
        .message("the ⌀12.20 drill from the mouth runs into the M9x0.75 thread cut from the crown: 0.05 mm of its 7 mm are cut away")
        .hints("take the ⌀12.20 drill to 49.3 at most, or cut the thread less deep");
    let turned = it.clone().but("from mouth to crown", "from crown to mouth");
    turned
        .edge("52.088622", "52.088623")
        .message("0.05 mm of its 7 mm are cut away");
    // A bore has no point: 53 less 0.05.
    let bore = it.but("drill 12.2", "bore 12.2");
    bore.edge("53.049999", "53.05")
        .hints("take the ⌀12.20 bore to 53 at most");
    // Narrower than the thread it takes nothing of it; as wide it does.
    let wide = bore.but("bore 12.2 to $", "bore $ to 55");
    wide.edge("8.999999", "9")
        .message("2.00 mm of its 7 mm are cut away");
}

/// The root of M10 × 0.75 is 9.079848; the shoulder stands at 8, a die takes two pitches of it,
/// and a tenth of a pitch is no thread: 6.575.
#[test]
fn a_runout() {
    let it = page("no-runout");
    let relief = it
        .clone()
        .but("for 7", "for 6")
        .but("9.0 for 1 at 7", "$ for 2 at 6");
    relief
        .edge("9.0798", "9.07985")
        .message("the relief behind the joint thread is ⌀9.0799, fatter than its root (⌀9.0798); the die would cut into it")
        .hints("turn the relief to 9");
    let long = it
        .clone()
        .but("for 7", "for $")
        .but("for 1 at 7", "for 2 at 6");
    long.edge("6.574999", "6.575")
        .message("the joint thread cannot have full form to 6.575 mm: the shoulder stands at 8 mm and the die's lead-in takes 1.5 mm (two pitches, common practice), and the mate's full thread reaches there")
        .hints("let full form end at 6.5 mm with a relief behind it, or bore the mate's mouth plain")
        .proposes(&["end the thread at 6.5 mm"]);
    // The mate begins `$` in, 8 − `$` from the leading face, and so does not reach there.
    let begins = it
        .clone()
        .but("to 9", "to 9 at $")
        .but("countersink 10.4", "bore 10.1 to $");
    begins.edge("1.425001", "1.425");
    let limited = it.clone().and("limit no-runout = $\n");
    limited
        .edge("1.074999", "1.075")
        .message("takes 1.075 mm (as the limit says)");
    // A cure shortens what is said by `for`, and only to where something is left.
    let to = it.clone().but("for 7", "to 7");
    to.speaks("").proposes(&[]);
    let none = it.and("limit no-runout = $\n");
    none.speaks("7.9").proposes(&["end the thread at 0.1 mm"]);
    none.speaks("8").proposes(&[]);
}
