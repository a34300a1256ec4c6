//! What differs, row by row, in a maker's words.

use quillet_compare::{
    Change, FindingChange, FindingState, MeasureChange, MeasureKind, OutlineChange, PenChange,
    PenState,
};
use quillet_geometry::Length;
use quillet_model::Units;
use quillet_syntax::{Encoding, LineIndex};
use std::collections::BTreeSet;

/// What a row is of, and its lines.
pub(super) type Row = (String, Vec<String>);

/// What has become of a pen: `changed`, `the same`.
pub(super) fn state(pen: &PenChange) -> String {
    let word = match pen.state {
        PenState::Written if pen.changes.is_empty() => "the same, written differently",
        PenState::Same | PenState::Written => "the same",
        PenState::Changed => "changed",
        PenState::Gone => "gone",
        PenState::Come => "new",
    };
    if let Some(other) = &pen.against {
        return match pen.state {
            PenState::Changed => format!("differs from {other}"),
            _ => format!("the same as {other}"),
        };
    }
    match (&pen.from, pen.state) {
        (Some(from), PenState::Same | PenState::Written) => format!("renamed, was {from}"),
        (Some(from), _) => format!("{word}, was {from}"),
        (None, _) => word.to_owned(),
    }
}

/// Whether there is nothing to say of a pen by itself.
pub(super) fn is_plain(pen: &PenChange) -> bool {
    let written = pen.state == PenState::Written && !pen.changes.is_empty();
    let alone = pen.from.is_none() && pen.against.is_none();
    alone && (pen.state == PenState::Same || written)
}

/// The parts that a change touches.
pub(super) fn touched(pen: &PenChange) -> Vec<String> {
    let mut known = BTreeSet::new();
    let written = pen
        .changes
        .iter()
        .filter_map(|it| it.item.strip_prefix("part "));
    let shaped = pen.outlines.iter().map(|it| it.part.as_str());
    let all = shaped
        .chain(written)
        .filter(|it| known.insert(it.to_owned()));
    all.map(str::to_owned).collect()
}

/// What is written otherwise, a row an item and block.
pub(super) fn written(changes: &[Change]) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    for change in changes {
        let item = change
            .item
            .strip_prefix("part ")
            .filter(|_| !change.block.is_empty());
        let item = item.unwrap_or(&change.item);
        let label = match change.block.as_str() {
            "" => item.to_owned(),
            block => format!("{item} {block}"),
        };
        match rows.last_mut().filter(|it| it.0 == label) {
            Some(row) => row.1.push(change.diff.clone()),
            None => rows.push((label, vec![change.diff.clone()])),
        }
    }
    rows
}

/// What that does to a pen, a row a thing.
pub(super) fn effects(pen: &PenChange) -> Vec<Row> {
    let units = pen.units;
    let mut rows: Vec<Row> = Vec::new();
    for it in &pen.outlines {
        let label = format!("{}'s {}", it.part, it.side.word());
        rows.push((label, vec![outline(it, units)]));
    }
    for it in &pen.measures {
        let (label, text) = (it.kind.word(), measure(it, units));
        let together = matches!(
            it.kind,
            MeasureKind::Length | MeasureKind::Mass | MeasureKind::Balance
        );
        match rows.iter_mut().find(|row| row.0 == label) {
            Some(row) if together => {
                row.1[0] += &format!(", {text}");
            }
            Some(row) => row.1.push(text),
            None => rows.push((label.to_owned(), vec![text])),
        }
    }
    rows
}

/// `most -0.40 mm at 22.0; grown 0.19 mm at 17.3`
pub(super) fn outline(it: &OutlineChange, units: Units) -> String {
    let size = |mm: f64| {
        let sign = if mm < 0.0 { "-" } else { "+" };
        format!("{sign}{}", units.length(Length::mm(mm.abs())))
    };
    let at = |mm: f64| match units {
        Units::Millimetres => format!("{mm:.1}"),
        Units::Inches => units.number(Length::mm(mm)),
    };
    let most = |(mm, z): (f64, f64)| format!("most {} at {}", size(mm), at(z));
    let other = |word: &str, (mm, z): (f64, f64)| {
        format!("{word} {} at {}", units.length(Length::mm(mm.abs())), at(z))
    };
    match (it.grown, it.shrunk) {
        (Some(grown), Some(shrunk)) if grown.0 >= -shrunk.0 => {
            format!("{}; {}", most(grown), other("shrunk", shrunk))
        }
        (Some(grown), Some(shrunk)) => format!("{}; {}", most(shrunk), other("grown", grown)),
        (Some(only), None) | (None, Some(only)) => most(only),
        (None, None) => String::new(),
    }
}

/// `capped 21.68 -> 21.69 g`
pub(super) fn measure(it: &MeasureChange, units: Units) -> String {
    let of = it.of.clone().in_units(units).to_string();
    let (values, unit) = values(it, units);
    let [was, is] = values;
    let text = match (it.old, it.new) {
        // What is not known has no unit.
        (Some(_), None) => format!("{of} {was} {unit}").trim_end().to_owned() + " -> " + &is,
        _ => format!("{of} {was} -> {is} {unit}"),
    };
    let text = text.trim().to_owned();
    match it.way {
        "" => text,
        way => format!("{text} {way}"),
    }
}

/// Both values in as few figures as keep them apart, at least two decimals, and their unit.
pub(super) fn values(it: &MeasureChange, units: Units) -> ([String; 2], &'static str) {
    let both = [it.old, it.new];
    if it.kind == MeasureKind::Want {
        let word = |it: Option<f64>| match it {
            Some(met) if met > 0.5 => "met",
            Some(_) => "not met",
            None => "not known",
        };
        return (both.map(|it| word(it).to_owned()), "");
    }
    let is_length = it.kind.unit() == Some("mm");
    let unit = match is_length {
        true => units.suffix(),
        false => it.kind.unit().unwrap_or(""),
    };
    let least = if is_length && units == Units::Inches {
        4
    } else {
        2
    };
    let scale = if is_length && units == Units::Inches {
        25.4
    } else {
        1.0
    };
    let shown = |value: Option<f64>, places: usize| {
        value.map_or("not known".to_owned(), |it| {
            format!("{:.places$}", it / scale + 0.0)
        })
    };
    let mut figures = (least..=6).map(|places| both.map(|it| shown(it, places)));
    let apart = figures.clone().find(|it| it[0] != it[1]);
    let apart = apart.or_else(|| figures.next_back());
    (apart.unwrap_or_default(), unit)
}

/// `new warning no-room-for-tap  heron.quillet:71: 2.50 mm of hole …`
pub(super) fn finding(it: &FindingChange, pen: Option<&str>) -> String {
    let finding = &it.finding;
    let state = match (it.state, it.was) {
        (FindingState::Graver | FindingState::Milder, Some(was)) => {
            format!("{}, was {}", finding.severity.word(), was.word())
        }
        (state, _) => format!("{} {}", state.word(), finding.severity.word()),
    };
    let words: Vec<&str> = finding.message.split_whitespace().collect();
    let words = words.join(" ");
    let words = pen.map_or(&*words, |pen| own_words(&words, pen, &finding.pens));
    format!("{state} {}  {}: {words}", finding.rule, at(it))
}

/// What a message about several pens, `in heron: …; in heron-ida: …`, says of one.
fn own_words<'w>(words: &'w str, pen: &str, pens: &[String]) -> &'w str {
    let Some((_, own)) = words.split_once(&format!("in {pen}: ")) else {
        return words;
    };
    let others = pens.iter().filter(|it| *it != pen);
    let ends = others.filter_map(|it| own.find(&format!("; in {it}: ")));
    ends.min().map_or(own, |end| &own[..end])
}

/// `heron.quillet:71`
pub(super) fn at(it: &FindingChange) -> String {
    let file = it.files.iter().find(|file| file.id == it.finding.span.file);
    let line = file.map_or(1, |file| {
        let lines = LineIndex::new(file.text.clone());
        lines
            .position(it.finding.span.range().start, Encoding::Utf32)
            .line
            + 1
    });
    format!("{}:{line}", it.place.file)
}

/// `mandrel D: ⌀10.9 -> ⌀10.5`, `cap 13: tap …`
pub(super) fn step(it: &quillet_compare::StepChange) -> String {
    let diff = &it.diff;
    match (it.number, it.group.as_str()) {
        (Some(number), group) => format!("{group} {number}: {diff}"),
        (None, "mandrels") => diff.replace("new: mandrel", "new mandrel"),
        (None, group) => format!("{group}: {diff}"),
    }
}
