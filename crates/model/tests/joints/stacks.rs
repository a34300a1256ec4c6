//! Glued stacks, by weight and by what lies where.

use super::*;

/// The mass of a tube, g.
fn ring(density: f64, outer: f64, inner: f64, length: f64) -> f64 {
    density * std::f64::consts::PI / 4.0 * (outer * outer - inner * inner) * length / 1000.0
}

/// The mass of a part that stands between `part stack from a to b {` and its end.
fn stack_g(lines: &str) -> f64 {
    let design = design(&format!("part stack from a to b {{\n{lines}\n}}\n"));
    let part = design.part("stack").expect("it is written above");
    let mass = part.weigh().expect("all of it has a density");
    let profiles = part.profiles.as_ref().expect("it can be cut");
    let metal = profiles.metal.properties();
    let bodies: f64 = part
        .bodies()
        .iter()
        .map(|it| it.properties().volume_mm3)
        .sum();
    near(bodies, metal.volume_mm3);
    mass.mass_g
}

#[test]
fn a_glued_stack_weighs_each_stretch_its_spigots_and_the_glue() {
    // Brass 10 long with a spigot of 8 for 4 into acrylic 20 long, all ⌀12, bored 4 through; the
    // socket is 8.1 wide, and epoxy of 1.15 g/cm³ fills what the spigot leaves of it.
    let mass = stack_g(
        "blank of acrylic rod 14 to 20\n blank of brass rod 14 spigot 8 for 4 gap 0.1\n length 30\n\
         outside dia 12\n from a {\n bore 4 through\n}",
    );
    let acrylic = ring(1.19, 12.0, 4.0, 20.0) - ring(1.19, 8.1, 4.0, 4.0);
    let brass = ring(8.5, 12.0, 4.0, 10.0) + ring(8.5, 8.0, 4.0, 4.0);
    near(mass, acrylic + brass + ring(1.15, 8.1, 8.0, 4.0));
    // A gap of 1 takes ten times as much out of the brass around it.
    let mass = stack_g(
        "blank of brass rod 16 to 20\n blank of acrylic rod 16 spigot 10 for 12 gap 1\n length 40\n\
         outside dia 14",
    );
    let brass = ring(8.5, 14.0, 0.0, 20.0) - ring(8.5, 11.0, 0.0, 12.0);
    let acrylic = ring(1.19, 14.0, 0.0, 20.0) + ring(1.19, 10.0, 0.0, 12.0);
    near(mass, brass + acrylic + ring(1.15, 11.0, 10.0, 12.0));
}

#[test]
fn a_spigot_may_go_through_several_pieces_and_be_bored_away() {
    // A brass spigot of 8 for 8 goes through a ring of silver, 5 long, into acrylic; the next piece
    // has a spigot of 5 for 6 in it.
    let mass = stack_g(
        "blank of acrylic rod 14 to 10\n blank of silver rod 14 to 15\n\
         blank of brass rod 14 to 25 spigot 8 for 8 gap 0.2\n\
         blank of acrylic rod 14 spigot 5 for 6 gap 0.1\n length 40\n outside dia 12",
    );
    let acrylic = ring(1.19, 12.0, 0.0, 10.0) - ring(1.19, 8.2, 0.0, 3.0)
        + ring(1.19, 12.0, 0.0, 15.0)
        + ring(1.19, 5.0, 0.0, 6.0);
    let silver = ring(10.36, 12.0, 8.2, 5.0);
    let brass = ring(8.5, 12.0, 0.0, 10.0) + ring(8.5, 8.0, 0.0, 8.0) - ring(8.5, 5.1, 0.0, 6.0);
    let glue = ring(1.15, 8.2, 8.0, 8.0) + ring(1.15, 5.1, 5.0, 6.0);
    near(mass, acrylic + silver + brass + glue);
    // Bored wider than its socket, nothing is left of a spigot nor of its glue.
    let mass = stack_g(
        "blank of acrylic rod 14 to 20\n blank of brass rod 14 spigot 8 for 4 gap 0.1\n length 30\n\
         outside dia 12\n from a {\n bore 9 to 20\n}",
    );
    near(
        mass,
        ring(1.19, 12.0, 9.0, 20.0) + ring(8.5, 12.0, 0.0, 10.0),
    );
}

#[test]
fn what_lies_at_a_radius_is_the_innermost_spigot() {
    let text = "part stack from a to b {\n blank of acrylic rod 14 to 20\n\
                blank of brass rod 14 spigot 8 for 4 gap 0.1\n length 30\n outside dia 12\n}\n";
    let design = design(text);
    let part = design.part("stack").unwrap();
    let at = |station: f64, radius: f64| {
        let found = part.material_in(Length::mm(station), Length::mm(radius));
        found.map(|it| it.name.to_string()).unwrap()
    };
    assert_eq!(at(15.9, 1.0), "acrylic");
    assert_eq!(at(16.1, 3.9), "brass");
    assert_eq!(at(16.1, 4.1), "acrylic");
    assert_eq!(at(20.1, 5.0), "brass");
    let met = part.materials_along(Length::mm(10.0), Length::mm(25.0), Length::mm(3.0));
    let met: Vec<&str> = met.iter().map(|it| &*it.name).collect();
    assert_eq!(met, ["acrylic", "brass"]);
}
