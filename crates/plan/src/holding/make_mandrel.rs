//! Works out the mandrel or plug that an end of a part is held by.

use crate::tasks::feature_map::FeatureMap;
use crate::tasks::mate::Mates;
use crate::tools::bench_tools::BenchTools;
use crate::{Fitted, Mandrel, MandrelKind, Threading};
use quillet_geometry::Length;
use quillet_model::{End, Feature, ThreadDef};
use quillet_standards::thread::{Hand, ThreadForm};
use quillet_syntax::ast::Side;
use std::sync::Arc;

/// What a collet grips of a mandrel (common practice, no published source).
const SHANK_LENGTH: Length = Length::from_nm(30_000_000);
/// The longest useful spigot.
const LONGEST_SPIGOT: Length = Length::from_nm(8_000_000);
/// A spigot thinner than this is left off.
const THINNEST_SPIGOT: Length = Length::from_nm(3_000_000);
/// Tools run clear of the shoulder by this, a side.
const SHOULDER_CLEAR: Length = Length::from_nm(250_000);
/// Kept between what goes in and what it goes into, on diameter.
pub(super) const PASSES: Length = Length::from_nm(100_000);

/// The mandrel of a kind for an end, with all in it that lines it when the outside is turned.
pub(crate) fn mandrel(
    feature_map: &FeatureMap,
    end: End,
    kind: MandrelKind,
    mates: &Mates,
    bench_tools: BenchTools,
) -> Mandrel {
    let (inner, at, within) = match kind {
        MandrelKind::Female => (feature_map, end, mates),
        _ => feature_map.mouth(end, mates),
    };
    Mandrel {
        serves: vec![(feature_map.part.name.text.clone(), end)],
        ..own_mandrel(inner, at, kind, within, bench_tools)
    }
}

/// The mandrel of a kind for an end of a part by itself.
pub(crate) fn own_mandrel(
    feature_map: &FeatureMap,
    end: End,
    kind: MandrelKind,
    mates: &Mates,
    bench_tools: BenchTools,
) -> Mandrel {
    let mut made = match kind {
        MandrelKind::Male => male(feature_map, end, bench_tools),
        MandrelKind::Female => female(feature_map, end, bench_tools),
        MandrelKind::Spigot | MandrelKind::Stepped => plain(feature_map, end, kind),
        MandrelKind::Plug => plug(feature_map, end),
    };
    let goes_in = kind == MandrelKind::Female;
    let mate = mates[end.index()]
        .iter()
        .find(|it| it.goes_in == goes_in && !it.bought);
    made.copy_of = mate.map(|it| (it.part.clone(), it.end.clone()));
    made.serves.push((feature_map.part.name.text.clone(), end));
    let male = matches!(kind, MandrelKind::Male | MandrelKind::Plug);
    let under = under_die(feature_map, end, bench_tools).filter(|_| male);
    made.under_die = under;
    if kind == MandrelKind::Plug {
        return made;
    }
    if let Some(most) = under {
        made.shoulder = made.shoulder.min(most);
    }
    put_on_shank(&mut made, under, bench_tools);
    made
}

/// What may stand out of a face over which a die is run: it has to pass the thread's root (common
/// practice, no published source); none where no die comes to that end.
pub(crate) fn under_die(
    feature_map: &FeatureMap,
    end: End,
    bench_tools: BenchTools,
) -> Option<Length> {
    let (_, thread) = thread_of(feature_map, end, Side::Outside)?;
    let form = &thread.thread;
    let by_die = bench_tools.threading(form, false) == Threading::Die;
    by_die.then(|| passes_die(form.root_diameter()))
}

fn passes_die(root: Length) -> Length {
    let most = root - DIE_CLEAR;
    // To a tenth, down: it is turned.
    tenth_below(most)
}

/// Under the root of a thread, on diameter.
const DIE_CLEAR: Length = Length::from_nm(300_000);
fn tenth_below(size: Length) -> Length {
    Length::from_nm(size.nm() - size.nm().rem_euclid(100_000))
}

/// How deep a die holder is hollow, so that a pin can stand out of the work under it (common practice,
/// no published source).
const HOLDER_HOLLOW: Length = Length::from_nm(3_000_000);
/// Kept of that.
const PIN_STANDS_OUT: Length = Length::from_nm(2_500_000);

/// Whether a threaded mandrel for an end can stay in while a die is run over the end: its shoulder has
/// to bear outside the mouth of the hole and to pass the die, with a shank that does as well.
pub(crate) fn plugs(
    feature_map: &FeatureMap,
    end: End,
    made: &Mandrel,
    bench_tools: BenchTools,
) -> bool {
    let Some(most) = under_die(feature_map, end, bench_tools) else {
        return true;
    };
    let mouth = feature_map
        .part
        .features
        .iter()
        .filter(|it| it.end == end && it.is_inside() && !it.from.is_positive())
        .filter_map(|it| it.dia())
        .max();
    made.outside_dia() <= most && mouth.is_none_or(|mouth| made.shoulder > mouth)
}

pub(super) fn empty(kind: MandrelKind) -> Mandrel {
    Mandrel {
        kind,
        copy_of: None,
        thread: None,
        thread_length: Length::ZERO,
        shoulder: Length::ZERO,
        relief: None,
        root_spigot: None,
        front_spigot: None,
        bore: None,
        shank: Length::ZERO,
        shank_length: SHANK_LENGTH,
        stock: Length::ZERO,
        headless: false,
        centred: false,
        under_die: None,
        bearing: None,
        touched: false,
        left_hand: false,
        serves: Vec::new(),
    }
}

fn threaded(kind: MandrelKind, thread: &Arc<ThreadDef>) -> Mandrel {
    Mandrel {
        thread: Some(thread.clone()),
        left_hand: thread.thread.hand() == Hand::Left,
        ..empty(kind)
    }
}

fn male(feature_map: &FeatureMap, end: End, bench_tools: BenchTools) -> Mandrel {
    let Some((feature, thread)) = thread_of(feature_map, end, Side::Inside) else {
        return plain(feature_map, end, MandrelKind::Spigot);
    };
    let form = &thread.thread;
    let mouth = feature_map.bore_at(end).map(|it| it.0);
    let relief = relief(form, bench_tools);
    // A plain mouth longer than the relief locates what is left of it.
    let plain = feature.from - Length::mm(0.2) - relief.length;
    let root_spigot = mouth
        .filter(|dia| plain >= Length::mm(1.0) && *dia >= form.major())
        .map(|dia| Fitted { dia, length: plain });
    let behind = relief.length + root_spigot.map_or(Length::ZERO, |it| it.length);
    Mandrel {
        thread_length: (feature.to - form.pitch() - behind).max(form.pitch()),
        relief: Some(relief),
        shoulder: shoulder(feature_map.dia_at_face(end), mouth.unwrap_or_default()),
        root_spigot,
        front_spigot: front_spigot(feature_map, feature, thread),
        ..threaded(MandrelKind::Male, thread)
    }
}

/// A spigot in the plain bore beyond the thread, where it passes the thread's crests.
fn front_spigot(feature_map: &FeatureMap, feature: &Feature, thread: &ThreadDef) -> Option<Fitted> {
    let part = feature_map.part;
    let (near, far) = (feature.to, feature.to + LONGEST_SPIGOT);
    // Not in the point of a drill, which nothing fits.
    let mut holes = part.features.iter().filter(|it| it.end == feature.end);
    let plain = |it: &Feature| it.is_inside() && (it.through || it.to >= far);
    if !holes.any(plain) {
        return None;
    }
    let (a, b) = match feature.end {
        End::First => (near, far),
        End::Second => (part.length - far, part.length - near),
    };
    let bores = &part.profiles.as_ref()?.crest.inner;
    let chain = bores
        .iter()
        .find(|it| it.start().z <= a.to_mm() + 1e-6 && b.to_mm() - 1e-6 <= it.end().z)?;
    let (place, _) = chain.narrowest(a.to_mm(), b.to_mm())?;
    let dia = Length::mm(place.r * 2.0);
    let passes = dia + PASSES <= thread.thread.minor_diameter();
    (passes && dia >= THINNEST_SPIGOT).then_some(Fitted {
        dia,
        length: LONGEST_SPIGOT - Length::mm(1.0),
    })
}

/// Behind a male thread: as long as its die leaves incomplete, three pitches where the bench does not
/// say (form C of DIN 2197); one and a half behind a single point (common practice, no published
/// source).
fn relief(form: &ThreadForm, bench_tools: BenchTools) -> Fitted {
    let length = match bench_tools.threading(form, false) {
        Threading::SinglePoint => form.pitch() * 3 / 2,
        _ => bench_tools
            .die(form)
            .and_then(|die| die.lead)
            .unwrap_or(form.pitch() * 3),
    };
    let dia = form.root_diameter() - BELOW_ROOT;
    Fitted {
        dia: tenth_below(dia),
        length,
    }
}

/// A relief lies this much below the root, on diameter.
const BELOW_ROOT: Length = Length::from_nm(100_000);

fn female(feature_map: &FeatureMap, end: End, bench_tools: BenchTools) -> Mandrel {
    let Some((feature, thread)) = thread_of(feature_map, end, Side::Outside) else {
        return empty(MandrelKind::Female);
    };
    let part = feature_map.part;
    let zone = feature_map.zone[end.index()];
    let form = &thread.thread;
    let dia_at = |inward: Length| {
        let at = part.station(end, inward).to_mm();
        feature_map
            .outer
            .radii_at(at)
            .map_or((0.0, 0.0), |(a, b)| match end {
                End::First => (a, b),
                End::Second => (b, a),
            })
    };
    // The land between the thread and the shoulder, where it is fatter than the thread.
    let land = Length::mm(dia_at(zone).0 * 2.0);
    let root_spigot = (zone > feature.to && land >= form.major()).then_some(Fitted {
        dia: land,
        length: zone - feature.to,
    });
    let beyond = Length::mm(dia_at(zone).1 * 2.0);
    let clears = Fitted {
        dia: form.tap_drill().diameter,
        length: zone + tap_lead(form, bench_tools).max(Length::mm(2.0)),
    };
    let (nose, touched) = nose(beyond, form.major());
    Mandrel {
        thread_length: zone,
        shoulder: nose,
        touched,
        bearing: Some((beyond - form.major()).half()),
        root_spigot,
        bore: Some(clears),
        ..threaded(MandrelKind::Female, thread)
    }
}

fn tap_lead(form: &ThreadForm, bench_tools: BenchTools) -> Length {
    let own = bench_tools.tap(form).and_then(|tap| tap.lead);
    own.unwrap_or(form.pitch() * 3)
}

/// The nose of a female mandrel bears with a ring of half a millimetre at least, as metal wants (common
/// practice, no published source), and is below the work where that leaves room; and whether the last
/// cut may touch it.
fn nose(outside: Length, major: Length) -> (Length, bool) {
    let clear = outside - BELOW_OUTSIDE;
    let least = major + BEARING_RING * 2;
    (least.max(clear), least > clear)
}

/// The ring a female mandrel bears with, in metal.
const BEARING_RING: Length = Length::from_nm(500_000);
/// Below the work, on diameter.
const BELOW_OUTSIDE: Length = Length::from_nm(200_000);

fn plain(feature_map: &FeatureMap, end: End, kind: MandrelKind) -> Mandrel {
    let (dia, reach) = feature_map.pin_at(end).unwrap_or_default();
    let length = match kind {
        // Short of the far face, so that the washer clamps the ring and not the mandrel; by half of
        // what is thinner than that.
        MandrelKind::Stepped => reach - WASHER_CLEAR.min(reach.half()),
        _ => reach.min(LONGEST_SPIGOT * 2),
    };
    Mandrel {
        shoulder: shoulder(feature_map.dia_at_face(end), dia),
        front_spigot: Some(Fitted { dia, length }),
        ..empty(kind)
    }
}

/// Kept between a stepped mandrel and the washer (common practice, no published source).
const WASHER_CLEAR: Length = Length::from_nm(200_000);

fn plug(feature_map: &FeatureMap, end: End) -> Mandrel {
    match thread_of(feature_map, end, Side::Inside) {
        // Nothing of it stands out of the face: the die comes over it.
        Some((feature, thread)) => Mandrel {
            thread_length: feature.to - feature.from,
            headless: true,
            shank_length: Length::ZERO,
            stock: Length::mm(thread.thread.major().to_mm().ceil()),
            ..threaded(MandrelKind::Plug, thread)
        },
        // A pin of one thickness, standing out less than the die holder is hollow.
        None => {
            let made = plain(feature_map, end, MandrelKind::Plug);
            let dia = made.front_spigot.map_or(Length::ZERO, |it| it.dia);
            Mandrel {
                shoulder: Length::ZERO,
                shank: dia,
                shank_length: PIN_STANDS_OUT.min(HOLDER_HOLLOW),
                stock: Length::mm(dia.to_mm().ceil()),
                ..made
            }
        }
    }
}

pub(super) fn thread_of<'p>(
    feature_map: &FeatureMap<'p>,
    end: End,
    side: Side,
) -> Option<(&'p Feature, &'p Arc<ThreadDef>)> {
    let feature = feature_map.thread_at(end, side)?;
    Some((feature, feature.thread()?.0))
}

/// Below the finished outside and over what it must bear on.
pub(super) fn shoulder(outside: Length, inside: Length) -> Length {
    let clear = outside - SHOULDER_CLEAR * 2;
    if clear > inside { clear } else { outside }
}

/// The shank, for a collet on the bench, and the stock it is all turned from.
fn put_on_shank(made: &mut Mandrel, under: Option<Length>, bench_tools: BenchTools) {
    let spigots = [made.root_spigot, made.front_spigot, made.bore].map(|it| it.map(|it| it.dia));
    let thread = made.thread.as_ref().map(|it| it.thread.major());
    let fattest = spigots
        .into_iter()
        .flatten()
        .chain(thread)
        .max()
        .unwrap_or_default();
    let wall = match made.kind {
        MandrelKind::Female => Length::mm(4.0),
        _ => Length::ZERO,
    };
    let least = made.shoulder.max(fattest + wall);
    let own = bench_tools
        .bench
        .map(|bench| bench.mandrels.as_slice())
        .unwrap_or_default();
    let rods = own.iter().copied().find(|it| *it >= least);
    made.stock = rods.unwrap_or_else(|| Length::mm(least.to_mm().ceil()));
    let most = under.map_or(made.stock, |under| under.min(made.stock));
    let shank = bench_tools.collet_within(Length::mm(6.0), most);
    made.shank = shank.unwrap_or(most);
}
