//! What sits in pockets.

use crate::{Source, source};

/// A cap with three pockets on a circle, one size of them tried, and a slot for a clip.
fn pockets(holes: &str, slot: &str) -> Source {
    source(
        "poor-fit",
        &format!(
            "\
bought magnet from north to south {{
  length 3
  mass 0.07
  outside dia 2
}}
bought clip from under to over {{
  length 1.2
  mass 2
  outside dia 11
}}
part cap from mouth to crown {{
  blank of acrylic rod 18
  length 44
  outside dia 17
  side {{
    slot 4 at {slot} takes clip
  }}
  from mouth {{
    drill 7 to 36
    {holes} on 12 indexed 3 takes magnet
  }}
}}
part body from mouth to tail {{
  blank of acrylic rod 18
  length 60
  outside {{
    at 0  dia 6.5
    at 20 dia 6.5 step 17
    at 60 dia 17
  }}
}}
pen p {{
  close cap.mouth onto body.mouth
}}
"
        ),
    )
}

/// 0.02 to 0.3 mm of room for what sits in a pocket, and as deep as it is long.
#[test]
fn a_pocket() {
    let wide = pockets("drill $ to 3.1", "20..21.3");
    wide.edge("2.02", "2.019999")
        .message(
            "magnet (⌀2.00) has 0.02 mm of room in a pocket of ⌀2.02; 0.02 to 0.3 mm is wanted",
        )
        .hints("a pocket of ⌀2.10 gives it room");
    wide.edge("2.3", "2.300001");
    pockets("drill 2.1 to $", "20..21.3")
        .edge("3", "2.999999")
        .message("stands 0 mm out of its pocket")
        .hints("make the pocket 3 mm deep or more");
    let long = pockets("drill 2.1 to 3.1", "20..$");
    long.edge("21.22", "21.219999")
        .message("clip (1.2 mm) has 0.02 mm of room in a slot 1.22 mm long")
        .hints("a slot 1.3 mm long gives it room");
    long.edge("21.5", "21.500001");
}
