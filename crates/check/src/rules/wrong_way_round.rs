//! `wrong-way-round`: a joint that names a part's other end, `into` for `onto`, a thread cut outside
//! for inside.

mod told;

use crate::findings::Subject;
use crate::shape::{Threaded, threads};
use crate::{DesignView, Findings, JointView, PenView, Rule, Run};
use quillet_model::{AtRest, Design, End, JointEnd, Part};
use quillet_syntax::ast::{Side, Verb};
use quillet_syntax::{Finding, RuleId, Severity, Span};
use told::{block, direction, end, side, swapped};

pub(crate) static RULE: Rule = Rule {
    code: "wrong-way-round",
    severity: Severity::Error,
    limit: None,
    page: include_str!("wrong-way-round.md"),
    run: Run::Design(run),
};

fn run(view: &DesignView<'_>, findings: &mut Findings) {
    for pen in &view.design.pens {
        of_pen(&PenView::new(view.design, pen), findings);
    }
    findings.about = Subject::default();
}

fn of_pen(view: &PenView<'_>, findings: &mut Findings) {
    let read = |part: &Part| part.whole || only_unshaped(view.design, part);
    let joints = view.joints().filter(|it| read(it.male) && read(it.female));
    let pen = Some(view.pen.name.text.clone());
    let mut wrong: Vec<WrongEnd<'_>> = Vec::new();
    for joint in joints.filter(|it| !goes_together(it)) {
        let told = match EndMistake::of(&joint) {
            Some(EndMistake::End(it)) => {
                wrong.push(it);
                continue;
            }
            Some(EndMistake::Direction(thread)) => direction(&joint, thread),
            Some(EndMistake::Side(thread)) => side(&joint, thread),
            None => continue,
        };
        findings.about = Subject {
            pen: pen.clone(),
            part: None,
            joint: Some(joint.id),
        };
        findings.push(told);
    }
    while let Some(first) = wrong.pop() {
        let other = wrong
            .iter()
            .position(|it| it.named.part == first.named.part && it.named.end != first.named.end);
        let of_part = match other.map(|index| wrong.remove(index)) {
            Some(other) => swapped(&first, &other),
            None => block(&first),
        };
        findings.about = Subject {
            pen: pen.clone(),
            part: of_part.is_some().then(|| first.part().name.text.clone()),
            joint: of_part.is_none().then_some(first.joint.id),
        };
        findings.push(of_part.unwrap_or_else(|| end(&first)));
    }
}

/// Whether all that is amiss in a part is an outside that cuts from the wrong end leave unsaid.
fn only_unshaped(design: &Design, part: &Part) -> bool {
    let unshaped = RuleId::new("unshaped-outside");
    let amiss = |it: &&Finding| it.severity == Severity::Error && part.span.contains(it.span);
    let mut amiss = design.findings.iter().filter(amiss).peekable();
    amiss.peek().is_some() && amiss.all(|it| it.rule == unshaped)
}

/// Whether a joint closes, on its thread where it is screwed.
fn goes_together(view: &JointView<'_>) -> bool {
    let shaped = view.male.whole && view.female.whole;
    let screwed = view.joint.verb == Verb::Screw;
    let closes = |rest: &AtRest| {
        let mut engaged = rest.engagements.iter().filter(|it| it.overlap_mm > 0.0);
        rest.redundant || rest.verdict.closes() && (!screwed || engaged.next().is_some())
    };
    shaped && view.at_rest().is_none_or(closes)
}

/// What a joint may have got wrong.
enum EndMistake<'a> {
    /// `into` for `onto`, or the other way: the thread on what is said to receive.
    Direction(Threaded<'a>),
    /// One of its parts by the other end.
    End(WrongEnd<'a>),
    /// Both threads outside; the one that belongs inside.
    Side(Threaded<'a>),
}

/// A part named by one end, of which the thread meant is cut from the other.
struct WrongEnd<'a> {
    joint: JointView<'a>,
    named: JointEnd,
    thread: Threaded<'a>,
}

impl<'a> EndMistake<'a> {
    /// Of a joint that does not go together: what makes its threads meet, where they do not.
    fn of(view: &JointView<'a>) -> Option<EndMistake<'a>> {
        if !matches!(view.joint.verb, Verb::Screw | Verb::Close) {
            return None;
        }
        let (male, female) = (view.joint.male, view.joint.female);
        let outside = |end: End| at(view, view.male, Side::Outside, end);
        let inside = |end: End| at(view, view.female, Side::Inside, end);
        if pair(&outside(male.end), &inside(female.end)).is_some() {
            return None;
        }
        let turned = pair(
            &at(view, view.female, Side::Outside, female.end),
            &at(view, view.male, Side::Inside, male.end),
        );
        if let Some((thread, _)) = turned {
            return Some(EndMistake::Direction(thread));
        }
        let wrong = |named: JointEnd, thread: Threaded<'a>| {
            Some(EndMistake::End(WrongEnd {
                joint: *view,
                named,
                thread,
            }))
        };
        if let Some((thread, _)) = pair(&outside(male.end.other()), &inside(female.end)) {
            return wrong(male, thread);
        }
        if let Some((_, thread)) = pair(&outside(male.end), &inside(female.end.other())) {
            return wrong(female, thread);
        }
        Self::side(view).map(EndMistake::Side)
    }

    /// The thread that is cut outside on what receives, as its mate is on what goes in. The other way
    /// about no metal is left, and that is told.
    fn side(view: &JointView<'a>) -> Option<Threaded<'a>> {
        let (male, female) = (view.joint.male, view.joint.female);
        let outside = |part: &'a Part, end: End| at(view, part, Side::Outside, end);
        let (_, thread) = pair(
            &outside(view.male, male.end),
            &outside(view.female, female.end),
        )?;
        // A thread that another joint is held by is where it belongs.
        let mut others = view.pen.joints().filter(|it| it.id != view.id);
        let held = others.any(|it| {
            let own = it.joint.male;
            let mates = |it: Threaded<'_>| it.thread.thread.mates_with(&thread.thread.thread);
            (own.part, own.end) == (female.part, female.end)
                && threads(it.female, Side::Inside).any(mates)
        });
        (!held && !view.female.is_bought()).then_some(thread)
    }
}

/// The threads of one side that are cut from an end, those the joint may mean.
fn at<'a>(view: &JointView<'a>, part: &'a Part, side: Side, end: End) -> Vec<Threaded<'a>> {
    let meant = |it: &Threaded<'_>| {
        let with = view.joint.with.as_ref();
        with.is_none_or(|with| with.thread.mates_with(&it.thread.thread))
    };
    threads(part, side)
        .filter(|it| it.feature.end == end)
        .filter(meant)
        .collect()
}

/// Two of these that screw together.
fn pair<'a>(
    outside: &[Threaded<'a>],
    inside: &[Threaded<'a>],
) -> Option<(Threaded<'a>, Threaded<'a>)> {
    let mut pairs = outside
        .iter()
        .flat_map(|one| inside.iter().map(move |other| (*one, *other)));
    pairs.find(|(one, other)| one.thread.thread.mates_with(&other.thread.thread))
}

impl<'a> WrongEnd<'a> {
    fn part(&self) -> &'a Part {
        &self.joint.pen.pen.parts[self.named.part]
    }

    /// `section.shank`
    fn meant(&self) -> String {
        let part = self.part();
        format!(
            "{}.{}",
            part.name.text,
            part.end_name(self.named.end.other())
        )
    }

    /// The name after `from` of the block that the thread is cut in.
    fn block_name(&self) -> Option<Span> {
        let block = self.thread.feature.block;
        let written = self.joint.pen.design.text(block);
        let rest = written.strip_prefix("from")?;
        let name = self.part().end_name(self.thread.feature.end);
        let blanks = rest.len() - rest.trim_start().len();
        rest.trim_start().starts_with(name).then(|| {
            let start = block.start as usize + "from".len() + blanks;
            Span::new(block.file, start, start + name.len())
        })
    }

    fn ends(&self) -> (String, String) {
        (self.joint.male_name(), self.joint.female_name())
    }
}
