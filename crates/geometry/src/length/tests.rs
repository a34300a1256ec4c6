use super::*;
use proptest::prelude::*;

#[test]
fn inches_and_their_fractions_are_exact() {
    assert_eq!(
        Length::from_inches_ratio(1, 1),
        Some(Length::from_nm(25_400_000))
    );
    assert_eq!(
        Length::from_inches_ratio(1, 64),
        Some(Length::from_nm(396_875))
    );
    assert_eq!(Length::from_inches_ratio(13, 8), Length::parse_mm("41.275"));
    assert_eq!(Length::from_inches_ratio(1, 0), None);
    assert_eq!(Length::from_inches_ratio(i64::MAX, 1), None);
    assert_eq!(Length::parse_inches("0.25"), Length::parse_mm("6.35"));
}

#[test]
fn fractional_drills_of_the_published_table_are_exact() {
    for row in quillet_reference::rows("drills_inch.csv") {
        let Some((num, den)) = row.text("name").split_once('/') else {
            continue;
        };
        let (num, den) = (
            num.parse().unwrap(),
            den.trim_end_matches("in").parse().unwrap(),
        );
        let length = Length::from_inches_ratio(num, den).unwrap();
        assert!(
            (length.to_mm() - row.number("mm")).abs() < 5e-5,
            "{row}: {length}"
        );
        assert_eq!(length.nearest_64th().length(), length, "{row}");
    }
}

#[test]
fn shown_as_a_maker_would_write_it() {
    assert_eq!(Length::mm(12.2).to_string(), "12.2 mm");
    assert_eq!(Length::mm(12.0).to_string(), "12 mm");
    assert_eq!(Length::mm(-0.0004).to_string(), "0 mm");
    assert_eq!(Length::mm(-0.0006).to_string(), "-0.001 mm");
    assert_eq!(Length::mm(0.9996).to_string(), "1 mm");
    assert_eq!(format!("{:.1}", Length::mm(12.26)), "12.3 mm");
    assert_eq!(Length::from_nm(396_875).exact_mm_text(), "0.396875");
    assert_eq!(Length::mm(12.2).inch_text(4), "0.4803");
    assert_eq!(Length::mm(41.275).nearest_64th().to_string(), "1-5/8in");
    assert_eq!(Length::mm(12.2).nearest_64th().to_string(), "31/64in");
    assert_eq!(Length::mm(-50.8).nearest_64th().to_string(), "-2in");
}

#[test]
fn absurd_sizes_saturate() {
    assert_eq!(Length::mm(1e300), Length::MAX);
    assert_eq!(Length::MAX + Length::mm(1.0), Length::MAX);
    assert_eq!(Length::MAX.checked_add(Length::mm(1.0)), None);
    assert_eq!(Length::mm(1.0) / 0, Length::ZERO);
    assert_eq!(Length::mm(1e9).to_string(), "1000000000 mm");
    assert_eq!(Length::parse_mm("99999999999999999999"), None);
}

proptest! {
    #[test]
    fn an_exact_text_reads_back(nm in any::<i64>()) {
        let length = Length::from_nm(nm);
        prop_assert_eq!(Length::parse_mm(&length.exact_mm_text()), Some(length));
    }

    #[test]
    fn any_text_is_read_or_refused(text in "[-0-9.]{0,24}") {
        if let Some(length) = Length::parse_mm(&text) {
            let wanted: f64 = text.parse().unwrap();
            prop_assert!((length.to_mm() - wanted).abs() <= 5.1e-7 + wanted.abs() * 1e-15);
        }
    }
}
