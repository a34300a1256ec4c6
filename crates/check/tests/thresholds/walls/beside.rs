//! Walls beside holes on a pitch circle.

use super::tube;

/// Six holes of 2 on 9 in a tube of 14 over 4: (14 - 11) / 2 = 1.5 outside them, (7 - 4) / 2 = 1.5 inside,
/// 9 sin 30° - 2 = 2.5 from one to the next.
#[test]
fn a_wall_beside_holes_on_a_pitch_circle() {
    let holes = |line: &str| tube("thin-wall", "acrylic", "14", line);
    let outside = holes("drill 4 through\n    drill 2 to 5 on $ indexed 6");
    // At worst ISO 2768-1 f takes 0.05 of the outside and of the circle, and a drill is 0.15 wide.
    outside
        .edge("10.002", "10.002002")
        .message("0.999 mm of wall between the outside (⌀14.00) and the ⌀2.00 holes on ⌀10.00; 1 mm wanted, a plain wall in acrylic; 0.82 mm at the limits of size")
        .hints("a circle of ⌀10.00 or less leaves 1 mm");
    let bore = holes("drill 4 through\n    drill 2 to 5 on $ indexed 6");
    bore.edge("7.998", "7.997998")
        .message("0.999 mm of wall between the ⌀2.00 holes on ⌀8.00 and the ⌀4.00 drill")
        .hints("a circle of ⌀8.00 or more leaves 1 mm");
    let next = holes("drill 2 to 5 on $ indexed 6");
    next.edge("5.998", "5.997998")
        .message("0.999 mm of wall between the ⌀2.00 holes on ⌀6.00 and the next of them")
        .hints("a circle of ⌀6.00 or more leaves 1 mm");
    // Turned by half their step, four of another circle lie 45° from these: 8 sin 22.5° = 3.061467.
    let other = holes("drill 2 to 5 on 8 indexed 4\n    drill $ to 5 on 8 indexed 4 clock 45");
    other
        .edge("2.124934", "2.124936")
        .message("between the ⌀2.00 holes on ⌀8.00 and the ⌀2.12 holes on ⌀8.00");
}

/// A blind hole's floor before the far face is a closed end, and its drilled point is nearer by its cone.
#[test]
fn an_end_beyond_holes_on_a_pitch_circle() {
    let bored = tube("thin-end", "acrylic", "14", "bore 3 to $ on 7 indexed 2");
    bored
        .edge("58.5", "58.500002")
        .message("1.499998 mm left between the ⌀3.00 holes on ⌀7.00 and the end");
}

/// They are beside the outside alone there, not beside the recess that they begin in: (14 - 12) / 2.
#[test]
fn holes_that_begin_at_the_bottom_of_a_recess() {
    let it = tube(
        "thin-wall",
        "acrylic",
        "14",
        "bore 11 to 3\n    drill 3 to 8 at 3 on $",
    );
    it.edge("9.002", "9.002002")
        .message("0.999 mm of wall between the outside (⌀14.00) and the ⌀3.00 hole on ⌀9.00");
}

/// A cone from 14 to 10 in 60 comes nearest to a hole's rim where it ends: at 20 it is 20 / 30 less in radius;
/// square to the cone that is shorter by the cosine of atan 1/30, and its foot lies a little further on.
#[test]
fn the_outside_slopes_over_a_hole() {
    let text = "part cone from mouth to end {
  blank of acrylic rod 20
  length 60
  outside {
    at 0 dia 14
    at end dia 10
  }
  from mouth {
    bore 2 to 20 on $
  }
}
";
    // 7 - 20/30 - on/2 - 1 is to be 0.999 / cos: on = 10.666667 - 1.999111.
    crate::source("thin-wall", text)
        .edge("8.667556", "8.66756")
        .message("0.999 mm of wall between the outside (⌀12.66) and the ⌀2.00 hole on ⌀8.67");
}
