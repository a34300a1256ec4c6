//! What a rule is shown: a part, a joint or a pen with the benches and limits around it.

use crate::walls::{self, Wall};
use quillet_model::{AtRest, Bench, Design, End, Joint, JointId, Part, PartId, Pen};
use quillet_plan::{Plan, PlanProblem, plan_part, plan_part_of};
use quillet_syntax::{Finding, Severity};
use std::cell::OnceCell;
use std::rc::Rc;
use std::sync::Arc;

/// The whole design.
#[derive(Clone, Copy, Debug)]
pub struct DesignView<'a> {
    /// The design.
    pub design: &'a Design,
}

/// A bench.
#[derive(Clone, Copy, Debug)]
pub struct BenchView<'a> {
    /// The design it stands in.
    pub design: &'a Design,
    /// The bench.
    pub bench: &'a Bench,
}

/// A pen and the bench it is made at.
#[derive(Clone, Copy, Debug)]
pub struct PenView<'a> {
    /// The design it stands in.
    pub design: &'a Design,
    /// The pen.
    pub pen: &'a Pen,
    /// The bench it names, or the only one in sight.
    pub bench: Option<&'a Bench>,
}

/// A part as one pen sees it, or as the files alone give it where it is in no pen.
#[derive(Debug)]
pub struct PartView<'a> {
    /// The design it stands in.
    pub design: &'a Design,
    /// The pen that sees it so.
    pub pen: Option<&'a Pen>,
    /// The part.
    pub part: &'a Arc<Part>,
    /// The bench it is made at: the one it names, its pen's, or the only one in sight.
    pub bench: Option<&'a Bench>,
    /// Whether what is found is shown; else where it is found, and how grave it is, are all that count.
    pub(crate) shown: bool,
    worked: Rc<PartCache>,
}

/// What is worked out of a part when first asked for; pens that see and join it alike share it.
#[derive(Debug, Default)]
pub(crate) struct PartCache {
    walls: OnceCell<Arc<[Wall]>>,
    plan: OnceCell<Plan>,
}

impl PartCache {
    /// The walls, where they have been asked for.
    pub(crate) fn known_walls(&self) -> Option<Arc<[Wall]>> {
        self.walls.get().cloned()
    }

    /// Walls that are known already.
    pub(crate) fn has_walls(&self, walls: &Arc<[Wall]>) {
        self.walls.get_or_init(|| walls.clone());
    }
}

/// A joint of a pen.
#[derive(Clone, Copy, Debug)]
pub struct JointView<'a> {
    /// The pen.
    pub pen: PenView<'a>,
    /// Which of the pen's joints.
    pub id: JointId,
    /// The joint.
    pub joint: &'a Joint,
    /// The part that goes in.
    pub male: &'a Part,
    /// The part that receives it.
    pub female: &'a Part,
}

/// The pens of a design; one alone where it is given.
pub(crate) fn asked<'d>(design: &'d Design, pen: Option<&str>) -> impl Iterator<Item = &'d Pen> {
    let pens = design.pens.iter();
    pens.filter(move |it| pen.is_none_or(|pen| *it.name.text == *pen))
}

impl<'a> PenView<'a> {
    /// A pen of a design.
    pub fn new(design: &'a Design, pen: &'a Pen) -> Self {
        let bench = design.bench(pen.bench.as_ref()).map(Arc::as_ref);
        Self { design, pen, bench }
    }

    /// Whether all of its parts and joints could be read.
    pub fn is_whole(&self) -> bool {
        let damaged =
            |it: &Finding| it.severity == Severity::Error && self.pen.block.contains(it.span);
        self.pen.whole
            && self.pen.parts.iter().all(|part| part.whole)
            && !self.design.findings.iter().any(damaged)
    }

    /// Its joints.
    pub fn joints(&self) -> impl Iterator<Item = JointView<'a>> + '_ {
        self.pen.joints.with_ids().filter_map(|(id, joint)| {
            Some(JointView {
                pen: *self,
                id,
                joint,
                male: self.pen.parts.get(joint.male.part)?,
                female: self.pen.parts.get(joint.female.part)?,
            })
        })
    }

    /// The joints of a part that do not close.
    pub fn open_joints(&self, part: PartId) -> impl Iterator<Item = &'a Joint> {
        let joints = self.pen.joints.iter().zip(&self.pen.assembly.joints);
        let open = joints.filter(move |(joint, rest)| {
            [joint.male.part, joint.female.part].contains(&part) && !rest.verdict.closes()
        });
        open.map(|(joint, _)| joint)
    }

    /// Its parts, each as it sees them.
    pub fn parts(&self) -> impl Iterator<Item = PartView<'a>> + '_ {
        self.pen
            .parts
            .iter()
            .map(|part| PartView::new(self.design, Some(self.pen), part))
    }
}

impl<'a> PartView<'a> {
    /// A part of a design, as a pen sees it.
    pub fn new(design: &'a Design, pen: Option<&'a Pen>, part: &'a Arc<Part>) -> Self {
        let named = part
            .bench
            .as_ref()
            .or(pen.and_then(|pen| pen.bench.as_ref()));
        let bench = design.bench(named).map(Arc::as_ref);
        Self {
            design,
            pen,
            part,
            bench,
            shown: true,
            worked: Rc::default(),
        }
    }

    /// The same, whether what is found is shown.
    pub(crate) fn shown(self, shown: bool) -> Self {
        Self { shown, ..self }
    }

    /// The same with what was worked out before, of the same part at the same bench and joined alike.
    pub(crate) fn sharing(self, worked: Rc<PartCache>) -> Self {
        Self { worked, ..self }
    }

    /// Its walls, by zone, from its first end; worked out once, when first asked for.
    pub fn walls(&self) -> &[Wall] {
        let walls = || walls::walls(self.part).into();
        self.worked.walls.get_or_init(walls)
    }

    /// Its walls, where its shape is one to tell of: a rule sees also those of a part that could
    /// not all be read, and those that are broken through.
    pub fn reported_walls(&self) -> &[Wall] {
        match self.part.shaped {
            true => self.walls(),
            false => &[],
        }
    }

    /// How it is made, its mates known but no part blended with another; worked out once, when
    /// first asked for. A bought part has no routes.
    pub fn plan(&self) -> &Plan {
        self.worked.plan.get_or_init(|| {
            let place = |pen: &Pen| pen.parts.position(|it| Arc::ptr_eq(it, self.part));
            match self.pen.and_then(|pen| Some((pen, place(pen)?))) {
                Some((pen, index)) => plan_part_of(pen, index, self.bench),
                None if self.part.is_bought() => Plan::default(),
                None => plan_part(self.part, self.bench),
            }
        })
    }

    /// What stands in the way of making it.
    pub fn problems(&self) -> impl Iterator<Item = &PlanProblem> {
        self.plan().routes.iter().flat_map(|route| &route.problems)
    }
}

impl<'a> JointView<'a> {
    /// Where it comes to rest.
    pub fn at_rest(&self) -> Option<&'a AtRest> {
        self.pen.pen.assembly.joints.get(self.id)
    }

    /// The male end's name with its part: `section.shank`.
    pub fn male_name(&self) -> String {
        end_name(self.male, self.joint.male.end)
    }

    /// The female end's name with its part.
    pub fn female_name(&self) -> String {
        end_name(self.female, self.joint.female.end)
    }
}

pub(crate) fn end_name(part: &Part, end: End) -> String {
    format!("{}.{}", part.name.text, part.end_name(end))
}
