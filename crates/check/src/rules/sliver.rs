//! `sliver`: a land, a groove, a step or a face finer than a tool leaves it, or gone.

mod gone;

use crate::{Findings, PartView, Rule, Run, Threshold, edits, propose, words};
use quillet_geometry::{Chain, Length, Point, Segment};
use quillet_model::{Cut, End, Feature, Origin, Part, Profiles};
use quillet_syntax::{Finding, Severity, SizedText, ToText, text};

pub(crate) static RULE: Rule = Rule {
    code: "sliver",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("sliver.md"),
    run: Run::Part(run),
};

/// The narrowest land or groove along the axis: about the nose of a sharp tool. Common practice, no
/// published source.
const LAND: Length = Length::from_nm(100_000);
/// The least step on the radius, and the least broken edge: what the last cut of a sharp tool takes.
/// Common practice, no published source.
const STEP: Length = Length::from_nm(10_000);

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    let Some(profiles) = &part.profiles else {
        return;
    };
    let land = view.length_limit(&RULE, LAND);
    let turned = profiles.turned();
    for chain in std::iter::once(turned).chain(&profiles.crest.inner) {
        let outside = std::ptr::eq(chain, turned);
        gone::run(view, profiles, chain, outside, land, findings);
        for run in runs(profiles, chain) {
            // What it steps down by where it ends is a face across the axis.
            let taper = is_taper(part, run.origin) && run.end.z > run.start.z;
            let run = run.along_if(taper);
            if let Some(least) = run.wants(land).filter(|least| run.size() < *least) {
                findings.push_at(finding(view, &run, least), run.from(), run.to());
            }
        }
    }
    for end in [End::First, End::Second] {
        if let Some((width, edge)) = face(part, profiles, end)
            && width.is_positive()
            && width < land
        {
            let at = part.station(end, Length::ZERO);
            findings.push_at(narrow_face(view, end, width, edge, land), at, at);
        }
    }
}

/// Pieces of an outline that go on into each other without a corner.
struct Stretch {
    start: Point,
    end: Point,
    /// What made the longest of them, which gives it its name.
    origin: Origin,
    longest_mm: f64,
}

/// A taper is written by its length, however steep it comes out.
fn is_taper(part: &Part, origin: Origin) -> bool {
    let cut = origin.feature().and_then(|at| part.features.get(at));
    cut.is_some_and(|it| matches!(it.cut, Cut::Taper { .. }))
}

/// Turns of less are no corner: pieces that flow into each other.
const FLOWS_DEG: f64 = 1.0;

fn runs(profiles: &Profiles, chain: &Chain) -> Vec<Stretch> {
    let mut runs: Vec<Stretch> = Vec::new();
    let mut before: Option<&Segment> = None;
    for piece in chain.segments() {
        let (start, end) = (piece.curve.start(), piece.curve.end());
        let (origin, length_mm) = (profiles.origin(piece.tag), start.distance(end));
        match (runs.last_mut(), before) {
            (Some(run), Some(before))
                if before.turn_deg(piece).abs() < FLOWS_DEG
                    && run.origin.is_edge() == origin.is_edge() =>
            {
                run.end = end;
                if length_mm > run.longest_mm {
                    (run.origin, run.longest_mm) = (origin, length_mm);
                }
            }
            _ => runs.push(Stretch {
                start,
                end,
                origin,
                longest_mm: length_mm,
            }),
        }
        before = Some(piece);
    }
    runs
}

impl Stretch {
    fn from(&self) -> Length {
        Length::mm(self.start.z)
    }

    fn to(&self) -> Length {
        Length::mm(self.end.z)
    }

    /// Its length along the axis alone, where that is what is asked for.
    fn along_if(mut self, along: bool) -> Self {
        if along {
            self.end.r = self.start.r;
        }
        self
    }

    fn size(&self) -> Length {
        Length::mm(self.start.distance(self.end))
    }

    /// Along the axis rather than across it.
    fn is_land(&self) -> bool {
        self.end.z - self.start.z >= (self.end.r - self.start.r).abs()
    }

    /// How large it is to be; none of what comes of a drill's point, of the blank or of a cord.
    fn wants(&self, land: Length) -> Option<Length> {
        match self.origin {
            Origin::DrillPoint(_) | Origin::Stock | Origin::Tube | Origin::Ring | Origin::Axis => {
                None
            }
            edge if edge.is_edge() => Some(STEP),
            _ if self.is_land() => Some(land),
            _ => Some(STEP),
        }
    }
}

fn finding(view: &PartView<'_>, run: &Stretch, least: Length) -> Finding {
    let part = view.part;
    let cut = run.origin.feature().and_then(|at| part.features.get(at));
    let of = cut.map_or("the outside".into(), |it| text!("the {}", words::sized(it)));
    let end = cut.map_or(End::First, |it| it.end);
    let near = match end {
        End::First => run.from(),
        End::Second => part.length - run.to(),
    };
    let place = text!("{} from the {}", near, part.end_name(end));
    let size = exact(run.size(), least);
    let message = match (run.origin.is_edge(), run.is_land()) {
        (true, _) => {
            let edge = cut.map_or("broken corner", Feature::called);
            text!(
                "this {} is {} wide; a tool leaves {} at the least",
                edge,
                size,
                least
            )
        }
        (false, true) => text!(
            "{} is {} wide, {}; a tool leaves {} at the least",
            of,
            size,
            place,
            least
        ),
        (false, false) => text!(
            "{} makes a step of {} a side, {}; a tool leaves {} at the least",
            of,
            size,
            place,
            least
        ),
    };
    let finding = RULE
        .at(words::span_of(part, run.origin), message)
        .hint("make it wider, or let what stands beside it meet it");
    propose::with(finding, cures(view, cut, run.is_land()))
}

/// To the micron, and finer where it would look equal to what is wanted.
fn exact(size: Length, least: Length) -> SizedText {
    match size.to_string() == least.to_string() {
        true => words::against(size, least),
        false => size.to_text(),
    }
}

/// Ten or a hundred times as long, where a decimal point slipped; and without it.
fn cures(view: &PartView<'_>, cut: Option<&Feature>, along: bool) -> Vec<propose::Proposal> {
    let Some(cut) = cut else { return Vec::new() };
    let longer = |times: i64| {
        let to = cut.from + (cut.to - cut.from) * times;
        propose::reach(view.design, view.part, cut, to)
    };
    let longer = [10, 100].into_iter().filter(|_| along).filter_map(longer);
    let needed = matches!(cut.cut, Cut::Drill { .. } | Cut::Thread { .. });
    let out = (!needed).then(|| {
        let edit = edits::take_out(view.design, cut.span);
        (SizedText::from("take it out"), vec![edit])
    });
    longer.chain(out).collect()
}

/// How wide a face is left at an end between the outside and the hole that opens there, and the
/// edge that made it so narrow; none where no edge is broken there.
fn face(part: &Part, profiles: &Profiles, end: End) -> Option<(Length, Origin)> {
    let z = part.station(end, Length::ZERO).to_mm();
    let at = |chain: &Chain| match end {
        End::First => (chain.start(), chain.segments().first().map(|it| it.tag)),
        End::Second => (chain.end(), chain.segments().last().map(|it| it.tag)),
    };
    let (outer, outer_tag) = at(&profiles.root.outer);
    let open = profiles.root.inner.iter().map(at);
    let (inner, inner_tag) = open
        .filter(|(place, _)| (place.z - z).abs() < 1e-6)
        .max_by(|a, b| a.0.r.total_cmp(&b.0.r))?;
    let edges = [inner_tag, outer_tag].into_iter().flatten();
    let edge = edges
        .map(|tag| profiles.origin(tag))
        .find(|it| it.is_edge())?;
    Some((Length::mm(outer.r - inner.r), edge))
}

fn narrow_face(
    view: &PartView<'_>,
    end: End,
    width: Length,
    edge: Origin,
    least: Length,
) -> Finding {
    let part = view.part;
    let message = text!(
        "the face left at the {} is {} wide; a tool leaves {} at the least",
        part.end_name(end),
        exact(width, least),
        least
    );
    let finding = RULE
        .at(words::span_of(part, edge), message)
        .hint("break the edges there less, or leave more wall");
    let slipped = propose::slipped(view.design, &finding);
    propose::with(finding, slipped)
}
