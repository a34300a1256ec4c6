//! `wrong-way-round`: a joint that names a part's other end, or `into` for `onto`.

use crate::findings::Subject;
use crate::propose;
use crate::shape::{Threaded, threads};
use crate::{DesignView, Findings, JointView, PenView, Rule, Run};
use quillet_model::{AtRest, Design, End, JointEnd, Part};
use quillet_syntax::ast::{Side, Verb};
use quillet_syntax::{Edit, Finding, RuleId, Severity, Span, text};

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
        match EndMistake::of(&joint) {
            Some(EndMistake::Direction(thread)) => {
                findings.about = Subject {
                    pen: pen.clone(),
                    part: None,
                    joint: Some(joint.id),
                };
                findings.push(direction(&joint, thread));
            }
            Some(EndMistake::End(it)) => wrong.push(it),
            None => {}
        }
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
        let (_, thread) = pair(&outside(male.end), &inside(female.end.other()))?;
        wrong(female, thread)
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

/// `into` where `onto` is meant, or the other way.
fn direction(view: &JointView<'_>, thread: Threaded<'_>) -> Finding {
    let message = text!(
        "{} goes into {}: the thread stands outside on {}",
        view.female_name(),
        view.male_name(),
        view.female.name.text
    );
    let finding = RULE
        .at(view.joint.head, message)
        .label(thread.feature.span, "the outside thread");
    match propose::direction(view) {
        Some((title, edits)) => finding.hint(title.clone()).fix_all(title, edits),
        None => finding.hint("turn the joint round"),
    }
}

/// The other end of a part in a joint.
fn end(it: &WrongEnd<'_>) -> Finding {
    let part = it.part();
    let (male, female) = it.ends();
    let other = part.end_name(it.named.end.other());
    let message = text!(
        "{} does not go into {}: the thread is at {}'s {}",
        male,
        female,
        part.name.text,
        other
    );
    let title = text!("write {}", it.meant());
    RULE.at(it.joint.joint.head, message)
        .label(
            it.thread.feature.span,
            text!("{}, cut from the {}", it.thread.thread.called(), other),
        )
        .hint(title.clone())
        .fix_all(title, vec![Edit::new(it.named.span, it.meant())])
}

/// The block of a thread named after the wrong end: where another joint takes the end it is named
/// after in the same way, or another block bears that name too and none the name that is wanted.
fn block(it: &WrongEnd<'_>) -> Option<Finding> {
    let (part, taken) = (it.part(), it.named.end.other());
    let mut others = it
        .joint
        .pen
        .joints()
        .filter(|other| other.id != it.joint.id);
    let male = it.named == it.joint.joint.male;
    let takes = |other: JointView<'_>| {
        let end = if male {
            other.joint.male
        } else {
            other.joint.female
        };
        end.part == it.named.part && end.end == taken
    };
    let cut_from = |end: End| part.features.iter().filter(move |it| it.end == end);
    let block = it.thread.feature.block;
    let named_twice =
        cut_from(taken).any(|it| it.block != block) && cut_from(it.named.end).next().is_none();
    if part.is_bought() || !(named_twice || others.any(takes)) {
        return None;
    }
    let span = it.block_name()?;
    let (male, female) = it.ends();
    let wanted = part.end_name(it.named.end);
    let message = text!(
        "{} goes into {}, and {} for it is cut from the {}",
        male,
        female,
        it.thread.thread.called(),
        part.end_name(taken)
    );
    let title = text!("write from {}", wanted);
    Some(
        RULE.at(span, message)
            .label(it.joint.joint.head, "joined here")
            .label(it.thread.feature.span, "the thread")
            .hint(title.clone())
            .fix_all(title, vec![Edit::new(span, wanted)])
            .fix_all(
                text!("write {}", it.meant()),
                vec![Edit::new(it.named.span, it.meant())],
            ),
    )
}

/// Both ends of a part, each taken for the other.
fn swapped(one: &WrongEnd<'_>, other: &WrongEnd<'_>) -> Option<Finding> {
    let part = one.part();
    let (first, second) = match one.thread.feature.span < other.thread.feature.span {
        true => (one, other),
        false => (other, one),
    };
    let spans = first.block_name().zip(second.block_name());
    let name = |end: End| part.end_name(end);
    let message = text!(
        "{}'s ends are swapped: {} is cut from the {} and meant for the {}, {} the other way round",
        part.name.text,
        first.thread.thread.called(),
        name(first.thread.feature.end),
        name(first.named.end),
        second.thread.thread.called()
    );
    let (a, b) = spans?;
    let blocks = vec![
        Edit::new(a, name(first.named.end)),
        Edit::new(b, name(second.named.end)),
    ];
    let joints = vec![
        Edit::new(first.named.span, first.meant()),
        Edit::new(second.named.span, second.meant()),
    ];
    let title = text!(
        "swap {} and {} after from",
        name(End::First),
        name(End::Second)
    );
    Some(
        RULE.at(a, message)
            .label(b, "the other end")
            .label(first.joint.joint.head, "joined here")
            .label(second.joint.joint.head, "and here")
            .hint(title.clone())
            .fix_all(title, blocks)
            .fix_all("swap the ends in the two joints", joints),
    )
}
