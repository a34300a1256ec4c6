//! What the first page says: figures, parts, what was asked.

use super::content::{PartEntry, PenFigures};
use super::row_words::dia_of;
use crate::draw::Look;
use quillet_geometry::Length;
use quillet_model::{BlankPiece, Configured, Part, Pen, Units};
use quillet_plan::Plan;
use quillet_syntax::ast::StockSection;

/// What is not known.
pub(super) const UNKNOWN: &str = "–";

/// From where a pen in its stand balances.
pub(super) const FROM_THE_TOP: &str = "the top";

/// Each state that the pen has.
pub(super) fn figures(pen: &Pen, units: Units) -> Vec<PenFigures> {
    let states = [
        (Configured::Capped, "capped", "the crown"),
        (Configured::Uncapped, "to write", "the point"),
        (Configured::Posted, "posted", "the point"),
        (Configured::Retracted, "drawn back", "the point"),
        (Configured::Resting, "in its stand", FROM_THE_TOP),
    ];
    let each = states.into_iter().filter_map(|(configured, state, from)| {
        let it = pen.assembly.configuration(configured)?;
        let long = |mm: Option<f64>| mm.map_or(UNKNOWN.into(), |it| length(units, it));
        let grams = |mass: Option<f64>| mass.map_or(UNKNOWN.into(), |it| format!("{it:.1}"));
        let share = it.balance_share().map(|it| format!("{:.0} %", 100.0 * it));
        Some(PenFigures {
            state: state.into(),
            cells: [
                long(it.length_mm),
                grams(it.filled.map(|it| it.mass_g)),
                grams(it.dry.map(|it| it.mass_g)),
                long(it.filled.map(|it| it.centre_mm)),
                share.unwrap_or(UNKNOWN.into()),
            ],
            balance_mm: it
                .filled
                .filter(|it| it.mass_g > 0.0)
                .map(|it| it.centre_mm),
            from: from.into(),
        })
    });
    each.collect()
}

/// A length to a tenth of a millimetre.
pub(super) fn length(units: Units, mm: f64) -> String {
    match units {
        Units::Millimetres => format!("{mm:.1}"),
        Units::Inches => format!("{:.2}", mm / 25.4),
    }
}

/// The parts: those that are made in that order, then those that are bought.
pub(super) fn listed(
    pen: &Pen,
    plan: &Plan,
    section: Option<&Look>,
    units: Units,
) -> Vec<PartEntry> {
    let number = |name: &str| {
        let shown = section.map(|it| it.parts.as_slice()).unwrap_or_default();
        let at = shown.iter().position(|(id, _)| {
            pen.parts
                .get(*id)
                .is_some_and(|part| &*part.name.text == name)
        });
        at.map_or(0, |it| it + 1)
    };
    let made = plan
        .routes
        .iter()
        .enumerate()
        .map(|(index, route)| PartEntry {
            number: number(&route.part.name.text),
            name: route.part.name.text.to_string(),
            stock: stock(&route.part, units),
            mass: mass(&route.part),
            made: Some(index),
        });
    let others = pen.parts.iter().filter(|part| {
        plan.routes
            .iter()
            .all(|it| it.part.name.text != part.name.text)
    });
    let bought = others.map(|part| PartEntry {
        number: number(&part.name.text),
        name: part
            .title()
            .map_or(&part.name.text, |it| &it.text)
            .to_string(),
        stock: match (part.is_bought(), part.holds_ml()) {
            (true, Some(ml)) => format!("bought, {} ml", crate::write::number(ml, 2)),
            (true, None) => "bought".into(),
            (false, _) => stock(part, units),
        },
        mass: mass(part),
        made: None,
    });
    made.chain(bought).collect()
}

/// What a part is cut from: `Reed ⌀18`.
pub(super) fn stock(part: &Part, units: Units) -> String {
    let mut each: Vec<String> = part.blanks().iter().map(|it| piece(it, units)).collect();
    each.dedup();
    match each.is_empty() {
        true => UNKNOWN.into(),
        false => each.join(" + "),
    }
}

/// One piece's stock.
pub(super) fn piece(piece: &BlankPiece, units: Units) -> String {
    let material = &piece.stock.material;
    let name = material
        .title
        .as_ref()
        .map_or(&material.name, |it| &it.text);
    format!(
        "{name} {}",
        section(piece.stock.section, piece.stock.size, units)
    )
}

/// `⌀18`, `□20`.
pub(super) fn section(section: StockSection, size: Length, units: Units) -> String {
    match section {
        StockSection::Rod | StockSection::Tube => dia_of(units, size),
        StockSection::Square => format!("□{}", units.plain(size)),
    }
}

/// What a part weighs; never nought where it is not known.
pub(super) fn mass(part: &Part) -> String {
    let known = part.weigh().filter(|_| part.lacks_mass().is_none());
    known.map_or(UNKNOWN.into(), |it| format!("{:.1} g", it.mass_g))
}

/// What is wanted, in a maker's words: `Capped length at most 145`, from what is measured as written and
/// what is wanted of it.
pub(super) fn asks(part: Option<&str>, measured: &str, wanted: &str) -> String {
    if measured == "turns" {
        let words = format!("comes off in {wanted} turns");
        return match part {
            Some(part) => format!("{}: {words}", crate::sheet::words::capital(part)),
            None => crate::sheet::words::capital(&words),
        };
    }
    let one = |it: &str| -> Option<String> {
        let simple = |it: &str| it.chars().all(|c| c.is_alphanumeric() || "-. ".contains(c));
        let Some((what, rest)) = it.trim().split_once('(') else {
            return simple(it).then(|| it.trim().to_owned());
        };
        let of = rest.trim().strip_suffix(')')?;
        let each: Vec<&str> = of.split(',').map(str::trim).collect();
        let called = match what {
            "clearance" => Some("room"),
            "distance" => Some("distance"),
            _ => None,
        };
        if let (Some(called), [one, other, states @ ..]) = (called, each.as_slice())
            && simple(one)
            && simple(other)
        {
            let states: String = states.iter().map(|it| format!(", {}", state(it))).collect();
            return Some(format!("{called} from {one} to {other}{states},"));
        }
        match of.split_once(',') {
            Some((of, at)) if simple(what) && simple(of) && simple(at) => {
                Some(format!("{what} of the {} at {},", of.trim(), at.trim()))
            }
            _ => (simple(what) && simple(of)).then(|| format!("{what} {}", state(of))),
        }
    };
    let words = match measured.split_once('/') {
        Some((above, below)) => match (one(above), one(below)) {
            (Some(above), Some(below)) if below.starts_with("length") => {
                Some(format!("{above}, of the length,"))
            }
            _ => None,
        },
        None => one(measured),
    };
    let words = words.unwrap_or_else(|| measured.split_whitespace().collect::<Vec<_>>().join(" "));
    let words = match part {
        Some(part) => format!("{part}: {words}"),
        None => words,
    };
    let mut letters = words.chars();
    let first = letters.next().map(|it| it.to_uppercase().to_string());
    let wanted = match measured.contains('/') {
        true => percent(wanted),
        false => wanted.to_owned(),
    };
    let wanted = signed(&wanted.replace(" mm", "\u{a0}mm").replace(" g", "\u{a0}g"));
    format!("{}{} {wanted}", first.unwrap_or_default(), letters.as_str())
}

/// Bare shares of a text as percents: `0.45 to 0.55` is `45 to 55 %`.
pub(super) fn percent(words: &str) -> String {
    let each = words.split(' ').map(|word| match word.parse::<f64>() {
        Ok(share) if share.abs() < 10.0 => crate::write::number(100.0 * share, 1),
        _ => word.to_owned(),
    });
    format!("{}\u{a0}%", each.collect::<Vec<_>>().join(" "))
}

/// Figures below nothing with the sign of their own.
pub(super) fn signed(words: &str) -> String {
    let each = words.split(' ').map(|word| match word.strip_prefix('-') {
        Some(figure) if figure.starts_with(|it: char| it.is_ascii_digit()) => format!("−{figure}"),
        _ => word.to_owned(),
    });
    each.collect::<Vec<_>>().join(" ")
}

/// A figure no finer than a hundredth, with what follows it.
pub(super) fn hundredths(words: &str) -> String {
    let (figure, rest) = match words.split_once(' ') {
        Some((figure, rest)) => (figure, format!(" {rest}")),
        None => (words, String::new()),
    };
    let fine = figure.split_once('.').is_some_and(|it| it.1.len() > 2);
    match figure.parse::<f64>() {
        Ok(value) if fine => format!("{}{rest}", crate::write::number(value, 2)),
        _ => words.to_owned(),
    }
}

/// A configuration in a maker's words; what is none, as it stands.
fn state(it: &str) -> &str {
    match it {
        "uncapped" => "to write",
        "retracted" => "drawn back",
        "resting" => "in its stand",
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_asked_reads_as_a_maker_says_it() {
        assert_eq!(
            asks(None, "length(capped)", "at most 145 mm"),
            "Length capped at most 145\u{a0}mm"
        );
        assert_eq!(
            asks(
                None,
                "balance(uncapped) / length(uncapped)",
                "within 0.45 to 0.55"
            ),
            "Balance to write, of the length, within 45 to 55\u{a0}%"
        );
        assert_eq!(
            asks(Some("cap"), "turns", "1 to 2"),
            "Cap: comes off in 1 to 2 turns"
        );
        assert_eq!(
            asks(None, "turns", "0.75 to 2"),
            "Comes off in 0.75 to 2 turns"
        );
        assert_eq!(
            asks(None, "length(resting)", "at most 190 mm"),
            "Length in its stand at most 190\u{a0}mm"
        );
        assert_eq!(
            asks(
                None,
                "clearance(nib-unit, stand, resting)",
                "at least 0.3 mm"
            ),
            "Room from nib-unit to stand, in its stand, at least 0.3\u{a0}mm"
        );
        assert_eq!(
            asks(
                None,
                "distance(refill.point, front.tip, retracted)",
                "at most -1 mm"
            ),
            "Distance from refill.point to front.tip, drawn back, at most −1\u{a0}mm"
        );
        assert_eq!(asks(None, "a + b(c", "1"), "A + b(c 1");
        assert_eq!(
            asks(None, "diameter(section, 12)", "8.5 to 9.5"),
            "Diameter of the section at 12, 8.5 to 9.5"
        );
    }
}
