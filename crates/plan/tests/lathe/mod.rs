//! A simulated lathe: carries a route out on a blank, cut by cut in the meridian plane, and
//! complains of whatever a lathe would.

mod cuts;
mod stock;

use stock::Stock;

use cuts::Shape;
use quillet_geometry::Length;
use quillet_model::{End, Part};
use quillet_plan::{
    InsideShape, MandrelKind, Operation, Pass, Plan, Route, TailSupport, Threading, Work,
    Workholding,
};

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
    plugged: [Option<usize>; 2],
    /// How far from each end a mate was tried, inside and outside.
    tried: Vec<(End, bool, Length)>,
    wrong: Vec<String>,
    number: usize,
}

impl<'a> Lathe<'a> {
    fn new(plan: &'a Plan, route: &'a Route) -> Self {
        let part = route.part.as_ref();
        let blank = &route.blank;
        let sizes = part.blanks().iter().map(|piece| piece.stock.size);
        let dia = sizes.max().filter(|_| blank.rounded).unwrap_or(blank.dia);
        let stock = Stock::rod(blank.from, blank.to, dia);
        Lathe {
            plan,
            route,
            shape: Shape::of(part),
            crest: stock.clone(),
            root: stock,
            hold: Workholding::Bench,
            threaded: Vec::new(),
            centred: [false; 2],
            faced: [false; 2],
            plugged: [None; 2],
            tried: Vec::new(),
            wrong: Vec::new(),
            number: 0,
        }
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
        self.check_speed(operation);
        let before = (self.crest.volume(), self.root.volume());
        self.cut(&operation.work);
        let removed = before.1 - self.root.volume();
        let cuts = !matches!(
            operation.work,
            Work::Saw { .. }
                | Work::FacePiece(_)
                | Work::Socket { .. }
                | Work::Spigot { .. }
                | Work::GlueUp { .. }
                | Work::TakeHold
                | Work::Centre { .. }
                | Work::Support { .. }
                | Work::Try(_)
        ) && !matches!(&operation.work, Work::Outside(pass) if pass.pass == Pass::Blend);
        if cuts && removed < 1e-9 {
            self.report("it removes nothing");
        }
        if removed < -1e-9 {
            self.report("it adds stock");
        }
    }

    fn check_hold(&mut self, work: &Work) {
        match self.hold {
            Workholding::Collet(grip) => {
                let (from, to) = (grip.from, grip.to);
                if !self.root.is_cylinder(from, to, self.route.blank.dia) {
                    self.report(format!(
                        "the collet grips {from} to {to}, which is no longer stock"
                    ));
                }
                if let Some((a, b)) = self.reach_outside(work)
                    && a < to
                    && from < b
                {
                    self.report(format!(
                        "the tool at {a} to {b} meets the collet at {from} to {to}"
                    ));
                }
            }
            Workholding::Mandrel(mount) => {
                let kind = self.plan.mandrels[mount.mandrel].kind;
                let inside = match kind {
                    MandrelKind::Male => Some(true),
                    MandrelKind::Female => Some(false),
                    _ => None,
                };
                let cut = inside.is_none_or(|inside| self.threaded.contains(&(mount.end, inside)));
                if !cut || !self.faced[mount.end.index()] {
                    self.report("the end on the mandrel is not cut yet");
                }
                let far = mount.end.other();
                let centred = match mount.tail {
                    TailSupport::Free => true,
                    TailSupport::Centre => self.centred[far.index()],
                    TailSupport::BullNose | TailSupport::Plug(_) => self.crest.opening(far) > 0.0,
                };
                if !centred {
                    self.report("the tail centre finds no centre");
                }
                if mount.tail == TailSupport::BullNose && self.cone_meets_thread(far) {
                    self.report("the tail centre's cone bruises the thread");
                }
                if mount.tail != TailSupport::Free && self.comes_from(work) == Some(far) {
                    self.report("the tail centre is in the way");
                }
                if self.end_of(work) == Some(mount.end) {
                    self.report("the mandrel is in the way");
                }
            }
            _ => {}
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

    /// Nothing is cut after a stop that its mate touched or passed.
    fn check_tried(&mut self, work: &Work) {
        let length = self.part().length;
        let later = |end: End, inside: bool, (a, b): (Length, Length)| {
            self.tried.iter().any(|(at, tried_inside, depth)| {
                let near = if *at == end { a } else { length - b };
                *tried_inside == inside && near < *depth
            })
        };
        let spoils = match work {
            Work::Inside(cut) => later(cut.end, true, (cut.from, cut.to)),
            Work::Thread(cut) => later(cut.end, cut.inside, (cut.from, cut.to)),
            Work::Turn(cut) => later(cut.end, false, (cut.from, cut.to)),
            _ => false,
        };
        if spoils {
            self.report("a mate was tried before this was cut");
        }
        if let Work::Try(gate) = work {
            self.tried.push((gate.end, !gate.goes_in, gate.depth));
        }
    }

    /// Pieces are faced before they are glued, bored before a spigot goes in and led by a drill, held by
    /// what can be held, and trued when all are on.
    fn check_stack(&mut self, operation: &Operation) {
        let pieces = self.part().blanks();
        if pieces.len() < 2 {
            return;
        }
        let short = |index: usize| pieces[index].to - pieces[index].from < Length::mm(8.0);
        if let Workholding::Pieces(held) = operation.hold {
            if short(held.gripped) && !held.on_rod {
                self.report("a short piece is gripped");
            }
            if held.grip < Length::mm(8.0) {
                self.report("hardly anything is gripped");
            }
        }
        let before = &self.route.operations[..self.number];
        let faced = |piece: usize, end: End| {
            before.iter().any(|it| {
                matches!(it.work, Work::FacePiece(face) if (face.piece, face.end) == (piece, end))
            })
        };
        let bored = |index: usize, wanted: bool| {
            before.iter().any(|it| {
                matches!(it.work, Work::Socket { piece, leads, .. }
                    if piece == index && leads == wanted)
            })
        };
        match &operation.work {
            Work::GlueUp { piece, rubbed, .. } => {
                let own = faced(*piece, End::First) || *rubbed && short(*piece);
                if !faced(piece - 1, End::Second) || !own {
                    self.report("a joint face is not faced");
                }
                if pieces[*piece].spigot.is_some() && !bored(piece - 1, false) {
                    self.report("nothing takes the spigot");
                }
            }
            Work::Socket {
                piece,
                leads: false,
                ..
            } if !bored(*piece, true) => {
                self.report("nothing leads the flat tool");
            }
            Work::Face { .. } => {
                let trued = before
                    .iter()
                    .any(|it| matches!(it.work, Work::Round { .. }));
                if !trued {
                    self.report("the stack is not trued");
                }
            }
            _ => {}
        }
    }

    /// A single point has the time it takes to stop, by what the stock leaves it beyond full form.
    fn check_speed(&mut self, operation: &Operation) {
        let Work::Thread(cut) = &operation.work else {
            return;
        };
        if cut.method != Threading::SinglePoint {
            return;
        }
        let Some(set) = operation.speed.as_ref().and_then(|it| it.set_rev_min) else {
            return;
        };
        let form = &cut.thread.thread;
        let part = self.part();
        let seconds = if cut.inside { 2.0 } else { 1.0 };
        let travel = Length::mm(set * form.lead_mm() * seconds / 60.0);
        let (a, b) = (
            part.station(cut.end, cut.to),
            part.station(cut.end, cut.to + travel),
        );
        let (low, high) = (a.min(b), a.max(b));
        let free = match cut.inside {
            true => self.crest.narrowest(low, high) >= form.minor_diameter().to_mm() / 2.0 - 1e-6,
            false => {
                low < self.crest.from
                    || high > self.crest.to
                    || self.crest.fattest(low, high) <= form.root_diameter().to_mm() / 2.0 + 1e-6
            }
        };
        if !free {
            self.report(format!(
                "{set} rev/min runs on by {travel} before it is stopped"
            ));
        }
    }

    /// A die comes over what stands out of the face.
    fn check_plug(&mut self, end: End, root: Length) {
        let Some(plug) = self.plugged[end.index()] else {
            return;
        };
        let made = &self.plan.mandrels[plug];
        let (out, passes) = (made.outside_dia(), root - Length::mm(0.3));
        if out > passes {
            self.report(format!(
                "the die passes {passes}, and the plug is {out} outside"
            ));
        }
    }

    /// The end that has to be free of the tail centre.
    fn comes_from(&self, work: &Work) -> Option<End> {
        match work {
            Work::RemoveNub { end, .. } => Some(*end),
            other => self.end_of(other),
        }
    }

    /// Whether a 60° cone standing on the mouth of a hole meets crests within it.
    fn cone_meets_thread(&self, end: End) -> bool {
        let part = self.part();
        let mouth = self.crest.opening(end) * 2.0;
        part.features.with_ids().any(|(index, it)| {
            let Some((thread, quillet_syntax::ast::Side::Inside)) = it.thread() else {
                return false;
            };
            let minor = thread.thread.minor_diameter().to_mm();
            let depth = part
                .full_form(index, end)
                .map_or(it.from, |it| it.0)
                .to_mm();
            let cone = mouth - 2.0 * depth * 30.0_f64.to_radians().tan();
            it.end == end && (mouth <= minor + 1e-6 || cone > minor)
        })
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

    fn cut(&mut self, work: &Work) {
        let part = self.part();
        match work {
            Work::Face { end, to } => {
                self.clip(*end, *to);
                self.faced[end.index()] = *to == part.station(*end, Length::ZERO);
            }
            Work::Support { plug } => {
                let served = &self.plan.mandrels[*plug].serves;
                let own = served.iter().filter(|it| it.0 == part.name.text);
                for (_, end) in own {
                    self.plugged[end.index()] = Some(*plug);
                }
            }
            Work::Centre { end, in_nub } => self.centred[end.index()] |= *in_nub,
            Work::Round { dia } => {
                let (from, to) = (self.crest.from, self.crest.to);
                self.outside(self.shape.level(from, to, *dia));
            }
            Work::Inside(cut) => {
                match cut.shape {
                    InsideShape::Drill { .. } | InsideShape::Ream { .. } => {
                        self.check_way_in(cut.end, Length::ZERO, Length::ZERO, true);
                    }
                    InsideShape::Bore { .. } | InsideShape::Recess { .. }
                        if cut.from.is_positive() =>
                    {
                        self.check_way_in(cut.end, cut.from, Length::mm(1.0), true);
                    }
                    _ => self.check_way_in(cut.end, Length::ZERO, Length::ZERO, true),
                }
                let made = self.shape.hole(cut);
                self.crest.bore(made.clone());
                self.root.bore(made);
            }
            Work::Turn(cut) => self.outside(self.shape.turned(cut)),
            Work::BreakCorner { end, edge } => {
                for stock in [&mut self.crest, &mut self.root] {
                    if let Err(flaw) = stock.break_corner(*end, *edge) {
                        self.wrong
                            .push(format!("a corner cannot be broken: {flaw:?}"));
                    }
                }
            }
            Work::Thread(cut) => {
                let form = &cut.thread.thread;
                let (crest, root) = self.shape.thread(cut);
                if cut.inside {
                    let passes = form.major() - form.pitch() * 2;
                    self.check_way_in(cut.end, cut.from, passes, true);
                    self.crest.bore(crest);
                    self.root.bore(root);
                } else {
                    if cut.method == Threading::Die {
                        let passes = form.root_diameter() + Length::mm(1e-5);
                        self.check_way_in(cut.end, cut.from, passes, false);
                        self.check_plug(cut.end, form.root_diameter());
                    }
                    crest.into_iter().for_each(|made| self.crest.turn(made));
                    root.into_iter().for_each(|made| self.root.turn(made));
                }
                self.threaded.push((cut.end, cut.inside));
            }
            Work::Outside(pass) if pass.pass != Pass::Blend => {
                let core = pass.core.map(|core| (core.end, core.dia));
                for made in self.shape.outline(&pass.spans, pass.over, core) {
                    self.outside(made);
                }
                // A stub is gripped and keeps its size; a nub is turned.
                if let Some(nub) = pass.core.and_then(|core| core.nub) {
                    let made = self.shape.nub(nub, self.crest.from, self.crest.to);
                    self.outside(made);
                }
            }
            Work::PartOff {
                end, at, shaping, ..
            } => {
                self.clip(*end, *at);
                if *shaping {
                    self.shaped(Length::ZERO);
                    self.faced[end.index()] = true;
                }
            }
            Work::RemoveNub { end, over } => {
                let at = part.station(*end, Length::ZERO);
                self.clip(*end, at);
                self.shaped(*over);
            }
            Work::Polish { .. } => {
                let kept = self
                    .route
                    .strategy
                    .on_stub
                    .then_some((self.route.strategy.first.other(), quillet_plan::NUB_DIA));
                for made in self
                    .shape
                    .outline(&self.shape.spans(self.route), Length::ZERO, kept)
                {
                    self.outside(made);
                }
            }
            _ => {}
        }
    }

    fn shaped(&mut self, over: Length) {
        for made in self
            .shape
            .outline(&self.shape.spans(self.route), over, None)
        {
            self.outside(made);
        }
    }

    fn outside(&mut self, made: quillet_geometry::Chain) {
        self.crest.turn(made.clone());
        self.root.turn(made);
    }

    fn clip(&mut self, end: End, at: Length) {
        self.crest.clip(end, at);
        self.root.clip(end, at);
    }

    fn compare(&mut self) {
        let part = self.part();
        let Some(designed) = &part.profiles else {
            return;
        };
        for (name, stock, wanted) in [
            ("crests", &self.crest, &designed.crest),
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
}
