//! What keeps a part from being round: its cuts from the side, and its holes beside the axis.

use crate::{CircleHoles, End, Part, SideCut, SideCutKind, SideDepth, SideId};
use quillet_geometry::envelope::smallest;
use quillet_geometry::section::{self, Apothem, Flats};
use quillet_geometry::side::{Body, Floor, SideCut as Opening};
use quillet_geometry::{Chain, Circle, Length, Moments, Pattern, Tag};

/// The cuts of a part that no lathe turns, in millimetres from its first end; each with its
/// statement.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct NotRound {
    /// Sets of flats.
    pub flats: Vec<(SideId, Flats)>,
    /// Holes and slots.
    pub openings: Vec<(SideId, Opening)>,
    /// Patterns.
    pub patterns: Vec<(SideId, Pattern)>,
    /// Holes on pitch circles, in the order of their statements.
    pub circles: Vec<Circle>,
    /// The outside as it is turned before all this, where there is any.
    pub turned: Option<Chain>,
}

impl NotRound {
    /// Those of a part whose turned outside is this.
    pub(crate) fn of(part: &Part, turned: &Chain) -> NotRound {
        let cuts = part.sides().iter().enumerate();
        let cuts = cuts.map(|(index, cut)| (SideId::nth(index), cut));
        let mut made = NotRound {
            circles: part.circles().iter().map(|it| circle(part, it)).collect(),
            ..NotRound::default()
        };
        for (id, cut) in cuts.clone() {
            made.flats.extend(flats(cut).map(|it| (id, it)));
            made.patterns.extend(pattern(cut).map(|it| (id, it)));
        }
        let high = made.high(turned, |_| Tag::default());
        for (id, cut) in cuts {
            let opening = opening(cut, &high, part.length);
            made.openings.extend(opening.map(|it| (id, it)));
        }
        made.turned = (!made.is_empty()).then(|| turned.clone());
        made
    }

    /// Whether the part is round after all.
    pub fn is_empty(&self) -> bool {
        self.outline_is_round() && self.openings.is_empty() && self.circles.is_empty()
    }

    /// Whether its outline is: nothing but openings and holes.
    pub fn outline_is_round(&self) -> bool {
        self.flats.is_empty() && self.patterns.is_empty()
    }

    /// The greatest radius round the turn at each station: what passes, touches and is drawn.
    pub fn high(&self, turned: &Chain, tag: impl Fn(SideId) -> Tag) -> Chain {
        let edges = self.flats.iter().filter(|(_, set)| set.count > 2);
        let cut = edges.flat_map(|(id, set)| set.high(turned, tag(*id)));
        least(turned, cut)
    }

    /// The least radius round the turn: what is left for walls. Where a cut opens into a room there
    /// is no wall, and the outline stays. `tag` names the statement of each piece.
    pub fn low(&self, turned: &Chain, tag: impl Fn(SideId) -> Tag) -> Chain {
        let flats = self.flats.iter();
        let flats = flats.flat_map(|(id, set)| set.low(turned, tag(*id)));
        let patterns = self.patterns.iter();
        let patterns = patterns.flat_map(|(id, it)| it.low(turned, tag(*id)));
        let blind = |it: &&(SideId, Opening)| matches!(it.1.floor, Floor::Plane(_));
        let floors = self.openings.iter().filter(blind);
        let floors = floors.flat_map(|(id, it)| it.low(turned, tag(*id)));
        least(turned, flats.chain(patterns).chain(floors))
    }

    /// What all of them take from a region of the part, `outermost` where its outside is the part's.
    ///
    /// Where two of them overlap, what both take counts twice; flats and openings never do.
    pub fn taken(&self, outer: &[Chain], inner: &[Chain], outermost: bool) -> Moments {
        let sets = self.flats.iter().map(|(_, set)| *set);
        // Inside, only what lies at a distance from the axis is where it is outside.
        let reaches = |set: &Flats| outermost || matches!(set.apothem, Apothem::Straight { .. });
        let sets: Vec<Flats> = sets.filter(reaches).collect();
        let body = Body {
            outside: outer,
            inside: inner,
            flats: &sets,
        };
        let flats = section::cut_away(outer, &sets);
        let openings = self.openings.iter().map(|(_, it)| it.removed(&body));
        let patterns = self.patterns.iter().filter(|_| outermost);
        let patterns = patterns.map(|(_, it)| it.removed(outer));
        let circles = self.circles.iter().map(|it| drilled(it, outer, inner));
        flats + openings.chain(patterns).chain(circles).sum()
    }
}

/// The least of an outside and of what is cut below it.
fn least(turned: &Chain, cut: impl Iterator<Item = Chain>) -> Chain {
    let mut all = vec![turned.clone()];
    all.extend(cut);
    if all.len() == 1 {
        return turned.clone();
    }
    let left = smallest(&all).into_iter().next();
    left.unwrap_or_else(|| turned.clone())
}

fn flats(cut: &SideCut) -> Option<Flats> {
    let apothem = match cut.kind {
        SideCutKind::Across { from_dia, to_dia } => Apothem::Straight {
            from_mm: from_dia.to_mm() / 2.0,
            to_mm: to_dia.to_mm() / 2.0,
        },
        SideCutKind::Deep(deep) => Apothem::Below(deep.to_mm()),
        SideCutKind::Sharp => Apothem::Meeting,
        _ => return None,
    };
    Some(Flats {
        from_mm: cut.stretch.from.to_mm(),
        to_mm: cut.stretch.to.to_mm(),
        apothem,
        count: cut.around.count,
        clock_deg: cut.around.clock.to_deg(),
    })
}

fn pattern(cut: &SideCut) -> Option<Pattern> {
    let SideCutKind::Pattern { deep, share, .. } = cut.kind else {
        return None;
    };
    Some(Pattern {
        from_mm: cut.stretch.from.to_mm(),
        to_mm: cut.stretch.to.to_mm(),
        deep_mm: deep.to_mm(),
        share,
    })
}

fn opening(cut: &SideCut, high: &Chain, length: Length) -> Option<Opening> {
    let (from, to) = (cut.stretch.from.to_mm(), cut.stretch.to.to_mm());
    let (count, clock_deg) = (cut.around.count, cut.around.clock.to_deg());
    match cut.kind {
        SideCutKind::Drill { dia, depth, .. } => {
            let over = high.radii_at(from).map_or(0.0, |(one, two)| one.max(two));
            let hole = Opening::hole(dia.to_mm(), from, floor(depth, over));
            Some(Opening {
                count,
                clock_deg,
                ..hole
            })
        }
        SideCutKind::Slot { width, depth } => {
            let over = high.fattest(from, to).map_or(0.0, |(place, _)| place.r);
            Some(Opening {
                from_mm: from,
                to_mm: to,
                width_mm: width.to_mm(),
                open: [!cut.stretch.from.is_positive(), cut.stretch.to >= length],
                floor: floor(depth, over),
                count,
                clock_deg,
            })
        }
        _ => None,
    }
}

/// The floor of a depth below the highest outside over it, mm.
fn floor(depth: SideDepth, over_mm: f64) -> Floor {
    match depth {
        SideDepth::Void => Floor::Void,
        SideDepth::To(deep) => Floor::Plane((over_mm - deep.to_mm()).max(0.0)),
        SideDepth::Through => Floor::Through,
    }
}

fn circle(part: &Part, holes: &CircleHoles) -> Circle {
    let ends = [holes.from, holes.to].map(|inward| part.station(holes.end, inward).to_mm());
    let point = holes.point.filter(|_| !holes.through);
    let tip = point.map_or(0.0, |it| it.cone_depth_mm(holes.dia.to_mm() / 2.0));
    Circle {
        on_mm: holes.on.to_mm(),
        hole_mm: holes.dia.to_mm(),
        from_mm: ends[0].min(ends[1]),
        to_mm: ends[0].max(ends[1]),
        tips_mm: match holes.end {
            End::First => [0.0, tip],
            End::Second => [tip, 0.0],
        },
        count: holes.around.count,
        clock_deg: holes.around.clock.to_deg(),
    }
}

/// What holes on a pitch circle take of a region: where the circle itself lies in its material.
fn drilled(circle: &Circle, outer: &[Chain], inner: &[Chain]) -> Moments {
    let (from, to) = (circle.from_mm, circle.to_mm);
    let ends = outer.iter().chain(inner).flat_map(Chain::segments);
    let ends = ends.flat_map(|it| [it.curve.start().z, it.curve.end().z]);
    let mut stops: Vec<f64> = ends.filter(|z| from < *z && *z < to).collect();
    stops.extend([from, to]);
    stops.sort_by(f64::total_cmp);
    let radius = |chains: &[Chain], z: f64| {
        let chain = chains
            .iter()
            .find(|it| it.start().z <= z && z <= it.end().z)?;
        chain.radii_at(z).map(|it| it.0)
    };
    let lies_in = |pair: &&[f64]| {
        let middle = (pair[0] + pair[1]) / 2.0;
        let at = circle.on_mm / 2.0;
        let inside = radius(inner, middle).is_none_or(|bore| bore <= at);
        inside && radius(outer, middle).is_some_and(|outside| outside >= at)
    };
    let of = |pair: &[f64]| {
        let tip = |z: f64, end: f64, tip: f64| if z == end { tip } else { 0.0 };
        Circle {
            from_mm: pair[0],
            to_mm: pair[1],
            tips_mm: [
                tip(pair[0], from, circle.tips_mm[0]),
                tip(pair[1], to, circle.tips_mm[1]),
            ],
            ..*circle
        }
        .removed()
    };
    stops.windows(2).filter(lies_in).map(of).sum()
}
