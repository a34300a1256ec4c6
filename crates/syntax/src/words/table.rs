use super::{Place, Word};
use Place::*;

/// Every word of the language, by place, in the manual's order.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub const WORDS: &[Word] = &[
    w(File, "dimensions", "Bare lengths in this file are inches", "dimensions in inches"),
    w(File, "inches", "Bare lengths in this file are inches", "dimensions in inches"),

    w(Item, "use", "Another file's items come in, each file once", "use \"saltings.quillet\""),
    w(Item, "let", "Names a quantity or a material", "let grip = 11.4"),
    w(Item, "limit", "Sets the threshold of a rule from here inward; the nearest wins", "limit thin-wall = 0.9"),
    w(Item, "material", "A material of your own; its kind gives what is not said", "material tide \"Tide resin\" { kind acrylic }"),
    w(Item, "thread", "Names a thread, so that both parts of a joint say the same", "thread closing = M13x0.8 starts 3"),
    w(Item, "blank", "Stock that several parts are cut from, for the cut list", "blank stick of reed rod 18 by 150"),
    w(Item, "part", "A part you cut; stations run from its first end (0) to its second", "part cap from mouth to crown { length 64 }"),
    w(Item, "bought", "A part bought and measured: nib unit, converter, clip, spring, ring", "bought converter from mouth to knob { length 73 }"),
    w(Item, "bench", "What tools and machines there are", "bench saltings { drills 1..13 step 0.1 }"),
    w(Item, "pen", "How parts meet, and what is wanted of the whole", "pen heron \"Heron\" { close cap.mouth onto barrel.mouth }"),

    w(Header, "from", "Names the end at station 0", "part cap from mouth to crown { length 64 }"),
    w(Header, "to", "Names the end at the far station", "part cap from mouth to crown { length 64 }"),
    w(Header, "like", "The same as another, with the changes in its block", "pen heron-ida \"Heron for Ida\" like heron { let grip = 11.0 }"),

    w(Material, "kind", "The built-in kind whose figures hold where nothing else is said", "kind acrylic"),
    w(Material, "density", "Density in g/cm³", "density 1.19"),
    w(Material, "wall", "The least wall that this material stands", "wall 0.9"),
    w(Material, "speed", "Cutting speed in m/min", "speed 60..120"),

    w(Form, "starts", "How many starts the thread has; the lead is pitch times starts", "thread closing = M13x0.8 starts 3"),

    w(Stock, "of", "Names the material", "blank of reed rod 18"),
    w(Stock, "rod", "Round stock of a diameter", "blank of reed rod 18"),
    w(Stock, "square", "Square stock of a side", "blank of reed square 20"),
    w(Stock, "by", "The stock's length", "blank stick of reed rod 18 by 150"),
    w(Stock, "matched", "Its parts follow each other as in the pen, so that grain or pattern runs on", "blank stick of reed rod 18 by 300 matched"),

    w(Part, "let", "Names a quantity or a material within this part", "let wall = 1.2"),
    w(Part, "limit", "Sets the threshold of a rule within this part", "limit thin-wall = 0.9"),
    w(Part, "want", "Something that must come out", "want wall(cap) >= 1"),
    w(Part, "accept", "A finding you have judged, with the reason; the sheet prints it", "accept thin-wall because \"a metal lining follows\""),
    w(Part, "bench", "Which bench this part is made on", "bench saltings"),
    w(Part, "blank", "What the part is cut from; several are one glued stack", "blank of reed rod 18"),
    w(Part, "length", "The part's length, or the range of one that gives, as a spring", "length 64"),
    w(Part, "outside", "The finished outside: one diameter, or stations", "outside dia 12"),
    w(Part, "from", "What is cut from this end; distances run inward from its face", "from mouth { drill 8 to 67 }"),
    w(Part, "mass", "Grams, dry, and where the balance lies", "mass 3.1 at 24"),
    w(Part, "holds", "Millilitres of ink", "holds 0.8"),
    w(Part, "ring", "An O-ring: inside diameter by cord", "ring 7.6 by 1.5"),
    w(Part, "arm", "An arm of this length that is drawn and weighed and never in the way", "arm 40"),

    w(PartTail, "to", "The station at which this piece of the stack ends", "blank of reed rod 16 to 44"),
    w(PartTail, "spigot", "A spigot that locates this piece in the one before", "blank of chalk rod 16 spigot 11 for 14 gap 0.1"),
    w(PartTail, "for", "How long the spigot is", "blank of chalk rod 16 spigot 11 for 14"),
    w(PartTail, "gap", "Room for glue, on diameter", "blank of chalk rod 16 spigot 11 for 14 gap 0.1"),
    w(PartTail, "at", "Where the balance lies, from the first end", "mass 3.1 at 24"),
    w(PartTail, "by", "The cord's diameter", "ring 7.6 by 1.5"),

    w(Station, "at", "A station: a length from the first end, from another end, or an end's name", "at 6 from crown dia 14.4 smooth"),

    w(StationTail, "from", "The end the length runs from", "at 6 from crown dia 14.4"),
    w(StationTail, "dia", "The finished diameter", "at 30 dia 15.8"),
    w(StationTail, "smooth", "The surface comes to the station in a smooth curve that never overshoots", "at 30 dia 15.8 smooth"),
    w(StationTail, "dome", "The surface closes in a quarter ellipse", "at crown dia 0 dome"),
    w(StationTail, "bead", "The surface comes to the station in a convex arc of a radius", "at 12 dia 14 bead 3"),
    w(StationTail, "cove", "The surface comes to the station in a concave arc of a radius", "at 12 dia 14 cove 3"),
    w(StationTail, "step", "The surface arrives at the first diameter and leaves at this one", "at 20 dia 12 step 10"),
    w(StationTail, "round", "Rounds the corner with a radius", "at 20 dia 12 round 0.5"),
    w(StationTail, "chamfer", "Breaks the corner at 45°; the figure is the leg", "at 20 dia 12 chamfer 0.5"),
    w(StationTail, "as", "Names the face here, for seat and distance", "at 22 dia 11.4 as shoulder"),

    w(Cut, "tenon", "Turns the end down; with a thread on it the diameter may be left out", "tenon 9.9 for 8"),
    w(Cut, "drill", "A drilled hole; the depth is to full diameter and the cone comes on top", "drill 8.0 to 67"),
    w(Cut, "bore", "A bored hole with a flat bottom", "bore 13.1 to 2.5"),
    w(Cut, "ream", "A reamed hole with a flat bottom", "ream 8 to 30"),
    w(Cut, "thread", "A thread, cut inside or outside", "thread joint inside to 9"),
    w(Cut, "relief", "A run-out groove of a finished diameter", "relief 9.0 for 2 at 6"),
    w(Cut, "groove", "An outside groove of a finished diameter", "groove 9.2 for 2 at 12 takes o-ring"),
    w(Cut, "recess", "An inside groove of a finished diameter", "recess 11 for 2 at 12"),
    w(Cut, "taper", "A tapered hole from one diameter to another", "taper 9 to 8 for 12"),
    w(Cut, "countersink", "Breaks the hole's mouth to a diameter", "countersink 10 angle 90"),
    w(Cut, "chamfer", "Breaks the end's corner at 45°; the figure is the leg", "chamfer 0.5"),
    w(Cut, "round", "Rounds the end's corner with a radius", "round 0.5"),
    w(Cut, "accept", "A finding you have judged, with the reason; the sheet prints it", "accept thin-wall because \"a lining follows\""),

    w(Reach, "for", "How long the cut is", "tenon 9.9 for 8"),
    w(Reach, "to", "Where the cut ends, from the end's face", "drill 8.0 to 67"),
    w(Reach, "through", "The cut goes through to the other end", "drill 6.3 through"),
    w(Reach, "at", "Where the cut begins, from the end's face", "relief 9.0 for 2 at 6"),

    w(CutTail, "point", "The drill's point angle in degrees; 118 where nothing is said", "drill 8 to 67 point 135"),
    w(CutTail, "inside", "The thread is cut in the hole", "thread joint inside to 9"),
    w(CutTail, "outside", "The thread is cut on the outside", "thread joint outside for 6"),
    w(CutTail, "clock", "Where the thread begins: so many degrees clockwise of the part's mark, looking at the end", "thread closing inside to 7.5 at 2.5 clock 30"),
    w(CutTail, "takes", "What sits in the groove", "groove 9.2 for 2 at 12 takes o-ring"),
    w(CutTail, "angle", "The countersink's whole angle in degrees; 90 where nothing is said", "countersink 10 angle 82"),
    w(CutTail, "as", "Names the face that this cut makes", "tenon 9.9 for 8 as shoulder"),

    w(Size, "letter", "A letter drill", "drill letter F to 30"),

    w(Pen, "screw", "A threaded joint", "screw section.shank into barrel.mouth"),
    w(Pen, "close", "The cap's joint, the one that opens to write", "close cap.mouth onto barrel.mouth"),
    w(Pen, "post", "Where the cap sits while writing", "post cap.mouth onto barrel.tail by 2"),
    w(Pen, "slip", "A plain joint that slides", "slip sleeve.front into barrel.mouth fit H7/g6"),
    w(Pen, "press", "A plain joint that is pressed", "press band.front onto cap.mouth fit H7/p6"),
    w(Pen, "glue", "A plain joint that is glued", "glue liner.front into cap.mouth gap 0.1"),
    w(Pen, "push", "A friction connection, as a converter on a feed", "push converter.mouth onto nib-unit.heel by 5"),
    w(Pen, "want", "Something that must come out", "want length(capped) <= 145"),
    w(Pen, "accept", "A finding you have judged, with the reason; the sheet prints it", "accept slow-cap because \"the owner likes it\""),
    w(Pen, "let", "Sets one of the file's quantities as this pen sees it", "let grip = 11.0"),
    w(Pen, "limit", "Sets the threshold of a rule for this pen", "limit slow-cap = 2.5"),
    w(Pen, "bench", "Which bench this pen is made on", "bench saltings"),
    w(Pen, "fill", "The part that itself holds the ink", "fill barrel"),

    w(Joint, "into", "The first is the male, the second the female", "screw section.shank into barrel.mouth"),
    w(Joint, "onto", "The first is the female, the second the male", "close cap.mouth onto barrel.mouth"),

    w(JointTail, "with", "Which thread, where the parts share several", "screw nib-unit.heel into section.tip with housing"),
    w(JointTail, "through", "What is trapped between", "screw finial.shank into cap.crown through clip"),
    w(JointTail, "by", "How far one goes into the other", "push converter.mouth onto nib-unit.heel by 5"),
    w(JointTail, "fit", "The ISO 286 fit the joint asks for", "slip sleeve.front into barrel.mouth fit H7/g6"),
    w(JointTail, "clearance", "The room the joint asks for, on diameter", "slip sleeve.front into barrel.mouth clearance 0.05"),
    w(JointTail, "interference", "The tightness the joint asks for, on diameter", "press band.front onto cap.mouth interference 0.02"),
    w(JointTail, "gap", "Room for glue, on diameter", "glue liner.front into cap.mouth gap 0.1"),

    w(JointLine, "seat", "Which two faces are meant to touch; checked, it moves nothing", "seat cap.mouth on barrel.shoulder"),
    w(JointLine, "flush", "The outsides are meant to meet without a step", "flush"),
    w(JointLine, "want", "Something that must come out of this joint", "want turns within 0.75..2"),
    w(JointLine, "accept", "A finding you have judged, with the reason; the sheet prints it", "accept slow-cap because \"the owner likes it\""),
    w(JointLine, "limit", "Sets the threshold of a rule for this joint", "limit slow-cap = 2.5"),

    w(SeatTail, "on", "Names the face it is to touch", "seat cap.mouth on barrel.shoulder"),

    w(Want, "within", "Between two values", "want turns within 0.75..2"),

    w(Accept, "at", "The stations between which it is accepted", "accept thin-wall at 3..9 because \"a lining follows\""),
    w(Accept, "because", "The reason, which the sheet prints", "accept thin-wall because \"a lining follows\""),

    w(Bench, "drills", "Drills by size", "drills 1..13 step 0.1, 8.25"),
    w(Bench, "boring", "A boring bar by the smallest hole it enters", "boring 6 reach 35"),
    w(Bench, "reamers", "Reamers by size", "reamers 6, 8, 10"),
    w(Bench, "collets", "Collets by size", "collets 3..16 step 1"),
    w(Bench, "bushings", "Tenon-cutter bushings by size", "bushings 9.9, 12.9 pilot 6.3"),
    w(Bench, "mandrels", "Mandrel stock by diameter", "mandrels 12, 16"),
    w(Bench, "taps", "Taps by thread", "taps M9x0.75, M10x0.75 lead 2"),
    w(Bench, "dies", "Dies by thread", "dies M13x0.8 starts 3 lead 1.5"),
    w(Bench, "saw", "The saw that cuts the blanks, by its kerf", "saw kerf 1.2"),
    w(Bench, "lathe", "The lathe's spindle speeds in rev/min, as ranges or steps", "lathe 250, 500, 900, 1600 bore 20 travel 60"),
    w(Bench, "limit", "Sets the threshold of a rule on this bench", "limit drill-wander = 0.5"),

    w(BenchTail, "step", "The step of a run of sizes", "drills 1..13 step 0.1"),
    w(BenchTail, "reach", "How deep these drills or this boring bar go", "drills 7.8 reach 110"),
    w(BenchTail, "lead", "The tapered lead-in of these taps or dies, as measured or by the letter of its form", "taps M9x0.75 lead 2"),
    w(BenchTail, "pilot", "The pin of a tenon cutter that runs in the hole", "bushings 9.9, 12.9 pilot 6.3"),
    w(BenchTail, "kerf", "The width a saw cut turns to dust", "saw kerf 1.2"),
    w(BenchTail, "bore", "The spindle's bore, which stock passes through", "lathe 250..3000 bore 20"),
    w(BenchTail, "centres", "The length the lathe takes between its centres", "lathe 250..3000 centres 400"),
    w(BenchTail, "travel", "How far the tailstock's spindle goes", "lathe 250..3000 travel 60"),
    w(BenchTail, "screwcutting", "The lathe is geared to cut threads with a single point", "lathe 90..2000 screwcutting"),

    w(Unit, "mm", "Millimetres", "length 64mm"),
    w(Unit, "in", "Inches", "drill 7/16in to 30"),
    w(Unit, "g", "Grams", "mass 3.1g"),
    w(Unit, "ml", "Millilitres", "holds 0.8ml"),
    w(Unit, "deg", "Degrees", "countersink 10 angle 82deg"),

    w(Measure, "length", "Overall length of the pen in a state", "want length(capped) <= 145"),
    w(Measure, "mass", "Mass of the pen in a state", "want mass(uncapped) <= 24"),
    w(Measure, "balance", "Distance of the centre of mass from the writing point; capped, from the foremost face", "want balance(uncapped) / length(uncapped) within 0.45..0.55"),
    w(Measure, "turns", "Turns until the joint comes apart: release travel over lead", "want turns within 0.75..2"),
    w(Measure, "travel", "How far the joint moves until its threads part", "want travel <= 5"),
    w(Measure, "overlap", "How much of the two threads is engaged", "want overlap >= 3"),
    w(Measure, "wall", "Least wall of a part", "want wall(cap) >= 1"),
    w(Measure, "diameter", "Outside diameter of a part at a station", "want diameter(section, 12) within 9.5..11"),
    w(Measure, "clearance", "Least room between two parts in a state", "want clearance(nib-unit, cap, capped) >= 0.3"),
    w(Measure, "distance", "Axial distance between two faces, signed", "want distance(cap.mouth, barrel.shoulder) = 0 +- 0.05"),
    w(Measure, "ink", "Millilitres of ink", "want ink >= 0.8"),
    w(Measure, "min", "The least of several", "let wall = min(a, b)"),
    w(Measure, "max", "The greatest of several", "let wall = max(a, b)"),

    w(Configuration, "capped", "The pen with its cap on", "want length(capped) <= 145"),
    w(Configuration, "uncapped", "The pen with its cap off", "want mass(uncapped) <= 24"),
    w(Configuration, "posted", "The pen with its cap on the tail", "want length(posted) <= 165"),
];

const fn w(place: Place, text: &'static str, help: &'static str, example: &'static str) -> Word {
    Word {
        place,
        text,
        help,
        example,
    }
}
