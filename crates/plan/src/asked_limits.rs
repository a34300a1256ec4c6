//! What the rows of a part's route ask of the sizes that are written of it.

mod side;
mod suiting;

pub use suiting::AskedToSuit;

use crate::made::suit::Suited;
use crate::output::inspection::{self, Inspection};
use crate::{AskedSize, Note, Operation, PartSize, plan_part_of};
use quillet_geometry::{Length, Limits};
use quillet_model::{Bench, Cut, CutId, Hand, Origin, Part, PartId, Pen, StationId};
use quillet_syntax::ast::ToleranceKind;

/// Between what each size of a part must lie: as a row of its route has it, and of what no row measures
/// as the hand keeps it.
#[derive(Debug)]
pub struct AskedLimits<'p> {
    part: &'p Part,
    hand: Hand,
    rows: Vec<(PartSize, Length, Limits)>,
    /// What the fits of its joints ask.
    by_fit: Vec<AskedSize>,
    /// What the holes that are made ask, of one of which something is made.
    suits: Vec<Suited>,
}

impl<'p> AskedLimits<'p> {
    /// Of a part of a pen, at the bench it is made at; none where the pen has no such part.
    pub fn of(pen: &'p Pen, part: PartId, bench: Option<&Bench>) -> Option<Self> {
        let routes = plan_part_of(pen, part, bench).routes;
        let part = pen.parts.get(part)?;
        let operations = routes.iter().flat_map(|it| &it.operations);
        Some(Self {
            part,
            hand: Hand::at(bench),
            rows: operations.flat_map(|it| rows(part, it)).collect(),
            by_fit: routes.iter().flat_map(|it| &it.asked).copied().collect(),
            suits: Vec::new(),
        })
    }

    /// The length over all.
    pub fn length(&self) -> Limits {
        let row = self.row(PartSize::Length, self.part.length);
        row.unwrap_or_else(|| self.either(ToleranceKind::Length, self.part.length))
    }

    /// A turned diameter that nothing in particular is asked of.
    pub fn turned(&self, dia: Length) -> Limits {
        self.either(ToleranceKind::Dia, dia)
    }

    /// The outside diameter at a station, before or behind its step.
    pub fn outside(&self, station: StationId, dia: Length) -> Limits {
        let fitted = self.by_fit.iter().find(|it| {
            let Origin::Outside(to) = it.origin else {
                return false;
            };
            (to == station || to.before() == Some(station)) && it.drawn == dia
        });
        fitted.map_or_else(|| self.turned(dia), |it| it.class.limits)
    }

    /// How far a shoulder is from its face.
    pub fn shoulder(&self, at: Length) -> Limits {
        self.either(ToleranceKind::Shoulder, at)
    }

    /// A cut's diameter; none where it has no one diameter that a caliper reads.
    pub fn dia(&self, id: CutId) -> Option<Limits> {
        let cut = self.part.features.get(id)?;
        let dia = cut.dia().filter(|_| cut.thread().is_none())?;
        let kept = match (&cut.cut, cut.is_inside()) {
            (Cut::Drill { .. }, _) => ToleranceKind::Drill,
            (_, true) => ToleranceKind::Bore,
            (_, false) => ToleranceKind::Dia,
        };
        let row = self.row(PartSize::Dia(id), dia);
        Some(row.unwrap_or_else(|| self.either(kept, dia)))
    }

    /// How deep a cut goes, or how far it reaches; none where it goes through or its diameter tells.
    pub fn reach(&self, id: CutId) -> Option<Limits> {
        let cut = self.part.features.get(id)?;
        if cut.through || matches!(cut.cut, Cut::Edge(_) | Cut::Countersink { .. }) {
            return None;
        }
        // A coned hole is measured at its point and written to its corner.
        let row = self.rows.iter().find(|it| it.0 == PartSize::Reach(id));
        let row = row.map(|it| it.2.moved(cut.to - it.1));
        let kept = match cut.is_inside() {
            true => ToleranceKind::Depth,
            false => ToleranceKind::Shoulder,
        };
        Some(row.unwrap_or_else(|| self.either(kept, cut.to)))
    }

    /// What a row that measures a size asks; none where it measures another of the same cut.
    fn row(&self, size: PartSize, drawn: Length) -> Option<Limits> {
        let mut rows = self.rows.iter();
        let row = rows.find(|it| it.0 == size && it.1 == drawn);
        row.map(|it| it.2)
    }

    fn either(&self, kept: ToleranceKind, drawn: Length) -> Limits {
        inspection::kept_limits(&self.hand, kept, drawn)
    }
}

/// The written sizes that an operation's rows measure, as drawn there, and between what.
fn rows(part: &Part, operation: &Operation) -> Vec<(PartSize, Length, Limits)> {
    let row = |it: &Inspection| Some((operation.measures(part, it)?, it.nominal, it.limits));
    let mut rows: Vec<_> = operation.checks.iter().filter_map(row).collect();
    // A fit that no caliper reads is tried by two pins.
    let pins = operation.notes.iter().find_map(|it| match it {
        Note::ShankGoesHome {
            dia,
            stays_out: Some(out),
        } => Some(Limits::new(*dia, *out)),
        _ => None,
    });
    let tried = operation.features.first().zip(pins);
    rows.extend(tried.and_then(|(cut, limits)| {
        let drawn = part.features.get(*cut)?.dia()?;
        Some((PartSize::Dia(*cut), drawn, limits))
    }));
    rows
}
