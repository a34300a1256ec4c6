use super::*;
use Units::{Inches, Millimetres};

fn inches(num: i64, den: i64) -> Length {
    Length::from_inches_ratio(num, den).unwrap()
}

#[test]
fn lengths_are_told_in_the_units_of_the_file() {
    let tenon = Length::mm(12.2);
    assert_eq!(Millimetres.length(tenon), "12.20 mm");
    assert_eq!(Inches.length(tenon), "0.4803 in");
    assert_eq!(Inches.length(Length::inches(0.358)), "0.358 in");
    assert_eq!(Inches.length(Length::inches(0.3)), "0.300 in");
    assert_eq!(Inches.length(Length::inches(2.0)), "2.000 in");
    assert_eq!(Millimetres.dia(Length::mm(11.0151)), "⌀11.02");
    assert_eq!(Inches.dia(inches(7, 16)), "⌀0.4375");
    assert_eq!(Inches.short(Length::inches(0.3)), "0.3 in");
    assert_eq!(Millimetres.number(Length::mm(-0.004)), "0.00");
}

/// A half is rounded away from zero, not by what a float makes of it: 1.005 is 1.01.
#[test]
fn halves_round_away_from_zero() {
    assert_eq!(Millimetres.number(Length::mm(1.005)), "1.01");
    assert_eq!(Millimetres.number(Length::mm(-1.005)), "-1.01");
    assert_eq!(Millimetres.number(Length::mm(1.004_999)), "1.00");
}

#[test]
fn what_would_look_equal_is_told_one_figure_finer() {
    let limit = Length::mm(0.5);
    assert_eq!(Millimetres.against(Length::mm(0.51), limit), "0.51 mm");
    assert_eq!(Millimetres.against(Length::mm(0.498), limit), "0.498 mm");
    assert_eq!(Millimetres.against(limit, limit), "0.50 mm");
    let limit = Length::inches(0.02);
    assert_eq!(Inches.against(Length::inches(0.01997), limit), "0.01997 in");
    assert_eq!(Inches.against(Length::inches(0.0199), limit), "0.0199 in");
    // 0.07874 in is 4 nm under 2 mm.
    let (lead, room) = (Length::mm(2.0), Length::inches(0.07874));
    assert_eq!(Inches.against(room, lead), "0.0787400 in");
    assert_eq!(Inches.limit(lead, room), "0.0787402 in");
    assert_eq!(Inches.limit(lead, Length::mm(1.9)), "0.0787 in");
    // A drill of 0.31496 in is 16 nm under 8 mm.
    let drill = Length::inches(0.31496);
    let wanted = Length::mm(8.0);
    assert_eq!(Inches.dia_against(drill, wanted), "⌀0.314960");
    assert_eq!(Inches.dia_against(wanted, drill), "⌀0.314961");
    assert_eq!(Millimetres.dia_against(drill, wanted), "⌀7.99998");
    assert_eq!(Millimetres.dia_against(wanted, drill), "⌀8.00000");
}

#[test]
fn sizes_are_written_as_the_file_would_have_them() {
    assert_eq!(Millimetres.written(inches(7, 16)), "11.1125");
    assert_eq!(Inches.written(inches(7, 16)), "7/16");
    assert_eq!(Inches.written(inches(9, 8)), "1 + 1/8");
    assert_eq!(Inches.written(inches(2, 1)), "2");
    assert_eq!(Inches.written(inches(-9, 8)), "-1.125");
    assert_eq!(Inches.written(inches(-1, 8)), "-1/8");
    assert_eq!(Inches.written(Length::inches(0.358)), "0.358");
    assert_eq!(Inches.written(Length::mm(9.1)), "0.35826772");
}

/// ASME B94.11M: 17/64 is no number and no letter, F is 0.257, #7 is 0.201; E and 1/4 are one
/// size.
#[test]
fn inch_drills_go_by_their_names() {
    assert_eq!(Inches.drill(inches(17, 64)), "17/64");
    assert_eq!(Inches.drill(Length::inches(0.257)), "letter F");
    assert_eq!(Inches.drill(Length::inches(0.201)), "#7");
    assert_eq!(Inches.drill(inches(1, 4)), "1/4");
    assert!(Inches.is_drill(inches(17, 64)) && !Millimetres.is_drill(inches(17, 64)));
    assert!(!Inches.is_drill(Length::inches(0.2571)));
    assert_eq!(Inches.drill(Length::inches(0.2571)), "0.2571");
    assert_eq!(Inches.hole(Length::inches(0.2571)), "⌀0.2571");
    assert_eq!(Inches.hole(inches(17, 64)), "17/64");
    assert_eq!(Millimetres.drill(inches(17, 64)), "6.746875");
    assert_eq!(Millimetres.hole(inches(17, 64)), "⌀6.75");
    // Half an inch is 12.7 mm, which is a metric drill as well.
    for (dia, name) in [
        (inches(17, 64), Some("17/64")),
        (inches(1, 2), None),
        (Length::mm(9.3), None),
    ] {
        assert_eq!(Units::inch_drill(dia).as_deref(), name);
    }
}

#[test]
fn proposed_sizes_are_round() {
    assert_eq!(Millimetres.down(Length::mm(9.19)), Length::mm(9.1));
    assert_eq!(Millimetres.up(Length::mm(9.11)), Length::mm(9.2));
    assert_eq!(Millimetres.up(Length::mm(9.1)), Length::mm(9.1));
    assert_eq!(Inches.down(Length::inches(0.3599)), Length::inches(0.355));
    assert_eq!(Inches.up(Length::inches(0.3551)), Length::inches(0.36));
    assert_eq!(Millimetres.fine_down(Length::mm(-0.001)), Length::mm(-0.01));
}
