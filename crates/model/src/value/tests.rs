use super::*;

fn bare(n: i128) -> Quantity {
    Quantity {
        amount: n.into(),
        dimension: Dimension::Bare(Units::Millimetres),
    }
}

#[test]
fn inches_are_exact() {
    // 1 in = 25.4 mm exactly (international inch, 1959).
    let seven = Quantity::written(Ratio::new(7, 16), Some(Unit::In), Units::Millimetres);
    assert_eq!(
        seven.and_then(Quantity::as_length),
        Some(Length::from_nm(11_112_500))
    );
    let whole = Quantity::written(Ratio::new(13, 8), None, Units::Inches);
    assert_eq!(
        whole.and_then(Quantity::as_length),
        Some(Length::from_nm(41_275_000))
    );
}

#[test]
fn a_bare_number_takes_the_unit_beside_it() {
    let length = Quantity::length(Length::mm(3.0));
    let sum = bare(2).combine(Operator::Add, length).unwrap();
    assert_eq!(sum, Quantity::length(Length::mm(5.0)));
    let grams = Quantity::measured(20.0, Dimension::MASS);
    assert_eq!(
        length.combine(Operator::Add, grams),
        Err(DimensionMismatch::Dimensions(
            Dimension::LENGTH,
            Dimension::MASS
        ))
    );
}

#[test]
fn a_length_over_a_length_is_a_ratio() {
    let a = Quantity::length(Length::mm(60.0));
    let b = Quantity::length(Length::mm(120.0));
    let ratio = a.combine(Operator::Divide, b).unwrap();
    assert_eq!(ratio.as_number(), Some(0.5));
    assert_eq!(
        a.combine(Operator::Divide, bare(0)),
        Err(DimensionMismatch::ByZero)
    );
}
