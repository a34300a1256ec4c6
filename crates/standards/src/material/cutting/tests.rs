use super::*;
use std::collections::{BTreeMap, BTreeSet};

/// The group that carries a material of the reference table; polystyrene and styrenes are not
/// carried, and nylon turned at high speed and acetal and ABS turned with carbide are other
/// processes than those carried.
fn group(material: &str, operation: &str, tool: &str) -> Option<&'static str> {
    let carbide = tool == "carbide";
    Some(match (material, operation) {
        ("brass" | "brass and bronze, ordinary" | "brass CuZn39Pb3", _) => "brass",
        ("bronze, high tensile", _) => "bronze",
        ("copper", _) => "copper",
        ("aluminium" | "aluminium alloys" | "aluminium 6061", _) => "aluminium",
        ("stainless steel", _) => "stainless-steel",
        ("low carbon steel", _) => "steel",
        ("plastics (thermosetting, bakelite type)", _) => "phenolic",
        ("thermosetting plastics, soft grades", _) => "phenolic",
        ("any (lower end for hard materials)", _) => "any",
        ("nylon, acetal, polycarbonate", _) => "acetal",
        ("nylon", "drilling") => "nylon",
        ("PTFE", _) => "ptfe",
        ("wood" | "hardwood", _) => "hardwood",
        ("cast acrylic (PMMA)", _) => "acrylic",
        ("polyester / urethane casting resin", _) => "casting-resin",
        ("ebonite (hard rubber)", _) => "ebonite",
        ("celluloid / cellulose acetate", _) => "celluloid",
        ("POM (acetal)", _) if !carbide => "acetal",
        ("titanium grade 5", _) => "titanium",
        ("sterling silver", _) => "silver",
        _ => return None,
    })
}

/// No row goes faster or feeds harder than the fastest source for it. Going less than half
/// as fast is for hands: such a row says that it is practice.
#[test]
fn no_speed_or_feed_goes_beyond_the_handbooks() {
    /// The speeds and the feeds of the sources, lowest and highest of each.
    type Sources = [Vec<(f64, f64)>; 2];
    let mut fastest: BTreeMap<(String, String), Sources> = BTreeMap::new();
    for row in quillet_reference::rows("machining.csv") {
        let operation = row.text("operation");
        let Some(group) = group(row.text("material"), operation, row.text("tool")) else {
            continue;
        };
        let size = row.optional("dia_high_mm").filter(|_| group == "any");
        let key = size.map_or(group.to_owned(), |size| format!("any {size}"));
        let known = fastest.entry((key, operation.to_owned())).or_default();
        for (at, [low, high]) in [
            ["speed_low_m_min", "speed_high_m_min"],
            ["feed_low_mm_rev", "feed_high_mm_rev"],
        ]
        .into_iter()
        .enumerate()
        {
            if let (Some(low), Some(high)) = (row.optional(low), row.optional(high)) {
                known[at].push((low, high));
            }
        }
    }
    assert!(fastest.len() > 20, "{} carried", fastest.len());
    for ((group, operation), sources) in &fastest {
        let found = match group.strip_prefix("any ") {
            Some(size) => feed_for_drill(Length::mm(size.parse().unwrap())).unwrap(),
            None if operation == "turning" => of_group(group, Operation::Turning).unwrap(),
            None => of_group(group, Operation::Drilling).unwrap(),
        };
        let ours = [found.speed_m_min(), found.feed_mm_rev()];
        for (sources, ours) in sources.iter().zip(ours) {
            let (Some(ours), false) = (ours, sources.is_empty()) else {
                continue;
            };
            let low = sources.iter().map(|it| it.0).fold(f64::INFINITY, f64::min);
            let high = sources.iter().map(|it| it.1).fold(0.0, f64::max);
            assert!(ours.high <= high, "{group} {operation}: {ours:?} of {high}");
            let by_hand = found.source.contains("practice");
            assert!(
                ours.low >= low / 2.0 || by_hand,
                "{group} {operation}: {ours:?} of {low}"
            );
        }
    }
}

/// A wood lathe turns a blank of 12 mm at 3500 rev/min at most, not at the 11 940 that a bowl's
/// rim speed would be; nothing is drilled beyond 3000, however thin the drill.
#[test]
fn small_work_is_turned_no_faster_than_practice_goes() {
    let at = |group, operation, mm| {
        let found = of_group(group, operation).unwrap();
        let range = found.spindle_rev_min(Length::mm(mm)).unwrap();
        (range.low.round(), range.high.round())
    };
    assert_eq!(at("hardwood", Operation::Turning, 12.0), (1592.0, 3500.0));
    assert_eq!(at("hardwood", Operation::Turning, 20.0), (955.0, 2865.0));
    for row in ROWS.iter().filter(|row| row.group != "any") {
        let fastest = row.spindle_rev_min(Length::mm(2.0)).unwrap().high;
        assert!(fastest <= 3500.0, "{} {:?}", row.group, row.operation);
        if row.operation == Operation::Drilling {
            let speed = row.speed_m_min().unwrap();
            assert!(fastest <= 3000.0 && speed.high <= 75.0, "{}", row.group);
        }
    }
}

#[test]
fn rows_are_unique_and_sourced() {
    let mut seen = BTreeSet::new();
    for row in ROWS.iter() {
        let from = row.dia_low_mm.filter(|_| row.group == "any");
        let key = (&row.group, row.operation, from.map(f64::to_bits));
        assert!(seen.insert(key), "{} twice", row.group);
        assert!(!row.source.is_empty(), "{}", row.group);
        for range in [row.speed_m_min(), row.feed_mm_rev()].into_iter().flatten() {
            assert!(0.0 < range.low && range.low <= range.high, "{}", row.group);
        }
    }
}

/// The two numbers before a unit, as in `30-40 ft/min`, and where in the text they begin.
fn figures<'t>(text: &'t str, unit: &str) -> Vec<(f64, f64, &'t str)> {
    let found = text.match_indices(unit);
    let range = found.filter_map(|(at, _)| {
        let before = text[..at].trim_end();
        let is_figure = |c: char| c.is_ascii_digit() || "-.".contains(c);
        let start = before.trim_end_matches(is_figure).len();
        let (low, high) = before[start..].split_once('-')?;
        Some((low.parse().ok()?, high.parse().ok()?, &text[..start]))
    });
    range.collect()
}

/// Where a note gives figures in a handbook's units they are the row's own; where a source does, the
/// same stand before them in m/min. 1 ft is 0.3048 m, 1 in 25.4 mm, exactly.
#[test]
fn notes_and_sources_say_the_numbers_of_their_rows() {
    let mut compared = 0;
    for row in ROWS.iter() {
        let told = |unit, per: f64, own: Option<Range>, near: f64| {
            let figures = figures(&row.note, unit);
            for (low, high, _) in &figures {
                let own = own.unwrap();
                let apart = (low * per - own.low)
                    .abs()
                    .max((high * per - own.high).abs());
                assert!(
                    apart <= near,
                    "{} {:?}: {}",
                    row.group,
                    row.operation,
                    row.note
                );
            }
            figures.len()
        };
        compared += told(" ft/min", 0.3048, row.speed_m_min(), 0.06);
        compared += told(" m/s", 60.0, row.speed_m_min(), 0.06);
        compared += told(" in/rev", 25.4, row.feed_mm_rev(), 0.0006);
        for (unit, per) in [(" ft/min", 0.3048), (" m/s", 60.0)] {
            for (_, high, before) in figures(&row.source, unit) {
                let whole = format!(" {:.0}", high * per);
                let after =
                    row.source.contains(&format!("{whole} ")) || row.source.ends_with(&whole);
                assert!(
                    before.contains(&whole) || after,
                    "{}: {}",
                    row.group,
                    row.source
                );
                compared += 1;
            }
        }
    }
    assert!(compared >= 12, "{compared} compared");
}

/// The check value that the reference's note gives: 60 m/min on 12 mm is 1592 rev/min.
#[test]
fn spindle_speed_of_the_handbooks_example() {
    assert_eq!(spindle_speed(60.0, Length::mm(12.0)).round(), 1592.0);
    assert_eq!(feed_for_drill(Length::mm(0.2)), None);
}

/// How far two ranges lie apart: less than nothing where they share something.
fn apart(one: Range, other: Range) -> f64 {
    (one.low - other.high).max(other.low - one.high)
}

/// Every row that is turned or drilled has a second source that it comes within a tenth of, or is
/// slower than; or it says that there is none: a handbook that stands alone says its own name.
#[test]
fn every_speed_is_held_against_a_second_source() {
    let (mut held, mut alone) = (0, Vec::new());
    for row in ROWS.iter().filter(|row| row.group != "any") {
        let own = row.speed_m_min().unwrap();
        match row.second() {
            Some((second, source)) => {
                let slower = own.high < second.low && !row.source.contains("from memory");
                let near = apart(own, second) <= own.high / 10.0;
                assert!(near || slower, "{} {own:?}: {second:?}", row.group);
                assert_ne!(source.text(), row.source);
                held += 1;
            }
            None => {
                let said = ["from memory", "no published source"];
                let says = said.iter().any(|it| row.source.contains(it));
                assert!(says, "{} {:?}: {}", row.group, row.operation, row.source);
                assert!(row.second_source.is_empty(), "{}", row.group);
                alone.push((row.group.as_str(), row.operation));
            }
        }
    }
    assert_eq!(held + alone.len(), 40);
    assert_eq!(alone.len(), 6, "{alone:?}");
    // Copper turned at 45 to 90 m/min, as the table had it, was half as fast again as the 30 of its
    // second source.
    let (low, high) = (45.0, 90.0);
    let copper = of_group("copper", Operation::Turning).unwrap();
    assert!(apart(Range { low, high }, copper.second().unwrap().0) > 9.0);
}

/// A second source's own figures, in feet or turns a minute, are the numbers beside it: 1 ft is
/// 0.3048 m, exactly; what turns n times a minute on a diameter d goes at pi d n.
#[test]
fn second_sources_say_the_numbers_beside_them() {
    let mut compared = 0;
    for (second, source) in ROWS.iter().filter_map(Cutting::second) {
        let per = [
            (" ft/min", 0.3048),
            (" rev/min on 12.5 mm", PI * 12.5 / 1000.0),
        ];
        for (unit, per) in per {
            for (low, high, _) in figures(source.text(), unit) {
                assert!((low * per - second.low).abs() < 0.06, "{source:?}");
                assert!((high * per - second.high).abs() < 0.06, "{source:?}");
                compared += 1;
            }
        }
    }
    assert!(compared >= 24, "{compared} compared");
}
