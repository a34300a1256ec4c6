//! By how much a size may come out other than drawn.

use super::chain::{Link, Size};
use super::settle::Bodies;
use super::surface::Surface;
use crate::{Cut, End, Feature, Hand, Origin, Part, PartId};
use quillet_geometry::{Length, Limits};
use quillet_standards::thread;
use quillet_syntax::Span;
use quillet_syntax::ast::ToleranceKind;

impl Bodies<'_> {
    /// A size with its factor, as whoever makes the part keeps it.
    pub(crate) fn link(&self, size: Size, factor: f64) -> Link {
        link(
            &self.parts[size.part()],
            &self.hand(size.part()),
            size,
            factor,
        )
    }

    /// How closely a part is made.
    pub(crate) fn hand(&self, part: PartId) -> Hand {
        self.hands.get(part).copied().unwrap_or_default()
    }
}

/// A size of a part with its factor, as a hand keeps it.
pub(crate) fn link(part: &Part, hand: &Hand, size: Size, factor: f64) -> Link {
    let either = |within: Length| (0.0 - within.to_mm(), within.to_mm());
    // Of what is bought, every size is as it was measured.
    let kept = |kept: ToleranceKind, of: Length| match part.is_bought() {
        true => either(hand.caliper()),
        false => either(hand.keeps(kept, of)),
    };
    let (origin, range_mm) = match size {
        Size::Plane {
            inside, from, at, ..
        } => {
            let surface = Surface::crests(part, size.part());
            let written = surface.written(inside, part.station(from, at));
            let of = match inside {
                true => ToleranceKind::Depth,
                false => ToleranceKind::Shoulder,
            };
            (written.map_or(Origin::Stock, |it| it.1), kept(of, at))
        }
        Size::Whole { .. } => (
            Origin::Face(End::Second),
            kept(ToleranceKind::Length, part.length),
        ),
        Size::Radius { of, second, .. } => (of, radius_mm(part, hand, of, second)),
        Size::Root { of, .. } => (of, root_mm(part, of)),
        Size::By { bought, by, .. } => {
            let within = match bought {
                true => hand.caliper(),
                false => hand.keeps(ToleranceKind::Length, by),
            };
            (Origin::Axis, either(within))
        }
        Size::Nib { .. } => {
            let within = hand.keeps(ToleranceKind::Nib, part.length);
            (Origin::Axis, either(within))
        }
    };
    let span = span(part, &size, origin);
    let range_mm = match measured_mm(part, hand, &size, origin, span) {
        _ if hand.is_exact() => (0.0, 0.0),
        Some(within) => (0.0 - within, within),
        None => range_mm,
    };
    Link {
        size,
        origin,
        span,
        factor,
        range_mm,
    }
}

impl Link {
    /// Whether the size is one that was measured on a part that is made.
    pub fn is_made(&self, part: &Part) -> bool {
        measured_mm(part, &Hand::default(), &self.size, self.origin, self.span).is_some()
    }
}

/// To how much a size that is made already is known, either way, mm; a radius to half of what its
/// diameter is. None where it is still to be made.
fn measured_mm(part: &Part, hand: &Hand, size: &Size, origin: Origin, span: Span) -> Option<f64> {
    match *size {
        Size::Plane {
            inside, from, at, ..
        } => {
            let made = part.made.has_plane(inside, part.station(from, at));
            made.then(|| hand.measured_depth().to_mm())
        }
        Size::Whole { .. } => {
            let made = part.made.has_size(part.length_span);
            made.then(|| hand.measured_depth().to_mm())
        }
        Size::Radius { .. } => {
            let cut = origin.feature().and_then(|index| part.features.get(index));
            // A caliper tells nothing of a thread's crests.
            let thread = cut.is_some_and(|it| it.thread().is_some());
            let made = !thread && part.made.has_size(span);
            made.then(|| hand.measured_dia().to_mm() / 2.0)
        }
        Size::Root { .. } | Size::By { .. } | Size::Nib { .. } => None,
    }
}

/// Where a size is written.
fn span(part: &Part, size: &Size, origin: Origin) -> Span {
    let cut = || origin.feature().and_then(|index| part.features.get(index));
    match (size, origin) {
        (Size::Whole { .. }, _) => part.length_span,
        (Size::Radius { .. }, Origin::Outside(index)) => part
            .stations
            .get(index)
            .map_or(part.name.span, |it| it.dia_span),
        (_, Origin::Outside(index)) => part
            .stations
            .get(index)
            .map_or(part.name.span, |it| it.span),
        (Size::Radius { .. } | Size::Root { .. }, _) => {
            cut().map_or(part.name.span, |it| it.size_span)
        }
        _ => cut().map_or(part.name.span, |it| it.reach_span),
    }
}

/// From how much under to how much over its drawn radius a surface comes out, mm.
fn radius_mm(part: &Part, hand: &Hand, of: Origin, second: bool) -> (f64, f64) {
    let half = |within: Length| within.to_mm() / 2.0;
    let either = |within: Length| (0.0 - half(within), half(within));
    // A tube's outside and bore are as it was bought.
    if part.is_bought() || of == Origin::Tube {
        return either(hand.caliper());
    }
    if let Origin::Outside(index) = of {
        let station = part.stations.get(index);
        let dia = station.map(|it| it.step.filter(|_| second).unwrap_or(it.dia));
        // A pole has no diameter to miss.
        return match dia {
            Some(dia) if dia.is_positive() => either(hand.keeps(ToleranceKind::Dia, dia)),
            _ => (0.0, 0.0),
        };
    }
    let Some(cut) = of.feature().and_then(|index| part.features.get(index)) else {
        return (0.0, 0.0);
    };
    match &cut.cut {
        Cut::Drill { dia, .. } => (0.0, half(hand.keeps(ToleranceKind::Drill, *dia))),
        Cut::Thread { thread, .. } => thread_mm(&thread.thread, cut.is_inside()),
        Cut::Taper { from_dia, to_dia } => {
            let dia = if second { to_dia } else { from_dia };
            either(hand.keeps(ToleranceKind::Bore, *dia))
        }
        _ => {
            let drawn = cut.dia().unwrap_or_default();
            match part.tenon(cut) {
                Some((limits, _)) => around(drawn, limits),
                None => either(hand.keeps(kept(cut), drawn)),
            }
        }
    }
}

/// Under what a plain cut's diameter is kept.
fn kept(cut: &Feature) -> ToleranceKind {
    match cut.is_inside() {
        true => ToleranceKind::Bore,
        false => ToleranceKind::Dia,
    }
}

/// How far a crest may stand from its basic size, in radius: the limits of its class, the basic
/// size counted with them.
fn thread_mm(form: &thread::ThreadForm, inside: bool) -> (f64, f64) {
    crest_limits(form, inside).map_or((0.0, 0.0), |(basic, it)| around(basic, it))
}

/// The basic diameter of a thread's crests, and its limits.
fn crest_limits(form: &thread::ThreadForm, inside: bool) -> Option<(Length, Limits)> {
    match inside {
        true => {
            let limits = form.internal_limits(form.class(thread::ThreadSide::Internal));
            Some((form.minor_diameter(), limits.ok()?.minor))
        }
        false => {
            let limits = form.external_limits(form.class(thread::ThreadSide::External));
            Some((form.major(), limits.ok()?.major))
        }
    }
}

/// How far a thread's roots may stand from their basic diameter, in radius: an outside one's deeper,
/// as its pitch diameter comes out less; an inside one's wider.
fn root_mm(part: &Part, of: Origin) -> (f64, f64) {
    root_limits(part, of).map_or((0.0, 0.0), |(basic, it)| around(basic, it))
}

/// The basic diameter of a thread's roots, and its limits.
fn root_limits(part: &Part, of: Origin) -> Option<(Length, Limits)> {
    let cut = part.features.get(of.feature()?)?;
    let form = &cut.thread()?.0.thread;
    match cut.is_inside() {
        true => {
            let limits = form.internal_limits(form.class(thread::ThreadSide::Internal));
            let limits = limits.ok()?;
            Some((
                form.major(),
                Limits::new(limits.major_min, limits.major_max),
            ))
        }
        false => {
            let root = form.root_diameter();
            let limits = form.external_limits(form.class(thread::ThreadSide::External));
            Some((root, Limits::new(limits.ok()?.root_min, root)))
        }
    }
}

/// The limits that a standard sets a diameter, as a range of its radius round the basic one, mm: those
/// of a thread's crests and roots, and of a tenon that a thread is cut on. None where a hand alone
/// keeps it.
pub(crate) fn set_limits_mm(part: &Part, size: Size) -> Option<(f64, f64)> {
    let (basic, limits) = match size {
        Size::Root { of, .. } => root_limits(part, of)?,
        Size::Radius { of, .. } if !part.is_bought() => {
            let cut = part.features.get(of.feature()?)?;
            match &cut.cut {
                Cut::Thread { thread, .. } => crest_limits(&thread.thread, cut.is_inside())?,
                _ => (cut.dia()?, part.tenon(cut)?.0),
            }
        }
        _ => return None,
    };
    Some(off_mm(basic, limits))
}

/// Limits of a diameter as a range of its radius round the drawn one, which counts with them.
pub(crate) fn around(drawn: Length, limits: Limits) -> (f64, f64) {
    let (from, to) = off_mm(drawn, limits);
    (from.min(0.0), to.max(0.0))
}

/// Limits of a diameter as a range of its radius from that of another.
pub(crate) fn off_mm(from: Length, limits: Limits) -> (f64, f64) {
    let half = |limit: Length| (limit - from).to_mm() / 2.0;
    (half(limits.min()), half(limits.max()))
}
