//! Parts that are turned as one: each comes to the work as its own route leaves it, and leaves it as designed.

use super::stock::Stock;
use super::{Lathe, as_turned, routed};
use quillet_geometry::{Chain, Length};
use quillet_model::{AsOneMember, End, Part, Placement};
use quillet_plan::{Plan, Route};

/// One of them, as far as it is made, on its own stations.
pub(super) struct Member<'a> {
    pub(super) part: &'a Part,
    pub(super) place: Placement,
    pub(super) crest: Stock,
    pub(super) root: Stock,
}

/// A chain of a part along the work.
pub(super) fn laid(chain: &Chain, place: Placement) -> Chain {
    match place.reversed {
        false => chain.moved(place.offset_mm),
        true => chain.reversed(place.offset_mm),
    }
}

/// A chain along the work on the stations of a part.
fn lifted(chain: &Chain, place: Placement) -> Chain {
    match place.reversed {
        false => chain.moved(-place.offset_mm),
        true => chain.reversed(place.offset_mm),
    }
}

impl Member<'_> {
    pub(super) fn turn(&mut self, made: &Chain) {
        let made = lifted(made, self.place);
        self.crest.turn(made.clone());
        self.root.turn(made);
    }

    /// Cuts crests and roots of its own.
    pub(super) fn thread(&mut self, crests: &[Chain], roots: &[Chain]) {
        for made in crests {
            self.crest.turn(lifted(made, self.place));
        }
        for made in roots {
            self.root.turn(lifted(made, self.place));
        }
    }

    /// Whether its outside is that of the work at an end.
    pub(super) fn stands_at(&self, end: End, work: &Stock) -> bool {
        let own = self.own_end(end);
        let (own_at, at) = match (own, end) {
            (End::First, End::First) => (self.crest.from, work.from),
            (End::First, End::Second) => (self.crest.from, work.to),
            (End::Second, End::First) => (self.crest.to, work.from),
            (End::Second, End::Second) => (self.crest.to, work.to),
        };
        let level = (self.place.of(own_at.to_mm()) - at.to_mm()).abs() < 1e-3;
        level && self.crest.rim(own) >= work.rim(end) - 1e-6
    }

    pub(super) fn clip(&mut self, end: End, at: Length) {
        let own = Length::mm(self.place.station(at.to_mm()));
        let end = self.own_end(end);
        self.crest.clip(end, own);
        self.root.clip(end, own);
    }

    pub(super) fn own_end(&self, end: End) -> End {
        match self.place.reversed {
            false => end,
            true => end.other(),
        }
    }
}

impl<'a> Lathe<'a> {
    /// The parts of the work, each made, and what they come to together.
    pub(super) fn begin_work(&mut self, plan: &'a Plan, members: &'a [AsOneMember]) {
        for it in members {
            let Some(route) = plan.routes.iter().find(|own| routed(own, &it.name)) else {
                self.report(format!("{} is not made", it.name));
                continue;
            };
            let made = carried(plan, route);
            self.take_over(route, &made, it.place);
            self.members.push(Member {
                part: &route.part,
                place: it.place,
                crest: made.crest,
                root: made.root,
            });
        }
        let (from, to) = (self.route.blank.from, self.route.blank.to);
        let stocks = |root: bool| -> Vec<(&Stock, Placement)> {
            let each = self.members.iter();
            let each = each.map(|it| (if root { &it.root } else { &it.crest }, it.place));
            each.collect()
        };
        let (crest, root) = (stocks(false), stocks(true));
        let (crest, root) = (
            Stock::joined(&crest, from, to),
            Stock::joined(&root, from, to),
        );
        (self.crest, self.root) = (crest, root);
    }

    /// What is faced, centred and threaded of a part stands at the work's ends.
    fn take_over(&mut self, route: &Route, made: &Lathe<'a>, place: Placement) {
        let whole = self.part().length.to_mm();
        for end in [End::First, End::Second] {
            let own = if place.reversed { end.other() } else { end };
            let face = if end == End::First { 0.0 } else { whole };
            let at = place.of(route.part.station(own, Length::ZERO).to_mm());
            if (at - face).abs() > 1e-3 {
                continue;
            }
            self.faced[end.index()] |= made.faced[own.index()];
            self.centred[end.index()] |= made.centred[own.index()];
            let threads = made.threaded.iter().filter(|it| it.0 == own);
            self.threaded.extend(threads.map(|it| (end, it.1)));
        }
        self.joined.extend(&made.joined);
    }

    /// Every part of the work is as it is designed.
    pub(super) fn compare_members(&mut self) {
        for it in &self.members {
            let Some(designed) = &it.part.profiles else {
                continue;
            };
            for (stock, wanted) in [
                (&it.crest, &as_turned(designed)),
                (&it.root, &designed.root),
            ] {
                let name = &it.part.name.text;
                if (stock.from, stock.to) != (Length::ZERO, it.part.length) {
                    self.wrong
                        .push(format!("{name}: it is {} to {} long", stock.from, stock.to));
                }
                if let Some(found) = stock.differs(wanted, it.part.length) {
                    self.wrong.push(format!("{name}, turned as one: {found}"));
                }
            }
        }
    }
}

/// A part made by its own route; what goes wrong there is told of that.
fn carried<'a>(plan: &'a Plan, route: &'a Route) -> Lathe<'a> {
    let mut lathe = Lathe::new(plan, route);
    for number in 0..route.operations.len() {
        lathe.operation(number);
    }
    lathe
}
