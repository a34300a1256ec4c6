//! Cuts made from an end.

use super::phrase::{edge, thread_ref};
use super::shared::{accept, as_face};
use super::side::{around, takes};
use super::{Holds, NameKind, Statement, Visit, defines, goes_on, one, refers, some, statement};
use crate::Span;
use crate::ast::*;
use crate::grammar::expect::Thing;
use crate::grammar::expr::ExprParsers;
use crate::grammar::input::*;
use crate::grammar::{Place, Word};
use chumsky::prelude::*;

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::Cut, "tenon [DIAMETER] for LENGTH [as FACE]", "Turns the end down; with a thread on it the diameter may be left out", "tenon 9.9 for 8"),
    statement(Place::Cut, "drill SIZE (to DEPTH | for LENGTH | through) [at START] [point ANGLE] [on DIAMETER [indexed COUNT] [clock ANGLE] [takes PART]] [as FACE]", "A drilled hole; the depth is to full diameter and the cone comes on top", "drill 8.0 to 67"),
    statement(Place::Cut, "bore SIZE (to DEPTH | for LENGTH | through) [at START] [on DIAMETER [indexed COUNT] [clock ANGLE] [takes PART]] [as FACE]", "A bored hole with a flat bottom", "bore 13.1 to 2.5"),
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
    goes_on(Place::Reach, "for", "How long the cut is", "tenon 9.9 for 8"),
    goes_on(Place::Reach, "to", "Where the cut ends, from the end's face", "drill 8.0 to 67"),
    goes_on(Place::Reach, "through", "The cut goes through to the other end", "drill 6.3 through"),
    goes_on(Place::Reach, "at", "Where the cut begins, from the end's face", "relief 9.0 for 2 at 6"),

    goes_on(Place::CutTail, "point", "The drill's point angle in degrees; 118 where nothing is said", "drill 8 to 67 point 135"),
    goes_on(Place::CutTail, "inside", "The thread is cut in the hole", "thread joint inside to 9"),
    goes_on(Place::CutTail, "outside", "The thread is cut on the outside", "thread joint outside for 6"),
    goes_on(Place::CutTail, "on", "The diameter of the pitch circle that the holes lie on, in place of the axis", "bore 3.1 to 2.1 on 12.5 indexed 3 takes magnet"),
    goes_on(Place::CutTail, "indexed", "How many holes lie on the pitch circle, evenly", "bore 3.1 to 2.1 on 12.5 indexed 3"),
    goes_on(Place::CutTail, "clock", "Where the thread begins, or the first hole of a pitch circle lies: so many degrees clockwise of the part's mark, looking at the end", "thread closing inside to 7.5 at 2.5 clock 30"),
    goes_on(Place::CutTail, "takes", "What sits in the groove, or in each hole of a pitch circle", "groove 9.2 for 2 at 12 takes o-ring"),
    goes_on(Place::CutTail, "angle", "The countersink's whole angle in degrees; 90 where nothing is said", "countersink 10 angle 82"),
    goes_on(Place::CutTail, "as", "Names the face that this cut makes", "tenon 9.9 for 8 as shoulder"),

    goes_on(Place::Size, "letter", "A letter drill", "drill letter F to 30"),
];

/// A cut made from an end.
#[derive(Clone, Debug, PartialEq)]
pub struct Feature {
    /// The statement.
    pub span: Span,
    /// What it says.
    pub kind: FeatureKind,
    /// `as NAME`: its face.
    pub face: Option<Name>,
}

/// What a cut says.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs, reason = "fields are the grammar's words")]
pub enum FeatureKind {
    /// `tenon [D] for L`
    Tenon { dia: Option<Expr>, length: Expr },
    /// `drill SIZE reach [point A] [on …]`
    Drill {
        size: Size,
        reach: Reach,
        point: Option<Expr>,
        circle: Option<Circle>,
    },
    /// `bore SIZE reach [on …]`
    Bore {
        size: Size,
        reach: Reach,
        circle: Option<Circle>,
    },
    /// `ream SIZE reach`
    Ream { size: Size, reach: Reach },
    /// `thread T inside|outside reach`
    Thread {
        thread: ThreadRef,
        side: Side,
        reach: Reach,
        clock: Option<Expr>,
    },
    /// `relief D reach`
    Relief { dia: Expr, reach: Reach },
    /// `groove D reach [takes NAME]`
    Groove {
        dia: Expr,
        reach: Reach,
        takes: Option<Name>,
    },
    /// `recess D reach [takes NAME]`
    Recess {
        dia: Expr,
        reach: Reach,
        takes: Option<Name>,
    },
    /// `taper D1 to D2 reach`
    Taper { from: Expr, to: Expr, reach: Reach },
    /// `countersink D [angle A]`
    Countersink { dia: Expr, angle: Option<Expr> },
    /// `chamfer C` or `round R`
    Edge(Edge),
    /// `accept …`
    Accept(Accept),
    /// Text that is no cut.
    Bad,
}

/// Where a thread is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "the variants are the grammar's words")]
pub enum Side {
    Inside,
    Outside,
}

/// `on D [indexed N] [clock A] [takes PART]`: holes beside the axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Circle {
    /// The whole phrase.
    pub span: Span,
    /// The pitch circle's diameter.
    pub dia: Expr,
    /// How many, and what goes in.
    pub around: Around,
}

/// How far a cut goes, and from where.
#[derive(Clone, Debug, PartialEq)]
pub struct Reach {
    /// The whole phrase.
    pub span: Span,
    /// `for`, `to` or `through`.
    pub kind: ReachKind,
    /// `at S`: where it starts, from the face.
    pub at: Option<Expr>,
}

/// The three ways to say how far.
#[derive(Clone, Debug, PartialEq)]
pub enum ReachKind {
    /// `for L`: an amount.
    For(Expr),
    /// `to L`: a place, from the face.
    To(Expr),
    /// To the other end.
    Through,
}

/// A line of a `from` block.
pub(crate) fn feature<'s>(
    sums: &ExprParsers<'s>,
) -> impl TokenParser<'s, (FeatureKind, Option<Name>)> + use<'s> {
    let accept = accept(sums).map(|accept| (FeatureKind::Accept(accept), None));
    accept.or(cut(sums).then(as_face())).then_ignore(line_end())
}

#[expect(
    clippy::too_many_lines,
    reason = "a parser a cut: it is read as a table"
)]
fn cut<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, FeatureKind> + use<'s> {
    let reach = reach(sums).boxed();
    let circle = circle(sums).boxed();
    let tenon = word("tenon")
        .ignore_then(sums.maybe(Thing::Diameter))
        .then_ignore(needed_word("for"))
        .then(sums.needed(Thing::Length))
        .map(|(dia, length)| FeatureKind::Tenon { dia, length });
    let sized = |text| word(text).ignore_then(sums.size()).then(reach.clone());
    let drill = sized("drill")
        .then(sums.after("point", Thing::Angle).or_not())
        .then(circle.clone().or_not())
        .map(|(((size, reach), point), circle)| FeatureKind::Drill {
            size,
            reach,
            point,
            circle,
        });
    let bore = sized("bore")
        .then(circle.or_not())
        .map(|((size, reach), circle)| FeatureKind::Bore {
            size,
            reach,
            circle,
        });
    let ream = sized("ream").map(|(size, reach)| FeatureKind::Ream { size, reach });
    let relief = sums
        .after("relief", Thing::Diameter)
        .then(reach.clone())
        .map(|(dia, reach)| FeatureKind::Relief { dia, reach });
    let taking = |text| {
        sums.after(text, Thing::Diameter)
            .then(reach.clone())
            .then(takes().or_not())
    };
    let groove =
        taking("groove").map(|((dia, reach), takes)| FeatureKind::Groove { dia, reach, takes });
    let recess =
        taking("recess").map(|((dia, reach), takes)| FeatureKind::Recess { dia, reach, takes });
    let taper = sums
        .after("taper", Thing::Diameter)
        .then_ignore(needed_word("to"))
        .then(sums.needed(Thing::Diameter))
        .then(reach.clone())
        .map(|((from, to), reach)| FeatureKind::Taper { from, to, reach });
    let countersink = sums
        .after("countersink", Thing::Diameter)
        .then(sums.after("angle", Thing::Angle).or_not())
        .map(|(dia, angle)| FeatureKind::Countersink { dia, angle });
    choice((
        tenon,
        drill,
        bore,
        ream,
        thread(sums, reach.clone()),
        relief,
        groove,
        recess,
        taper,
        countersink,
        edge(sums).map(FeatureKind::Edge),
    ))
}

fn thread<'s>(
    sums: &ExprParsers<'s>,
    reach: Rule<'s, Reach>,
) -> impl TokenParser<'s, FeatureKind> + use<'s> {
    let side = choice((
        word("inside").to(Side::Inside),
        word("outside").to(Side::Outside),
    ));
    word("thread")
        .ignore_then(thread_ref(sums))
        .then(side)
        .then(reach)
        .then(sums.after("clock", Thing::Angle).or_not())
        .map(|(((thread, side), reach), clock)| FeatureKind::Thread {
            thread,
            side,
            reach,
            clock,
        })
}

/// `on D [indexed N] [clock A] [takes PART]`
fn circle<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, Circle> + use<'s> {
    sums.after("on", Thing::Diameter)
        .then(around(sums))
        .map_with(|(dia, around), extra| Circle {
            span: extra.span(),
            dia,
            around,
        })
}

fn reach<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, Reach> + use<'s> {
    let missing = empty().map_with(|(), extra| {
        ReachKind::To(Expr {
            span: nothing(extra.span()),
            kind: ExprKind::Bad,
        })
    });
    choice((
        sums.after("for", Thing::Length).map(ReachKind::For),
        sums.after("to", Thing::Length).map(ReachKind::To),
        word("through").to(ReachKind::Through),
    ))
    .recover_with(via_parser(missing))
    .then(sums.after("at", Thing::Length).or_not())
    .map_with(|(kind, at), extra| Reach {
        span: extra.span(),
        kind,
        at,
    })
}

impl Holds for Feature {
    #[expect(clippy::too_many_lines, reason = "an arm a cut: it is read as a table")]
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match &self.kind {
            FeatureKind::Tenon { dia, length } => {
                some(dia, visit);
                one(length, visit);
            }
            FeatureKind::Drill {
                size,
                reach,
                point,
                circle,
            } => {
                one(size, visit);
                one(reach, visit);
                some(point, visit);
                circle.each(visit);
            }
            FeatureKind::Bore {
                size,
                reach,
                circle,
            } => {
                one(size, visit);
                one(reach, visit);
                circle.each(visit);
            }
            FeatureKind::Ream { size, reach } => {
                one(size, visit);
                one(reach, visit);
            }
            FeatureKind::Thread {
                thread,
                reach,
                clock,
                ..
            } => {
                thread.each(visit);
                one(reach, visit);
                some(clock, visit);
            }
            FeatureKind::Relief { dia, reach } => {
                one(dia, visit);
                one(reach, visit);
            }
            FeatureKind::Groove { dia, reach, takes }
            | FeatureKind::Recess { dia, reach, takes } => {
                one(dia, visit);
                one(reach, visit);
                if let Some(takes) = takes {
                    refers(NameKind::Part, takes, visit);
                }
            }
            FeatureKind::Taper { from, to, reach } => {
                one(from, visit);
                one(to, visit);
                one(reach, visit);
            }
            FeatureKind::Countersink { dia, angle } => {
                one(dia, visit);
                some(angle, visit);
            }
            FeatureKind::Edge(edge) => one(edge, visit),
            FeatureKind::Accept(accept) => one(accept, visit),
            FeatureKind::Bad => {}
        }
        if let Some(face) = &self.face {
            defines(NameKind::Face, face, visit);
        }
    }
}

/// No node of its own.
impl Holds for Option<Circle> {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        if let Some(circle) = self {
            one(&circle.dia, visit);
            circle.around.each(visit);
        }
    }
}

impl Holds for Reach {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match &self.kind {
            ReachKind::For(length) | ReachKind::To(length) => one(length, visit),
            ReachKind::Through => {}
        }
        some(&self.at, visit);
    }
}
