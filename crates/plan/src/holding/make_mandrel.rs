//! Works out the mandrel or plug that an end of a part is held by.

use crate::tasks::anatomy::Anatomy;
use crate::tasks::mate::Mates;
use crate::tools::kit::Kit;
use crate::{Fitted, Mandrel, MandrelKind};
use quillet_geometry::Length;
use quillet_model::{End, Feature, ThreadDef};
use quillet_standards::thread::Hand;
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
const PASSES: Length = Length::from_nm(100_000);

/// The mandrel of a kind for an end.
pub(crate) fn mandrel(
    anatomy: &Anatomy,
    end: End,
    kind: MandrelKind,
    mates: &Mates,
    kit: Kit,
) -> Mandrel {
    let mut made = match kind {
        MandrelKind::Male => male(anatomy, end),
        MandrelKind::Female => female(anatomy, end),
        MandrelKind::Spigot | MandrelKind::Stepped => plain(anatomy, end, kind),
        MandrelKind::Plug => plug(anatomy, end),
    };
    let goes_in = kind == MandrelKind::Female;
    let mate = mates[end.index()]
        .iter()
        .find(|it| it.goes_in == goes_in && !it.bought);
    made.copy_of = mate.map(|it| (it.part.clone(), it.end.clone()));
    made.serves.push((anatomy.part.name.text.clone(), end));
    put_on_shank(&mut made, kit);
    made
}

fn empty(kind: MandrelKind) -> Mandrel {
    Mandrel {
        kind,
        copy_of: None,
        thread: None,
        thread_length: Length::ZERO,
        shoulder: Length::ZERO,
        root_spigot: None,
        front_spigot: None,
        bore: None,
        shank: Length::ZERO,
        shank_length: SHANK_LENGTH,
        stock: Length::ZERO,
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

fn male(anatomy: &Anatomy, end: End) -> Mandrel {
    let Some((feature, thread)) = thread_of(anatomy, end, Side::Inside) else {
        return plain(anatomy, end, MandrelKind::Spigot);
    };
    let form = &thread.thread;
    let mouth = anatomy.bore_at(end).map(|it| it.0);
    let root_spigot = mouth
        .filter(|dia| feature.from >= Length::mm(1.0) && *dia >= form.major())
        .map(|dia| Fitted {
            dia,
            length: feature.from - Length::mm(0.2),
        });
    Mandrel {
        thread_length: (feature.to - feature.from - form.pitch()).max(form.pitch()),
        shoulder: shoulder(anatomy.dia_at_face(end), mouth.unwrap_or_default()),
        root_spigot,
        front_spigot: front_spigot(anatomy, feature, thread),
        ..threaded(MandrelKind::Male, thread)
    }
}

/// A spigot in the plain bore beyond the thread, where it passes the thread's crests.
fn front_spigot(anatomy: &Anatomy, feature: &Feature, thread: &ThreadDef) -> Option<Fitted> {
    let part = anatomy.part;
    let (near, far) = (feature.to, feature.to + LONGEST_SPIGOT);
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

fn female(anatomy: &Anatomy, end: End) -> Mandrel {
    let Some((feature, thread)) = thread_of(anatomy, end, Side::Outside) else {
        return empty(MandrelKind::Female);
    };
    let part = anatomy.part;
    let zone = anatomy.zone[end.index()];
    let form = &thread.thread;
    let dia_at = |inward: Length| {
        let at = part.station(end, inward).to_mm();
        anatomy
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
        length: zone + Length::mm(2.0),
    };
    Mandrel {
        thread_length: zone,
        shoulder: shoulder(beyond, form.major()),
        root_spigot,
        bore: Some(clears),
        ..threaded(MandrelKind::Female, thread)
    }
}

fn plain(anatomy: &Anatomy, end: End, kind: MandrelKind) -> Mandrel {
    let (dia, reach) = anatomy.bore_at(end).unwrap_or_default();
    let length = match kind {
        // Short of the far face, so that the washer clamps the ring and not the mandrel.
        MandrelKind::Stepped => reach - Length::mm(0.2),
        _ => reach.min(LONGEST_SPIGOT * 2),
    };
    Mandrel {
        shoulder: shoulder(anatomy.dia_at_face(end), dia),
        front_spigot: Some(Fitted { dia, length }),
        ..empty(kind)
    }
}

fn plug(anatomy: &Anatomy, end: End) -> Mandrel {
    match thread_of(anatomy, end, Side::Inside) {
        Some((feature, thread)) => Mandrel {
            thread_length: feature.to - feature.from,
            ..threaded(MandrelKind::Plug, thread)
        },
        None => Mandrel {
            shoulder: Length::ZERO,
            ..plain(anatomy, end, MandrelKind::Plug)
        },
    }
}

fn thread_of<'p>(
    anatomy: &Anatomy<'p>,
    end: End,
    side: Side,
) -> Option<(&'p Feature, &'p Arc<ThreadDef>)> {
    let feature = anatomy.thread_at(end, side)?;
    Some((feature, feature.thread()?.0))
}

/// Below the finished outside and over what it must bear on.
fn shoulder(outside: Length, inside: Length) -> Length {
    let clear = outside - SHOULDER_CLEAR * 2;
    if clear > inside { clear } else { outside }
}

/// The shank, for a collet on the bench, and the stock it is all turned from.
fn put_on_shank(made: &mut Mandrel, kit: Kit) {
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
    let own = kit
        .bench
        .map(|bench| bench.mandrels.as_slice())
        .unwrap_or_default();
    let rods = own.iter().copied().find(|it| *it >= least);
    made.stock = rods.unwrap_or_else(|| Length::mm(least.to_mm().ceil()));
    let shank = kit.collet_within(Length::mm(6.0), made.stock);
    made.shank = shank.unwrap_or(made.stock);
}
