use super::*;
use std::collections::BTreeSet;

fn size(text: &str) -> Result<Length, DrillSizeError> {
    text.parse().map(|DrillSize(size)| size)
}

#[test]
fn inch_drills_are_those_of_the_standard() {
    for row in quillet_reference::rows("drills_inch.csv") {
        let name = match row.text("series") {
            "letter" => format!("letter {}", row.text("name")),
            "fraction" => format!("{}in", row.text("name").trim_end_matches("in").trim()),
            _ => row.text("name").to_owned(),
        };
        let found = size(&name).unwrap();
        assert!(
            (found.to_mm() - row.number("mm")).abs() < 5.1e-6,
            "{row}: {found}"
        );
        assert!(
            (found.to_inches() - row.number("inch")).abs() < 5.1e-7,
            "{row}: {found}"
        );
        let series = DrillSeries::ALL
            .into_iter()
            .find(|series| series.word() == row.text("series"))
            .unwrap();
        assert_eq!(neighbours(found, &[series]).exact.len(), 1, "{row}");
    }
}

#[test]
fn metric_drills_and_their_flutes_are_those_of_the_standard() {
    for row in quillet_reference::rows("drills_metric.csv") {
        let diameter = Length::parse_mm(row.text("diameter_mm")).unwrap();
        let drill = neighbours(diameter, &[DrillSeries::Metric]).exact[0];
        assert_eq!(
            drill.flute().unwrap().to_mm(),
            row.number("flute_mm"),
            "{row}"
        );
        assert_eq!(
            drill.overall().unwrap().to_mm(),
            row.number("overall_mm"),
            "{row}"
        );
        assert_eq!(jobber(diameter), Some(drill), "{row}");
        assert!(
            (diameter.to_inches() - row.number("inch")).abs() <= 5.1e-5,
            "{row}"
        );
    }
}

#[test]
fn names_are_unique_and_sizes_in_order() {
    let names: BTreeSet<_> = all().iter().map(|drill| &drill.name).collect();
    assert_eq!(names.len(), all().len());
    for series in DrillSeries::ALL {
        let sizes: Vec<_> = all()
            .iter()
            .filter(|drill| drill.series == series)
            .map(Drill::diameter)
            .collect();
        assert!(sizes.windows(2).all(|pair| pair[0] < pair[1]), "{series:?}");
    }
}

#[test]
fn the_drills_either_side_of_a_diameter() {
    let near = neighbours(Length::mm(11.25), &DrillSeries::ALL);
    assert_eq!(near.below.unwrap().to_string(), "11.2 mm");
    assert_eq!(near.above.unwrap().to_string(), "11.3 mm");
    assert!(near.exact.is_empty());
    let inch = neighbours(Length::mm(11.2), &DrillSeries::INCH);
    assert_eq!(inch.below.unwrap().to_string(), "7/16 in");
    assert_eq!(inch.above.unwrap().to_string(), "29/64 in");
    assert_eq!(neighbours(Length::mm(0.1), &DrillSeries::ALL).below, None);
    assert_eq!(neighbours(Length::mm(30.0), &DrillSeries::ALL).above, None);
    let quarter = neighbours(Length::mm(6.35), &DrillSeries::ALL).exact;
    let names: Vec<_> = quarter.iter().map(|drill| drill.to_string()).collect();
    assert_eq!(names, ["letter E", "1/4 in"]);
    assert_eq!(
        nearest(Length::mm(5.08), &DrillSeries::INCH)
            .unwrap()
            .to_string(),
        "#7"
    );
}

/// r / tan(59°), as the reference's oracle states drill points.
#[test]
fn a_point_of_118_degrees() {
    let point = point_length(Length::mm(8.0), Angle::deg(118.0));
    assert!((point.to_mm() - 4.0 / 59f64.to_radians().tan()).abs() < 1e-6);
    assert_eq!(
        point_length(Length::mm(8.0), Angle::deg(180.0)),
        Length::ZERO
    );
    assert_eq!(point_length(Length::mm(8.0), Angle::ZERO), Length::ZERO);
}

#[test]
fn sizes_read_as_makers_write_them() {
    for (text, mm) in [
        ("11.2", 11.2),
        ("11.2 mm", 11.2),
        ("7/16in", 11.1125),
        ("1-1/8in", 28.575),
        ("0.25in", 6.35),
        ("#7", 5.1054),
        ("letter F", 6.5278),
        ("letter f", 6.5278),
        ("F", 6.5278),
        ("f", 6.5278),
        ("9,3", 9.3),
    ] {
        assert_eq!(size(text), Ok(Length::mm(mm)), "{text}");
    }
    for text in [
        "",
        "#81",
        "#",
        "letter",
        "letter AA",
        "FF",
        "9,3,1",
        "-3",
        "0",
        "7/0in",
        "big",
        "5e3",
    ] {
        let fault = size(text).unwrap_err();
        assert!(fault.to_string().contains("expected millimetres"), "{text}");
    }
}
