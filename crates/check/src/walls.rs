//! A part's walls by zone, each with the role it plays.

mod beside;
mod ends;
mod worst;

use crate::words;
use ends::ClosedEnds;
use quillet_geometry::{Chain, Length, Tag, walls as zones};
use quillet_model::{CircleId, Cut, Feature, Material, Origin, Part, Profiles};
use quillet_syntax::{SizedText, Span};
use std::sync::Arc;

/// The wall between an outer and an inner feature of a part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wall {
    /// What made the outer surface.
    pub outer: Origin,
    /// What made the inner one.
    pub inner: Origin,
    /// The stations between which one lies over the other.
    pub from: Length,
    /// The further one.
    pub to: Length,
    /// The least true distance; zero or less where the inside breaks through.
    pub least: Length,
    /// The station of the nearest place on the inner surface.
    pub at: Length,
    /// The station of the nearest place on the outer surface.
    pub outer_at: Length,
    /// The outer surface's diameter at the nearest place.
    pub outer_dia: Length,
    /// The inner surface's diameter at the nearest place.
    pub inner_dia: Length,
    /// What the wall is for.
    pub role: Role,
}

/// What a wall is for; its least thickness depends on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// Between a joint's outside and an inside thread.
    ThreadOverThread,
    /// Between a tenon, its thread's root or its relief, and the bore in it.
    Tenon,
    /// The lip of a mouth.
    Lip,
    /// Any other wall.
    Plain,
    /// Between the bottom of a blind hole and the outside beyond it.
    End,
}

impl Role {
    /// What a maker calls it.
    pub fn words(self) -> &'static str {
        match self {
            Role::ThreadOverThread => "thread over thread",
            Role::Tenon => "a tenon over its bore",
            Role::Lip => "the lip of a mouth",
            Role::Plain => "a plain wall",
            Role::End => "a closed end",
        }
    }
}

impl Wall {
    /// Whether both are over one inner cut, its drill point counted with it, in one role.
    pub(crate) fn is_like(&self, other: &Wall) -> bool {
        let cut = |wall: &Wall| (wall.role, wall.inner.feature(), wall.beside());
        cut(self) == cut(other)
    }

    /// The holes beside the axis that it is a wall of, where it is one.
    pub fn beside(&self) -> Option<CircleId> {
        [self.inner, self.outer].iter().find_map(|it| match it {
            Origin::Beside(id) => Some(*id),
            _ => None,
        })
    }

    /// What the wall is of, at its inner surface and, where that is another, at its outer one.
    pub(crate) fn materials<'a>(&self, part: &'a Part) -> Vec<&'a Arc<Material>> {
        let hair = Length::from_nm(1);
        let inner = part.material_in(self.at, self.inner_dia.half());
        let outer = part.material_in(self.at, self.outer_dia.half() - hair);
        let mut both: Vec<_> = inner.into_iter().chain(outer).collect();
        both.dedup_by(|a, b| Arc::ptr_eq(a, b));
        both
    }

    /// Where the outer surface is said.
    pub fn outer_span(&self, part: &Part) -> Span {
        words::span_of(part, self.outer)
    }

    /// Where the inner surface is said.
    pub fn inner_span(&self, part: &Part) -> Span {
        words::span_of(part, self.inner)
    }

    /// The outer surface in words, with its diameter.
    pub fn outer_words(&self, part: &Part) -> SizedText {
        words::outer(part, self.outer, self.outer_dia)
    }

    /// The inner surface in words, with its diameter.
    pub fn inner_words(&self, part: &Part) -> SizedText {
        match self.beside() {
            Some(_) if self.inner == self.outer => "the next of them".into(),
            _ => words::inner(part, self.inner, self.inner_dia),
        }
    }
}

/// The walls of a part, from its first end; none where its shape is not known.
///
/// Broken corners and the seats of rings are no walls; the cone of a countersink under 60° is one.
pub fn walls(part: &Part) -> Vec<Wall> {
    let Some(profiles) = &part.profiles else {
        return Vec::new();
    };
    let ends = ClosedEnds::of(part, profiles);
    let outer = ends.close(&profiles.root.outer);
    let origin = |tag: Tag| ends.origin(tag).unwrap_or_else(|| profiles.origin(tag));
    let counts = |outer: Tag, inner: Tag| is_wall(part, origin(outer), origin(inner));
    let outer = std::slice::from_ref(&outer);
    let mut walls: Vec<Wall> = zones::walls(outer, &profiles.root.inner, counts)
        .iter()
        .map(|found| {
            let (outer, inner) = (origin(found.outer), origin(found.inner));
            let mut wall = wall(part, found, outer, inner);
            if is_end(profiles, found) {
                wall.role = Role::End;
            }
            wall
        })
        .collect();
    // Where a bottom's corner lies nearer to the side, its end is a wall of its own.
    for found in ends::under_points(&outer[0], &profiles.root.inner, &counts) {
        let end = Wall {
            role: Role::End,
            ..wall(part, &found, origin(found.outer), origin(found.inner))
        };
        let judged = |it: &Wall| it.is_like(&end) && it.least <= end.least;
        if !walls.iter().any(judged) {
            walls.push(end);
        }
    }
    let closed = beside::Part {
        part,
        outer: &outer[0],
        inner: &profiles.root.inner,
        origin: &origin,
    };
    walls.extend(closed.walls(&profiles.not_round.circles));
    walls.sort_by_key(|wall| wall.from);
    walls
}

/// A bottom that looks along the axis at what closes the part beyond it.
fn is_end(profiles: &Profiles, found: &zones::Wall) -> bool {
    let along = (found.outer_at.z - found.inner_at.z).abs();
    let across = (found.outer_at.r - found.inner_at.r).abs();
    along > across && is_bottom(profiles, found.inner)
}

fn wall(part: &Part, found: &zones::Wall, outer: Origin, inner: Origin) -> Wall {
    let mut wall = Wall {
        outer,
        inner,
        from: Length::mm(found.from_mm),
        to: Length::mm(found.to_mm),
        least: Length::mm(found.least_mm),
        at: Length::mm(found.inner_at.z),
        outer_at: Length::mm(found.outer_at.z),
        outer_dia: Length::mm(found.outer_at.r).twice(),
        inner_dia: Length::mm(found.inner_at.r).twice(),
        role: Role::Plain,
    };
    wall.role = role(part, &wall);
    wall
}

fn role(part: &Part, wall: &Wall) -> Role {
    let feature = |origin: Origin| origin.feature().and_then(|index| part.features.get(index));
    let inner_thread = feature(wall.inner).is_some_and(|it| it.thread().is_some());
    match (feature(wall.outer).is_some(), inner_thread) {
        (true, true) => Role::ThreadOverThread,
        (true, false) => Role::Tenon,
        (false, false) if is_lip(part, wall) => Role::Lip,
        (false, _) => Role::Plain,
    }
}

/// A short stretch that begins at an end's face.
fn is_lip(part: &Part, wall: &Wall) -> bool {
    let from_face = wall.from.min(part.length - wall.to);
    from_face.to_mm() < 1e-6 && wall.to - wall.from <= LONGEST_LIP
}

/// Beyond this a mouth bore is a plain wall.
const LONGEST_LIP: Length = Length::from_nm(5_000_000);

/// Whether the inner feature's surface closes a bore at the axis: a blind hole's bottom.
fn is_bottom(profiles: &Profiles, tag: Tag) -> bool {
    let on_axis = |r: f64| r < 1e-9;
    profiles
        .root
        .inner
        .iter()
        .flat_map(Chain::segments)
        .any(|piece| {
            piece.tag == tag && (on_axis(piece.curve.start().r) || on_axis(piece.curve.end().r))
        })
}

fn is_wall(part: &Part, outer: Origin, inner: Origin) -> bool {
    let counted = |origin: Origin| match origin {
        Origin::Stock | Origin::Ring | Origin::Axis => false,
        _ if origin.is_edge() => is_sharp_cone(part, origin),
        _ => !origin
            .feature()
            .and_then(|index| part.features.get(index))
            .is_some_and(holds_ring),
    };
    // A tube's own wall is as it was bought.
    counted(outer) && counted(inner) && [outer, inner] != [Origin::Tube; 2]
}

/// A cone that goes so far in is a wall.
fn is_sharp_cone(part: &Part, origin: Origin) -> bool {
    let cut = origin.feature().and_then(|index| part.features.get(index));
    cut.is_some_and(Feature::is_sharp)
}

fn holds_ring(feature: &Feature) -> bool {
    matches!(
        feature.cut,
        Cut::Groove { takes: Some(_), .. } | Cut::Recess { takes: Some(_), .. }
    )
}
