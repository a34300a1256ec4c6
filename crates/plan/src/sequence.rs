//! All steps of a plan in one order: what waits for another part goes on when that is made.

use crate::{Operation, OperationRef, Pass, Plan, Route, RouteId, TailSupport, Work, Workholding};
use std::collections::BTreeSet;
use std::ops::Range;

impl Plan {
    /// A joined pass waits for its mate's own turning, what is joined in for all of its own route:
    /// routes are one graph. The two of a joined pass are held in one way.
    pub(crate) fn join(&mut self) {
        let turned = |route: &Route| {
            let last = |work: &Work| matches!(work, Work::Outside(it) if it.pass == Pass::Finish);
            route.operations.iter().rposition(|it| last(&it.work))
        };
        let turned = self.routes.map(turned);
        let held = |route: &Route| Some(route.operations[route.blend_at()?.0].hold);
        let held = self.routes.map(held);
        let made = |(route, it): (RouteId, &Route)| {
            let operation = it.operations.len().checked_sub(1)?;
            Some((it.part.name.text.clone(), OperationRef { route, operation }))
        };
        let made: Vec<_> = self.routes.with_ids().filter_map(made).collect();
        for route in self.routes.iter_mut() {
            for operation in &mut route.operations {
                if let Work::JoinIn(joined) = &operation.work {
                    let last = made.iter().find(|it| it.0 == joined.part);
                    operation.after = last.map(|it| it.1);
                }
            }
            let Some((at, with)) = route.blend_at() else {
                continue;
            };
            let operation = turned.get(with).copied().flatten();
            route.operations[at].after = operation.map(|operation| OperationRef {
                route: with,
                operation,
            });
            let Some(Some(Workholding::Joined { tail: of_mate, .. })) = held.get(with) else {
                continue;
            };
            for it in &mut route.operations {
                if let Workholding::Joined { tail, .. } = &mut it.hold
                    && *tail == TailSupport::Free
                {
                    *tail = *of_mate;
                }
            }
        }
    }

    /// Route after route, but a part that is blended waits for its partner; what is done to the two while
    /// they are joined comes together.
    pub(crate) fn in_sequence(&self) -> Vec<OperationRef> {
        let mut steps = Vec::new();
        let mut waiting: Vec<RouteId> = Vec::new();
        let stretches = self.stretches();
        let blends = |(route, stretch): &(RouteId, Range<usize>)| {
            let blend = self.routes[*route].blend_at();
            blend.filter(|(at, _)| stretch.contains(at))
        };
        for (index, (route, stretch)) in stretches.iter().enumerate() {
            let route = *route;
            let step = move |operation| OperationRef { route, operation };
            let Some((at, with)) = blends(&stretches[index]) else {
                steps.extend(stretch.clone().map(step));
                continue;
            };
            steps.extend((stretch.start..at).map(step));
            let mut later = stretches[index + 1..].iter();
            if later.any(|it| it.0 == with && blends(it).is_some()) {
                waiting.push(route);
                continue;
            }
            let partner = waiting.iter().position(|it| *it == with);
            let partner = partner.map(|index| waiting.remove(index));
            let both: Vec<RouteId> = partner.into_iter().chain([route]).collect();
            let mut put = |route: RouteId, range: Range<usize>| {
                steps.extend(range.map(|operation| OperationRef { route, operation }));
            };
            for id in &both {
                put(*id, self.routes[*id].joined());
            }
            for id in &both {
                let own = &self.routes[*id];
                put(*id, own.joined().end..own.operations.len());
            }
        }
        steps
    }

    /// The routes in order, one into which others are joined broken off there and gone on with when
    /// they are made.
    fn stretches(&self) -> Vec<(RouteId, Range<usize>)> {
        let mut found = Vec::new();
        let mut made = BTreeSet::new();
        let mut held: Vec<(RouteId, usize)> = Vec::new();
        for (route, it) in self.routes.with_ids() {
            let awaits = it.operations.iter().position(Route::is_joining);
            found.push((route, 0..awaits.unwrap_or(it.operations.len())));
            match awaits {
                Some(at) => held.push((route, at)),
                None => {
                    made.insert(route);
                }
            }
            while let Some(next) = held.iter().position(|it| self.can_go_on(it.0, &made)) {
                let (route, at) = held.remove(next);
                found.push((route, at..self.routes[route].operations.len()));
                made.insert(route);
            }
        }
        // None is left but of parts that go into each other in a circle.
        let rest = held.into_iter();
        found.extend(rest.map(|(route, at)| (route, at..self.routes[route].operations.len())));
        found
    }

    /// Whether all that is joined into a route's part is made.
    fn can_go_on(&self, route: RouteId, made: &BTreeSet<RouteId>) -> bool {
        let operations = self.routes[route].operations.iter();
        let mut joined = operations.filter(|it| Route::is_joining(it));
        joined.all(|it| it.after.is_none_or(|after| made.contains(&after.route)))
    }
}

impl Route {
    fn is_joining(operation: &crate::Operation) -> bool {
        matches!(operation.work, Work::JoinIn(_)) && operation.after.is_some()
    }

    /// What is done to it while it is joined with its mate.
    fn joined(&self) -> Range<usize> {
        let is_joined = |it: &&Operation| matches!(it.hold, Workholding::Joined { .. });
        let from = self.blend_at().map_or(self.operations.len(), |it| it.0);
        let count = self.operations[from..].iter().take_while(is_joined).count();
        from..from + count
    }

    /// Where it is blended, and with which route.
    fn blend_at(&self) -> Option<(usize, RouteId)> {
        self.operations
            .iter()
            .enumerate()
            .find_map(|(at, operation)| match &operation.work {
                Work::Outside(pass) if pass.pass == Pass::Blend => Some((at, pass.with?)),
                _ => None,
            })
    }
}
