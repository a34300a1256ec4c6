//! A simulated lathe: carries a route out on a blank, cut by cut in the meridian plane, and
//! complains of whatever a lathe would.

mod as_one;
mod cuts;
mod held;
mod order;
mod pieces;
mod sides;
mod stock;
mod tools;
mod work;

use as_one::Member;
use sides::Stroke;
use stock::Stock;

use cuts::Shape;
use quillet_geometry::Length;
use quillet_model::{End, Part, Profiles, Solid};
use quillet_plan::{Pass, Plan, Route, Threading, Work, Workholding};

/// Carries a route out; what went wrong, and nothing where the designed part came out.
pub(crate) fn carry_out(plan: &Plan, route: &Route) -> Vec<String> {
    let mut lathe = Lathe::new(plan, route);
    for number in 0..route.operations.len() {
        lathe.operation(number);
    }
    lathe.compare();
    lathe.wrong
}

struct Lathe<'a> {
    plan: &'a Plan,
    route: &'a Route,
    shape: Shape<'a>,
    /// Threads left standing to their crests.
    crest: Stock,
    /// Threads cut to their roots.
    root: Stock,
    hold: Workholding,
    threaded: Vec<(End, bool)>,
    centred: [bool; 2],
    faced: [bool; 2],
    /// The mandrel that plugs each end.
    plugged: [Option<quillet_plan::MandrelId>; 2],
    /// How far from each end a mate was tried, inside and outside.
    tried: Vec<(End, bool, Length)>,
    /// What has been joined in.
    joined: Vec<&'a Part>,
    /// The parts of a work whose outsides are turned as one.
    members: Vec<Member<'a>>,
    /// What was cut with the spindle locked.
    strokes: Vec<Stroke<'a>>,
    wrong: Vec<String>,
    number: usize,
}

/// A part's crests as they are turned: flats cut their corners only later.
fn as_turned(designed: &Profiles) -> Solid {
    Solid {
        outer: designed.turned().clone(),
        inner: designed.crest.inner.clone(),
    }
}

/// Whether a route makes the part of a name.
fn routed(route: &Route, name: &str) -> bool {
    *route.part.name.text == *name
}

impl<'a> Lathe<'a> {
    fn new(plan: &'a Plan, route: &'a Route) -> Self {
        let part = route.part.as_ref();
        let blank = &route.blank;
        let sizes = part.blanks().iter().map(|piece| piece.stock.size);
        let dia = sizes.max().filter(|_| blank.rounded).unwrap_or(blank.dia);
        let mut stock = Stock::rod(blank.from, blank.to, dia);
        if let Some(bore) = part.tube().and_then(|it| it.tube_bore()) {
            stock.hollow(bore);
        }
        let mut lathe = Lathe {
            plan,
            route,
            shape: Shape::of(plan, route),
            crest: stock.clone(),
            root: stock,
            hold: Workholding::Bench,
            threaded: Vec::new(),
            centred: [false; 2],
            faced: [false; 2],
            plugged: [None; 2],
            tried: Vec::new(),
            joined: Vec::new(),
            members: Vec::new(),
            strokes: Vec::new(),
            wrong: Vec::new(),
            number: 0,
        };
        if let Some(work) = &route.turns {
            lathe.begin_work(plan, &work.members);
        }
        lathe
    }

    fn part(&self) -> &'a Part {
        &self.route.part
    }

    fn report(&mut self, what: impl std::fmt::Display) {
        let work = self.route.operations.get(self.number).map(|it| &it.work);
        self.wrong.push(format!(
            "{} operation {}: {what}: {work:?}",
            self.part().name.text,
            self.number + 1
        ));
    }

    fn operation(&mut self, number: usize) {
        self.number = number;
        let operation = &self.route.operations[number];
        if operation.needs.iter().any(|need| *need >= number) {
            self.report("it needs what comes after it");
        }
        self.hold = operation.hold;
        if matches!(operation.work, Work::TakeHold) {
            self.plugged = [None; 2];
        }
        self.check_hold(&operation.work);
        self.check_tried(&operation.work);
        self.check_stack(operation);
        self.check_joined_in(operation);
        self.check_speed(operation);
        let before = (self.crest.volume(), self.root.volume());
        self.cut(&operation.work);
        self.strokes(&self.route.part, &operation.work);
        let removed = before.1 - self.root.volume();
        let cuts = !matches!(
            operation.work,
            Work::Saw { .. }
                | Work::FacePiece(_)
                | Work::Socket { .. }
                | Work::Spigot { .. }
                | Work::GlueUp { .. }
                | Work::JoinIn(_)
                | Work::TakeHold
                | Work::Centre { .. }
                | Work::Support { .. }
                | Work::Try(_)
                | Work::Side { .. }
                | Work::Beside { .. }
        ) && !matches!(&operation.work, Work::Outside(pass) if pass.pass == Pass::Blend)
            && !self.levels(&operation.work);
        if cuts && removed < 1e-9 {
            self.report("it removes nothing");
        }
        if removed < -1e-9 {
            self.report("it adds stock");
        }
    }

    /// The end a tool comes to from the tailstock.
    fn end_of(&self, work: &Work) -> Option<End> {
        match work {
            Work::Face { end, .. } | Work::Centre { end, .. } => Some(*end),
            Work::Inside(cut) => Some(cut.end),
            Work::Thread(cut) if cut.inside || cut.method == Threading::Die => Some(cut.end),
            _ => None,
        }
    }

    /// The end that has to be free of the tail centre.
    fn comes_from(&self, work: &Work) -> Option<End> {
        match work {
            Work::RemoveNub { end, .. } => Some(*end),
            other => self.end_of(other),
        }
    }

    /// The stations between which a tool works outside.
    fn reach_outside(&self, work: &Work) -> Option<(Length, Length)> {
        let part = self.part();
        let along = |end: End, from, to| {
            let (a, b) = (part.station(end, from), part.station(end, to));
            (a.min(b), a.max(b))
        };
        Some(match work {
            Work::Turn(cut) => along(cut.end, cut.from, cut.to),
            Work::Thread(cut) if !cut.inside => along(cut.end, Length::ZERO, cut.to),
            Work::Outside(pass) => (pass.spans.first()?.0, pass.spans.last()?.1),
            Work::PartOff {
                end: End::First,
                at,
                width,
                ..
            } => (*at - *width, *at),
            Work::PartOff {
                end: End::Second,
                at,
                width,
                ..
            } => (*at, *at + *width),
            Work::Face {
                end: End::First,
                to,
            } => (self.crest.from, *to),
            Work::Face {
                end: End::Second,
                to,
            } => (*to, self.crest.to),
            _ => return None,
        })
    }

    fn check_way_in(&mut self, end: End, from: Length, dia: Length, inside: bool) {
        if !self.faced[end.index()] {
            self.report("the end is not faced yet");
        }
        let radius = dia.to_mm() / 2.0;
        let part = self.part();
        let (a, b) = (part.station(end, Length::ZERO), part.station(end, from));
        let (a, b) = (a.min(b), a.max(b));
        if inside && self.crest.narrowest(a, b) < radius - 1e-6 {
            self.report("the hole before it is narrower than the tool");
        }
        if !inside && self.crest.fattest(a, b) > radius + 1e-6 {
            self.report("what is ahead of it is fatter than the die's bore");
        }
    }

    fn compare(&mut self) {
        let part = self.part();
        if self.route.turns.is_some() {
            self.compare_members();
            self.compare_strokes();
            return;
        }
        let Some(designed) = &part.profiles else {
            return;
        };
        if self.route.outside_in.is_some() {
            self.compare_inside(designed);
            return;
        }
        self.compare_strokes();
        for (name, stock, wanted) in [
            ("crests", &self.crest, &as_turned(designed)),
            ("roots", &self.root, &designed.root),
        ] {
            if (stock.from, stock.to) != (Length::ZERO, part.length) {
                self.wrong.push(format!(
                    "{}: it is {} to {} long",
                    part.name.text, stock.from, stock.to
                ));
            }
            if let Some(found) = stock.differs(wanted, part.length) {
                self.wrong
                    .push(format!("{}, {name}: {found}", part.name.text));
            }
        }
    }

    /// Of a part whose outside is turned in a work, all but that is as it is designed.
    fn compare_inside(&mut self, designed: &Profiles) {
        let part = self.part();
        for (stock, wanted) in [
            (&self.crest, &as_turned(designed)),
            (&self.root, &designed.root),
        ] {
            let mut within = stock.clone();
            within.turn(wanted.outer.clone());
            within.clip(End::First, Length::ZERO);
            within.clip(End::Second, part.length);
            if let Some(found) = within.differs(wanted, part.length) {
                self.wrong
                    .push(format!("{}, but its outside: {found}", part.name.text));
            }
        }
    }
}
