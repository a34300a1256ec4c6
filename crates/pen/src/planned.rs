//! How a pen, or parts that are in none, are made at their bench.

use quillet_model::{Bench, Design, Part, Pen};
use quillet_plan::{BatchMember, CutList, Plan, plan_made, plan_parts, plan_pen};
use std::sync::Arc;

/// A plan with what it is of.
pub struct Planned<'d> {
    /// The pen's title, or the parts' names.
    pub title: String,
    /// The pen's name; none of parts that are in none.
    pub pen: Option<Arc<str>>,
    /// How many of it are made.
    pub count: u32,
    /// How it is made.
    pub plan: Plan,
    /// The bench it is made at.
    pub bench: Option<&'d Bench>,
}

impl<'d> Planned<'d> {
    /// A pen of a design, at the bench it names or the only one in sight; one that was made as it is
    /// drawn, with what of it is done.
    pub fn of_pen(design: &'d Design, pen: &Pen) -> Self {
        let bench = design.bench(pen.bench.as_ref()).map(AsRef::as_ref);
        let drawn = pen.made.as_deref().and_then(|it| design.pen(&it.of.text));
        Self {
            title: pen.title_or_name().to_owned(),
            pen: Some(pen.name.text.clone()),
            count: 1,
            plan: match drawn {
                Some(drawn) => plan_made(drawn, pen, bench),
                None => plan_pen(pen, bench),
            },
            bench,
        }
    }

    /// So many of it.
    pub fn times(self, count: u32) -> Self {
        Self { count, ..self }
    }

    /// Its title, with how many where they are several: `12 × Heron`.
    pub fn counted_title(&self) -> String {
        match self.count {
            1 => self.title.clone(),
            count => format!("{count} × {}", self.title),
        }
    }

    /// The cut list of plans that are sawn together.
    pub fn cut_list<'p>(planned: impl IntoIterator<Item = &'p Self>) -> CutList
    where
        'd: 'p,
    {
        let planned: Vec<&Self> = planned.into_iter().collect();
        let several = planned.len() > 1;
        let members = planned.iter().map(|it| BatchMember {
            plan: &it.plan,
            bench: it.bench,
            pen: it.pen.as_ref().filter(|_| several),
            count: it.count,
        });
        CutList::of_batch(&members.collect::<Vec<_>>())
    }

    /// Parts of a design as they stand by themselves, at the bench that the first to do so names.
    pub fn of_parts(design: &'d Design, parts: &[Arc<Part>]) -> Self {
        let named = parts.iter().find_map(|part| part.bench.as_ref());
        let bench = design.bench(named).map(AsRef::as_ref);
        let names: Vec<&str> = parts.iter().map(|part| &*part.name.text).collect();
        Self {
            title: names.join(", "),
            pen: None,
            count: 1,
            plan: plan_parts(parts, bench),
            bench,
        }
    }
}
