//! What lies beyond the end of its part: each told of where it stands, or, where it is much of the
//! part, the length alone.

use super::Resolver;
use super::clash::out_of_range;
use crate::Part;
use quillet_geometry::Length;
use quillet_syntax::{Edit, Finding, RuleId, Size, text};

/// A cut or a station beyond the length of its part.
pub(super) struct BeyondLength {
    pub(super) finding: Finding,
    /// How far from the first end, or from the end it is cut from, it reaches.
    pub(super) to: Length,
}

/// So many lines beyond a length are not all wrong: the length is.
const LENGTH_IS_WRONG: usize = 3;
/// By so much a length is short that lost its point, or its unit.
const SLIPS: [f64; 2] = [10.0, 25.4];
/// A part is not so many times as long as the deepest that is cut in it.
const LONGEST: f64 = 4.0;
/// So many of the lines are pointed at.
const MOST_LABELS: usize = 3;

impl Resolver<'_> {
    /// Keeps a finding until the whole part is known.
    pub(super) fn lies_beyond(&mut self, finding: Finding, to: Length) {
        self.lost += 1;
        self.beyond.push(BeyondLength { finding, to });
    }

    /// Tells of what lies beyond a part's length, once all its lines are looked at.
    pub(super) fn emit_beyond(&mut self, part: &Part) {
        let beyond = std::mem::take(&mut self.beyond);
        if beyond.len() < LENGTH_IS_WRONG {
            beyond.into_iter().for_each(|it| self.emit(it.finding));
            return;
        }
        // In which order they come to lie follows from the length as well.
        let unordered = RuleId::new("unordered-stations");
        let stays = |it: &Finding| it.rule != unordered || !part.span.contains(it.span);
        self.design.findings.retain(stays);
        let finding = self.too_short(part, &beyond);
        self.emit(finding);
    }

    fn too_short(&self, part: &Part, beyond: &[BeyondLength]) -> Finding {
        let deepest = beyond.iter().map(|it| it.to).max().unwrap_or_default();
        let message = text!(
            "{} is {} long, and {} of its lines lie beyond that, the farthest at {}",
            part.name.text,
            part.length,
            beyond.len(),
            deepest
        );
        let finding = out_of_range(part.length_span, message)
            .hint("see whether the length lost a digit, its point or its unit");
        let finding = beyond
            .iter()
            .take(MOST_LABELS)
            .fold(finding, |finding, it| {
                finding.label(it.finding.span, text!("reaches {}", it.to))
            });
        let written = self.design.text(part.length_span).trim();
        if written.parse::<f64>().is_err() {
            return finding;
        }
        let meant = SLIPS.map(|by| Length::mm(part.length.to_mm() * by));
        let fits = |it: &Length| deepest <= *it && it.to_mm() <= LONGEST * deepest.to_mm();
        meant.into_iter().filter(fits).fold(finding, |finding, it| {
            let edit = Edit::new(part.length_span, Size::Written(it));
            finding.fix_all(text!("write {}", Size::Written(it)), vec![edit])
        })
    }
}
