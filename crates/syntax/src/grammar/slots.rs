//! What is filled in, in a statement: by its word in capitals, what it takes.

use super::expect::Thing;

/// A word in capitals of a rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Slot {
    /// As the rule has it, without quotes.
    pub name: &'static str,
    /// Behind which words it means this, or in the statement of which; empty where everywhere else.
    pub after: &'static [&'static str],
    /// What it takes: a rule of `grammar.ebnf`.
    pub takes: &'static str,
    /// What a finding and completion call it.
    pub thing: Thing,
    /// What may be written there.
    pub sample: &'static str,
}

/// What a word in capitals takes behind a word, in the statement that begins with `first`.
pub(super) fn slot(name: &str, first: &str, last: &str) -> Option<&'static Slot> {
    SLOTS.iter().find(|it| {
        let here = it.after.is_empty() || it.after.contains(&last) || it.after.contains(&first);
        it.name == name && here
    })
}

/// Every slot.
pub fn slots() -> &'static [Slot] {
    SLOTS
}

const fn s(
    name: &'static str,
    after: &'static [&'static str],
    takes: &'static str,
    thing: Thing,
    sample: &'static str,
) -> Slot {
    Slot {
        name,
        after,
        takes,
        thing,
        sample,
    }
}

/// Where one word stands for several, the particular ones first.
#[rustfmt::skip]
const SLOTS: &[Slot] = &[
    s("NAME", &[], "name", Thing::Name, "reed"),
    s("BENCH", &[], "name", Thing::Bench, "saltings"),
    s("RULE", &[], "name", Thing::Rule, "thin-wall"),
    s("MATERIAL", &[], "name", Thing::Material, "reed"),
    s("KIND", &[], "name", Thing::Kind, "acrylic"),
    s("FIRST", &[], "name", Thing::End, "mouth"),
    s("SECOND", &[], "name", Thing::End, "crown"),
    s("END", &[], "name", Thing::End, "mouth"),
    s("PART", &["through"], "names", Thing::Part, "clip, finial"),
    s("PART", &[], "name", Thing::Part, "cap"),
    s("PEN", &["of"], "name", Thing::Pen, "heron"),
    s("PEN", &[], "name", Thing::Name, "heron"),
    s("FACE", &["as"], "name", Thing::Name, "shoulder"),
    s("FACE", &[], "face", Thing::Face, "cap.mouth"),
    s("PATH", &[], "text", Thing::Path, "\"saltings.quillet\""),
    s("DATE", &[], "text", Thing::Date, "\"3 May\""),
    s("TITLE", &[], "text", Thing::Title, "\"Heron\""),
    s("PATTERN", &[], "text", Thing::PatternName, "\"straight knurl\""),
    s("FINISH", &[], "text", Thing::FinishName, "\"lacquer\""),
    s("REASON", &[], "text", Thing::Reason, "\"a lining follows\""),
    s("COLOUR", &[], "text", Thing::Colour, "\"#6d8a34\""),

    s("SUM", &[], "sum", Thing::Quantity, "1.2 + 3"),
    s("VALUE", &[], "sum", Thing::Quantity, "145"),
    s("TOLERANCE", &[], "sum", Thing::Quantity, "0.05"),
    s("MEASURE", &["measured"], "call", Thing::Measure, "mass(uncapped)"),
    s("MEASURE", &[], "sum", Thing::Measure, "length(capped)"),
    s("MODULUS", &[], "sum", Thing::Quantity, "2.35"),
    s("STRAIN", &[], "sum", Thing::Quantity, "2"),
    s("SHARE", &[], "sum", Thing::Quantity, "0.5"),
    s("WARE", &[], "name", Thing::Ware, "reed"),
    s("LENGTHS", &[], "sums", Thing::Length, "150, 96.5"),
    s("AMOUNT", &[], "sum", Thing::Quantity, "9.50"),
    s("HOURS", &[], "sum", Thing::Quantity, "6.5"),
    s("PERCENT", &[], "sum", Thing::Quantity, "2"),
    s("FORCE", &[], "sum", Thing::Force, "9"),
    s("DENSITY", &[], "sum", Thing::Quantity, "1.19"),
    s("COUNT", &[], "sum", Thing::Count, "3"),
    s("GRAMS", &[], "sum", Thing::Mass, "3.1"),
    s("MILLILITRES", &[], "sum", Thing::Volume, "0.8"),
    s("DIAMETER", &[], "sum", Thing::Diameter, "9.9"),
    s("SIDE", &[], "sum", Thing::Diameter, "20"),
    s("INSIDE", &[], "sum", Thing::Diameter, "7.6"),
    s("CORD", &[], "sum", Thing::Diameter, "1.5"),
    s("RADIUS", &[], "sum", Thing::Radius, "0.5"),
    s("ANGLE", &[], "sum", Thing::Angle, "90"),
    s("LEG", &[], "sum", Thing::Length, "0.5"),
    s("DEPTH", &[], "sum", Thing::Length, "12"),
    s("START", &[], "sum", Thing::Length, "6"),
    s("GAP", &[], "sum", Thing::Length, "0.1"),
    s("CLEARANCE", &[], "sum", Thing::Length, "0.05"),
    s("INTERFERENCE", &[], "sum", Thing::Length, "0.02"),
    s("THICKNESS", &[], "sum", Thing::Length, "0.45"),
    s("OVERLAP", &[], "sum", Thing::Length, "0.16"),
    s("WIDTH", &[], "sum", Thing::Length, "1.2"),
    s("STATION", &["mass", "blank"], "sum", Thing::Length, "24"),
    s("STATION", &[], "sum", Thing::StationPlace, "24"),
    s("LENGTH", &["length"], "span", Thing::Length, "30..42"),
    s("LENGTH", &["lead"], "lead", Thing::Length, "2"),
    s("LENGTH", &[], "sum", Thing::Length, "8"),
    s("FROM..TO", &[], "range", Thing::Length, "3..9"),
    s("LOW..HIGH", &["speed"], "span", Thing::Quantity, "60..120"),
    s("LOW..HIGH", &["lathe"], "spans", Thing::Quantity, "250, 500..3000"),
    s("LOW..HIGH", &[], "range", Thing::Quantity, "0.75..2"),

    s("SIZE", &[], "size", Thing::Size, "letter F"),
    s("SIZES", &[], "sizes", Thing::Size, "1..13 step 0.1, 8.25"),
    s("DESIGNATION", &[], "designation", Thing::Designation, "M13x0.8"),
    s("THREAD", &["with"], "name", Thing::ThreadName, "closing"),
    s("THREAD", &[], "thread_said", Thing::Thread, "M10x0.75 starts 2"),
    s("THREADS", &[], "threads", Thing::Thread, "M9x0.75, closing"),
    s("FIT", &[], "fit", Thing::Fit, "H7/g6"),
];
