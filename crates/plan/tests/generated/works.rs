//! Parts that are turned as one, made up at random, written in the language.

use proptest::prelude::*;

#[derive(Clone, Debug)]
struct Work {
    body: u32,
    plug: u32,
    /// The plug's tenon, and the hole it goes into, tenths.
    tenon: u32,
    deep: u32,
    shape: u8,
    /// The plug is written from its far end.
    backwards: bool,
    square: bool,
    threaded: bool,
    closed: bool,
    grooved: bool,
    banded: bool,
    coated: bool,
    /// A ring over the plug's tenon, held between it and the body.
    ringed: bool,
}

/// How long a ring is, mm.
const RING: u32 = 3;

/// The text of a file with one pen in it: a body, a plug that is glued into its tail, now and then with a
/// ring between them and a band over the mouth; their outsides are turned as one.
pub(crate) fn work() -> impl Strategy<Value = String> {
    let sizes = (40..90_u32, 10..40_u32, 80..100_u32, 5..12_u32, 0..3_u8);
    (sizes, any::<[bool; 8]>()).prop_map(|((body, plug, tenon, deep, shape), flags)| {
        let mut flags = flags.into_iter();
        let mut flag = || flags.next().unwrap_or_default();
        written(&Work {
            body,
            plug,
            tenon,
            deep,
            shape,
            backwards: flag(),
            square: flag(),
            threaded: flag(),
            closed: flag(),
            grooved: flag(),
            banded: flag(),
            coated: flag(),
            ringed: flag(),
        })
    })
}

fn written(work: &Work) -> String {
    let section = if work.square { "square" } else { "rod" };
    let smooth = [" smooth", "", " bead 300"][usize::from(work.shape)];
    let (body, deep) = (work.body, work.deep);
    let tenon = f64::from(work.tenon) / 10.0;
    let mut text = format!(
        "use \"saltings.quillet\"\npart body from mouth to tail {{\n  blank of reed {section} 19\n  \
         length {body}\n  outside {{\n"
    );
    let from = if work.banded { 5 } else { 0 };
    text += &format!("    at {from} dia 15\n");
    text += &format!(
        "    at {} dia 15.5{smooth}\n    at tail dia 14{smooth}\n  }}\n",
        body / 2
    );
    if work.coated {
        text += "  finish \"lacquer\" coat 0.05\n";
    }
    text += "  from mouth {\n";
    if work.banded {
        text += "    tenon 13.4 for 5\n";
    }
    match work.threaded {
        true => {
            text += "    drill 9.3 to 12\n    thread M10x0.75 inside to 9\n    drill 6 through\n"
        }
        false => text += "    bore 9 to 14\n    drill 6 through\n",
    }
    if work.grooved {
        text += &format!("    groove 13 for 2 at {}\n", body / 2 - 1);
    }
    let hole = tenon + 0.1;
    text += &format!(
        "  }}\n  from tail {{\n    bore {hole:.1} to {}\n  }}\n}}\n",
        deep + 1
    );
    text += &plug(work, tenon, smooth);
    if work.banded {
        text += "part band from front to back {\n  blank of brass rod 18\n  length 5\n  outside {\n    at 0 dia 15\n    \
                 at back dia 15\n  }\n  from front { ream 13.5 through }\n}\n";
    }
    let through = if work.ringed { " through ring" } else { "" };
    if work.ringed {
        text += &format!(
            "part ring from front to back {{\n  blank of brass rod 18\n  length {RING}\n  outside dia 14\n  \
             from front {{ ream {hole:.1} through }}\n}}\n"
        );
    }
    text +=
        &format!("pen any {{\n  glue plug.shank into body.tail{through} gap 0.1 before turning\n");
    if work.banded {
        text += "  glue body.mouth into band.back gap 0.1 before turning\n";
    }
    text + "}\n"
}

fn plug(work: &Work, tenon: f64, smooth: &str) -> String {
    let deep = work.deep + if work.ringed { RING } else { 0 };
    let length = work.plug + deep;
    let [first, second] = match work.backwards {
        false => ["shank", "end"],
        true => ["end", "shank"],
    };
    let mut text = format!(
        "part plug from {first} to {second} {{\n  blank of wrack rod 17\n  length {length}\n  outside {{\n"
    );
    let tip = match work.closed {
        true => (0, " dome"),
        false => (12, smooth),
    };
    text += &match work.backwards {
        false => format!("    at {deep} dia 14\n    at end dia {}{}\n", tip.0, tip.1),
        true => {
            let shape = if work.closed { " dome" } else { smooth };
            format!(
                "    at 0 dia {}\n    at {} dia 14{shape}\n",
                tip.0,
                length - deep
            )
        }
    };
    text += &format!("  }}\n  from shank {{\n    tenon {tenon:.1} for {deep}\n");
    if !work.closed {
        text += "    drill 4 through\n";
    }
    text + "  }\n}\n"
}
