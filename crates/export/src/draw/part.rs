//! The drawing of a part on a sheet of its own.

use super::across::Sections;
use super::column;
use super::figures::LengthFormat;
use super::half::half_section;
use super::paper::{FramedSheet, Paper};
use super::rows::{DimensionRows, HEIGHTS_MM};
use super::thread::any_widened;
use super::title_block::{HEIGHT_MM, TitleBlock, WIDTH_MM};
use super::view::{Half, ViewTransform};
use crate::scene::{Anchor, Scene, Text, Xy};
use quillet_geometry::Bounds;
use quillet_model::{Design, End, Hand, Part, Pen, Profiles, Units};
use quillet_syntax::ast::ToleranceKind;

/// What the title block of a part's drawing says beyond the part itself.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PartTitle {
    /// Legal owner: the bench.
    pub owner: String,
    /// The pen it belongs to.
    pub pen: String,
    /// Sheet number and number of sheets.
    pub sheet: (usize, usize),
    /// How closely the part is made.
    pub hand: Hand,
    /// What its dimensions count.
    pub units: Units,
    /// Lines beside the title block.
    pub notes: Vec<String>,
}

impl PartTitle {
    /// Of a pen, a part, or a part of a pen, at the bench it is made at.
    pub fn of(
        design: &Design,
        (pen, part): (Option<&Pen>, Option<&Part>),
        sheet: (usize, usize),
        units: Units,
    ) -> PartTitle {
        let written = part
            .and_then(|part| part.bench.as_ref())
            .or(pen.and_then(|pen| pen.bench.as_ref()));
        let bench = design.bench(written);
        PartTitle {
            owner: bench.map_or_else(String::new, |bench| bench.title_or_name().to_owned()),
            pen: pen.map_or_else(String::new, |pen| pen.title_or_name().to_owned()),
            sheet,
            hand: Hand::at(bench.map(AsRef::as_ref)),
            units,
            notes: Vec::new(),
        }
    }
}

/// Scales of ISO 5455, largest first.
const SCALES: [f64; 7] = [10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1];

/// Draws a part in half section with running dimensions; none where its shape is not known, or is
/// none.
pub fn part(part: &Part, paper: Paper, title: &PartTitle) -> Option<Scene> {
    let profiles = part.profiles.as_ref().filter(|_| part.shaped)?;
    let name = &part.name.text;
    let figures = LengthFormat(title.units);
    let mut sheet = FramedSheet::new(&format!("{name}, part drawing"), paper, title.units);
    let (low, high) = sheet.room(HEIGHT_MM + 1.0);
    let width = high.x - low.x;
    let (above, below) = (
        column::outside(part, profiles, figures),
        column::inside(part, profiles, figures),
    );
    let radius = widest_mm(profiles);
    let length = part.length.to_mm();
    let sections = Sections::of(part, profiles, radius, figures);
    let sized = |most_mm: f64| {
        let laid_out = |scale: f64| {
            let beside = sections.room_mm(scale);
            let width = width - beside.x;
            let upper = DimensionRows::new(Half::Upper, &above, width, most_mm);
            let lower = DimensionRows::new(Half::Lower, &below, width, most_mm);
            let depth = upper.depth_mm() + lower.depth_mm();
            let fits = length * scale <= width - 44.0
                && beside.y <= high.y - low.y
                && 2.0 * radius * scale + depth <= high.y - low.y;
            (fits, scale, upper, lower)
        };
        let found = SCALES.into_iter().map(laid_out).find(|it| it.0);
        let (_, scale, upper, lower) = found.unwrap_or_else(|| laid_out(SCALES[SCALES.len() - 1]));
        (scale, upper, lower)
    };
    // Smaller figures where they let the part be drawn larger.
    let (large, small) = (sized(HEIGHTS_MM[0]), sized(HEIGHTS_MM[1]));
    let (scale, upper, lower) = if small.0 > large.0 { small } else { large };
    let depth = upper.depth_mm() + lower.depth_mm();
    // What room is left is shared above and below.
    let spare = (high.y - low.y - depth - 2.0 * radius * scale) / 2.0;
    let axis = high.y - spare - upper.depth_mm() - radius * scale;
    let right = high.x - sections.room_mm(scale).x;
    let origin = Xy::new((low.x + right - length * scale) / 2.0, axis);
    let view = ViewTransform::new(origin, scale);
    let scene = &mut sheet.scene;
    scene.scale = scale;
    half_section(scene, view, part, profiles, Half::Lower);
    let ends = [0.0, length];
    upper.draw(scene, view, radius * scale, (low.x, right), ends);
    lower.draw(scene, view, radius * scale, (low.x, right), ends);
    sections.draw(scene, view, low, high);
    datums(scene, view, part);
    let block = title_block(part, scale, title);
    block.draw(&mut sheet, paper);
    notes(&mut sheet, part, scale, title);
    Some(sheet.scene)
}

fn title_block(part: &Part, scale: f64, title: &PartTitle) -> TitleBlock {
    let name = &part.name.text;
    let number = match title.pen.is_empty() {
        true => name.to_string(),
        false => format!("{} / {name}", title.pen),
    };
    TitleBlock {
        owner: title.owner.clone(),
        title: name.to_string(),
        subtitle: title.pen.clone(),
        number,
        kind: "Part drawing".into(),
        scale: scale_text(scale),
        sheet: title.sheet,
    }
}

/// The largest radius, mm.
pub(super) fn widest_mm(profiles: &Profiles) -> f64 {
    let pieces = profiles.crest.outer.segments();
    pieces
        .iter()
        .map(|piece| -> Bounds { piece.curve.bounds() })
        .fold(0.0, |most, box_| box_.max.r.max(most))
}

/// A scale as ISO 5455 writes it.
pub(super) fn scale_text(scale: f64) -> String {
    if scale >= 1.0 {
        format!("{scale}:1")
    } else {
        format!("1:{}", (1.0 / scale).round())
    }
}

/// The names of the ends that all is measured from, beside them.
fn datums(scene: &mut Scene, view: ViewTransform, part: &Part) {
    let name = |letter: &str, end: End| format!("{letter}  {}", part.end_name(end));
    let left = view.axis(0.0).moved(-6.0, 1.2);
    scene.text(Text::new(left, 3.5, name("A", End::First)).anchored(Anchor::End));
    let right = view.axis(part.length.to_mm()).moved(6.0, 1.2);
    scene.text(Text::new(right, 3.5, name("B", End::Second)));
}

/// What sizes without limits of their own may differ by: `ISO 2768-f, depths -m`, or what the bench
/// keeps.
fn general(hand: &Hand, figures: LengthFormat) -> String {
    let stated = |kept: ToleranceKind| hand.stated(kept).map(|within| figures.written(within));
    let drawn = [
        (ToleranceKind::Shoulder, "shoulders"),
        (ToleranceKind::Length, "lengths"),
        (ToleranceKind::Dia, "outside Ø"),
        (ToleranceKind::Bore, "bores"),
    ];
    let mut reported = Vec::new();
    if drawn.iter().any(|(kept, _)| stated(*kept).is_none()) {
        reported.push("ISO 2768-f".to_owned());
    }
    reported.push(match stated(ToleranceKind::Depth) {
        Some(within) => format!("depths ±{within}"),
        None => "depths -m".to_owned(),
    });
    let kept = drawn
        .iter()
        .filter_map(|(kept, what)| Some(format!("{what} ±{}", stated(*kept)?)));
    reported.extend(kept);
    reported.join(", ")
}

/// Material and conventions, left of the title block.
fn notes(sheet: &mut FramedSheet, part: &Part, scale: f64, title: &PartTitle) {
    let (low, high) = sheet.frame;
    let width = high.x - low.x - WIDTH_MM - 5.0;
    let figures = LengthFormat(title.units);
    let unit = title.units.suffix();
    let mut lines: Vec<String> = part
        .blanks()
        .iter()
        .map(|piece| {
            let material = &piece.stock.material;
            let title = material.title_or_name();
            let stock = format!(
                "{title}, {} {unit} stock",
                figures.written(piece.stock.size)
            );
            match piece.spigot {
                Some(spigot) => format!(
                    "{stock}, spigot Ø{} × {}",
                    figures.number(spigot.dia.to_mm()),
                    figures.number(spigot.length.to_mm())
                ),
                None => stock,
            }
        })
        .collect();
    let (unit_words, broken) = match title.units {
        Units::Millimetres => ("millimetres", "0.1 to 0.3"),
        Units::Inches => ("inches", "0.004 to 0.012"),
    };
    lines.push(format!("{unit_words}; A, B: datum faces"));
    lines.push("distances run from A; those marked B from B".into());
    lines.push(format!(
        "general tolerance {}",
        general(&title.hand, figures)
    ));
    lines.push(format!("edges unless said: broken {broken} (ISO 13715)"));
    if any_widened(part, scale) {
        lines.push("thread roots drawn wider than true (ISO 6410-1)".into());
    }
    lines.extend(title.notes.iter().cloned());
    let mut y = low.y + HEIGHT_MM - 3.5;
    for line in lines.iter().flat_map(|line| wrapped(line, width, 2.0)) {
        if y < low.y + 1.0 {
            break;
        }
        sheet
            .scene
            .text(Text::new(Xy::new(low.x + 2.5, y), 2.0, line));
        y -= 3.2;
    }
}

/// Words in lines no wider than this.
pub(super) fn wrapped(words: &str, width_mm: f64, height_mm: f64) -> Vec<String> {
    wrapped_by(words, |line| {
        Text::new(Xy::default(), height_mm, line).width_mm() <= width_mm
    })
}

/// Words in lines that fit; a word too long for any line has one to itself.
pub(crate) fn wrapped_by(words: &str, fits: impl Fn(&str) -> bool) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        let longer = lines.last().map(|line| format!("{line} {word}"));
        match (longer.filter(|line| fits(line)), lines.last_mut()) {
            (Some(longer), Some(last)) => *last = longer,
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}
