//! What is shown of a thing, in words and in pictures.

use crate::asked::{BARREL, PEN, at, at_pen};
use quillet_ide::Units;

#[test]
fn hover_tells_what_was_worked_out() {
    let cap = at_pen("cap from").hover();
    assert!(
        cap.contains("**cap**, part") && cap.contains("the cap"),
        "{cap}"
    );
    assert!(cap.contains("| length | 64 mm |"), "{cap}");
    let drill = at_pen("drill 12.2").hover();
    // 54 + 12.2/2/tan 59° for the usual 118° point.
    assert!(drill.contains("depth to the apex | 57.665 mm"), "{drill}");
    // 76.98/0.8·(13 − 12.2), the tap-chart formula.
    assert!(drill.contains("77 % of 3H/4"), "{drill}");
    let thread = at_pen("closing inside").hover();
    assert!(
        thread.contains("minor ⌀, inside") && !thread.contains("root ⌀, outside"),
        "{thread}"
    );
    assert!(!drill.contains("fraction"), "{drill}");
    let both = at_pen("drill 12.2").rendered_in(Units::Both).hover();
    assert!(
        both.contains("nearest fraction | 31/64in − 0.103 mm"),
        "{both}"
    );
    assert!(both.contains("| 12.2 mm · 0.4803 in |"), "{both}");
    let number = at_pen("13.1 to").hover();
    assert!(number.starts_with("13.1 mm"), "{number}");
    let number = at_pen("13.1 to").rendered_in(Units::Both).hover();
    assert!(number.contains("33/64in"), "{number}");
    let station = at_pen("at 40").hover();
    assert!(station.contains("| from the mouth | 40 mm"), "{station}");
    assert!(station.contains("| from the crown | 24 mm"), "{station}");
    let value = at("let a = 1in\nlet b = (a + 2mm) / 2|\n").hover();
    assert!(value.ends_with("| may be | moves nothing |"), "{value}");
    let value = at("let a = 1in\nlet |b = (a + 2mm) / 2\n").hover();
    assert!(value.contains("| comes to | 13.7 mm"), "{value}");
    let file = at_pen("shared.quillet").hover();
    assert!(file.contains("| thread | closing |"), "{file}");
}

#[test]
fn hover_of_a_number_tells_its_room_and_what_stops_it() {
    let depth = at_pen("54\n").hover();
    assert!(depth.contains("**cap.mouth.drill.to**"), "{depth}");
    assert!(
        depth.contains("| may be | ") && depth.contains(" .. "),
        "{depth}"
    );
    // A bottom that comes too near the crown leaves too thin a wall.
    assert!(depth.contains("| above | "), "{depth}");
    // What is called off tells the rest.
    let asked = at_pen("54\n");
    let off = quillet_ide::hover_until(&asked.snapshot, asked.cursor(), &|| true).unwrap();
    assert!(
        !off.text.contains("may be") && off.text.contains("54 mm"),
        "{}",
        off.text
    );
}

#[test]
fn hover_of_a_number_tells_what_it_moves() {
    let text = format!(
        "{PEN}{BARREL}pen one {{\n  screw barrel.mouth into cap.mouth\n  want mass(uncapped) <= 90\n}}\n"
    );
    let place = text.find("54\n").unwrap();
    let text = format!("{}|{}", &text[..place], &text[place..]);
    let depth = at(&text).hover();
    // By hand: π/4·12.2²·1 mm at 1.19 g/cm³ (the built-in acrylic) is 0.1391 g.
    assert!(
        depth.contains("| 1 mm more: mass(uncapped) of one | −0.139 g |"),
        "{depth}"
    );
    // Beside what is wanted the two that move most for their size: it balances further from the part that
    // lost metal; how long it is does not move.
    assert_eq!(depth.matches("| 1 mm more: ").count(), 2, "{depth}");
    let balance = "| 1 mm more: balance(uncapped) of one | −0.";
    assert!(depth.contains(balance), "{depth}");
}

#[test]
fn hover_tells_what_a_tenth_of_a_millimetre_weighs() {
    // By hand: ⌀ 12.2 becomes 12.3 from 7.5 to 54, where the bore and the thread leave it the hole:
    // π/4·(12.3² − 12.2²)·46.5 = 89.48 mm³, at 1.19 g/cm³ (the built-in acrylic).
    let drill = at_pen("drill 12.2").hover();
    assert!(
        drill.contains("| 0.1 mm wider | about −0.106 g,"),
        "{drill}"
    );
    // By hand: two cones meet at 40; both take part, the whole of the tenth there and none of it
    // at their other ends.
    let station = at_pen("at 40").hover();
    let cone =
        |a: f64, b: f64, long: f64| std::f64::consts::PI / 12.0 * long * (a * a + a * b + b * b);
    let wider = cone(15.2, 15.7, 40.0) + cone(15.7, 14.0, 24.0);
    let grown_g = (wider - cone(15.2, 15.6, 40.0) - cone(15.6, 14.0, 24.0)) * 1.19e-3;
    let message = format!("| 0.1 mm wider | about +{grown_g:.3} g,");
    assert!(station.contains(&message), "{message} in {station}");
}

#[test]
fn a_preview_draws_a_pen_in_its_colours_in_section_and_its_parts() {
    const PENS: &str = "part liner from front to back {\n  blank of reed rod 9\n  length 20\n  outside dia 8\n}\n\
        pen heron \"Heron\" {\n  glue liner.front into cap.mouth\n  want mass(capped) <= 50\n}\n";
    let asked = at(&format!("{PEN}{PENS}"));
    let preview = quillet_ide::preview_of(&asked.analysis, "heron").unwrap();
    assert_eq!(preview.title, "Heron");
    let names: Vec<_> = preview.pictures.iter().map(|it| it.name.as_str()).collect();
    let [seen, section, parts @ ..] = names.as_slice() else {
        panic!("{names:?}");
    };
    assert!(
        seen.starts_with("to write, ") && section.starts_with("in section"),
        "{names:?}"
    );
    for part in ["liner", "cap"] {
        let says = format!("{part}, half section, sizes in mm");
        assert!(parts.contains(&says.as_str()), "{names:?}");
    }
    // Acrylic, as it is shaded, and the liner's length.
    assert!(preview.pictures[0].svg.contains("linearGradient"));
    assert!(preview.pictures.iter().any(|it| it.svg.contains(">20<")));
    // What is asked for by variables or by the viewer's colours is lost in some viewers.
    for picture in &preview.pictures {
        let is_lost = picture.svg.contains("var(") || picture.svg.contains("currentColor");
        assert!(!is_lost, "{}", picture.name);
    }
    let part = quillet_ide::preview_of(&asked.analysis, "cap").unwrap();
    let reported: Vec<_> = part.measures.iter().map(|it| it.0.as_str()).collect();
    assert_eq!(
        reported,
        ["length", "greatest ⌀", "mass", "balance", "least wall"]
    );
}

#[test]
fn hover_tells_where_a_joint_comes_to_rest_and_what_room_is_left() {
    let text = format!("{PEN}{BARREL}pen heron {{\n  |close cap.mouth onto barrel.mouth\n}}\n");
    let hover = at(&text).hover();
    assert!(
        hover.contains("| touches | barrel.shoulder on cap.mouth, at ⌀ 13.1 |"),
        "{hover}"
    );
    // The thread's male edge at 8 − 1.5, the female's mouth side at 2.5: 4 over a lead of 2.4.
    assert!(hover.contains("| turns to take apart | 1.67 |"), "{hover}");
    // The tenon of ⌀ 12.9 goes in through a bore of ⌀ 13.1.
    assert!(
        hover.contains("| room a side in passing | 0.1 mm,"),
        "{hover}"
    );
}

#[test]
fn hover_on_a_word_explains_it() {
    let bore = at_pen("bore 13.1").hover();
    assert!(bore.starts_with("A bored hole"), "{bore}");
    let rule = at(&format!("{PEN}limit thin|-wall = 0.9\n")).hover();
    assert!(rule.starts_with("# thin-wall"), "{rule}");
}

#[test]
fn hover_on_a_joint_that_is_not_known_to_rest_says_why() {
    let text = format!("{PEN}{BARREL}pen heron {{\n  |close cap.mouth onto barrel.mouth\n}}\n");
    let hover = at(&text.replace("bore 13.1", "bore thirteen")).hover();
    assert!(
        hover.contains("| rests | not known: cap has no shape that could be worked out |"),
        "{hover}"
    );
    assert!(
        !hover.contains("goes in") && !hover.contains("turns"),
        "{hover}"
    );
}

#[test]
fn hover_says_what_is_assumed_and_what_a_part_may_weigh() {
    let own = |text: &str| at(text).hover();
    let plug = "part plug from tip to tail {\n  blank of acrylic rod 18\n  length 20\n  outside dia \
                15\n  from tip {\n    |thread M8x0.75 inside to 9\n  }\n}\n";
    let hover = own(plug);
    assert!(
        hover.contains("| assumed | a tap drill ⌀") && hover.contains("% of thread |"),
        "{hover}"
    );
    let written = own(&plug.replace("to 9\n", "to 9\n    drill 7.2 to 14\n"));
    assert!(!written.contains("assumed"), "{written}");
    let inches = format!(
        "dimensions in inches\n{}",
        plug.replace("rod 18", "rod 0.7")
    );
    let inches = inches
        .replace("length 20", "length 0.8")
        .replace("dia 15", "dia 0.6");
    let inches = own(&inches.replace("M8x0.75 inside to 9", "5/16-32 inside to 0.35"));
    assert!(
        inches.contains("| assumed | a tap drill ") && !inches.contains("a tap drill ⌀"),
        "by its name: {inches}"
    );
    let part = own(&plug.replace('|', "").replace("part plug", "part pl|ug"));
    assert!(part.contains("| may weigh | "), "{part}");
}
