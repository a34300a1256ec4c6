//! One verdict on each joint: whether it closes, what keeps it from closing, what holds it. Every
//! rule that asks reads it here.

use super::contact::{TOUCHING_MM, Touch};
use super::hold::{self, HeldBy};
use super::passage::{self, Blocked};
use super::{AtRest, SeatedRing, StoppedBy};
use crate::{ById, CutId, Joint, JointId, Part, PartId, Pen, RingId};
use quillet_syntax::ast::Verb;

/// The verdict on a joint at rest.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Verdict {
    /// Whether it closes, and what keeps it from closing.
    pub closing: Closing,
    /// A joint made before this one does not close, or a part it holds could not be read: all that
    /// it holds lies elsewhere than it will, and what it runs into says nothing.
    pub upset: bool,
    /// What holds it, the surest first; nothing where nothing does.
    pub held_by: Vec<HeldBy>,
}

/// Whether a joint comes to rest as it is meant to.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Closing {
    /// It does.
    #[default]
    Closes,
    /// Something is too fat for what it has to pass.
    Blocked(Blocked),
    /// The cap stops on what writes.
    Struck(Touch),
    /// It stops so far from where it would sit, mm; less than nothing where it goes past. What it
    /// touches first, where it touches anything.
    Short {
        /// How far short, mm.
        by_mm: f64,
        /// What meets there.
        touch: Option<Touch>,
    },
    /// A threaded joint comes to rest on its threads instead of on a face: a land that runs onto
    /// crests, or crests that meet a bore without thread.
    Jammed(Touch),
}

impl Verdict {
    /// Whether the joint comes to rest as it is meant to.
    pub fn closes(&self) -> bool {
        self.closing == Closing::Closes
    }

    /// Whether it closes and all that it holds lies where it will: what is worked out from there on
    /// is worth telling.
    pub fn is_sure(&self) -> bool {
        self.closes() && !self.upset
    }
}

/// Judges every joint of a pen; `nib` is the part that writes.
pub(super) fn judge(
    pen: &Pen,
    joints: &mut ById<JointId, AtRest>,
    rings: &ById<RingId, SeatedRing>,
    nib: Option<PartId>,
) {
    for (index, (joint, rest)) in pen
        .joints
        .ids()
        .zip(pen.joints.iter().zip(joints.iter_mut()))
    {
        rest.verdict.closing = closing(pen, joint, rest, nib);
        hold::rings(index, rings, &mut rest.verdict.held_by);
    }
    let open: Vec<JointId> = pen
        .joints
        .with_ids()
        .zip(&*joints)
        .filter(|((_, joint), rest)| joint.verb.lasts() && !rest.verdict.closes())
        .map(|((index, _), _)| index)
        .collect();
    for (index, rest) in joints.ids().zip(joints.iter_mut()) {
        let upset = upset(pen, index, rest, &open);
        rest.verdict.upset = upset;
    }
}

/// A size below this is none, mm.
const NOTHING_MM: f64 = 1e-6;

fn closing(pen: &Pen, joint: &Joint, rest: &AtRest, nib: Option<PartId>) -> Closing {
    if rest.redundant {
        return Closing::Closes;
    }
    if let Some(blocked) = passage::blocked(pen, joint, rest) {
        return Closing::Blocked(blocked);
    }
    if let Some(touch) = struck(joint, rest, nib) {
        return Closing::Struck(touch);
    }
    if let Some(by_mm) = short_mm(joint, rest) {
        let touch = rest.touches.first().copied();
        return Closing::Short { by_mm, touch };
    }
    match jammed(pen, joint, rest) {
        Some(touch) => Closing::Jammed(touch),
        None => Closing::Closes,
    }
}

/// Where the cap meets the nib: before its seat, or just as it comes to it. A cap that closes on the nib
/// unit itself comes to rest on it.
fn struck(joint: &Joint, rest: &AtRest, nib: Option<PartId>) -> Option<Touch> {
    if joint.verb != Verb::Close || rest.stopped_by != StoppedBy::Contact {
        return None;
    }
    let nib = nib?;
    let own = [joint.male.part, joint.female.part].contains(&nib);
    let touches = rest.touches.iter().enumerate();
    let mut met = touches.filter(|(at, touch)| {
        let stops = *at == 0 && rest.short_mm > TOUCHING_MM;
        [touch.male.part, touch.female.part].contains(&nib) && (stops || !own)
    });
    met.next().map(|(_, touch)| *touch)
}

/// How far short of its seat a joint stops; where none is said, of the overlap that is (`by L`), else
/// of where its two parts would come by themselves; none where it closes. What stops it elsewhere than
/// between its own two parts stops it, however little is left.
fn short_mm(joint: &Joint, rest: &AtRest) -> Option<f64> {
    if joint.verb == Verb::Post || rest.stopped_by == StoppedBy::Nothing {
        return None;
    }
    let own = |touch: &Touch| {
        touch.male.part == joint.male.part && touch.female.part == joint.female.part
    };
    let nothing = match rest.touches.first() {
        Some(first) if !own(first) => NOTHING_MM,
        _ => TOUCHING_MM,
    };
    let overlap = joint.by.map(|(by, _)| by.to_mm() - rest.goes_in_mm);
    let overlap = overlap.filter(|short| *short > nothing);
    let short = rest.seat_gap_mm.or(overlap).unwrap_or(rest.short_mm);
    (short.abs() > nothing).then_some(short)
}

/// What touches first, where a threaded joint touches nothing but its threads.
fn jammed(pen: &Pen, joint: &Joint, rest: &AtRest) -> Option<Touch> {
    if !matches!(joint.verb, Verb::Screw | Verb::Close | Verb::Post)
        || rest.stopped_by != StoppedBy::Contact
    {
        return None;
    }
    let part = |index: PartId| &pen.parts[index];
    let (male, female) = (part(joint.male.part), part(joint.female.part));
    let on = |touch: &Touch| {
        rest.engagements.iter().map(|it| it.threads).any(|threads| {
            on_thread(male, threads.male, &touch.male, touch.width_mm)
                || on_thread(female, threads.female, &touch.female, touch.width_mm)
        })
    };
    let first = rest.touches.first()?;
    rest.touches.iter().all(on).then_some(*first)
}

/// Whether a place of a part, and the ring of this width from it outward, is on one of its
/// threads: on its crests or the face at its end.
fn on_thread(part: &Part, thread: CutId, spot: &super::SurfacePoint, width_mm: f64) -> bool {
    let Some(feature) = part.features.get(thread) else {
        return false;
    };
    let (from, to) = feature.stations(part.length);
    let reach = from.to_mm() - 1e-6..=to.to_mm() + 1e-6;
    let major = feature.dia().map_or(0.0, |dia| dia.to_mm() / 2.0);
    reach.contains(&spot.station_mm) && spot.radius_mm + width_mm <= major + 1e-6
}

/// Whether what this joint holds lies elsewhere than it will; `open` are the joints, caps apart,
/// that do not close.
fn upset(pen: &Pen, index: JointId, rest: &AtRest, open: &[JointId]) -> bool {
    let mut with = pen.parts.map(|_| false);
    for (part, _) in rest.males.iter().chain(&rest.females) {
        if !pen.parts[*part].whole {
            return true;
        }
        with[*part] = true;
    }
    open.iter().filter(|it| **it != index).any(|it| {
        let joint = &pen.joints[*it];
        with[joint.male.part] && with[joint.female.part]
    })
}
