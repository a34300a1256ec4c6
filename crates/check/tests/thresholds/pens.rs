//! What is asked of a whole pen.

use crate::{Source, page, source};

/// Air within 0.05 mm a side is drawn out: over 12 mm it is 13.06²·π/4·12 of what the bore of 30
/// holds less a barrel of 13 for 12, 66.2617 %.
#[test]
fn a_cap_that_pumps() {
    let it = page("pumps-ink");
    it.clone()
        .but("bore 13.06", "bore $")
        .edge("13.100001", "13.1");
    it.and("limit pumps-ink = $\n")
        .edge("0.662618", "0.662617")
        .message("fits closely in cap's mouth for 12.0 mm: drawn off, the 2.43 ml of air grow by 66.26171 %; 66.26170 % at most wanted");
}

/// Six millimetres of full thread: the shoulder stands at 9, so a thread that begins `$` in has
/// 9 − `$` of it less what the relief leaves away.
#[test]
fn greased_thread() {
    let it = page("leaky-reservoir");
    let it = it
        .but("outside for 5", "outside for 7")
        .but("for 4 at 5", "for 2 at 7");
    let it = it
        .but("bore 10.8 to 3", "bore 10.8 to $")
        .but("to 13 at 3", "to 13 at $");
    it.edge("3", "3.000001").message(
        "no O-ring and 5.999999 mm of thread hold the ink here; 6.000000 mm wanted without a ring",
    );
    // Nothing is asked of what is glued, nor where no ink stands.
    it.clone().but("fill barrel", "").silent("4");
    // A section that holds the ink itself is as tight at the same joint.
    it.but("fill barrel", "fill section").edge("3", "3.000001");
}

/// A plug in a tube of ink with a ring in its groove: 9.6 inside, of 1.5.
fn ringed(groove: &str, bore: &str) -> Source {
    source(
        "leaky-reservoir",
        &format!(
            "bought seal {{
  ring 9.6 by 1.5
  mass 0.05
}}
part plug from front to back {{
  blank of acrylic rod 20
  length 20
  outside {{
    at 0  dia 11.5
    at 10 dia 11.5 step 18
    at 20 dia 18
  }}
  from front {{
    groove {groove} at 4 takes seal
  }}
}}
part tube from mouth to end {{
  blank of acrylic rod 20
  length 50
  outside dia 18
  from mouth {{
    bore {bore} to 20
  }}
}}
pen test {{
  press plug.front into tube.mouth
  fill tube
}}
"
        ),
    )
}

/// On ⌀9.8 the ring is stretched by 2.1 % and its cord, of one volume, 1.5·√(11.1/11.3) = 1.486666
/// thick. Squeezed by 15 % it has 1.263666 of room, in ⌀12.327332; by 30 % ⌀11.881332.
#[test]
fn a_ring_is_squeezed() {
    let it = ringed("9.8 for 2", "$");
    it.edge("12.32733", "12.327334")
        .message("seal is squeezed by 14.99996 % (15 to 30 % wanted)");
    it.edge("11.881334", "11.88133")
        .message("seal is squeezed by 30.0001 % (15 to 30 % wanted)");
    // 22 % want 1.159600 of room: a groove of 12.35 − 2·1.1596, as wide as 80 % full asks.
    it.speaks("12.35")
        .hints_no_more_than("cut it ⌀10.03 and 1.9 mm wide");
    // 10.0808 would stretch it by more than 5 %: a ring of 10.0808/1.03.
    it.speaks("12.4")
        .hints("cut it ⌀10.08 and 1.9 mm wide, for a ring of 9.8 mm inside");
}

/// Not squeezed at all it holds no ink either.
#[test]
fn a_ring_that_touches_nothing() {
    let it = ringed("9.8 for 2", "$");
    let written = |bore: &str| -> Vec<String> {
        let found = it.found(bore).into_iter();
        found.map(|it| it.message.to_string()).collect()
    };
    assert_eq!(
        written("12.77333"),
        ["seal is squeezed by 0 % (15 to 30 % wanted)"]
    );
    let none = [
        "seal is not squeezed at all (15 to 30 % wanted)",
        "no O-ring and 0.0 mm of thread hold the ink here; 6 mm wanted without a ring",
    ];
    let mut found = written("12.77334");
    found.sort();
    let mut wanted = none.map(str::to_owned);
    wanted.sort();
    assert_eq!(found, wanted);
}

/// 1 % of 9.6 is 9.696, 5 % 10.08; not stretched at all it lies loose.
#[test]
fn a_ring_is_stretched() {
    let it = ringed("$ for 2.2", "12.2");
    it.edge("9.696", "9.695999")
        .message("seal is stretched by 0.99999 % (1 to 5 % wanted)");
    it.edge("10.08", "10.080001")
        .message("seal is stretched by 5.00001 % (1 to 5 % wanted)");
    let loose = ringed("$ for 2.4", "12");
    loose
        .speaks("9.6")
        .message("loose in its groove (1 to 5 % of stretch wanted)");
    loose
        .speaks("9.600001")
        .message("stretched by 0 % (1 to 5 % wanted)");
}

/// π/4·1.5²·11.1/11.3 of 1.1 of room is 85 % full from 1.856544 wide.
#[test]
fn a_ring_has_room_to_swell() {
    ringed("9.8 for $", "12")
        .edge("1.856545", "1.856543")
        .message("seal is filling 85.0001 % of its groove (85 % at most, to have room to swell)");
}

/// In a recess it is pressed together, and its cord is no thinner: round a plug of 11.5
/// 2·1.275 of room squeeze it by 15 %, and a recess of 13.68 presses a ring of 14.4 together by 5 %.
#[test]
fn a_ring_in_a_recess() {
    let it = ringed("$ for 2", "11.6").but("ring 9.6", "ring 11.4");
    let it = it.but("    groove $ for 2 at 4 takes seal\n", "");
    let it = it.but(
        "bore 11.6 to 20",
        "bore 11.6 to 20\n    recess $ for 2 at 4 takes seal",
    );
    it.edge("14.05", "14.050002")
        .message("squeezed by 14.9999 % (15 to 30 % wanted)");
    it.edge("13.68", "13.679998")
        .message("stretched by 5.00001 % (1 to 5 % wanted)");
    // 22 % want 1.17 of room: 11.5 and 2.34, which press a ring of 14.4 together by 3.9 %.
    it.speaks("14.1")
        .hints_no_more_than("cut it ⌀13.84 and 1.9 mm wide");
    // One of 14.6 by more than 5 %: 13.84/0.97 less two cords.
    it.but("ring 11.4", "ring 11.6")
        .speaks("14.1")
        .hints("cut it ⌀13.84 and 1.9 mm wide, for a ring of 11.3 mm inside");
}

#[test]
fn air() {
    let open = page("dry-nib");
    open.speaks("")
        .message("the cap's bore goes right through, so the ");
    let closed = open.but("12.2 through", "12.2 to 30");
    closed.silent("");
}

/// Ten grams at 55 and ten at 10 over the foot balance at 32.5: tan 15° of that is 8.7083488, by a table
/// of tangents.
#[test]
fn what_tips_over() {
    let stand = source(
        "tips-over",
        "bought stick from point to tail {
  length 100
  mass 10 at 50
  outside dia 13
}
bought stand from top to foot {
  length 20
  mass 10 at 10
  outside dia $
  from top {
    bore 13.2 to 15
  }
}
pen p {
  rest stick.tail into stand.top
}
",
    );
    stand
        .edge("17.416698", "17.416697")
        .message("tips over when it leans by 14.9999996°; 15.0000000° is wanted: its centre of mass stands 32.5 mm up on a foot of ⌀17.42")
        .hints("make the foot ⌀17.42 or more");
    // tan 20° is 0.3639702: 23.6580655.
    let more = stand.clone().and("limit tips-over = 20deg\n");
    more.edge("23.658066", "23.658065");
    let over = stand.clone().of("want-unmet").but("dia $", "dia 20");
    let over = over.but("stand.top\n", "stand.top\n  want length(resting) <= $\n");
    over.edge("105", "104.999999");
}

/// A pen stands closed on its tail, 82 over a bottom 10 up; on its mouth it stands open, its shoulder
/// at 8 on a stand of 20.
#[test]
fn what_stands_in_a_stand() {
    let stand = |end: &str, bore: &str| {
        page("rolls-away").of("want-unmet").but(
            "pen sketch {",
            &format!(
                "part stand from top to foot {{\n  blank of acrylic rod 40\n  length 20\n  outside dia 30\n  \
                 from top {{\n    bore {bore}\n  }}\n}}\n\npen sketch {{\n  rest barrel.{end} into stand.top\n  \
                 want length(resting) <= $"
            ),
        )
    };
    stand("tail", "14.2 to 10").edge("92", "91.999999");
    stand("mouth", "13.2 to 15").edge("62", "61.999999");
}
