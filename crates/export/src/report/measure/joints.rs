//! How each joint comes to rest.

use super::chain::LinkMeasures;
use crate::report::sized::SizedWords;
use quillet_check::spots;
use quillet_geometry::Angle;
use quillet_model::{
    AtRest, Clearance, ClearanceKind, Design, Engagement, Joint, JointEnd, Pen, StoppedBy, Touch,
};
use serde::Serialize;

/// A joint; what rests on something missing is null.
#[derive(Default, Serialize)]
pub(super) struct JointMeasures {
    pub(super) kind: &'static str,
    pub(super) male: String,
    pub(super) female: String,
    pub(super) goes_in_mm: Option<f64>,
    pub(super) stopped_by: Option<&'static str>,
    /// What holds it, in words; none where nothing does.
    pub(super) held_by: Option<SizedWords>,
    pub(super) touches: Vec<TouchMeasures>,
    pub(super) seat_gap_mm: Option<f64>,
    pub(super) thread: Option<String>,
    pub(super) overlap_mm: Option<f64>,
    pub(super) travel_mm: Option<f64>,
    pub(super) turns: Option<f64>,
    pub(super) catch_deg: Option<f64>,
    pub(super) clock_positions: Option<u32>,
    /// How far the male's mark rests clockwise of the female's, where both threads have a `clock`.
    pub(super) marks_apart_deg: Option<f64>,
    /// What comes off a shoulder to turn the joint by ten degrees more.
    pub(super) cut_for_10_deg_mm: Option<f64>,
    pub(super) trapped: Vec<TrappedMeasures>,
    pub(super) clearances: Vec<ClearanceMeasures>,
}

#[derive(Serialize)]
pub(super) struct TouchMeasures {
    pub(super) male: SizedWords,
    pub(super) female: SizedWords,
    pub(super) spare_mm: f64,
}

#[derive(Serialize)]
pub(super) struct TrappedMeasures {
    pub(super) part: String,
    pub(super) length_mm: f64,
    pub(super) room_mm: f64,
}

#[derive(Serialize)]
pub(super) struct ClearanceMeasures {
    pub(super) kind: &'static str,
    pub(super) male: SizedWords,
    pub(super) female: SizedWords,
    pub(super) nominal_mm: f64,
    pub(super) worst_mm: f64,
    /// Whether the one comes as far as the other as drawn; where not, it does at worst.
    pub(super) as_drawn: bool,
    /// What it is the sum of, that which takes most of it first.
    pub(super) chain: Vec<LinkMeasures>,
}

impl ClearanceMeasures {
    /// Whether it is to the plane at which a drill's point begins rather than to metal.
    pub(super) fn is_to_plane(&self) -> bool {
        self.kind == ClearanceKind::Corner.word()
    }
}

impl JointMeasures {
    pub(super) fn of(design: &Design, pen: &Pen, joint: &Joint, rest: &AtRest) -> Self {
        let mut it = Self::unknown(pen, joint);
        if pen.is_settled() {
            it.rest(design, pen, rest);
        }
        it
    }

    /// Its ends alone.
    fn unknown(pen: &Pen, joint: &Joint) -> Self {
        let end = |end: JointEnd| {
            let part = &pen.parts[end.part];
            format!("{}.{}", part.name.text, part.end_name(end.end))
        };
        Self {
            kind: joint.verb.word(),
            male: end(joint.male),
            female: end(joint.female),
            ..Self::default()
        }
    }

    /// Where it rests.
    fn rest(&mut self, design: &Design, pen: &Pen, rest: &AtRest) {
        // Threads that never reach each other have no turns to speak of.
        let threads = rest.engagements.first().filter(|it| it.travel_mm > 0.0);
        let cut = |it: &Engagement| it.shoulder_cut(quillet_model::TEN_DEGREES).to_mm();
        let (kind, male, female) = (self.kind, &mut self.male, &mut self.female);
        *self = Self {
            kind,
            male: std::mem::take(male),
            female: std::mem::take(female),
            goes_in_mm: Some(rest.goes_in_mm),
            stopped_by: Some(match rest.stopped_by {
                _ if rest.redundant => "other joints",
                StoppedBy::Contact => "contact",
                StoppedBy::Overlap => "overlap",
                StoppedBy::Level => "level",
                StoppedBy::Nothing => "nothing",
            }),
            held_by: quillet_check::held_by(pen, rest).map(SizedWords::from),
            touches: rest
                .touches
                .iter()
                .map(|it| TouchMeasures::of(pen, it))
                .collect(),
            seat_gap_mm: rest.seat_gap_mm,
            thread: threads.map(|it| it.form.to_string()),
            overlap_mm: threads.map(|it| it.overlap_mm),
            travel_mm: threads.map(|it| it.travel_mm),
            turns: threads.map(Engagement::turns),
            catch_deg: threads.map(|it| it.catches_within().to_deg()),
            clock_positions: threads.map(Engagement::clock_positions),
            marks_apart_deg: threads.and_then(|it| it.marks_apart).map(Angle::to_deg),
            cut_for_10_deg_mm: threads.map(cut),
            trapped: rest
                .trapped
                .iter()
                .map(|it| TrappedMeasures {
                    part: pen.parts[it.part].name.text.to_string(),
                    length_mm: it.length_mm,
                    room_mm: it.room_mm,
                })
                .collect(),
            clearances: rest
                .clearances
                .iter()
                .map(|it| ClearanceMeasures::of(design, pen, it))
                .collect(),
        };
    }
}

impl TouchMeasures {
    pub(super) fn of(pen: &Pen, touch: &Touch) -> Self {
        Self {
            male: spots::words(pen, &touch.male).into(),
            female: spots::words(pen, &touch.female).into(),
            spare_mm: touch.spare_mm,
        }
    }
}

impl ClearanceMeasures {
    fn of(design: &Design, pen: &Pen, it: &Clearance) -> Self {
        Self {
            kind: it.kind.word(),
            male: spots::words(pen, &it.male).into(),
            female: spots::words(pen, &it.female).into(),
            nominal_mm: it.nominal_mm,
            worst_mm: it.least_mm,
            as_drawn: it.drawn,
            chain: it
                .chain
                .iter()
                .map(|link| LinkMeasures::of(design, pen, link))
                .collect(),
        }
    }
}
