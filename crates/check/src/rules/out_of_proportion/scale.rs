//! What a size that is out of proportion may have been meant to say, and where its number stands.

use crate::propose::literal;
use quillet_geometry::Length;
use quillet_model::{Design, Units};
use quillet_syntax::{Edit, Finding, Size, SizedText, Span, text};

/// Where the number of a size is written: at its place, or in a `let` whose name stands there, the
/// file's or a pen's.
pub(super) fn number_of(design: &Design, at: Span, size: Length) -> Span {
    let names = &design.names;
    let Some(named) = names.at(at) else {
        return at;
    };
    let own = names.definitions.get(named).map(|it| it.span);
    let places = own.into_iter().chain(names.uses(named));
    let mut values = places.filter_map(|name| value_after(design, name));
    let is_all = |value: &Span| literal(design, *value) == Some(size);
    values.find(is_all).unwrap_or(at)
}

/// What stands behind `NAME =` on its line.
fn value_after(design: &Design, name: Span) -> Option<Span> {
    let file = design.file(name.file)?;
    let from = name.range().end;
    let line = file.text.get(from..)?.lines().next()?;
    let code = line.split("--").next().unwrap_or_default();
    let value = code.trim_start().strip_prefix('=')?.trim_start();
    let start = from + (code.len() - value.len());
    Some(Span::new(name.file, start, start + value.trim_end().len()))
}

/// From what to what a size can be meant to be.
pub(super) struct ScaleMistake {
    pub(super) least: Length,
    pub(super) most: Length,
}

impl ScaleMistake {
    /// With what the number may have been meant to say: another unit, or its point elsewhere.
    pub(super) fn offered(
        &self,
        design: &Design,
        span: Span,
        dia: Length,
        finding: Finding,
    ) -> Finding {
        let reported = design.text(span).trim();
        let bare = reported.strip_suffix("in").or(reported.strip_suffix("mm"));
        let unitless = bare.map(str::trim_end).filter(|it| is_number(it));
        let mut meant: Vec<(Length, SizedText)> = Vec::new();
        if let Some(bare) = unitless
            && let Some(size) = parsed(bare, design.units_at(span))
        {
            meant.push((size, bare.to_owned().into()));
        }
        if unitless.is_some() || is_number(reported) {
            let scaled = scaled(dia).map(|size| (size, Size::Written(size).into()));
            meant.extend(scaled);
        }
        self.written(span, meant, finding)
    }

    /// The same of a designation, whose first number is its diameter in millimetres: `M130x0.8`.
    pub(super) fn designated(&self, design: &Design, span: Span, finding: Finding) -> Finding {
        let reported = design.text(span);
        let number = reported.strip_prefix('M').map(|rest| {
            let end = rest.find(|c: char| !(c.is_ascii_digit() || c == '.'));
            rest.split_at(end.unwrap_or(rest.len()))
        });
        let Some((size, rest)) = number.and_then(|(it, rest)| Some((Length::parse_mm(it)?, rest)))
        else {
            return finding;
        };
        let written = |size: Length| format!("M{}{rest}", size.to_mm()).into();
        let meant = scaled(size).map(|size| (size, written(size)));
        self.written(span, meant, finding)
    }

    /// With an edit for each size that can be meant, as it is written.
    fn written(
        &self,
        span: Span,
        meant: impl IntoIterator<Item = (Length, SizedText)>,
        finding: Finding,
    ) -> Finding {
        let fits = |size: Length| self.least < size && size < self.most;
        let held = meant.into_iter().filter(|(size, _)| fits(*size));
        held.fold(finding, |finding, (_, written)| {
            let title = text!("write {}", written.clone());
            let edit = Edit::new(span, written);
            match finding.hint {
                None => finding.hint(title.clone()).fix_all(title, vec![edit]),
                Some(_) => finding.fix_all(title, vec![edit]),
            }
        })
    }
}

/// A size with its point one place on either way, and with the other unit.
fn scaled(size: Length) -> [Length; 4] {
    [10.0, 0.1, 25.4, 1.0 / 25.4].map(|by| Length::mm(size.to_mm() * by))
}

/// A number without a unit, in that of its file.
fn parsed(number: &str, units: Units) -> Option<Length> {
    match units {
        Units::Millimetres => Length::parse_mm(number),
        Units::Inches => Length::parse_inches(number),
    }
}

fn is_number(reported: &str) -> bool {
    reported.parse::<f64>().is_ok()
}
