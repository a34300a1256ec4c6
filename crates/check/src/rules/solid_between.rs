//! `solid-between`: holes from both ends that do not meet where something is to pass.

use crate::{Findings, JointView, PenView, Rule, Run, propose, words};
use quillet_geometry::{Chain, Length, Segment, put_in_order};
use quillet_model::{ById, Joint, Origin, PartId, Pen, SurfacePoint};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Finding, Severity, Size, SizedText, text};

pub(crate) static RULE: Rule = Rule {
    code: "solid-between",
    severity: Severity::Error,
    limit: None,
    page: include_str!("solid-between.md"),
    run: Run::Pen(run),
};

fn run(view: &PenView<'_>, findings: &mut Findings) {
    let pen = view.pen;
    let closed = |part: PartId| view.open_joints(part).next().is_none();
    for part in on_the_way(pen).into_iter().filter(|part| closed(*part)) {
        if let Some(web) = Web::of(pen, part) {
            let why = "no ink gets through to what writes".into();
            findings.push(with_cures(view, &web, why));
        }
    }
    let (Some((holder, written)), Some(ink)) = (pen.fill, &pen.assembly.ink) else {
        return;
    };
    let shut_ml: f64 = ink.shut_off.iter().map(|it| it.ml).sum();
    let Some(web) = Web::of(pen, holder).filter(|_| shut_ml > 0.0) else {
        return;
    };
    if closed(holder) && opens_behind(pen, holder) {
        let why = text!(
            "the {} ml behind it take no ink, and nothing rinses through",
            format!("{:.2}", shut_ml)
        );
        let finding = with_cures(view, &web, why);
        findings.push(Finding {
            severity: Severity::Warning,
            ..finding.label(written, "it is to hold the ink")
        });
    }
}

/// The parts, cut by the maker, through which ink goes from what holds it to what writes.
fn on_the_way(pen: &Pen) -> Vec<PartId> {
    let (Some(nib), Some(ink)) = (pen.assembly.nib, &pen.assembly.ink) else {
        return Vec::new();
    };
    let lasting = |joint: &&Joint| joint.verb.lasts();
    let mut came_from: ById<PartId, Option<PartId>> = pen.parts.map(|_| None);
    let mut next = vec![nib];
    while let Some(part) = next.pop() {
        for joint in pen.joints.iter().filter(lasting) {
            let (male, female) = (joint.male.part, joint.female.part);
            for (one, other) in [(male, female), (female, male)] {
                if one == part && other != nib && came_from[other].is_none() {
                    came_from[other] = Some(part);
                    next.push(other);
                }
            }
        }
    }
    let mut way = Vec::new();
    let mut at = came_from[ink.part];
    while let Some(part) = at.filter(|part| *part != nib) {
        way.push(part);
        at = came_from[part];
    }
    way.retain(|part| !pen.parts[*part].is_bought());
    way
}

/// Whether a part closes the holder at either end by a thread: it comes out to fill or to rinse,
/// where what is glued or pressed in only closes a hole.
fn opens_behind(pen: &Pen, holder: PartId) -> bool {
    let screwed = |joint: &&Joint| joint.verb == Verb::Screw && joint.female.part == holder;
    let mut ends: Vec<_> = pen
        .joints
        .iter()
        .filter(screwed)
        .map(|it| it.female.end)
        .collect();
    ends.dedup();
    ends.len() > 1
}

/// What is left solid between a bore from the first end and one from the second.
struct Web {
    solid_mm: f64,
    /// How far the two are apart at full diameter, mm.
    full_mm: f64,
    /// Where each ends, the first end's first.
    ends: [SurfacePoint; 2],
}

impl Web {
    fn of(pen: &Pen, id: PartId) -> Option<Web> {
        let part = &pen.parts[id];
        let profiles = part.profiles.as_ref()?;
        let mut bores: Vec<&Chain> = profiles.crest.inner.iter().collect();
        put_in_order(&mut bores, |it| it.start().z);
        let (first, last) = (bores.first()?, bores.last()?);
        let open = first.start().z < 1e-6 && last.end().z > part.length.to_mm() - 1e-6;
        let pair = bores.windows(2).next().filter(|_| open)?;
        let surface = |chain: &Chain| -> Vec<Segment> {
            let pieces = chain.segments().iter();
            pieces
                .filter(|it| !it.curve.is_vertical())
                .copied()
                .collect()
        };
        let (front, rear) = (surface(pair[0]), surface(pair[1]));
        let (one, other) = (front.last()?, rear.first()?);
        let spot = |piece: &Segment, at: quillet_geometry::Point| SurfacePoint {
            part: id,
            origin: profiles.origin(piece.tag),
            station_mm: at.z,
            radius_mm: piece.curve.start().r.max(piece.curve.end().r),
        };
        let solid_mm = pair[1].start().z - pair[0].end().z;
        // A drill's point starts where its full diameter ends.
        let full = |piece: &Segment, low: bool| {
            let point = matches!(profiles.origin(piece.tag), Origin::DrillPoint(_));
            if low == point {
                piece.curve.start().z
            } else {
                piece.curve.end().z
            }
        };
        Some(Web {
            solid_mm,
            full_mm: full(other, false) - full(one, true),
            ends: [spot(one, one.curve.end()), spot(other, other.curve.start())],
        })
    }
}

fn with_cures(view: &PenView<'_>, web: &Web, why: SizedText) -> Finding {
    let [front, rear] = web.ends;
    let part = &view.pen.parts[front.part];
    let called =
        |spot: &SurfacePoint| words::inner(part, spot.origin, Length::mm(spot.radius_mm).twice());
    let message = text!(
        "{} of solid is left in {} between {} and {}: {}",
        Size::Rounded(Length::mm(web.solid_mm), 2),
        part.name.text,
        called(&front),
        called(&rear),
        why
    );
    let span = |spot: &SurfacePoint| words::span_of(part, spot.origin);
    let finding = RULE
        .at(span(&front), message)
        .label(span(&rear), "drilled from the other end");
    let by_mm = web.full_mm.max(web.solid_mm);
    let joint: Option<JointView<'_>> = view.joints().next();
    let deeper = joint.into_iter().flat_map(|joint| {
        [front, rear]
            .into_iter()
            .filter_map(move |end| propose::deeper(&joint, &end, Length::mm(by_mm)))
    });
    propose::with(
        finding.hint("drill one of them deeper, or right through"),
        deeper,
    )
}
