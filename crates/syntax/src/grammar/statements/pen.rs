//! Lines of a pen.

use super::shared::WANT;
use super::shared::{accept, bench_named, let_, limit, maybe_open, want};
use super::{Holds, NameKind, Statement, Visit, all, goes_on, one, refers, statement};
use crate::Span;
use crate::ast::*;
use crate::grammar::expect::Thing;
use crate::grammar::expr::ExprParsers;
use crate::grammar::expr::face;
use crate::grammar::input::*;
use crate::grammar::{Place, Word};
use crate::token::TokenKind as T;
use chumsky::prelude::*;

/// A joint's rule: every verb takes every option, of which its form shows those that mean something.
macro_rules! joint {
    ($verb:literal) => {
        concat!(
            $verb,
            " FACE (into | onto) FACE (with THREAD | through PART | by LENGTH | fit FIT | clearance CLEARANCE",
            " | interference INTERFERENCE | gap GAP | snap OVERLAP | before turning)* [{…}]",
        )
    };
}

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::Pen, "screw FACE (into FACE | onto FACE) [with THREAD] [through PART] [{…}]", "A threaded joint", "screw section.shank into barrel.mouth")
        .rule(joint!("screw")).block(Place::JointLine),
    statement(Place::Pen, "close FACE (onto FACE | into FACE) [with THREAD] [snap OVERLAP] [through PART] [{…}]", "The cap's joint, the one that opens to write", "close cap.mouth onto barrel.mouth")
        .rule(joint!("close")).block(Place::JointLine),
    statement(Place::Pen, "post FACE (onto FACE | into FACE) [with THREAD] [snap OVERLAP] [by LENGTH] [{…}]", "Where the cap sits while writing", "post cap.mouth onto barrel.tail by 2")
        .rule(joint!("post")).block(Place::JointLine),
    statement(Place::Pen, "slip FACE (into FACE | onto FACE) [fit FIT | clearance CLEARANCE] [through PART] [{…}]", "A plain joint that slides", "slip sleeve.front into barrel.mouth fit H7/g6")
        .rule(joint!("slip")).block(Place::JointLine),
    statement(Place::Pen, "press FACE (into FACE | onto FACE) [fit FIT | interference INTERFERENCE] [by LENGTH] [through PART] [before turning] [{…}]", "A plain joint that is pressed", "press band.front onto cap.mouth fit H7/p6")
        .rule(joint!("press")).block(Place::JointLine),
    statement(Place::Pen, "glue FACE (into FACE | onto FACE) [gap GAP] [by LENGTH] [through PART] [before turning] [{…}]", "A plain joint that is glued", "glue liner.front into cap.mouth gap 0.1")
        .rule(joint!("glue")).block(Place::JointLine),
    statement(Place::Pen, "push FACE (onto FACE | into FACE) by LENGTH [{…}]", "A friction connection, as a converter on a feed", "push converter.mouth onto nib-unit.heel by 5")
        .rule(joint!("push")).block(Place::JointLine),
    statement(Place::Pen, "rest FACE (into FACE | onto FACE) [{…}]", "Where the pen stands while it is not used: upright in a stand, by its weight", "rest section.tip into stand.top")
        .rule(joint!("rest")).block(Place::JointLine),
    statement(Place::Pen, "want MEASURE (<= VALUE | >= VALUE | within LOW..HIGH | = VALUE +- TOLERANCE)", "Something that must come out", "want length(capped) <= 145")
        .rule(WANT),
    statement(Place::Pen, "accept RULE [at FROM..TO] because \"REASON\"", "A finding you have judged, with the reason; the sheet prints it", "accept slow-cap because \"the owner likes it\""),
    statement(Place::Pen, "let NAME = SUM", "Sets one of the file's quantities as this pen sees it", "let grip = 11.0"),
    statement(Place::Pen, "limit RULE = SUM", "Sets the threshold of a rule for this pen", "limit slow-cap = 2.5"),
    statement(Place::Pen, "bench NAME", "Which bench this pen is made on", "bench saltings")
        .rule("bench BENCH"),
    statement(Place::Pen, "fill PART", "The part that itself holds the ink", "fill barrel"),
];

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    goes_on(Place::Joint, "into", "The first is the male, the second the female", "screw section.shank into barrel.mouth"),
    goes_on(Place::Joint, "onto", "The first is the female, the second the male", "close cap.mouth onto barrel.mouth"),

    goes_on(Place::JointTail, "with", "Which thread, where the parts share several", "screw nib-unit.heel into section.tip with housing"),
    goes_on(Place::JointTail, "through", "What is trapped between", "screw finial.shank into cap.crown through clip"),
    goes_on(Place::JointTail, "by", "How far one goes into the other", "push converter.mouth onto nib-unit.heel by 5"),
    goes_on(Place::JointTail, "fit", "The ISO 286 fit the joint asks for", "slip sleeve.front into barrel.mouth fit H7/g6"),
    goes_on(Place::JointTail, "clearance", "The room the joint asks for, on diameter", "slip sleeve.front into barrel.mouth clearance 0.05"),
    goes_on(Place::JointTail, "interference", "The tightness the joint asks for, on diameter", "press band.front onto cap.mouth interference 0.02"),
    goes_on(Place::JointTail, "gap", "Room for glue, on diameter", "glue liner.front into cap.mouth gap 0.1"),
    goes_on(Place::JointTail, "snap", "The overlap, on diameter, that is meant to spring past", "close clutch.mouth onto barrel.mouth snap 0.16"),
    goes_on(Place::JointTail, "before", "The two are joined before their outside is turned", "glue bush.back into barrel.mouth before turning"),
    goes_on(Place::JointTail, "turning", "The two are joined before their outside is turned", "glue bush.back into barrel.mouth before turning"),
];

/// `pen name "title" [like other] { … }`
#[derive(Clone, Debug, PartialEq)]
pub struct Pen {
    /// The name it defines.
    pub name: Name,
    /// Its title.
    pub title: Option<Text>,
    /// The pen it is like.
    pub like: Option<Name>,
    /// The block, braces included.
    pub block: Option<Span>,
    /// The lines of the block.
    pub lines: Vec<PenLine>,
}

/// A line of a pen.
#[derive(Clone, Debug, PartialEq)]
pub struct PenLine {
    /// The statement.
    pub span: Span,
    /// What it says.
    pub kind: PenLineKind,
}

/// What a pen's line says.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs, reason = "each variant is documented at its type")]
pub enum PenLineKind {
    Joint(Joint),
    Want(Want),
    Accept(Accept),
    Let(Let),
    Limit(Limit),
    /// `bench NAME`
    Bench(Name),
    /// `fill NAME`: that part itself holds the ink.
    Fill(Name),
    /// Text that is no line.
    Bad,
}

/// `verb a.x into b.y option… [{ … }]`
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// The verb and where it stands.
    pub verb: Verb,
    /// Where the verb stands.
    pub verb_span: Span,
    /// The face named first.
    pub first: Face,
    /// `into` or `onto`.
    pub direction: Direction,
    /// The face named second.
    pub second: Face,
    /// The options in the order written.
    pub options: Vec<JointOption>,
    /// The joint's own block, braces included.
    pub block: Option<Span>,
    /// The lines of its block.
    pub lines: Vec<JointLine>,
}

/// The verbs of a joint.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "the variants are the grammar's words")]
pub enum Verb {
    Screw,
    Close,
    Post,
    Slip,
    Press,
    Glue,
    Push,
    Rest,
}

impl Verb {
    /// All verbs, in the manual's order.
    pub const ALL: [Verb; 8] = [
        Verb::Screw,
        Verb::Close,
        Verb::Post,
        Verb::Slip,
        Verb::Press,
        Verb::Glue,
        Verb::Push,
        Verb::Rest,
    ];

    /// The word as written.
    pub fn word(self) -> &'static str {
        match self {
            Verb::Screw => "screw",
            Verb::Close => "close",
            Verb::Post => "post",
            Verb::Slip => "slip",
            Verb::Press => "press",
            Verb::Glue => "glue",
            Verb::Push => "push",
            Verb::Rest => "rest",
        }
    }

    /// Whether what it joins stays joined in every state of the pen: not a cap's place, nor a stand's.
    pub fn lasts(self) -> bool {
        !matches!(self, Verb::Close | Verb::Post | Verb::Rest)
    }
}

/// Which of the two is the male.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Direction {
    /// `into`: the first is the male.
    Into,
    /// `onto`: the first is the female.
    Onto,
}

/// An option of a joint.
#[derive(Clone, Debug, PartialEq)]
pub struct JointOption {
    /// The phrase.
    pub span: Span,
    /// What it says.
    pub kind: JointOptionKind,
}

/// What an option says.
#[derive(Clone, Debug, PartialEq)]
pub enum JointOptionKind {
    /// `with THREAD`
    With(Name),
    /// `through PART, …`: what is trapped between.
    Through(Vec<Name>),
    /// `by L`
    By(Expr),
    /// `fit H7/g6`
    Fit(Text),
    /// `clearance C`, on diameter.
    Clearance(Expr),
    /// `interference C`, on diameter.
    Interference(Expr),
    /// `gap G`, on diameter.
    Gap(Expr),
    /// `snap I`: the overlap meant to spring past, on diameter.
    Snap(Expr),
    /// `before turning`
    BeforeTurning,
}

/// A line of a pen, without what its block holds.
pub(crate) fn pen_line<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, PenLineKind> + use<'s> {
    let fill = word("fill").ignore_then(needed_name(Thing::Part));
    choice((
        joint(sums).map(PenLineKind::Joint),
        want(sums).map(PenLineKind::Want),
        accept(sums).map(PenLineKind::Accept),
        let_(sums).map(PenLineKind::Let),
        limit(sums).map(PenLineKind::Limit),
        bench_named().map(PenLineKind::Bench),
        fill.map(PenLineKind::Fill),
    ))
    .then_ignore(line_end())
}

fn joint<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, Joint> + use<'s> {
    let verb = choice(Verb::ALL.map(|verb| word(verb.word()).map(move |span| (verb, span))));
    let direction = choice((
        word("into").to(Direction::Into),
        word("onto").to(Direction::Onto),
    ))
    .recover_with(via_parser(empty().to(Direction::Into)));
    verb.then(face())
        .then(direction)
        .then(face())
        .then(option(sums).repeated().collect())
        .then_ignore(maybe_open())
        .map(
            |(((((verb, verb_span), first), direction), second), options)| Joint {
                verb,
                verb_span,
                first,
                direction,
                second,
                options,
                block: None,
                lines: Vec::new(),
            },
        )
}

fn option<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, JointOption> + use<'s> {
    use JointOptionKind as Kind;
    let through = needed_name(Thing::Part)
        .separated_by(token(T::Comma, Thing::Comma))
        .at_least(1)
        .collect();
    let missing = empty().map_with(|(), extra| ("", nothing(extra.span())));
    let fit = text_of(T::Fit, Thing::Fit).recover_with(via_parser(missing));
    choice((
        word("with")
            .ignore_then(needed_name(Thing::ThreadName))
            .map(Kind::With),
        word("through").ignore_then(through).map(Kind::Through),
        sums.after("by", Thing::Length).map(Kind::By),
        word("fit").ignore_then(fit).map(|(text, span)| {
            Kind::Fit(Text {
                text: text.into(),
                span,
            })
        }),
        sums.after("clearance", Thing::Length).map(Kind::Clearance),
        sums.after("interference", Thing::Length)
            .map(Kind::Interference),
        sums.after("gap", Thing::Length).map(Kind::Gap),
        sums.after("snap", Thing::Length).map(Kind::Snap),
        word("before")
            .then_ignore(needed_word("turning"))
            .to(Kind::BeforeTurning),
    ))
    .map_with(|kind, extra| JointOption {
        span: extra.span(),
        kind,
    })
}

impl Holds for PenLine {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match &self.kind {
            PenLineKind::Joint(joint) => one(joint, visit),
            PenLineKind::Want(want) => one(want, visit),
            PenLineKind::Accept(accept) => one(accept, visit),
            PenLineKind::Let(node) => one(node, visit),
            PenLineKind::Limit(limit) => one(limit, visit),
            PenLineKind::Bench(bench) => refers(NameKind::Bench, bench, visit),
            PenLineKind::Fill(part) => refers(NameKind::Part, part, visit),
            PenLineKind::Bad => {}
        }
    }
}

impl Joint {
    /// From its verb to its last option, or to the end of its block.
    pub(super) fn span(&self) -> Span {
        let options = self.options.last().map(|option| option.span);
        let end = self.block.or(options).unwrap_or(self.second.span);
        self.verb_span.to(end)
    }
}

impl Holds for Joint {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        one(&self.first, visit);
        one(&self.second, visit);
        all(&self.options, visit);
        all(&self.lines, visit);
    }
}

impl Holds for JointOption {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match &self.kind {
            JointOptionKind::With(thread) => refers(NameKind::Thread, thread, visit),
            JointOptionKind::Through(parts) => {
                for part in parts {
                    refers(NameKind::Part, part, visit);
                }
            }
            JointOptionKind::Fit(fit) => one(fit, visit),
            JointOptionKind::By(sum)
            | JointOptionKind::Clearance(sum)
            | JointOptionKind::Interference(sum)
            | JointOptionKind::Gap(sum)
            | JointOptionKind::Snap(sum) => one(sum, visit),
            JointOptionKind::BeforeTurning => {}
        }
    }
}
