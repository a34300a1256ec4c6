//! What was worked out, told between the words.

use crate::facts;
use crate::sizes::Sizes;
use crate::{Analysis, Settings, Units as Chosen};
use quillet_check::{PartView, Wall};
use quillet_geometry::number;
use quillet_model::{AtRest, Cut, CutId, Engagement, Joint, Pen, Quantity, SourceFile, Units};
use quillet_syntax::ast::{ExprKind, Side, Unit};
use quillet_syntax::visit::Node;
use quillet_syntax::{Span, visit};

/// A hint between the words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Inlay {
    /// Byte offset it stands at.
    pub offset: usize,
    /// What it says.
    pub text: String,
    /// What it means, for whoever points at it.
    pub about: &'static str,
}

/// The hints of a file that stand within a span, in order.
pub fn inlays(
    analysis: &Analysis,
    settings: &Settings,
    file: &SourceFile,
    within: Span,
) -> Vec<Inlay> {
    let mut hints = Vec::new();
    let sizes = Sizes::of(settings, file);
    if settings.hints.conversions {
        conversions(file, settings, &mut hints);
    }
    let design = &analysis.design;
    let here =
        |span: Span| span.file == file.id && span.start <= within.end && within.start <= span.end;
    for part in design.parts.iter().filter(|part| here(part.span)) {
        let view = PartView::new(design, None, part);
        cuts(&view, settings, sizes, &mut hints);
    }
    if settings.hints.rests {
        for pen in design.pens.iter().filter(|pen| here(pen.span)) {
            for (joint, rest) in pen.joints.iter().zip(&pen.assembly.joints) {
                // Joints of a pen that this one is like stand in that one's text.
                if pen.span.contains(joint.span) {
                    hints.extend(rests(pen, joint, rest, sizes));
                }
            }
        }
    }
    hints.retain(|hint| within.touches(hint.offset));
    hints.sort_by_key(|hint| hint.offset);
    hints
}

/// What was assumed of a cut, and the wall beside it.
fn cuts(view: &PartView<'_>, settings: &Settings, sizes: Sizes, hints: &mut Vec<Inlay>) {
    let part = view.part;
    for (index, feature) in part.features.with_ids() {
        if feature.span.file != part.span.file || !part.span.contains(feature.span) {
            continue;
        }
        let mut render = |text: String, about| {
            hints.push(Inlay {
                offset: feature.span.end as usize,
                text,
                about,
            });
        };
        match &feature.cut {
            Cut::Thread {
                thread,
                side: Side::Inside,
            } if settings.hints.drills => {
                let drill = thread.thread.tap_drill().diameter;
                render(
                    format!("tap drill {}", sizes.drill(drill)),
                    "the drill that its tap wants",
                );
            }
            Cut::Thread {
                thread,
                side: Side::Outside,
            } if settings.hints.tenons => {
                if let Ok(tenon) = thread.thread.tenon() {
                    let (low, high) = (tenon.range.min(), tenon.range.max());
                    let size = |size| sizes.short(size, 3);
                    let text = format!("tenon {}..{}", size(low), size(high));
                    render(text, "the diameters its die may be run down");
                }
            }
            _ => {}
        }
        if settings.hints.walls
            && feature.is_inside()
            && let Some(wall) = least_wall(view, index)
        {
            render(
                format!("wall {}", sizes.short(wall.least, 2)),
                "the least wall around this cut",
            );
        }
    }
}

/// The thinnest wall that has a cut on its inner side.
fn least_wall<'a>(view: &'a PartView<'_>, feature: CutId) -> Option<&'a Wall> {
    let walls = view
        .reported_walls()
        .iter()
        .filter(|wall| wall.inner.feature() == Some(feature));
    walls.min_by_key(|wall| wall.least)
}

/// Where a joint comes to rest; none where that is not known.
fn rests(pen: &Pen, joint: &Joint, rest: &AtRest, sizes: Sizes) -> Option<Inlay> {
    if facts::why_not_at_rest(pen, rest).is_some() {
        return None;
    }
    // The shortest first: an editor may cut a long hint off.
    let mut text = format!("in {}", sizes.worked_out(rest.goes_in_mm, 2));
    // Threads that stop before they meet have no turns, nor has what does not close.
    let turns = |it: &&Engagement| it.travel_mm > 0.0 && rest.verdict.closes();
    let engaged = rest.engagements.first().filter(turns);
    if let Some(engaged) = engaged {
        text += &format!(", {} turns", number(engaged.turns(), 2));
    }
    if let Some(touch) = rest.touches.first() {
        let face = |spot: &quillet_model::SurfacePoint| facts::spot_in_short(pen, spot);
        text += &format!(", {} on {}", face(&touch.male), face(&touch.female));
    }
    let about = "how far it goes in, the turns to take it apart, and what touches there";
    Some(Inlay {
        offset: joint.head.end as usize,
        text,
        about,
    })
}

/// After every length that is written in another unit, bare or not, the same in the one that
/// sizes are told in; where both are told, millimetres after inches.
fn conversions(file: &SourceFile, settings: &Settings, hints: &mut Vec<Inlay>) {
    let bare = file.units();
    let sizes = match settings.units {
        Chosen::Both => Sizes::chosen(Chosen::Millimetres, bare),
        chosen => Sizes::chosen(chosen, bare),
    };
    let about = match sizes.units() {
        Units::Millimetres => "the same in millimetres",
        Units::Inches => "the same in inches",
    };
    visit::walk(&file.parsed.tree, &mut |node| {
        let Node::Expr(expr) = node else {
            return;
        };
        let ExprKind::Quantity { value, unit } = &expr.kind else {
            return;
        };
        let written = match unit {
            Some(Unit::Mm) => Units::Millimetres,
            Some(Unit::In) => Units::Inches,
            None if is_after_a_word_of_length(file, expr.span) => bare,
            _ => return,
        };
        let length = Quantity::written(*value, *unit, bare).and_then(Quantity::as_length);
        if let Some(length) = length.filter(|_| written != sizes.units()) {
            hints.push(Inlay {
                offset: expr.span.end as usize,
                text: sizes.long(length),
                about,
            });
        }
    });
}

/// Whether a number stands after a word that is followed by a length, and by nothing else.
fn is_after_a_word_of_length(file: &SourceFile, number: Span) -> bool {
    const WORDS: [&str; 25] = [
        "at",
        "dia",
        "to",
        "for",
        "by",
        "rod",
        "square",
        "length",
        "tenon",
        "drill",
        "bore",
        "ream",
        "relief",
        "groove",
        "recess",
        "taper",
        "countersink",
        "chamfer",
        "round",
        "bead",
        "cove",
        "step",
        "spigot",
        "gap",
        "arm",
    ];
    let tokens = &file.parsed.tokens;
    let end = tokens.partition_point(|token| token.span.end <= number.start);
    let before = tokens[..end].iter().rfind(|token| !token.kind.is_trivia());
    before.is_some_and(|token| {
        let text = file.text.get(token.span.range());
        text.is_some_and(|text| WORDS.contains(&text))
    })
}
