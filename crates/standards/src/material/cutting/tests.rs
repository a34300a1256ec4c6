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
