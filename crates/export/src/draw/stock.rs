//! The stock between two holdings: radii over stations, as the cuts before have left them.

mod straightened;

use quillet_model::{End, Part, Profiles};
use quillet_plan::{Blank, Core, InsideShape, Operation, Pass, Work};
use quillet_syntax::ast::StockSection;
use straightened::straightened;

/// What is left of a blank, sliced along its axis; stations in mm from the part's first end.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct StockProfile {
    /// Slices in order, each as far as the next begins.
    slices: Vec<Slice>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Slice {
    from: f64,
    to: f64,
    /// Radii outside at both of its ends.
    outer: [f64; 2],
    /// Radii of the hole.
    inner: [f64; 2],
}

/// The slices are no longer than this, mm.
const STEP_MM: f64 = 0.25;

/// Stations of a cut that may reach anywhere.
const ALL: [f64; 2] = [f64::NEG_INFINITY, f64::INFINITY];

impl StockProfile {
    /// The blank as it comes from the saw.
    pub(super) fn of(part: &Part, blank: &Blank) -> StockProfile {
        let (from, to) = (blank.from.to_mm(), blank.to.to_mm());
        let size = |at: f64| {
            let piece = part.blanks().iter().find(|it| at <= it.to.to_mm());
            let stock = piece.or(part.blanks().last()).map(|it| &it.stock);
            stock.map_or(blank.dia.to_mm() / 2.0, |it| match it.section {
                StockSection::Rod | StockSection::Tube => it.size.to_mm() / 2.0,
                // What is seen of it turning.
                StockSection::Square => it.size.to_mm() / 2.0_f64.sqrt(),
            })
        };
        let mut cuts = vec![from, to];
        cuts.extend(part.features.iter().flat_map(|it| {
            let (from, to) = it.stations(part.length);
            [from.to_mm(), to.to_mm()]
        }));
        cuts.extend(part.blanks().iter().map(|it| it.to.to_mm()));
        if let Some(profiles) = &part.profiles {
            let pieces = profiles.turned().segments().iter();
            cuts.extend(pieces.map(|it| it.curve.end().z));
        }
        cuts.extend([0.0, part.length.to_mm()]);
        let steps = ((to - from) / STEP_MM).ceil().min(4_000.0) as u32;
        cuts.extend((1..steps).map(|it| from + STEP_MM * f64::from(it)));
        cuts.retain(|it| (from..=to).contains(it));
        cuts.sort_by(f64::total_cmp);
        cuts.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
        let slices = cuts.windows(2).map(|pair| {
            let radius = size((pair[0] + pair[1]) / 2.0);
            Slice {
                from: pair[0],
                to: pair[1],
                outer: [radius; 2],
                inner: [0.0; 2],
            }
        });
        StockProfile {
            slices: slices.collect(),
        }
    }

    /// Where it begins and ends; none where nothing is left.
    pub(super) fn span(&self) -> Option<(f64, f64)> {
        let left = || self.slices.iter().filter(|it| it.outer != [0.0; 2]);
        let low = left().map(|it| it.from).reduce(f64::min)?;
        let high = left().map(|it| it.to).reduce(f64::max)?;
        Some((low, high))
    }

    /// The greatest radius.
    pub(super) fn widest(&self) -> f64 {
        let radii = self.slices.iter().flat_map(|it| it.outer);
        radii.fold(0.0, f64::max)
    }

    /// Its outline as places `(station, radius)`: outside from left to right, then the hole back.
    pub(super) fn outline(&self) -> Vec<(f64, f64)> {
        let there = self.slices.iter().filter(|it| it.outer != [0.0; 2]);
        let outer = there
            .clone()
            .flat_map(|it| [(it.from, it.outer[0]), (it.to, it.outer[1])]);
        let inner = there.rev().flat_map(|it| {
            let hole = |at: usize| it.inner[at].min(it.outer[at]);
            [(it.to, hole(1)), (it.from, hole(0))]
        });
        straightened(outer.chain(inner).collect())
    }

    /// Carries an operation out.
    #[expect(
        clippy::too_many_lines,
        reason = "an arm an operation: it is read as a table"
    )]
    pub(super) fn cut(&mut self, part: &Part, operation: &Operation) {
        let length = part.length.to_mm();
        let inward = |end: End, at: f64| match end {
            End::First => at,
            End::Second => length - at,
        };
        let stations = |end: End, [from, to]: [f64; 2]| match end {
            End::First => [from, to],
            End::Second => [length - to, length - from],
        };
        match &operation.work {
            Work::Face { end, to } => self.end_at(*end, to.to_mm()),
            Work::PartOff { end, at, .. } => self.end_at(*end, at.to_mm()),
            Work::Round { dia } => self.turn(ALL, |_| Some(dia.to_mm() / 2.0)),
            Work::Centre { end, .. } => {
                // A centre hole is as wide as deep, near enough to be seen.
                let Some((low, high)) = self.span() else {
                    return;
                };
                self.bore(ALL, |at| {
                    let deep = match end {
                        End::First => at - low,
                        End::Second => high - at,
                    };
                    (deep < 2.5).then_some((2.0 - deep * 0.8).clamp(0.6, 1.5))
                });
            }
            Work::Inside(cut) => {
                let (from, to) = (cut.from.to_mm() - 1e-6, cut.to.to_mm());
                let radius = cut.shape.widest().to_mm() / 2.0;
                let least = if from > 1e-3 { from } else { f64::NEG_INFINITY };
                let most = match cut.shape {
                    _ if cut.through => f64::INFINITY,
                    InsideShape::Drill { point, .. } => to + point.cone_depth_mm(radius),
                    InsideShape::Countersink { angle, .. } => angle.cone_depth_mm(radius),
                    _ => to + 1e-6,
                };
                self.bore(stations(cut.end, [least, most]), |at| {
                    let deep = inward(cut.end, at);
                    match cut.shape {
                        _ if deep < from && from > 1e-3 => None,
                        InsideShape::Drill { point, .. } if deep > to && !cut.through => {
                            Some(radius - point.cone_radius_mm(deep - to))
                        }
                        InsideShape::Countersink { angle, .. } => {
                            Some(radius - angle.cone_radius_mm(deep.max(0.0)))
                        }
                        InsideShape::Taper { from_dia, to_dia } if deep <= to => {
                            let part = ((deep - from) / (to - from)).clamp(0.0, 1.0);
                            let (a, b) = (from_dia.to_mm(), to_dia.to_mm());
                            Some((a + (b - a) * part) / 2.0)
                        }
                        _ => (deep <= to + 1e-6 || cut.through).then_some(radius),
                    }
                });
            }
            Work::Turn(cut) => {
                let (from, to) = (cut.from.to_mm() - 1e-6, cut.to.to_mm() + 1e-6);
                // What stands beyond the face goes with it.
                let from = if from < 1e-3 { f64::NEG_INFINITY } else { from };
                self.turn(stations(cut.end, [from, to]), |at| {
                    let deep = inward(cut.end, at);
                    (from..=to).contains(&deep).then_some(cut.dia.to_mm() / 2.0)
                });
            }
            Work::Outside(pass) => self.shape(part, pass.over.to_mm() / 2.0, pass.core, |at| {
                pass.pass == Pass::Blend
                    || pass
                        .spans
                        .iter()
                        .any(|(a, b)| a.to_mm() - 1e-6 <= at && at <= b.to_mm() + 1e-6)
                    || pass.core.is_some_and(|core| inward(core.end, at) < 0.0)
            }),
            Work::RemoveNub { end, over } => {
                self.end_at(*end, inward(*end, 0.0));
                self.shape(part, over.to_mm() / 2.0, None, |at| inward(*end, at) < 12.0);
            }
            Work::Polish {
                core: Some(core), ..
            } => self.shape(part, 0.0, Some(*core), |_| true),
            Work::Polish { .. } | Work::BreakCorner { .. } => {
                let Some(outer) = part.profiles.as_ref().map(Profiles::turned) else {
                    return;
                };
                let only = match &operation.work {
                    Work::BreakCorner { end, .. } => Some(*end),
                    _ => None,
                };
                self.turn(ALL, |at| {
                    let near = only.is_none_or(|end| inward(end, at) < 1.5);
                    near.then(|| outer.greatest_at(at)).flatten()
                });
            }
            _ => {}
        }
    }

    /// Turned to the part's outside and so much over, a nub left standing.
    fn shape(&mut self, part: &Part, over: f64, core: Option<Core>, within: impl Fn(f64) -> bool) {
        let Some(outer) = part.profiles.as_ref().map(Profiles::turned) else {
            return;
        };
        let length = part.length.to_mm();
        let floor = core.map_or(0.0, |it| it.dia.to_mm() / 2.0);
        let nub = core.and_then(|it| it.nub);
        self.turn(ALL, |at| {
            let beyond = at < 0.0 || at > length;
            let drawn = match beyond {
                true => {
                    return within(at)
                        .then(|| nub.map(|it| it.dia.to_mm() / 2.0))
                        .flatten();
                }
                false => outer.greatest_at(at).map(|it| it + over),
            }?;
            within(at).then_some(drawn.max(floor))
        });
    }

    /// Nothing stays beyond a station.
    fn end_at(&mut self, end: End, station: f64) {
        for slice in &mut self.slices {
            let beyond = match end {
                End::First => slice.to <= station + 1e-6,
                End::Second => slice.from >= station - 1e-6,
            };
            if beyond {
                slice.outer = [0.0; 2];
                slice.inner = [0.0; 2];
            }
        }
    }

    /// The slices that come near what lies from one station to another: of thousands of cuts each
    /// looks at its own alone.
    fn within(&mut self, [from, to]: [f64; 2]) -> &mut [Slice] {
        let first = self.slices.partition_point(|it| it.to < from);
        let count = self.slices[first..].partition_point(|it| it.from <= to);
        &mut self.slices[first..first + count]
    }

    fn turn(&mut self, within: [f64; 2], to: impl Fn(f64) -> Option<f64>) {
        for slice in self.within(within) {
            for (at, station) in slice.ends().into_iter().enumerate() {
                if let Some(radius) = to(station) {
                    slice.outer[at] = slice.outer[at].min(radius.max(0.0));
                }
            }
        }
    }

    fn bore(&mut self, within: [f64; 2], to: impl Fn(f64) -> Option<f64>) {
        for slice in self.within(within) {
            if slice.outer == [0.0; 2] {
                continue;
            }
            for (at, station) in slice.ends().into_iter().enumerate() {
                if let Some(radius) = to(station) {
                    slice.inner[at] = slice.inner[at].max(radius);
                }
            }
        }
    }
}

impl Slice {
    /// Stations a hair within it, so that a step belongs to one side.
    fn ends(&self) -> [f64; 2] {
        [self.from + 1e-5, self.to - 1e-5]
    }
}
