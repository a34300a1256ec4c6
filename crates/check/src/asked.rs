//! What the sheet asks of the sizes of a part: between what each must lie.

use quillet_geometry::{Length, Limits};
use quillet_model::{Bench, Cut, Feature, Hand, Part, PartId, Pen};
use quillet_plan::{AskedSize, plan_part_of};
use quillet_syntax::ast::ToleranceKind;

/// The limits of a part as it is drawn.
#[derive(Debug)]
pub struct AskedLimits<'p> {
    part: &'p Part,
    hand: Hand,
    /// What the fits of its joints ask.
    by_fit: Vec<AskedSize>,
}

impl<'p> AskedLimits<'p> {
    /// Of a part of a pen, at the bench it is made at; none where the pen has no such part.
    pub fn of(pen: &'p Pen, part: PartId, bench: Option<&Bench>) -> Option<Self> {
        let plan = plan_part_of(pen, part, bench);
        let by_fit = plan.routes.iter().flat_map(|it| &it.asked);
        Some(Self {
            part: pen.parts.get(part)?,
            hand: pen.hands.get(part).copied().unwrap_or_default(),
            by_fit: by_fit.copied().collect(),
        })
    }

    /// The length over all.
    pub fn length(&self) -> Limits {
        self.either(ToleranceKind::Length, self.part.length)
    }

    /// A turned diameter that nothing in particular is asked of.
    pub fn turned(&self, dia: Length) -> Limits {
        self.either(ToleranceKind::Dia, dia)
    }

    /// How far a shoulder is from its face.
    pub fn shoulder(&self, at: Length) -> Limits {
        self.either(ToleranceKind::Shoulder, at)
    }

    /// A cut's diameter; none where it has no one diameter that a caliper reads.
    pub fn dia(&self, cut: &Feature) -> Option<Limits> {
        let dia = cut.dia().filter(|_| cut.thread().is_none())?;
        let of_cut = |it: &&AskedSize| {
            let feature = it
                .origin
                .feature()
                .and_then(|id| self.part.features.get(id));
            feature.is_some_and(|it| it.span == cut.span)
        };
        if let Some(asked) = self.by_fit.iter().find(of_cut) {
            return Some(asked.class.limits);
        }
        let by_thread = self.part.tenon(cut).map(|(limits, _)| limits);
        // What is written outside the thread's own limits is asked as it is written.
        if let Some(limits) = by_thread.filter(|it| it.contains(dia)) {
            return Some(limits);
        }
        Some(match (&cut.cut, cut.is_inside()) {
            // A drill cuts no smaller than itself.
            (Cut::Drill { .. }, _) => {
                let over = self.hand.keeps(ToleranceKind::Drill, dia);
                Limits::new(dia, dia + over)
            }
            (_, true) => self.either(ToleranceKind::Bore, dia),
            (_, false) => self.turned(dia),
        })
    }

    /// How deep a cut goes, or how far it reaches; none where it goes through or its diameter tells.
    pub fn reach(&self, cut: &Feature) -> Option<Limits> {
        let told_by_dia = matches!(cut.cut, Cut::Edge(_) | Cut::Countersink { .. });
        let kept = match cut.is_inside() {
            true => ToleranceKind::Depth,
            false => ToleranceKind::Shoulder,
        };
        (!cut.through && !told_by_dia).then(|| self.either(kept, cut.to))
    }

    fn either(&self, kept: ToleranceKind, drawn: Length) -> Limits {
        let either = self.hand.keeps(kept, drawn);
        Limits::new(drawn - either, drawn + either)
    }
}
