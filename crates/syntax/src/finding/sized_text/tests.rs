use super::*;

fn shown(size: fn(Length) -> Size, mm: f64) -> [String; 2] {
    let text = SizedText::from(size(Length::mm(mm)));
    [Units::Millimetres, Units::Inches].map(|units| text.clone().in_units(units).to_string())
}

#[test]
fn a_size_is_shown_in_the_units_asked_for() {
    assert_eq!(shown(Size::Short, 9.525), ["9.525 mm", "0.375 in"]);
    let rounded = |length| Size::Rounded(length, 1);
    assert_eq!(shown(rounded, 1.53), ["1.5 mm", "0.060 in"]);
    assert_eq!(shown(rounded, 0.002), ["0.002 mm", "0.0001 in"]);
    assert_eq!(shown(rounded, 0.000_018), ["0.00002 mm", "0.000001 in"]);
    assert_eq!(shown(rounded, 0.0), ["0.0 mm", "0.000 in"]);
    assert_eq!(shown(Size::Diameter, 11.1125), ["⌀11.11", "⌀0.4375"]);
    assert_eq!(shown(Size::Written, 9.128_125), ["9.128125", "23/64"]);
    assert_eq!(shown(Size::Drill, 6.5278), ["6.5278", "letter F"]);
}

/// Half a micrometre, a ten-millionth of an inch, a nanometre: what is and what is wanted.
#[test]
fn two_sizes_that_differ_never_read_alike() {
    let told = |is: f64, wanted: f64| {
        let text = text!(
            "{} bears; {} is wanted; beside {}",
            Length::mm(is),
            Size::Rounded(Length::mm(wanted), 2),
            Size::Diameter(Length::mm(wanted))
        );
        [Units::Millimetres, Units::Inches].map(|it| text.clone().in_units(it).to_string())
    };
    let [mm, inches] = told(0.2995, 0.3);
    assert_eq!(mm, "0.2995 mm bears; 0.3000 mm is wanted; beside ⌀0.3000");
    let apart = "0.01179 in bears; 0.01181 in is wanted; beside ⌀0.01181";
    assert_eq!(inches, apart);
    let [mm, inches] = told(0.299_999, 0.3);
    let apart = "0.299999 mm bears; 0.300000 mm is wanted; beside ⌀0.300000";
    assert_eq!(mm, apart);
    let apart = "0.0118110 in bears; 0.0118110 in is wanted; beside ⌀0.0118110";
    assert_ne!(inches, apart);
    let [mm, _] = told(0.3, 0.3);
    assert_eq!(mm, "0.3 mm bears; 0.30 mm is wanted; beside ⌀0.30");
}

#[test]
fn sizes_stay_sizes_in_what_is_put_together() {
    let inner = text!("the bore ({})", Length::mm(25.4));
    let text = text!("{} and {}", inner, Length::mm(12.7)).then("; both");
    assert_eq!(text, "the bore (25.4 mm) and 12.7 mm; both");
    let text = SizedText::joined([text, "in words".into()], " | ");
    let inches = "the bore (1 in) and 0.5 in; both | in words";
    assert_eq!(text.in_units(Units::Inches), inches);
}
