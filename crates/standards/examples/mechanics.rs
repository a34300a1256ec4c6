//! Prints what the formulas of mechanics come to on a grid of sizes, for a check from outside.
//!
//! A line a figure: the formula, what goes in, what comes out, separated by commas.

#![allow(clippy::print_stdout, reason = "printing is all it does")]

use quillet_standards::mechanics::{Elastic, finger, magnet, press, shell};

fn main() {
    magnets();
    shells();
    presses();
    fingers();
}

fn magnets() {
    for (outside_mm, hole_mm, thick_mm) in [
        (14.0, 11.4, 1.5),
        (3.0, 0.0, 2.0),
        (6.0, 0.0, 3.0),
        (10.0, 4.0, 2.0),
    ] {
        let magnet = magnet::Magnet {
            outside_mm,
            hole_mm,
            thick_mm,
        };
        for gap in [0.1, 0.2, 0.5, 1.0, 2.0] {
            let share = magnet.share_at(gap).unwrap_or(f64::NAN);
            println!("magnet,{outside_mm},{hole_mm},{thick_mm},{gap},{share:?}");
        }
    }
}

fn shells() {
    for (mean_radius_mm, wall_mm, modulus_gpa, poisson) in [
        (6.75, 1.5, 3.0, 0.35),
        (6.0, 0.8, 2.35, 0.35),
        (5.2, 0.5, 100.0, 0.33),
    ] {
        for from_end_mm in [0.0, 1.0, 2.0, 4.0, 8.0] {
            let shell = shell::Shell {
                mean_radius_mm,
                wall_mm,
                from_end_mm,
                elastic: Elastic {
                    modulus_gpa,
                    poisson,
                },
            };
            let gives = shell.compliance_mm2_per_n().unwrap_or(f64::NAN);
            println!(
                "shell,{mean_radius_mm},{wall_mm},{from_end_mm},{modulus_gpa},{poisson},{gives:?}"
            );
        }
    }
}

fn presses() {
    for (joint_mm, ring_mm, bore_mm, ring_gpa, tenon_gpa) in [
        (12.0, 15.0, 8.0, 3.0, 3.0),
        (10.0, 14.0, 0.0, 1.0, 100.0),
        (13.0, 13.6, 9.0, 100.0, 2.0),
    ] {
        let of = |modulus_gpa: f64, poisson: f64| Elastic {
            modulus_gpa,
            poisson,
        };
        let press = press::Press {
            joint_mm,
            ring_mm,
            bore_mm,
            ring: of(ring_gpa, 0.33),
            tenon: of(tenon_gpa, 0.35),
        };
        let pressed = press.pressed(0.03);
        let found = pressed.map_or([f64::NAN; 3], |it| {
            [it.pressure_mpa, it.hoop_mpa, it.strain]
        });
        println!(
            "press,{joint_mm},{ring_mm},{bore_mm},{ring_gpa},{tenon_gpa},0.33,0.35,0.03,{:?},{:?},{:?}",
            found[0], found[1], found[2]
        );
    }
}

fn fingers() {
    for (count, outside_mm, bore_mm, slot_mm) in [
        (6, 14.0, 12.1, 1.0),
        (4, 12.0, 9.0, 0.8),
        (3, 10.0, 0.0, 1.5),
        // The clutch of the example Snipe.
        (6, 14.4, 12.1, 1.0),
    ] {
        let fingers = finger::Fingers {
            count,
            outside_mm,
            bore_mm,
            slot_mm,
            length_mm: 7.0,
            elastic: Elastic {
                modulus_gpa: 2.35,
                poisson: 0.35,
            },
        };
        let found = fingers
            .sector()
            .map_or([f64::NAN; 2], |it| [it.second_moment_mm4, it.fibre_mm]);
        println!(
            "finger,{count},{outside_mm},{bore_mm},{slot_mm},{:?},{:?}",
            found[0], found[1]
        );
    }
}
