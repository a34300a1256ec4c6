//! How far a male goes into a female, and what stops it.

mod meet;
mod piece;

use crate::chain::SAME;
use crate::{Chain, Tag};
use meet::meet;
use piece::{Piece, female_pieces, male_pieces};

/// Where a male comes to rest in a female.
#[derive(Debug, Clone, PartialEq)]
pub struct Rest {
    /// How deep the male's zero station lies in the female when they touch, mm.
    pub depth_mm: f64,
    /// What touches, and what nearly does: the least reach first, at most one for each pair of tags.
    pub contacts: Vec<Contact>,
}

/// A place of the male that meets a place of the female.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contact {
    /// What of the male.
    pub male: Tag,
    /// What of the female.
    pub female: Tag,
    /// How deep the male's zero station lies in the female when these two meet, mm.
    pub reach_mm: f64,
    /// The radius at which they meet, mm.
    pub radius_mm: f64,
    /// The station on the male, mm behind its zero.
    pub male_at_mm: f64,
    /// The station on the female, mm inside its zero.
    pub female_at_mm: f64,
}

/// Slides the male in until it touches: `min over r of A(r) + D(r)`, where `A(r)` is the first
/// station of the male fatter than `r` and `D(r)` the first depth at which the female is narrower.
///
/// `males` are outsides, `z` running back from the leading end; `females` are insides, `z` running
/// in from the mouth. Each begins with the face that looks at the mate, if it has one: the male
/// with its leading face from the axis out, the female with its lip from the outside in. Several
/// chains are parts already joined, each in its place. Sizes that agree within 1e-9 mm pass.
///
/// Pairs of tags that `excused` names pass through each other (a male thread over the matching
/// female one). A face square to the axis passes as what it leads up to does: the front of a
/// thread is thread. A chamfer is asked about by its own tag.
///
/// Contacts up to `within_mm` past the least are listed with it. A face that has the tag of a
/// neighbour is named as what it leads up to. None where nothing ever touches.
pub fn rest(
    males: &[Chain],
    females: &[Chain],
    excused: impl Fn(Tag, Tag) -> bool,
    within_mm: f64,
) -> Option<Rest> {
    slide(
        males,
        females,
        &|male, female| !excused(male.passes_as, female.passes_as),
        within_mm,
    )
}

/// The contact of one pair of features, as if they alone could touch; less the depth at which the
/// male lies it is the axial clearance between them. None where they never meet.
pub fn reach(
    males: &[Chain],
    females: &[Chain],
    pair: impl Fn(Tag, Tag) -> bool,
) -> Option<Contact> {
    let named = |male: &Piece, female: &Piece| {
        [male.tag, male.passes_as].iter().any(|one| {
            [female.tag, female.passes_as]
                .iter()
                .any(|other| pair(*one, *other))
        })
    };
    slide(males, females, &named, 0.0)?
        .contacts
        .first()
        .copied()
}

fn slide(
    males: &[Chain],
    females: &[Chain],
    touch: &dyn Fn(&Piece, &Piece) -> bool,
    within_mm: f64,
) -> Option<Rest> {
    let (males, females) = (male_pieces(males), female_pieces(females));
    let meets = |male: &Piece, female: &Piece| {
        male.radius.1 > female.radius.1 + SAME && touch(male, female)
    };
    let mut contacts: Vec<Contact> = Vec::new();
    let mut least = f64::INFINITY;
    for (index, male) in males.iter().enumerate() {
        for (other, female) in females.iter().enumerate() {
            if male.at + female.at > least + within_mm || !meets(male, female) {
                continue;
            }
            let Some(contact) = meet(male, female) else {
                continue;
            };
            // A corner belongs to the piece that leads up to it, where that meets the mate at all.
            let on_male_corner =
                contact.male_at_mm <= male.at + SAME && contact.radius_mm <= male.corner;
            let on_female_corner =
                contact.female_at_mm <= female.at + SAME && contact.radius_mm >= female.corner;
            if (on_male_corner && male.follows && meets(&males[index - 1], female))
                || (on_female_corner && female.follows && meets(male, &females[other - 1]))
            {
                continue;
            }
            least = least.min(contact.reach_mm);
            contacts.push(contact);
        }
    }
    contacts.retain(|contact| contact.reach_mm <= least + within_mm);
    contacts.sort_by(|a, b| a.reach_mm.total_cmp(&b.reach_mm));
    let mut seen = Vec::new();
    contacts.retain(|contact| {
        let pair = (contact.male, contact.female);
        let first = !seen.contains(&pair);
        seen.push(pair);
        first
    });
    contacts.first().map(|first| Rest {
        depth_mm: first.reach_mm,
        contacts: contacts.clone(),
    })
}

/// A female's chain as it lies over the male's stations when the male is `depth_mm` in: for
/// clearances between the two by [`walls`](crate::walls::walls), the female outside.
pub fn over_male(female: &Chain, depth_mm: f64) -> Chain {
    female.reversed(depth_mm)
}
