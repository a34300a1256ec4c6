//! `no-runout`: the run-out of an outside thread meets full thread of its mate.

use crate::lead_in::LeadIn;
use crate::{Findings, JointView, Rule, Run, Threshold, shape, words};
use quillet_geometry::Length;
use quillet_model::{Cut, Engagement, Feature};
use quillet_standards::thread::ThreadForm;
use quillet_syntax::{Edit, Finding, Severity, Size, SizedText, text};

pub(crate) static RULE: Rule = Rule {
    code: "no-runout",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("no-runout.md"),
    run: Run::Joint(run),
};

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest().filter(|_| !view.male.is_bought()) else {
        return;
    };
    for engagement in &rest.engagements {
        let Some(outside) = Outside::of(view, engagement) else {
            continue;
        };
        if let Some(fat) = outside.fat_relief(view) {
            findings.push(fat);
        }
        // The mate's thread begins at its mouth: from the male's leading face, this far.
        let mate_reaches = Length::mm(rest.goes_in_mm - engagement.mouth_mm);
        if let Some(short) = outside.short_of_full_form(view, engagement, mate_reaches) {
            findings.push(short);
        }
    }
}

/// An outside thread cut from the end that goes in.
struct Outside<'a> {
    thread: &'a Feature,
    form: &'a ThreadForm,
    called: String,
    /// The relief that begins where the thread ends.
    relief: Option<&'a Feature>,
    /// Where the shoulder behind it stands, from the end's face.
    shoulder: Option<Length>,
}

impl<'a> Outside<'a> {
    fn of(view: &JointView<'a>, engagement: &Engagement) -> Option<Self> {
        let (part, end) = (view.male, view.joint.male.end);
        let thread = part.features.get(engagement.threads.male)?;
        let (def, _) = thread.thread().filter(|_| thread.end == end)?;
        let relief = part.features.iter().find(|it| {
            let behind = it.from <= thread.to && it.to > thread.to;
            matches!(it.cut, Cut::Relief { .. }) && it.end == end && behind
        });
        Some(Self {
            thread,
            form: &def.thread,
            called: def.called(),
            relief,
            shoulder: shape::shoulder_behind(part, end, thread.to, def.thread.major()),
        })
    }

    fn fat_relief(&self, view: &JointView<'_>) -> Option<Finding> {
        let relief = self.relief?;
        let (dia, root) = (relief.dia()?, self.form.root_diameter());
        let units = view.pen.design.units_at(view.male.span);
        let text = SizedText::from(Size::Written(units.down(root)));
        (dia > root).then(|| {
            RULE.at(
                relief.span,
                text!("the relief behind {} is {}, fatter than its root ({}); the die would cut into it", self.called, words::dia(dia), words::dia(root)),
            )
            .label(self.thread.span, "the thread it is for")
            .hint(text!("turn the relief to {}", text))
            .fix(text!("turn it to {}", text), relief.size_span, text)
        })
    }

    fn short_of_full_form(
        &self,
        view: &JointView<'_>,
        engagement: &Engagement,
        mate_reaches: Length,
    ) -> Option<Finding> {
        let shoulder = self.shoulder?;
        let LeadIn {
            length: lead,
            whose,
        } = lead_in(view, self.form);
        let full_to = shoulder - lead;
        // A tenth of a pitch is no thread.
        let slack = self.form.pitch() / 10;
        if self.thread.to - full_to < slack || mate_reaches - full_to < slack {
            return None;
        }
        let inside = view.female.features.get(engagement.threads.female)?;
        let finding = RULE
            .at(
                self.thread.span,
                text!("{} cannot have full form to {}: the shoulder stands at {} and the die's lead-in takes {} ({}), and the mate's full thread reaches there", self.called, self.thread.to, shoulder, lead, whose),
            )
            .label(inside.span, "full thread of the mate")
            .label(view.joint.head, "when this joint is home")
            .hint(text!("let full form end at {} with a relief behind it, or bore the mate's mouth plain", view.pen.design.units_at(view.male.span).down(full_to)));
        Some(self.shortened(
            view,
            view.pen.design.units_at(view.male.span).down(full_to),
            shoulder,
            finding,
        ))
    }

    /// Ends the thread where full form can end, and begins its relief there.
    fn shortened(
        &self,
        view: &JointView<'_>,
        full_to: Length,
        shoulder: Length,
        finding: Finding,
    ) -> Finding {
        let design = view.pen.design;
        let Some(relief) = self.relief else {
            return finding;
        };
        let named_for = |it: &Feature| design.text(it.reach_span).starts_with("for");
        if !named_for(self.thread) || !named_for(relief) || full_to <= self.thread.from {
            return finding;
        }
        let at = match self.thread.from.is_zero() {
            true => SizedText::default(),
            false => text!(" at {}", Size::Near(self.thread.from, 3)),
        };
        let thread = text!("for {}{}", Size::Near(full_to - self.thread.from, 3), at);
        let behind = text!(
            "for {} at {}",
            Size::Near(shoulder - full_to, 3),
            Size::Near(full_to, 3)
        );
        finding.fix_all(
            text!("end the thread at {}", full_to),
            vec![
                Edit::new(self.thread.reach_span, thread),
                Edit::new(relief.reach_span, behind),
            ],
        )
    }
}

/// The die's lead-in, as the limit sets it or as it is.
fn lead_in(view: &JointView<'_>, form: &ThreadForm) -> LeadIn {
    let set = view.limit(&RULE).and_then(|line| line.value.as_length());
    set.map_or_else(|| LeadIn::of_die(view.pen.bench, form), LeadIn::set)
}
