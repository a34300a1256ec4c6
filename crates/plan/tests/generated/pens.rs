//! Pens, stacks and rings made up at random, written in the language.

use proptest::prelude::*;

/// A thread to close with, its hole, and the diameter its reliefs are turned to.
const CLOSING: [(&str, f64, f64, f64); 3] = [
    ("M13x0.8 starts 3", 13.0, 12.2, 12.0),
    ("M12x0.8 starts 3", 12.0, 11.2, 11.0),
    ("M14x0.8 starts 2", 14.0, 13.2, 13.0),
];
/// A thread of the section, its hole, and its relief.
const JOINT: [(&str, f64, f64, f64); 3] = [
    ("M10x0.75", 10.0, 9.3, 9.0),
    ("M9x0.75", 9.0, 8.3, 8.0),
    ("M10x1", 10.0, 9.0, 8.6),
];

#[derive(Clone, Debug)]
struct Pen {
    closing: usize,
    joint: usize,
    /// The step between barrel and cap, in tenths, on diameter.
    step: u32,
    stack: u8,
    ring: bool,
    square: bool,
    open_crown: bool,
    section_bore: u32,
    lengths: [u32; 3],
}

/// The text of a file with one pen in it: a cap, a barrel that may be glued of three pieces, a section,
/// and a ring now and then.
pub(crate) fn pen() -> impl Strategy<Value = String> {
    let sizes = (0..3_usize, 0..3_usize, 0..12_u32, 0..4_u8, 60..75_u32);
    let lengths = (52..70_u32, 70..95_u32, 28..40_u32);
    (sizes, lengths, any::<[bool; 3]>()).prop_map(
        |(
            (closing, joint, step, stack, bore),
            (cap, barrel, section),
            [ring, square, open_crown],
        )| {
            written(&Pen {
                closing,
                joint,
                step,
                stack,
                ring,
                square,
                open_crown,
                section_bore: bore,
                lengths: [cap, barrel, section],
            })
        },
    )
}

#[expect(clippy::too_many_lines, reason = "one text")]
fn written(pen: &Pen) -> String {
    let (closing, major, hole, relief) = CLOSING[pen.closing];
    let (joint, joint_major, joint_hole, joint_relief) = JOINT[pen.joint];
    let [cap, barrel, section] = pen.lengths.map(f64::from);
    let cap_dia = major + 2.4;
    let body_dia = cap_dia - f64::from(pen.step) / 10.0;
    let rod = if pen.square { "square" } else { "rod" };
    let stock = cap_dia.ceil() + 2.0;
    let mut text = String::from("use \"saltings.quillet\"\n");
    text += &format!("thread closing = {closing}\nthread joint = {joint}\n");
    text += &format!(
        "part cap from mouth to crown {{\n  blank of reed {rod} {stock}\n  length {cap}\n  outside {{\n    \
         at 0 dia {cap_dia:.1}\n    at {} dia {:.1} smooth\n",
        cap - 6.0,
        cap_dia - 1.4
    );
    text += match pen.open_crown {
        true => "    at crown dia 12.6 smooth\n  }\n",
        false => "    at crown dia 0 dome\n  }\n",
    };
    text += &format!(
        "  from mouth {{\n    bore {:.1} to 2.5\n    thread closing inside to 7.5 at 2.5\n    \
         drill {hole} to {}\n  }}\n",
        major + 0.1,
        cap - 14.0
    );
    if pen.open_crown {
        text += "  from crown {\n    bore 8.3 to 9.5\n    thread M9x0.75 inside to 7\n  }\n";
    }
    text += "}\n";
    let blanks = match pen.stack {
        0 => format!("  blank of reed {rod} {stock}\n"),
        1 => format!(
            "  blank of reed {rod} {stock} to 20\n  blank of chalk {rod} {stock} spigot 10 for 5 gap 0.1\n"
        ),
        2 => format!(
            "  blank of reed {rod} {stock} to 14\n  blank of brass rod {stock} to 17\n  \
             blank of chalk rod {stock} spigot 10 for 3 gap 0.1\n"
        ),
        _ => format!(
            "  blank of brass rod {stock} to 5\n  blank of reed rod {stock} spigot 11 for 4 gap 0.1\n"
        ),
    };
    text += &format!(
        "part barrel from mouth to tail {{\n{blanks}  length {barrel}\n  outside {{\n    \
         at 8 dia {body_dia:.1} as shoulder\n    at {} dia {:.1} smooth\n    at tail dia 0 dome\n  }}\n  \
         from mouth {{\n    tenon for 8\n    relief {relief} for 1.5\n    \
         thread closing outside for 4 at 1.5\n    relief {relief} for 2.5 at 5.5\n    \
         drill {joint_hole} to 12\n    thread joint inside to 9\n    drill {:.1} to {}\n  }}\n}}\n",
        barrel - 6.0,
        body_dia - 2.0,
        f64::from(pen.section_bore) / 10.0,
        barrel - 16.0
    );
    text += &format!(
        "part section from tip to shank {{\n  blank of wrack rod 14\n  length {section}\n  outside {{\n    \
         at 0 dia 10.4\n    at 12 dia 10 smooth\n    at {} dia {:.1} smooth as shoulder\n  }}\n  from tip {{\n    \
         bore 8.6 to 1.2\n    drill 6.9 to 10.5\n    thread M7.4x0.5 inside to 9\n    drill 6.3 through\n  }}\n  \
         from shank {{\n    tenon for 8\n    thread joint outside for 6\n    relief {joint_relief} for 2 at 6\n    \
         chamfer 0.5\n    drill {:.1} to 14\n  }}\n}}\n",
        section - 8.0,
        joint_major + 1.2,
        f64::from(pen.section_bore) / 10.0
    );
    if pen.ring {
        text += "part band from front to back {\n  blank of brass rod 18\n  length 3\n  outside dia 15\n  \
                 from front { ream 12 through; chamfer 0.2 }\n}\n";
    }
    text += "pen any {\n  screw section.shank into barrel.mouth\n  close cap.mouth onto barrel.mouth\n}\n";
    text
}
