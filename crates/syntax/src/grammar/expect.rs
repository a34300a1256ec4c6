//! What the parser expects at a place, as a set that is cheap to build and to join.

use crate::grammar::WordId;

/// One thing that may stand at a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Expect {
    /// A word of the language.
    Word(WordId),
    /// Anything else.
    Thing(Thing),
}

macro_rules! things {
    ($($thing:ident $phrase:literal)*) => {
        /// Anything but a word of the language that may stand at a place.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[allow(missing_docs, reason = "each has its phrase")]
        pub enum Thing { $($thing),* }

        impl Thing {
            const ALL: &[Thing] = &[$(Thing::$thing),*];

            /// A maker's words for it.
            pub fn phrase(self) -> &'static str {
                match self { $(Thing::$thing => $phrase),* }
            }
        }
    };
}

things! {
    Name "a name"
    End "the name of an end"
    Face "a face, as barrel.mouth"
    FaceName "the name of an end or face"
    Material "a material's name"
    Kind "the name of a kind of material"
    Rule "a rule's name"
    Part "a part's name"
    Bench "a bench's name"
    Pen "a pen's name"
    Ware "a material or a bought part"
    ThreadName "a thread's name"
    Length "a length"
    Diameter "a diameter"
    Radius "a radius"
    Angle "an angle"
    Size "a size, as 8.2, 7/16in, #7 or letter F"
    Mass "a mass in grams"
    Force "a force in newtons"
    Volume "a volume in millilitres"
    Quantity "a quantity"
    Count "a count"
    StationPlace "a length or the name of an end"
    Measure "a measure, as length(capped)"
    Sum "a number, a name or a sum in parentheses"
    Thread "a thread, as M10x0.75 or its name"
    Designation "a thread's designation, as M10x0.75 or 7/16-28UNEF"
    Fit "a fit, as H7/g6"
    Capital "a capital letter"
    Title "a title in quotes"
    Date "a date in quotes"
    PatternName "a pattern's name in quotes"
    FinishName "a finish's name in quotes"
    Reason "a reason in quotes"
    Path "a file's path in quotes"
    Colour "a colour in quotes, as \"#6d8a34\""
    Range "'..'"
    Comma "','"
    Colon "':'"
    Dot "'.'"
    Equals "'='"
    PlusMinus "'+-'"
    Comparison "a comparison as <="
    Open "'{'"
    OpenParen "'('"
    CloseParen "')'"
    LineEnd "the end of the line"
}

/// A set of words is kept in so many whole numbers, a bit a word.
const WORD_LIMBS: usize = 3;

/// The words of the language are fewer than this.
#[cfg(test)]
pub(crate) const MOST_WORDS: usize = WORD_LIMBS * u64::BITS as usize;

/// A set of expectations.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct ExpectSet {
    words: [u64; WORD_LIMBS],
    things: u64,
}

impl ExpectSet {
    pub(crate) fn of(expect: Expect) -> Self {
        match expect {
            Expect::Word(word) => {
                let mut words = [0; WORD_LIMBS];
                let bit = word.index();
                if let Some(limb) = words.get_mut((bit / u64::BITS) as usize) {
                    *limb = 1 << (bit % u64::BITS);
                }
                Self { words, things: 0 }
            }
            Expect::Thing(thing) => Self {
                words: [0; WORD_LIMBS],
                things: 1 << thing as u32,
            },
        }
    }

    pub(crate) fn join(self, other: Self) -> Self {
        Self {
            words: std::array::from_fn(|limb| self.words[limb] | other.words[limb]),
            things: self.things | other.things,
        }
    }

    /// The words in it, in the table's order.
    pub(crate) fn words(self) -> impl Iterator<Item = WordId> {
        let limbs = (0..).step_by(u64::BITS as usize).zip(self.words);
        limbs.flat_map(|(first, limb)| {
            (0..u64::BITS)
                .filter(move |bit| limb >> bit & 1 == 1)
                .map(move |bit| WordId::from_index(first + bit))
        })
    }

    /// The other things in it.
    pub(crate) fn things(self) -> impl Iterator<Item = Thing> {
        Thing::ALL
            .iter()
            .copied()
            .filter(move |thing| self.things >> *thing as u32 & 1 == 1)
    }
}
