//! Cuts made from an end.

use super::{Statement, statement, word};
use crate::grammar::{Place, Word};

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::Cut, "tenon [DIAMETER] for LENGTH [as FACE]", "Turns the end down; with a thread on it the diameter may be left out", "tenon 9.9 for 8"),
    statement(Place::Cut, "drill SIZE (to DEPTH | for LENGTH | through) [at START] [point ANGLE] [as FACE]", "A drilled hole; the depth is to full diameter and the cone comes on top", "drill 8.0 to 67"),
    statement(Place::Cut, "bore SIZE (to DEPTH | for LENGTH | through) [at START] [as FACE]", "A bored hole with a flat bottom", "bore 13.1 to 2.5"),
    statement(Place::Cut, "ream SIZE (to DEPTH | for LENGTH | through) [at START] [as FACE]", "A reamed hole with a flat bottom", "ream 8 to 30"),
    statement(Place::Cut, "thread THREAD [starts COUNT] (inside | outside) (to DEPTH | for LENGTH | through) [at START] [clock ANGLE] [as FACE]", "A thread, cut inside or outside", "thread joint inside to 9")
        .rule("thread THREAD (inside | outside) (to DEPTH | for LENGTH | through) [at START] [clock ANGLE] [as FACE]"),
    statement(Place::Cut, "relief DIAMETER (for LENGTH | to DEPTH | through) [at START] [as FACE]", "A run-out groove of a finished diameter", "relief 9.0 for 2 at 6"),
    statement(Place::Cut, "groove DIAMETER (for LENGTH | to DEPTH | through) [at START] [takes PART] [as FACE]", "An outside groove of a finished diameter", "groove 9.2 for 2 at 12 takes o-ring"),
    statement(Place::Cut, "recess DIAMETER (for LENGTH | to DEPTH | through) [at START] [takes PART] [as FACE]", "An inside groove of a finished diameter", "recess 11 for 2 at 12"),
    statement(Place::Cut, "taper DIAMETER to DIAMETER (for LENGTH | to DEPTH | through) [at START] [as FACE]", "A tapered hole from one diameter to another", "taper 9 to 8 for 12"),
    statement(Place::Cut, "countersink DIAMETER [angle ANGLE] [as FACE]", "Breaks the hole's mouth to a diameter", "countersink 10 angle 90"),
    statement(Place::Cut, "chamfer LEG [as FACE]", "Breaks the end's corner at 45°; the figure is the leg", "chamfer 0.5"),
    statement(Place::Cut, "round RADIUS [as FACE]", "Rounds the end's corner with a radius", "round 0.5"),
    statement(Place::Cut, "accept RULE [at FROM..TO] because \"REASON\"", "A finding you have judged, with the reason; the sheet prints it", "accept thin-wall because \"a lining follows\""),
];

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    word(Place::Reach, "for", "How long the cut is", "tenon 9.9 for 8"),
    word(Place::Reach, "to", "Where the cut ends, from the end's face", "drill 8.0 to 67"),
    word(Place::Reach, "through", "The cut goes through to the other end", "drill 6.3 through"),
    word(Place::Reach, "at", "Where the cut begins, from the end's face", "relief 9.0 for 2 at 6"),

    word(Place::CutTail, "point", "The drill's point angle in degrees; 118 where nothing is said", "drill 8 to 67 point 135"),
    word(Place::CutTail, "inside", "The thread is cut in the hole", "thread joint inside to 9"),
    word(Place::CutTail, "outside", "The thread is cut on the outside", "thread joint outside for 6"),
    word(Place::CutTail, "clock", "Where the thread begins: so many degrees clockwise of the part's mark, looking at the end", "thread closing inside to 7.5 at 2.5 clock 30"),
    word(Place::CutTail, "takes", "What sits in the groove", "groove 9.2 for 2 at 12 takes o-ring"),
    word(Place::CutTail, "angle", "The countersink's whole angle in degrees; 90 where nothing is said", "countersink 10 angle 82"),
    word(Place::CutTail, "as", "Names the face that this cut makes", "tenon 9.9 for 8 as shoulder"),

    word(Place::Size, "letter", "A letter drill", "drill letter F to 30"),
];
