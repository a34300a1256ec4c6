//! `short-engagement`: too little thread in the other to hold.

use super::snaps_at_joint::MOMENT_N_MM;
use crate::full_form::{FullFormOverlap, complete};
use crate::{Findings, JointView, Rule, Run, Threshold, words};
use quillet_geometry::Length;
use quillet_model::{Closing, CutId, Engagement, Part, StoppedBy};
use quillet_standards::thread::ThreadForm;
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, Size, SizedText, text};

pub(crate) static RULE: Rule = Rule {
    code: "short-engagement",
    severity: Severity::Warning,
    limit: Some(Threshold::Number),
    page: include_str!("short-engagement.md"),
    run: Run::Joint(run),
};

/// The pull of a firm twist of the fingers, newtons: 100 N round the rim of a part 1.2 times as
/// thick as its thread, T = 0.2·F·d (the nut factor of dry threads, any handbook of machine design;
/// the twist is common practice, no published source). Both grow with the thread, the pull does not.
const TWIST_N: f64 = 300.0;
/// A cap that lets go within less of a turn opens by itself.
const CAP_TURNS: f64 = 0.5;

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest() else { return };
    let Some(threads) = rest.engagements.first() else {
        return;
    };
    // A joint that does not close has more to mend first.
    let open = rest.short_mm > quillet_model::TOUCHING_MM
        || rest
            .seat_gap_mm
            .is_some_and(|gap| gap.abs() > quillet_model::TOUCHING_MM);
    let open = open || matches!(rest.verdict.closing, Closing::Blocked(_));
    if open || rest.stopped_by != StoppedBy::Contact {
        return;
    }
    let cap = view.joint.verb == Verb::Close;
    let full = complete(view, rest, threads);
    let form = &threads.form;
    let pitch_mm = form.pitch_mm();
    let weakest = Ridge::weakest(view, threads);
    let load_n = view.number_limit(&RULE, load_n(form, cap));
    // Less than a pitch does not go all the way round, and the joint leans.
    let borne_mm = weakest
        .as_ref()
        .map_or(0.0, |ridge| load_n / ridge.n_per_mm);
    let wanted_mm = borne_mm.max(pitch_mm);
    let short = full.overlap_mm < wanted_mm - 1e-9;
    let few = cap && threads.turns() < CAP_TURNS - 1e-9;
    if !short && !few {
        return;
    }
    let sizes = Wanted {
        borne_mm,
        wanted_mm,
        load_n,
        short,
    };
    let message = sizes.message(threads, &full, weakest.as_ref());
    let (male, female) = (
        &view.male.features[threads.threads.male],
        &view.female.features[threads.threads.female],
    );
    findings.push(
        RULE.at(view.joint.head, message)
            .label(male.span, "the outside thread")
            .label(female.span, "the inside thread")
            .hint("make the threads longer, or let them begin nearer to the mouth"),
    );
}

/// What is wanted of a joint's threads.
struct Wanted {
    /// The overlap that bears the load.
    borne_mm: f64,
    /// That, or a pitch.
    wanted_mm: f64,
    load_n: f64,
    /// There is less; else the cap lets go too soon.
    short: bool,
}

impl Wanted {
    fn message(
        &self,
        threads: &Engagement,
        full: &FullFormOverlap,
        weakest: Option<&Ridge>,
    ) -> SizedText {
        let reported = |mm: f64| Size::Rounded(Length::mm(mm), 2);
        let lies = text!("{} of thread lies in the other", reported(full.overlap_mm));
        let apart = Length::mm(-full.overlap_mm);
        let [turns, _] = words::told_apart(threads.turns(), CAP_TURNS, 2);
        let message = match (full.overlap_mm <= 0.0, self.short, weakest) {
            (true, ..) if !apart.is_positive() => {
                "the threads only just meet: nothing of one lies in the other".into()
            }
            (true, ..) => text!(
                "the threads never reach each other: {} are left between them",
                reported(-full.overlap_mm)
            ),
            (_, true, Some(ridge)) if self.borne_mm > threads.form.pitch_mm() => {
                let [borne, load] =
                    words::told_apart(ridge.n_per_mm * full.overlap_mm, self.load_n, 0);
                text!(
                    "{} and bears about {} N in {}; {} bears the {} N wanted",
                    lies,
                    borne,
                    ridge.material,
                    reported(self.wanted_mm),
                    load
                )
            }
            (_, true, _) => text!(
                "{}, less than a pitch: it does not go all the way round; {} wanted",
                lies,
                reported(self.wanted_mm)
            ),
            (_, false, _) => text!(
                "the cap lets go after {} turns; {} wanted at least",
                turns,
                CAP_TURNS
            ),
        };
        match full.lead_in.filter(|_| self.short) {
            Some(lead) => message.then(text!(
                " ({} are drawn; a lead-in of {} takes {}: {})",
                reported(threads.overlap_mm),
                reported(lead.length.to_mm()),
                reported(full.lost_mm),
                lead.whose
            )),
            None => message,
        }
    }
}

/// What a joint has to bear along its axis, newtons: the twist that closes it, and, where it stays
/// closed, a hard lean on the pen beside it.
fn load_n(form: &ThreadForm, cap: bool) -> f64 {
    let lean = MOMENT_N_MM / (form.pitch_diameter().to_mm() / 2.0);
    TWIST_N + if cap { 0.0 } else { lean }
}

/// The ridge that strips first.
struct Ridge {
    n_per_mm: f64,
    material: String,
}

impl Ridge {
    /// Of both threads, what bears less; none where no material is known, as of two bought parts.
    fn weakest(view: &JointView<'_>, threads: &Engagement) -> Option<Ridge> {
        let areas = threads.form.shear_areas();
        let of = |part: &Part, index: CutId, area_mm2_per_mm: f64| {
            let materials = part.thread_materials(&part.features[index]).into_iter();
            let ridges = materials.filter_map(|material| {
                let (shear_mpa, _) = material.kind.shear_mpa()?;
                Some(Ridge {
                    n_per_mm: area_mm2_per_mm * shear_mpa,
                    material: material.name.to_string(),
                })
            });
            ridges.min_by(|a, b| a.n_per_mm.total_cmp(&b.n_per_mm))
        };
        let outside = of(view.male, threads.threads.male, areas.external_mm2_per_mm);
        let inside = of(
            view.female,
            threads.threads.female,
            areas.internal_mm2_per_mm,
        );
        let both = outside.into_iter().chain(inside);
        both.min_by(|a, b| a.n_per_mm.total_cmp(&b.n_per_mm))
    }
}
