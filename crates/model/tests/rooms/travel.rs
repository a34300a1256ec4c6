//! What edges leave of a thread's travel.

use super::{assembly, near};
use quillet_model::{Engagement, JointId};
use std::f64::consts::SQRT_2;

/// A peg with a tenon of `tenon`, threaded all along for 8, into a socket drilled `drill` and
/// threaded to 9; what breaks their edges is said.
struct Threaded<'a> {
    thread: &'a str,
    tenon: f64,
    drill: f64,
    on_peg: &'a str,
    in_socket: &'a str,
    /// `peg.shank`, at which of its ends.
    shank_first: bool,
    mouth_first: bool,
    joint: &'a str,
}

impl Threaded<'_> {
    fn engaged(&self) -> Engagement {
        let Self {
            thread,
            tenon,
            drill,
            on_peg,
            in_socket,
            joint,
            ..
        } = self;
        let (peg, outside) = match self.shank_first {
            true => ("shank to head", "at 8 dia 20 as ledge\n at 30 dia 20"),
            false => ("head to shank", "at 0 dia 20\n at 22 dia 20 as ledge"),
        };
        let socket = if self.mouth_first {
            "mouth to end"
        } else {
            "end to mouth"
        };
        let text = format!(
            "part peg from {peg} {{\n blank of acrylic rod 30\n length 30\n outside {{\n {outside}\n}}\n\
             from shank {{\n tenon {tenon} for 8\n thread {thread} outside for 8\n {on_peg}\n}}\n}}\n\
             part socket from {socket} {{\n blank of acrylic rod 30\n length 40\n outside dia 24\n\
             from mouth {{\n drill {drill} to 20\n thread {thread} inside to 9\n {in_socket}\n}}\n}}\n\
             pen test {{\n {joint}\n}}\n"
        );
        let assembly = assembly(&text);
        near(assembly.joints[JointId::nth(0)].goes_in_mm, 8.0, 1e-9);
        assembly.joints[JointId::nth(0)].engagements[0]
    }
}

const PLAIN: Threaded<'_> = Threaded {
    thread: "M10x0.75",
    tenon: 9.9,
    drill: 9.3,
    on_peg: "",
    in_socket: "",
    shank_first: true,
    mouth_first: true,
    joint: "screw peg.shank into socket.mouth",
};

/// The crests are min(R, R - c + y) and max(r, r + k - x) inward from the two faces: they first
/// reach each other where x + y = c + k - h, h the tenon's radius less the hole's.
#[test]
fn travel_ends_where_chamfer_and_countersink_no_longer_overlap() {
    let h = 0.3;
    for (chamfer, countersink) in [(0.5, 0.55), (1.0, 0.0), (0.0, 0.7), (0.8, 0.4), (0.2, 0.0)] {
        let on_peg = if chamfer > 0.0 {
            format!("chamfer {chamfer}")
        } else {
            String::new()
        };
        let in_socket = match countersink > 0.0 {
            true => format!("countersink {:.3}", 9.3 + 2.0 * countersink),
            false => String::new(),
        };
        let lost = f64::max(chamfer + countersink - h, 0.0);
        for (shank_first, mouth_first) in
            [(true, true), (false, true), (true, false), (false, false)]
        {
            let (on_peg, in_socket) = (on_peg.as_str(), in_socket.as_str());
            let engaged = Threaded {
                on_peg,
                in_socket,
                shank_first,
                mouth_first,
                ..PLAIN
            }
            .engaged();
            near(engaged.travel_mm, 8.0 - lost, 1e-6);
            near(engaged.turns(), (8.0 - lost) / 0.75, 1e-6);
            // What bears load is full form only.
            near(engaged.overlap_mm, 8.0 - chamfer - countersink, 1e-6);
        }
    }
}

/// A round of radius p leaves R - p + sqrt(2 p y - y²): beside a countersink k the sum x + y is
/// least where both slope alike, y = p (1 - 1/√2), and is k - h + p (2 - √2).
#[test]
fn travel_over_a_round_and_under_a_wider_mouth() {
    for (round, k) in [(1.0, 0.5), (0.6, 0.4), (0.8, 0.35)] {
        let on_peg = format!("round {round}");
        let in_socket = format!("countersink {:.3}", 9.3 + 2.0 * k);
        let engaged = Threaded {
            on_peg: &on_peg,
            in_socket: &in_socket,
            ..PLAIN
        }
        .engaged();
        near(
            engaged.travel_mm,
            8.0 - (k - 0.3 + round * (2.0 - SQRT_2)),
            1e-6,
        );
    }
    // A round so large that all of the countersink lies before it: the hole's own edge, k in, meets
    // it where it reaches the hole's radius, p - √(p² - (p - h)²) = 0.6 behind the face.
    let engaged = Threaded {
        on_peg: "round 1.5",
        in_socket: "countersink 9.8",
        ..PLAIN
    }
    .engaged();
    near(engaged.travel_mm, 8.0 - 0.25 - 0.6, 1e-6);
    // A mouth bored 10.4 to 1.5 lets every crest pass: the thread begins there, and a chamfer of
    // 0.7 reaches the hole's radius 0.4 behind the face.
    let engaged = Threaded {
        on_peg: "chamfer 0.7",
        in_socket: "bore 10.4 to 1.5",
        ..PLAIN
    }
    .engaged();
    near(engaged.travel_mm, 8.0 - 1.5 - 0.4, 1e-6);
    near(engaged.overlap_mm, 8.0 - 1.5 - 0.7, 1e-6);
}

#[test]
fn travel_of_other_threads_left_hand_in_inches_and_of_a_cap_that_goes_in() {
    let lost = |c: f64, k: f64, h: f64| c + k - h;
    let left = Threaded {
        thread: "M9x0.75-LH",
        tenon: 8.9,
        drill: 8.3,
        on_peg: "chamfer 0.6",
        in_socket: "countersink 9.1",
        ..PLAIN
    };
    near(left.engaged().travel_mm, 8.0 - lost(0.6, 0.4, 0.3), 1e-6);
    let inch = Threaded {
        thread: "7/16-14UNC",
        tenon: 11.0,
        drill: 9.4,
        on_peg: "chamfer 0.9",
        in_socket: "countersink 11.4",
        ..PLAIN
    };
    near(inch.engaged().travel_mm, 8.0 - lost(0.9, 1.0, 0.8), 1e-6);
    near(inch.engaged().turns(), (8.0 - 1.1) / (25.4 / 14.0), 1e-6);
    let cap = Threaded {
        thread: "M12x0.8 starts 2",
        tenon: 11.9,
        drill: 11.2,
        on_peg: "chamfer 0.75",
        in_socket: "countersink 12",
        joint: "close peg.shank into socket.mouth",
        ..PLAIN
    };
    near(cap.engaged().travel_mm, 8.0 - lost(0.75, 0.4, 0.35), 1e-6);
    near(cap.engaged().turns(), (8.0 - 0.8) / 1.6, 1e-6);
}
