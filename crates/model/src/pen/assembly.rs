//! Where everything comes to rest.

mod air;
mod apart;
pub(crate) mod chain;
mod chambers;
mod clearance;
mod clock;
mod configuration;
mod contact;
mod drift;
mod earlier;
mod elastic;
mod force;
mod group;
mod hold;
mod ink;
mod magnet;
mod nib;
mod order;
mod passage;
mod place;
mod placed_outline;
mod pocket;
mod radial_clearance;
mod ring;
mod ring_shape;
mod settle;
mod snap;
mod stand;
pub(crate) mod surface;
mod threads;
mod throw;
pub(crate) mod tolerance;
mod trapped;
mod travel;
mod verdict;

pub use air::{Air, Piston, Vent};
pub use chain::{Link, Size, WorstCase};
pub use clearance::{Clearance, ClearanceKind};
pub use configuration::{Configuration, Unknown};
pub use contact::{SurfacePoint, TOUCHING_MM, Touch};
pub use hold::{GLUE_GAP, GLUE_MM, HeldBy, PUSH, PlainFit, PostedContact};
pub use ink::{Ink, InkIn};
pub use magnet::MagnetPair;
pub use passage::Blocked;
pub use place::Placement;
pub use pocket::{PocketCut, Pocketed};
pub use ring::{RingSeal, SeatedRing};
pub use ring_shape::RingShape;
pub use settle::{StoppedBy, Trapped};
pub use snap::SnapFit;
pub use threads::{Engagement, MatedThreads, TEN_DEGREES};
pub use trapped::FREE_MM;
pub use verdict::{Closing, Verdict};

use crate::{ById, Configured, Joint, JointId, Part, PartId, Parts, Pen, RingId, Seat, Weights};
use drift::{AxisDrifts, Drifts, JointDrifts};
use earlier::EarlierPen;
use group::Groups;
use quillet_geometry::Mass;
use quillet_syntax::ast::Verb;
use settle::{Bodies, SeatedJoint};
use std::sync::Arc;

/// A pen put together: where each joint comes to rest, and the pen in each configuration.
#[derive(Clone, Debug, Default)]
pub struct Assembly {
    /// One for each of `Pen::joints`, in their order.
    pub joints: ById<JointId, AtRest>,
    /// Closed; none where no `close` is written or a part of it has no shape.
    pub capped: Option<Configuration>,
    /// Open.
    pub uncapped: Option<Configuration>,
    /// Open with the cap on the tail; none where no `post` is written.
    pub posted: Option<Configuration>,
    /// Open, what a mechanism throws drawn back; none where nothing is thrown.
    pub retracted: Option<Configuration>,
    /// In its stand, from the top down to the foot; none where no `rest` is written.
    pub resting: Option<Configuration>,
    /// The springs between parts that others place, as they are pressed there when it is drawn back.
    pub springs_retracted: Vec<(JointId, Trapped)>,
    /// Parts that hang together with neither the body nor the cap, group by group.
    pub loose: Vec<Vec<PartId>>,
    /// The ink it holds.
    pub ink: Option<Ink>,
    /// The air round the nib when it is closed.
    pub air: Option<Air>,
    /// The part that writes: what is bought and stands out furthest at the writing end of the open
    /// pen; none where what stands out there is cut, a clip or a spring.
    pub nib: Option<PartId>,
    /// The O-rings in its parts' grooves.
    pub rings: ById<RingId, SeatedRing>,
    /// What sits in the pockets of its parts and is in no joint.
    pub pockets: Vec<Pocketed>,
    /// What each part weighs, on its own stations, O-rings in its grooves and what sits in its pockets with it.
    pub weights: Weights,
}

/// A joint at rest.
///
/// Its own axis has its zero at the female's face and runs inward.
#[derive(Clone, Debug, PartialEq)]
pub struct AtRest {
    /// How far the male's leading face lies beyond the female's face, mm.
    pub goes_in_mm: f64,
    /// How much further the two parts would go by themselves, mm: what parts joined to them cost.
    pub short_mm: f64,
    /// What stops it there.
    pub stopped_by: StoppedBy,
    /// What touches, first the parts that touch first; all within [`TOUCHING_MM`].
    pub touches: Vec<Touch>,
    /// What is trapped between, in the order written.
    pub trapped: Vec<Trapped>,
    /// The threads that mate, those engaged furthest first.
    pub engagements: Vec<Engagement>,
    /// What passes what, and how much further each could go.
    pub clearances: Arc<[Clearance]>,
    /// How far the two faces of `seat` are apart along the axis, mm; less than nothing where the
    /// male has gone past.
    pub seat_gap_mm: Option<f64>,
    /// The parts that go in, each with its place on the joint's axis.
    pub males: Vec<(PartId, Placement)>,
    /// The parts that receive them.
    pub females: Vec<(PartId, Placement)>,
    /// Its two parts were joined already through others, so it places nothing.
    pub redundant: bool,
    /// How the plain surfaces of its own two parts lie in each other; none where nothing of the one
    /// lies in the other.
    pub fit: Option<PlainFit>,
    /// How a posted cap rides on the tail.
    pub ride: Option<PostedContact>,
    /// Whether it closes, and what holds it.
    pub verdict: Verdict,
}

impl Assembly {
    /// Puts a pen together; its own `assembly` is not looked at.
    ///
    /// `known` gives a part that no joint names, an O-ring or a magnet, by its name; what writes stands `nib_out_mm`
    /// further out than where its joint places it. What rests as it does in the `earlier` one of two pens with the
    /// same parts is taken over from there.
    #[expect(
        clippy::too_many_lines,
        reason = "the order in which a pen comes to rest, a step a line or two"
    )]
    pub(crate) fn of(
        pen: &Pen,
        nib_out_mm: f64,
        known: &dyn Fn(&str) -> Option<Arc<Part>>,
        earlier: Option<&Pen>,
    ) -> Assembly {
        let parts = &pen.parts;
        let mut bodies = Bodies::new(parts, &pen.hands);
        bodies.pockets = pocket::filled(parts, known);
        let numbered = || pen.joints.with_ids();
        let lasting: Vec<(JointId, &Joint)> =
            numbered().filter(|(_, joint)| joint.verb.lasts()).collect();
        let (mut open, made) = order::made(&bodies, &lasting);
        let mut settled: ById<JointId, Option<SeatedJoint>> = pen.joints.map(|_| None);
        let mut drifts = Drifts::apart(parts.len());
        let mut drifted = pen.joints.map(|_| JointDrifts::default());
        for (index, rest) in made {
            drifted[index] = drifts.of(&bodies, &pen.joints[index], &rest);
            drifts.join(&drifted[index]);
            settled[index] = Some(rest);
        }
        let mut springs: ById<JointId, Vec<Trapped>> = pen.joints.map(|_| Vec::new());
        for (index, joint) in lasting
            .iter()
            .filter(|(index, _)| settled[*index].is_none())
        {
            for (place, trapped) in bodies.sprung(joint, &open, &[]) {
                open.lay(trapped.part, place);
                open.merge(joint.female.part, trapped.part);
                springs[*index].push(trapped);
            }
        }
        let placing = settled.map(Option::is_some);
        let mut back = open.clone();
        let retracted = throw::draw_back(pen, &mut back, &placing).then_some(back);
        let mut springs_retracted = Vec::new();
        if let Some(back) = &retracted {
            for (index, joint) in lasting.iter().filter(|it| !springs[it.0].is_empty()) {
                let standing = bodies.sprung(joint, back, &springs[*index]);
                springs_retracted.extend(standing.into_iter().map(|it| (*index, it.1)));
            }
        }
        let body = Body::of(pen, &open);
        bodies.nib = body.as_ref().and_then(|it| nib::of(parts, &open, it));
        if let Some(body) = &body {
            nib::set_out(&mut open, body, bodies.nib, nib_out_mm);
        }
        let (open, bodies) = (open, bodies);
        let mut of_verb = |verb: Verb, closed: Option<&Groups>| -> Option<(JointId, Groups)> {
            let (index, joint) = numbered().find(|(_, joint)| joint.verb == verb)?;
            let base = stand::taken(pen, &open, joint, closed);
            if base.joined(joint.male.part, joint.female.part) {
                return None;
            }
            let rest = bodies.settle(joint, base, Some(bodies.alone(joint).goes_in_mm));
            let mut groups = base.clone();
            rest.join(joint, &mut groups);
            drifted[index] = drifts.of(&bodies, joint, &rest);
            settled[index] = Some(rest);
            Some((index, groups))
        };
        let closed = of_verb(Verb::Close, None);
        let posted = of_verb(Verb::Post, None);
        let standing = of_verb(Verb::Rest, closed.as_ref().map(|it| &it.1));
        let cap_joint = closed
            .as_ref()
            .and_then(|(index, _)| settled[*index].as_ref());
        let air = cap_joint
            .filter(|_| pen.is_settled())
            .map(|rest| air::round_the_nib(&bodies, rest));
        let earlier = earlier.and_then(|it| EarlierPen::of(it, pen, &bodies, &settled));
        let mut joints: ById<JointId, AtRest> = numbered()
            .map(|(index, joint)| match settled[index].take() {
                Some(rest) => {
                    let kept = earlier.as_ref().and_then(|it| it.kept(pen, index, &rest));
                    let drifts = drifts.on(&drifted[index]);
                    kept.unwrap_or_else(|| AtRest::of(pen, index, &bodies, rest, (&open, drifts)))
                }
                None => AtRest {
                    trapped: std::mem::take(&mut springs[index]),
                    ..AtRest::redundant(joint, &bodies, &open)
                },
            })
            .collect();

        let rings = ring::seated(pen, &joints, known);
        verdict::judge(pen, &mut joints, &rings, bodies.nib);
        let mut assembly = Assembly {
            joints,
            weights: weights(parts, &rings, &bodies.pockets),
            air,
            nib: bodies.nib,
            rings,
            pockets: bodies.pockets.clone(),
            ..Assembly::default()
        };
        let Some(body) = body else {
            return assembly;
        };
        if pen.is_settled() {
            assembly.ink = ink::held(pen, &assembly, &open, &body);
        }
        let ink = assembly.ink.as_ref();
        let configured = |groups: &Groups| {
            let (part, reversed) = (body.part, body.reversed);
            Configuration::of(pen, groups, part, reversed, &assembly.weights, ink)
        };
        let uncapped = configured(&open);
        assembly.retracted = retracted.as_ref().map(configured);
        assembly.springs_retracted = springs_retracted;
        let capped = closed.as_ref().map(|(_, groups)| configured(groups));
        let on_tail = posted.as_ref().map(|(_, groups)| configured(groups));
        (assembly.uncapped, assembly.capped, assembly.posted) = (Some(uncapped), capped, on_tail);
        assembly.resting = standing.as_ref().map(|(index, groups)| {
            let stand = pen.joints[*index].second();
            // From the top down to the foot.
            let reversed = stand.end == crate::End::Second;
            Configuration::of(pen, groups, stand.part, reversed, &assembly.weights, ink)
        });
        let with = [&closed, &posted, &standing];
        assembly.loose = loose(parts, &open, &with, body.part);
        assembly
    }

    /// The pen in a configuration.
    pub fn configuration(&self, configured: Configured) -> Option<&Configuration> {
        match configured {
            Configured::Capped => self.capped.as_ref(),
            Configured::Uncapped => self.uncapped.as_ref(),
            Configured::Posted => self.posted.as_ref(),
            Configured::Retracted => self.retracted.as_ref(),
            Configured::Resting => self.resting.as_ref(),
        }
    }
}

/// What each part weighs, with the rings in its grooves and what sits in its pockets.
fn weights(parts: &Parts, rings: &[SeatedRing], pockets: &[Pocketed]) -> Weights {
    let with_rings = |(index, part): (PartId, &Arc<Part>)| {
        let own = part.weigh()?;
        let of_rings = rings.iter().filter(|it| it.part == index).map(|it| {
            let (from, to) = part.features[it.feature].stations(part.length);
            let middle_mm = (from.to_mm() + to.to_mm()) / 2.0;
            Some(Mass::at(it.ring.weigh()?.mass_g, middle_mm))
        });
        let in_pockets = pockets.iter().filter(|it| it.part == index);
        let in_pockets = in_pockets.map(Pocketed::weigh);
        let added = of_rings.chain(in_pockets);
        [Some(own)].into_iter().chain(added).sum()
    };
    parts.with_ids().map(with_rings).collect()
}

impl AtRest {
    /// Where a part that moves with one of the two lies on the joint's axis.
    pub fn place(&self, part: PartId) -> Option<Placement> {
        let mut all = self.males.iter().chain(&self.females);
        all.find(|it| it.0 == part).map(|it| it.1)
    }

    fn of(
        pen: &Pen,
        index: JointId,
        bodies: &Bodies,
        rest: SeatedJoint,
        (open, drifts): (&Groups, AxisDrifts),
    ) -> AtRest {
        let joint = &pen.joints[index];
        let placed = |members: &[contact::Member]| -> Vec<(PartId, Placement)> {
            members.iter().map(|it| (it.part, it.place)).collect()
        };
        let (males, females) = (placed(&rest.males), placed(&rest.females));
        let seat_gap_mm = joint
            .seat
            .as_ref()
            .and_then(|seat| seat_gap_mm(seat, &males, &females));
        let engagements = threads::engagements(joint, bodies.parts, rest.goes_in_mm);
        let tightest = clearance::tightest(bodies, &rest);
        let tightest = tightest.as_ref();
        let fit = hold::plain_fit(bodies, &rest, tightest);
        let throats = tightest.map_or(&[][..], |it| &it.throats);
        let own = (&*engagements, fit, tightest);
        let held_by = hold::held_by(bodies, pen, index, &rest, own, open);
        let posts = joint.verb == Verb::Post;
        AtRest {
            goes_in_mm: rest.goes_in_mm,
            short_mm: rest.short_mm(),
            stopped_by: rest.stopped_by,
            engagements,
            clearances: clearance::all(bodies, joint, &rest, drifts, throats).into(),
            seat_gap_mm,
            fit,
            ride: posts.then(|| hold::ride(pen, &rest)).flatten(),
            verdict: Verdict {
                held_by,
                ..Verdict::default()
            },
            touches: rest.touches,
            trapped: rest.trapped,
            males,
            females,
            redundant: false,
        }
    }

    /// A joint between parts that others already hold in place.
    fn redundant(joint: &Joint, bodies: &Bodies, groups: &Groups) -> AtRest {
        let female = Placement::inward(&bodies.parts[joint.female.part], joint.female.end);
        let axis = groups.place(joint.female.part).inverse().then(female);
        let male = groups.place(joint.male.part).then(axis);
        let leading = Placement::leading(&bodies.parts[joint.male.part], joint.male.end);
        AtRest {
            goes_in_mm: male.offset_mm - leading.offset_mm,
            short_mm: 0.0,
            stopped_by: StoppedBy::Nothing,
            touches: Vec::new(),
            trapped: Vec::new(),
            engagements: Vec::new(),
            clearances: Arc::default(),
            seat_gap_mm: None,
            males: vec![(joint.male.part, male)],
            females: vec![(joint.female.part, female)],
            redundant: true,
            fit: None,
            ride: None,
            verdict: Verdict::default(),
        }
    }
}

/// How far the seat's two faces are apart.
fn seat_gap_mm(
    seat: &Seat,
    males: &[(PartId, Placement)],
    females: &[(PartId, Placement)],
) -> Option<f64> {
    let at = |members: &[(PartId, Placement)], face: &crate::PenFace| {
        let (_, place) = members.iter().find(|(part, _)| *part == face.part)?;
        Some(place.of(face.at.to_mm()))
    };
    let gap = |male: &crate::PenFace, female: &crate::PenFace| {
        Some(at(females, female)? - at(males, male)?)
    };
    gap(&seat.first, &seat.second).or_else(|| gap(&seat.second, &seat.first))
}

/// The part that the pen is turned by: of the body, and which way its stations run.
struct Body {
    part: PartId,
    /// Its stations run towards the writing point.
    reversed: bool,
}

impl Body {
    /// The cap joint says where the writing point is, else the tail that is posted on, else the
    /// bought part that stands out furthest at one end, else what goes in by the first joint.
    fn of(pen: &Pen, open: &Groups) -> Option<Body> {
        let joint = |verb: Verb| pen.joints.iter().find(|joint| joint.verb == verb);
        if let Some(close) = joint(Verb::Close) {
            let body = close.second();
            return Some(Body {
                part: body.part,
                reversed: body.end == crate::End::Second,
            });
        }
        if let Some(post) = joint(Verb::Post) {
            let tail = post.second();
            return Some(Body {
                part: tail.part,
                reversed: tail.end == crate::End::First,
            });
        }
        let Some(first) = pen.joints.iter().find(|joint| joint.verb != Verb::Rest) else {
            // What does nothing but stand writes with its other end.
            let stands = joint(Verb::Rest)?.first();
            return Some(Body {
                part: stands.part,
                reversed: stands.end == crate::End::First,
            });
        };
        let part = first.female.part;
        let ends = |index: PartId| {
            let length_mm = pen.parts[index].length.to_mm();
            open.place(index).span((0.0, length_mm))
        };
        let all = || open.with(part);
        let front = all().min_by(|a, b| ends(*a).0.total_cmp(&ends(*b).0))?;
        let back = all().max_by(|a, b| ends(*a).1.total_cmp(&ends(*b).1))?;
        let bought = |index: PartId| pen.parts[index].is_bought();
        let reversed = match bought(front) == bought(back) {
            true => first.female.end == crate::End::Second,
            false => open.place(part).reversed != bought(back),
        };
        Some(Body { part, reversed })
    }
}

/// Groups of parts that belong to no configuration.
fn loose(
    parts: &Parts,
    open: &Groups,
    states: &[&Option<(JointId, Groups)>],
    body: PartId,
) -> Vec<Vec<PartId>> {
    let held = |part: PartId| {
        let with = |groups: &Option<(JointId, Groups)>| {
            groups
                .as_ref()
                .is_some_and(|(_, groups)| groups.joined(part, body))
        };
        open.joined(part, body) || states.iter().any(|it| with(it))
    };
    let mut groups: Vec<Vec<PartId>> = Vec::new();
    for part in parts.ids() {
        if held(part)
            || groups
                .iter()
                .flatten()
                .any(|other| open.joined(*other, part))
        {
            continue;
        }
        groups.push(open.with(part).collect());
    }
    groups
}
