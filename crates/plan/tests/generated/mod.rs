//! Parts made up at random, written in the language.

pub(crate) mod pens;
mod sides;
pub(crate) mod works;

use proptest::prelude::*;
use sides::sides;

/// A thread with the drill that opens it inside.
const THREADS: [(&str, f64, f64, f64); 5] = [
    ("M7.4x0.5", 7.4, 6.9, 0.5),
    ("M9x0.75", 9.0, 8.3, 0.75),
    ("M10x0.75", 10.0, 9.3, 0.75),
    ("M10x1", 10.0, 9.0, 1.0),
    ("M13x0.8 starts 3", 13.0, 12.2, 0.8),
];

/// What an end is like.
#[derive(Clone, Debug)]
struct EndCuts {
    kind: u8,
    thread: usize,
    inside: usize,
    relieved: bool,
    mouth: bool,
    extra: bool,
    pilot: bool,
}

fn end() -> impl Strategy<Value = EndCuts> {
    (0..6_u8, 0..5_usize, 0..4_usize, any::<[bool; 4]>()).prop_map(
        |(kind, thread, inside, [relieved, mouth, extra, pilot])| EndCuts {
            kind,
            thread,
            inside,
            relieved,
            mouth,
            extra,
            pilot,
        },
    )
}

/// The text of a file with one part in it.
pub(crate) fn part() -> impl Strategy<Value = String> {
    (
        end(),
        end(),
        34..90_u32,
        0..4_u8,
        any::<[bool; 4]>(),
        sides(),
    )
        .prop_map(
            |(first, second, length, shape, [square, through, groove, edge], sides)| {
                let length = f64::from(length);
                let mut text = "use \"saltings.quillet\"\npart thing from a to b {\n".to_owned();
                let section = if square { "square" } else { "rod" };
                text += &format!("  blank of reed {section} 19\n  length {length}\n");
                let (zone_a, cuts_a) = cuts(&first, length / 2.0 - 6.0, edge);
                let (zone_b, cuts_b) = cuts(&second, length / 2.0 - 6.0, false);
                text += &outside(length, zone_a, zone_b, &second, shape);
                let mut front = cuts_a;
                if through && first.kind < 4 {
                    front += "    drill 3 through\n";
                }
                if groove {
                    front += &format!("    groove 12.5 for 2 at {}\n", length / 2.0 - 1.0);
                }
                if first.kind == 0 && !through {
                    front += sides.beside();
                }
                text += &sides.text(length);
                text += &format!("  from a {{\n{front}  }}\n  from b {{\n{cuts_b}  }}\n}}\n");
                text
            },
        )
}

/// The cuts of an end within a depth, and how far its turned zone goes.
fn cuts(end: &EndCuts, depth: f64, edge: bool) -> (f64, String) {
    let mut out = String::new();
    let inside = |out: &mut String, thread: usize| {
        let (name, major, drill, _) = THREADS[thread];
        if end.pilot {
            *out += &format!("    drill 3 to {}\n", depth - 4.0);
        }
        *out += &format!("    drill {drill} to {}\n", depth - 3.0);
        match end.mouth {
            true => {
                *out += &format!("    bore {:.1} to 1.5\n", major + 0.1);
                *out += &format!("    thread {name} inside to 6 at 1.5\n");
            }
            false => *out += &format!("    thread {name} inside to 5\n"),
        }
        if end.extra && drill > 6.0 {
            *out += &format!("    drill 5 to {depth}\n");
        }
    };
    match end.kind {
        0 => (0.0, out),
        1 => {
            inside(&mut out, end.inside);
            if edge {
                out += "    round 0.4\n";
            }
            (0.0, out)
        }
        2 | 3 => {
            let (name, _, _, pitch) = THREADS[end.thread];
            let root = THREADS[end.thread].1 - 1.3 * pitch;
            out += "    tenon for 8\n";
            match end.relieved {
                true => {
                    out += &format!("    relief {:.1} for 1\n", root - 0.2);
                    out += &format!("    thread {name} outside for 5 at 1\n");
                    out += &format!("    relief {:.1} for 2 at 6\n", root - 0.2);
                }
                false => out += &format!("    thread {name} outside for 8\n    chamfer 0.3\n"),
            }
            if end.kind == 3 && end.thread == 4 {
                inside(&mut out, end.inside);
            } else {
                out += &format!("    drill 4 to {depth}\n");
            }
            (8.0, out)
        }
        4 => {
            out += "    tenon 9.5 for 5\n";
            (5.0, out)
        }
        _ => {
            out += &format!("    bore 8 to {}\n", depth / 2.0);
            if end.extra {
                out += &format!("    drill 6 to {depth}\n");
            }
            (0.0, out)
        }
    }
}

fn outside(length: f64, zone_a: f64, zone_b: f64, second: &EndCuts, shape: u8) -> String {
    let from = zone_a;
    let to = length - zone_b;
    let middle = length / 2.0;
    let mut out = format!("  outside {{\n    at {from} dia 15\n");
    let shape = match shape {
        0 => " smooth",
        1 => " bead 200",
        2 => " round 0.3",
        _ => "",
    };
    if shape.contains("round") {
        out += &format!("    at {middle} dia 16.5{shape}\n");
    } else {
        out += &format!("    at {middle} dia 16.5{shape} step 16\n");
    }
    match second.kind {
        0 => {
            out += &format!(
                "    at {} dia 14.6 smooth\n    at b dia 0 dome\n",
                length - 6.0
            )
        }
        _ => out += &format!("    at {to} dia 14.5 smooth\n"),
    }
    out + "  }\n"
}
