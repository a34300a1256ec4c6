//! Which of a list's things is meant, so that one list's number is never taken for another's.
//!
//! Each list that is numbered has a kind of number of its own, and is a [`ById`]: only that kind
//! opens it.

use std::fmt;
use std::marker::PhantomData;
use std::ops::{Deref, DerefMut, Index, IndexMut};

/// A kind of number: a place in a list.
pub trait Id: Copy + Eq {
    /// Of the thing at this place in its list.
    fn nth(index: usize) -> Self;

    /// Its place in its list.
    fn index(self) -> usize;
}

/// Makes kinds of numbers.
#[macro_export]
macro_rules! ids {
    ($($(#[$doc:meta])* $vis:vis $name:ident;)+) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        $vis struct $name(usize);

        impl $name {
            /// Of the thing at this place in its list.
            $vis fn nth(index: usize) -> Self {
                Self(index)
            }

            /// Its place in its list.
            $vis fn index(self) -> usize {
                self.0
            }

            /// Its place as people count, from one.
            $vis fn number(self) -> usize {
                self.0 + 1
            }

            /// That of the thing before it; none before the first.
            $vis fn before(self) -> Option<Self> {
                self.0.checked_sub(1).map(Self)
            }

            /// That of the thing behind it, where there is one.
            $vis fn after(self) -> Self {
                Self(self.0 + 1)
            }
        }

        impl $crate::Id for $name {
            fn nth(index: usize) -> Self {
                Self(index)
            }

            fn index(self) -> usize {
                self.0
            }
        }
    )+};
}

ids! {
    /// Which part of a pen, as that pen sees it: its place in `Pen::parts`. A design's own parts
    /// have no number; they are found by name.
    pub PartId;
    /// Which joint of a pen: its place in `Pen::joints` and in `Assembly::joints`.
    pub JointId;
    /// Which cut of a part: its place in `Part::features`.
    pub CutId;
    /// Which station of a part's outside: its place in `Part::stations`.
    pub StationId;
    /// Which cut from the side of a part: its place in `CutPart::sides`.
    pub SideId;
    /// Which holes beside the axis of a part: its place in `CutPart::circles`.
    pub CircleId;
    /// Which piece of a cut part's blank: its place in `CutPart::blanks`, from the part's first end.
    pub PieceId;
    /// Which definition of a design: its place in `Names::definitions`.
    pub DefinitionId;
    /// Which O-ring in a pen's grooves: its place in `Assembly::rings`.
    pub RingId;
}

impl PieceId {
    /// That at the part's first end.
    pub const FIRST: PieceId = PieceId(0);
}

impl PartId {
    /// The only one, where a part is looked at by itself.
    pub const ALONE: PartId = PartId(0);
}

/// A list of `T`, opened by `I` and by no other number.
///
/// An id comes from the list it opens, or from one beside it of the same length (what each part
/// weighs, beside the parts); of another list's id it is as with any index.
///
/// ```compile_fail,E0308
/// # use quillet_model::{JointId, Pen};
/// fn name(pen: &Pen, joint: JointId) -> &str {
///     &pen.parts[joint].name.text // a joint's number opens no part
/// }
/// ```
pub struct ById<I, T> {
    items: Vec<T>,
    ids: PhantomData<I>,
}

impl<I, T> ById<I, T> {
    /// Nothing.
    pub const EMPTY: Self = ById {
        items: Vec::new(),
        ids: PhantomData,
    };
}

impl<I: Id, T> ById<I, T> {
    /// As many times the same.
    pub fn filled(item: T, len: usize) -> Self
    where
        T: Clone,
    {
        vec![item; len].into()
    }

    /// One by itself.
    pub fn alone(item: T) -> Self {
        vec![item].into()
    }

    /// All ids, in order.
    pub fn ids(
        &self,
    ) -> impl DoubleEndedIterator<Item = I> + ExactSizeIterator + Clone + use<I, T> {
        (0..self.items.len()).map(I::nth)
    }

    /// Each with its id, in order.
    pub fn with_ids(&self) -> impl DoubleEndedIterator<Item = (I, &T)> + ExactSizeIterator + Clone {
        self.items
            .iter()
            .enumerate()
            .map(|(at, it)| (I::nth(at), it))
    }

    /// The thing of an id; none where it is another list's.
    pub fn get(&self, id: I) -> Option<&T> {
        self.items.get(id.index())
    }

    /// The thing of an id, to be changed; none where it is another list's.
    pub fn get_mut(&mut self, id: I) -> Option<&mut T> {
        self.items.get_mut(id.index())
    }

    /// Those before one, and those behind it.
    pub fn around(&self, id: I) -> (&[T], &[T]) {
        let (before, rest) = self.items.split_at(id.index().min(self.items.len()));
        (before, rest.get(1..).unwrap_or_default())
    }

    /// The first of which something holds.
    pub fn position(&self, holds: impl FnMut(&T) -> bool) -> Option<I> {
        self.items.iter().position(holds).map(I::nth)
    }

    /// Makes room for so many more.
    pub fn reserve(&mut self, more: usize) {
        self.items.reserve(more);
    }

    /// Puts one at the end.
    pub fn push(&mut self, item: T) -> I {
        self.items.push(item);
        I::nth(self.items.len() - 1)
    }

    /// Takes one out; those behind it move up.
    pub fn remove(&mut self, id: I) -> T {
        self.items.remove(id.index())
    }

    /// Keeps those of which something holds.
    pub fn retain(&mut self, keep: impl FnMut(&T) -> bool) {
        self.items.retain(keep);
    }

    /// A list beside this one, opened by the same ids.
    pub fn map<U>(&self, make: impl FnMut(&T) -> U) -> ById<I, U> {
        self.items.iter().map(make).collect()
    }
}

impl<I: Id, T> Index<I> for ById<I, T> {
    type Output = T;

    fn index(&self, id: I) -> &T {
        &self.items[id.index()]
    }
}

impl<I: Id, T> IndexMut<I> for ById<I, T> {
    fn index_mut(&mut self, id: I) -> &mut T {
        &mut self.items[id.index()]
    }
}

impl<I, T> Deref for ById<I, T> {
    type Target = [T];

    fn deref(&self) -> &[T] {
        &self.items
    }
}

impl<I, T> DerefMut for ById<I, T> {
    fn deref_mut(&mut self) -> &mut [T] {
        &mut self.items
    }
}

impl<I, T> From<Vec<T>> for ById<I, T> {
    fn from(items: Vec<T>) -> Self {
        let ids = PhantomData;
        ById { items, ids }
    }
}

impl<I, T> FromIterator<T> for ById<I, T> {
    fn from_iter<A: IntoIterator<Item = T>>(items: A) -> Self {
        items.into_iter().collect::<Vec<T>>().into()
    }
}

impl<I, T> Extend<T> for ById<I, T> {
    fn extend<A: IntoIterator<Item = T>>(&mut self, items: A) {
        self.items.extend(items);
    }
}

impl<I, T> IntoIterator for ById<I, T> {
    type Item = T;
    type IntoIter = std::vec::IntoIter<T>;

    fn into_iter(self) -> Self::IntoIter {
        self.items.into_iter()
    }
}

impl<'a, I, T> IntoIterator for &'a ById<I, T> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.items.iter()
    }
}

impl<I, T> Default for ById<I, T> {
    fn default() -> Self {
        Vec::new().into()
    }
}

impl<I, T: Clone> Clone for ById<I, T> {
    fn clone(&self) -> Self {
        self.items.clone().into()
    }
}

impl<I, T: PartialEq> PartialEq for ById<I, T> {
    fn eq(&self, other: &Self) -> bool {
        self.items == other.items
    }
}

impl<I, T: fmt::Debug> fmt::Debug for ById<I, T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.items.fmt(f)
    }
}
