//! All that must be done to a part, from the saw to the polish.

use crate::holding::make_mandrel::mandrel;
use crate::tasks::anatomy::Anatomy;
use crate::tasks::blank::{NUB_LENGTH, RING_LONG};
use crate::tasks::inside::inside_tasks;
use crate::tasks::mate::{Mate, Mates};
use crate::tasks::outside::{Place, body_corners, body_tasks, zone_tasks};
use crate::tasks::task::{Access, Stage, Tasks};
use crate::tools::kit::Kit;
use crate::{Blank, Gate, Home, OutsidePass, Pass, Strategy, Stuck, Trouble, Work};
use quillet_geometry::Length;
use quillet_model::End;
use quillet_syntax::ast::{Side, Verb};

/// Left over the finished diameter after roughing (common practice, no published source).
pub const ROUGH_OVER: Length = Length::from_nm(1_000_000);
/// Left over the finished diameter for sanding (common practice, no published source).
pub const FINISH_OVER: Length = Length::from_nm(100_000);

/// The tasks of a part, with what each needs.
pub(crate) fn all_tasks(
    anatomy: &Anatomy,
    strategy: &Strategy,
    blank: &Blank,
    mates: &Mates,
    blended: Option<usize>,
    kit: Kit,
    troubles: &mut Vec<Trouble>,
) -> Tasks {
    let mut tasks = Tasks::default();
    let mut maker = Maker {
        anatomy,
        strategy,
        blank,
        mates,
        kit,
        tasks: &mut tasks,
    };
    let blanked = maker.blank_tasks();
    let centred = maker.far_centre(&blanked);
    let first = maker.end(strategy.first, Stage::FirstEnd, &centred, troubles);
    let parted = maker.part_off(&first);
    let second = maker.second_end(&[first.clone(), parted].concat(), troubles);
    maker.outside(&[first, second].concat(), blended, troubles);
    tasks
}

struct Maker<'a, 'p, 'b> {
    anatomy: &'a Anatomy<'p>,
    strategy: &'a Strategy,
    blank: &'a Blank,
    mates: &'a Mates,
    kit: Kit<'b>,
    tasks: &'a mut Tasks,
}

impl Maker<'_, '_, '_> {
    /// Saw, glue a stack up, round what is not round.
    fn blank_tasks(&mut self) -> Vec<usize> {
        let mut last = Vec::new();
        let pieces = self.anatomy.part.blanks();
        let mut order = 0;
        let mut rank = || {
            order += 1;
            (Stage::Blank, 0, order)
        };
        for (piece, length) in self.blank.pieces.iter().enumerate() {
            let work = Work::Saw {
                piece,
                length: *length,
            };
            last.push(self.tasks.put(work, Access::Bench, rank(), Vec::new()));
        }
        for (index, piece) in pieces.iter().enumerate().skip(1) {
            let mut needs = last.clone();
            if let Some(spigot) = piece.spigot {
                let mut left = spigot.length;
                for before in (0..index).rev() {
                    let stretch = pieces[before].to - pieces[before].from;
                    let depth = (left < stretch).then_some(left);
                    let dia = spigot.dia + spigot.gap;
                    let work = Work::Socket {
                        piece: before,
                        dia,
                        depth,
                    };
                    needs.push(
                        self.tasks
                            .put(work, Access::Piece(before), rank(), last.clone()),
                    );
                    left -= stretch;
                    if !left.is_positive() {
                        break;
                    }
                }
                let work = Work::Spigot {
                    piece: index,
                    dia: spigot.dia,
                    length: spigot.length,
                };
                needs.push(
                    self.tasks
                        .put(work, Access::Piece(index), rank(), last.clone()),
                );
            }
            let gap = piece.spigot.map(|it| it.gap);
            let work = Work::GlueUp { piece: index, gap };
            last.push(self.tasks.put(work, Access::Bench, rank(), needs));
        }
        if self.blank.rounded {
            for end in crate::tasks::anatomy::ENDS {
                let in_nub = self.strategy.nub == Some(end);
                let work = Work::Centre { end, in_nub };
                last.push(self.tasks.put(work, Access::Bench, rank(), last.clone()));
            }
            let work = Work::Round {
                dia: self.blank.dia,
            };
            last.push(self.tasks.put(work, Access::Centres, rank(), last.clone()));
        }
        last
    }

    /// The nub's end is faced and centred for the tail centre while there is stock to grip.
    fn far_centre(&mut self, start: &[usize]) -> Vec<usize> {
        let stubbed = self.blank.stub.is_some();
        let Some(end) = self
            .strategy
            .nub
            .filter(|_| !stubbed && !self.blank.rounded)
        else {
            return start.to_vec();
        };
        let to = self.nub_station(end);
        let access = Access::End(end);
        let face = self.tasks.put(
            Work::Face { end, to },
            access,
            (Stage::FarCentre, 0, 0),
            start.to_vec(),
        );
        let work = Work::Centre { end, in_nub: true };
        vec![
            self.tasks
                .put(work, access, (Stage::FarCentre, 1, 0), vec![face]),
        ]
    }

    fn nub_station(&self, end: End) -> Length {
        self.anatomy.part.station(end, -NUB_LENGTH)
    }

    /// Face an end, then all that is cut from it; the tasks added.
    fn end(
        &mut self,
        end: End,
        stage: Stage,
        start: &[usize],
        troubles: &mut Vec<Trouble>,
    ) -> Vec<usize> {
        let from = self.tasks.0.len();
        let to = self.anatomy.part.station(end, Length::ZERO);
        let work = Work::Face { end, to };
        let face = self
            .tasks
            .put(work, Access::End(end), (stage, 0, 0), start.to_vec());
        inside_tasks(
            self.anatomy,
            end,
            stage,
            self.kit,
            self.tasks,
            &[face],
            troubles,
        );
        let place = Place {
            end,
            stage,
            access: Access::End(end),
            start: &[face],
        };
        zone_tasks(self.anatomy, &place, self.kit, self.tasks);
        self.gates(end, from);
        (from..self.tasks.0.len()).collect()
    }

    /// Stops after each thread and tenon of an end, where a mate is at hand to be tried.
    fn gates(&mut self, end: End, from: usize) {
        let mates = self.mates;
        for mate in &mates[end.index()] {
            let threaded = matches!(mate.verb, Verb::Screw | Verb::Close);
            let after = (from..self.tasks.0.len())
                .filter(|index| {
                    let task = &self.tasks.0[*index];
                    match &task.work {
                        Work::Thread(cut) => threaded && cut.inside != mate.goes_in,
                        Work::Turn(_) => !threaded && mate.goes_in,
                        Work::Inside(_) => !threaded && !mate.goes_in,
                        _ => false,
                    }
                })
                .max_by_key(|index| self.tasks.0[*index].rank);
            let Some(after) = after else { continue };
            let Some(gate) = self.gate(end, mate, threaded) else {
                continue;
            };
            let (stage, step, _) = self.tasks.0[after].rank;
            let access = self.tasks.0[after].access;
            // After the run-out of the same end.
            let step = if mate.goes_in { step.max(15) } else { step + 1 };
            self.tasks.put(
                Work::Try(gate),
                access,
                (stage, step, i64::MAX),
                vec![after],
            );
        }
    }

    /// The stop at which a mate is tried. Females come first: until the mate is cut, the mandrel
    /// that copies it is tried, where the part goes on one.
    fn gate(&self, end: End, mate: &Mate, threaded: bool) -> Option<Gate> {
        let copy = !mate.bought && !mate.goes_in;
        let (turns, home) = match copy {
            false => (mate.turns, mate.home.clone()),
            true => {
                let (_, kind) = self.strategy.mandrel.filter(|it| it.0 == end)?;
                let made = mandrel(self.anatomy, end, kind, self.mates, self.kit);
                let part = self.anatomy.part;
                let thread = self.anatomy.thread_at(end, Side::Inside);
                let index =
                    thread.and_then(|it| part.features.position(|own| std::ptr::eq(own, it)));
                let begins = index.and_then(|it| Some(part.full_form(it, end)?.0));
                let turns = begins.and_then(|it| made.turns_in(it));
                (turns, Some(Home::Shoulder))
            }
        };
        Some(Gate {
            end,
            mate: mate.part.clone(),
            bought: mate.bought,
            copy,
            goes_in: mate.goes_in,
            turns: turns.filter(|_| threaded),
            home,
        })
    }

    /// The stub is parted off once the first end is done.
    fn part_off(&mut self, first: &[usize]) -> Vec<usize> {
        let Some((end, _)) = self.blank.stub.filter(|_| !self.strategy.on_stub) else {
            return Vec::new();
        };
        let long = match self.strategy.nub {
            Some(nub) if nub == end => NUB_LENGTH,
            _ if self.strategy.ring => RING_LONG,
            _ => self.blank.facing[end.index()],
        };
        let at = self.anatomy.part.station(end, -long);
        let work = Work::PartOff {
            end,
            at,
            width: self.blank.parting(),
            shaping: false,
        };
        let access = Access::End(self.strategy.first);
        vec![
            self.tasks
                .put(work, access, (Stage::Part, 0, 0), first.to_vec()),
        ]
    }

    fn second_end(&mut self, start: &[usize], troubles: &mut Vec<Trouble>) -> Vec<usize> {
        let end = self.strategy.first.other();
        if self.strategy.nub == Some(end) {
            if self.blank.stub.is_none() {
                return Vec::new();
            }
            let work = Work::Centre { end, in_nub: true };
            let rank = (Stage::SecondEnd, 0, 0);
            return vec![self.tasks.put(work, Access::End(end), rank, start.to_vec())];
        }
        if !self.strategy.on_stub {
            return self.end(end, Stage::SecondEnd, start, troubles);
        }
        for (feature, it) in self.anatomy.part.features.with_ids() {
            if it.end == end && (it.is_inside() || it.thread().is_some()) {
                let why = Stuck::NothingToHold { end };
                let feature = Some(feature);
                troubles.push(Trouble::NoOrder { feature, why });
            }
        }
        let from = self.tasks.0.len();
        let place = Place {
            end,
            stage: Stage::Outside,
            access: Access::Outside,
            start,
        };
        zone_tasks(self.anatomy, &place, self.kit, self.tasks);
        self.gates(end, from);
        (from..self.tasks.0.len()).collect()
    }

    fn outside(&mut self, cut: &[usize], blended: Option<usize>, troubles: &mut Vec<Trouble>) {
        let spans = self.anatomy.shaped.clone();
        let stub = self
            .blank
            .stub
            .map(|it| it.0)
            .filter(|_| self.strategy.on_stub);
        let nub = self.strategy.nub.or(stub);
        let mut last = cut.to_vec();
        if !spans.is_empty() {
            let passes = [(Pass::Rough, ROUGH_OVER), (Pass::Finish, FINISH_OVER)];
            for (step, (pass, over)) in (0..).zip(passes) {
                let pass = OutsidePass {
                    pass,
                    spans: spans.clone(),
                    over,
                    nub,
                    with: None,
                };
                let rank = (Stage::Outside, step + 20, 0);
                last = vec![
                    self.tasks
                        .put(Work::Outside(pass), Access::Outside, rank, last),
                ];
            }
            if let Some(with) = blended {
                let (pass, over) = (Pass::Blend, FINISH_OVER);
                let pass = OutsidePass {
                    pass,
                    spans: spans.clone(),
                    over,
                    nub,
                    with: Some(with),
                };
                let rank = (Stage::Outside, 22, 0);
                last = vec![
                    self.tasks
                        .put(Work::Outside(pass), Access::Together, rank, last),
                ];
            }
        }
        let before = self.tasks.0.len();
        body_tasks(self.anatomy, &last, self.kit, self.tasks, troubles);
        last.extend(before..self.tasks.0.len());
        if let Some(end) = self.strategy.nub {
            let work = Work::RemoveNub {
                end,
                over: FINISH_OVER,
            };
            let rank = (Stage::Finish, 30, 0);
            last = vec![self.tasks.put(work, Access::Outside, rank, last)];
        }
        if !spans.is_empty() {
            let glued = self.mates.iter().flatten().any(|it| it.verb == Verb::Glue);
            let before_gluing = self.strategy.ring || glued;
            let work = Work::Polish {
                over: FINISH_OVER,
                before_gluing,
            };
            let rank = (Stage::Finish, 31, 0);
            last = vec![self.tasks.put(work, Access::Outside, rank, last)];
        }
        last.extend(body_corners(self.anatomy, &last, self.tasks));
        if let Some(end) = stub {
            let at = self.anatomy.part.station(end, Length::ZERO);
            let width = self.blank.parting();
            let work = Work::PartOff {
                end,
                at,
                width,
                shaping: true,
            };
            self.tasks
                .put(work, Access::Outside, (Stage::Finish, 33, 0), last);
        }
    }
}
