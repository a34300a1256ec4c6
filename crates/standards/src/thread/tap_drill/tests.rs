use super::*;
use std::collections::BTreeSet;

fn thread(designation: &str) -> ThreadForm {
    designation.parse().unwrap()
}

#[test]
fn listed_drills_are_those_of_iso_2306() {
    for row in quillet_reference::rows("tap_drills.csv") {
        let form = thread(row.text("designation"));
        let found = form.tap_drill();
        assert_eq!(found.diameter.to_mm(), row.number("drill_mm"), "{row}");
        assert_eq!(found.rule, TapDrillRule::Listed, "{row}");
        let plain = form.major() - form.pitch();
        assert_eq!(plain.to_mm(), row.number("d_minus_p_mm"), "{row}");
        let inside = found.window.contains(found.diameter);
        if !row.text("window_6H").is_empty() {
            assert_eq!(inside, row.text("window_6H") == "inside", "{row}");
        }
    }
}

#[test]
fn an_unlisted_thread_takes_major_minus_pitch() {
    let cap = thread("M13x0.8 starts 3").tap_drill();
    assert_eq!(cap.diameter, Length::mm(12.2));
    assert_eq!(cap.rule, TapDrillRule::MajorMinusPitch);
    assert!((cap.percent.of_3h4 - 76.98).abs() < 0.01);
    assert!(cap.source.is_practice());
    // No listed metric size is taken for an inch thread of like diameter.
    let inch = thread("1/4-20UNC").tap_drill();
    assert_eq!(inch.diameter, Length::mm(5.08));
    assert!(inch.window.contains(inch.diameter));
}

#[test]
fn a_close_class_clips_the_hole() {
    let close = thread("M13x0.35-4H").tap_drill();
    assert_eq!(close.rule, TapDrillRule::MajorMinusPitch);
    let finest = thread("M13x0.1-4H").tap_drill();
    assert!(finest.window.contains(finest.diameter));
}

#[test]
fn drills_at_hand_are_ranked_for_the_material() {
    let form = thread("M10x1");
    let tenths = (80..=100).map(|tenth| Length::from_nm(tenth * 100_000));
    let best = |family| form.tap_drill_choices(tenths.clone(), family)[0];
    assert_eq!(best(Some(Family::Resin)).diameter, Length::mm(9.0));
    assert_eq!(best(Some(Family::Metal)).diameter, Length::mm(9.1));
    assert_eq!(best(None).diameter, Length::mm(9.0));
    let all = form.tap_drill_choices(tenths.clone().chain(tenths), Some(Family::Resin));
    let sizes: BTreeSet<_> = all.iter().map(|choice| choice.diameter).collect();
    assert_eq!(sizes.len(), all.len());
    assert!(all.iter().all(|choice| choice.percent.of_3h4 >= 10.0));
    assert!(form.tap_drill_choices([], None).is_empty());
}

/// Handbook tap drills of unified threads (from memory): the number, letter or fraction drill
/// nearest to major minus pitch.
#[test]
fn inch_taps_take_the_drills_of_the_handbooks() {
    for (designation, name) in [
        ("1/4-20UNC", "#7"),
        ("#10-32UNF", "#21"),
        ("5/16-18UNC", "letter F"),
        ("3/8-16UNC", "5/16 in"),
        ("7/16-28UNEF", "letter Y"),
        ("1/2-13UNC", "27/64 in"),
    ] {
        let tap = thread(designation).tap_drill();
        let drill = drill::nearest(tap.diameter, &drill::DrillSeries::INCH).unwrap();
        assert_eq!(drill.to_string(), name, "{designation}");
        assert!(tap.window.contains(drill.diameter()), "{designation}");
    }
}

/// Whatever is assumed for a resin leaves 65 to 78 % of 3H/4, as its own table of practice says,
/// and is a drill that can be bought.
#[test]
fn the_drill_assumed_is_kind_to_the_material() {
    let kind = |designation: &str, family, series: &[DrillSeries]| {
        let (drill, choice) = thread(designation)
            .kind_drill(Some(family), series)
            .unwrap();
        (drill.to_string(), choice.percent.of_3h4.round())
    };
    let metric = [DrillSeries::Metric];
    // 76.98 · (D − d) / P by hand.
    for (designation, name, percent) in [
        ("M10x0.75", "9.3 mm", 72.0),
        ("M11x0.75", "10.3 mm", 72.0),
        ("M13x0.8 starts 3", "12.2 mm", 77.0),
        ("M10x1", "9 mm", 77.0),
        ("M8x1", "7 mm", 77.0),
        ("M7.4x0.5", "6.9 mm", 77.0),
    ] {
        let found = kind(designation, Family::Resin, &metric);
        assert_eq!(found, (name.to_owned(), percent), "{designation}");
    }
    // A tap in metal breaks sooner: 65 to 75 %.
    assert_eq!(
        kind("M10x1", Family::Metal, &metric),
        ("9.1 mm".to_owned(), 69.0)
    );
    // 64.95 / tpi is 3H/4 in inches (ASME B1.1): 7/16-14 in 3/8 leaves 67.4 %.
    let inch = kind("7/16-14UNC", Family::Resin, &DrillSeries::INCH);
    assert_eq!(inch, ("letter U".to_owned(), 75.0));
    assert_eq!(thread("M10x1").kind_drill(None, &[]), None);
    // No drill of the series is as wide.
    assert_eq!(
        thread("M22x1").kind_drill(Some(Family::Resin), &metric),
        None
    );
}

#[test]
fn every_usual_thread_has_a_drill_kind_to_resin() {
    let practice = percent_practice(Family::Resin).unwrap();
    let sizes = Length::mm(5.0)..=Length::mm(20.0);
    for row in ROWS.iter().filter(|row| sizes.contains(&row.form.major())) {
        let (drill, choice) = row
            .form
            .kind_drill(Some(Family::Resin), &[DrillSeries::Metric])
            .unwrap_or_else(|| panic!("{}", row.form));
        let percent = choice.percent.of_3h4.round();
        assert!(
            (practice.kind_low..=practice.kind_high).contains(&percent),
            "{} in {drill}: {percent}",
            row.form
        );
    }
}

#[test]
fn rows_are_unique_and_in_order() {
    for pair in ROWS.windows(2) {
        let key = |row: &TapDrillRow| (row.form.major(), row.form.pitch());
        assert!(key(&pair[0]) < key(&pair[1]));
    }
}
