//! Sections across a part that is not round, one a set of flats or of holes on a pitch circle: A–A, B–B, … beside its view.

use super::beside;
use super::facets::up_deg;
use super::figures::LengthFormat;
use super::view::ViewTransform;
use crate::scene::{Anchor, Hatch, Layer, Path, PathElement, Scene, Text, Xy, hatch};
use quillet_geometry::section::{Flats, Section, section_at};
use quillet_geometry::{Circle, Point, put_in_order};
use quillet_model::{AcrossFlats, CircleHoles, Part, Profiles};

/// Room beside the largest section for its words, mm.
const BESIDE_MM: f64 = 14.0;
/// Room above and below each for its words, mm.
const WORDS_MM: (f64, f64) = (8.0, 14.0);

/// What a section is made for.
enum Shown<'a> {
    Flats(AcrossFlats),
    Holes(&'a CircleHoles, Circle),
}

impl Shown<'_> {
    /// The station it is cut at: the middle of flats; of holes a place at which the letter before the
    /// mark stands clear of the lines at their ends.
    fn at_mm(&self) -> f64 {
        match self {
            Shown::Flats(set) => (set.stretch_mm[0] + set.stretch_mm[1]) / 2.0,
            Shown::Holes(_, holes) => holes.from_mm + 0.8 * (holes.to_mm - holes.from_mm),
        }
    }
}

/// The sections of a part.
pub(super) struct Sections<'a> {
    profiles: &'a Profiles,
    all: Vec<Shown<'a>>,
    radius_mm: f64,
    figures: LengthFormat,
}

impl<'a> Sections<'a> {
    /// Those of a part; none where it is round.
    pub(super) fn of(
        part: &'a Part,
        profiles: &'a Profiles,
        radius_mm: f64,
        figures: LengthFormat,
    ) -> Self {
        let sets = match profiles.not_round.flats.is_empty() {
            true => Vec::new(),
            false => profiles.across_flats(),
        };
        let holes = part.circles().iter().zip(&profiles.not_round.circles);
        let holes = holes.map(|(said, it)| Shown::Holes(said, *it));
        let mut all: Vec<Shown> = sets.into_iter().map(Shown::Flats).chain(holes).collect();
        put_in_order(&mut all, |it| it.at_mm());
        Sections {
            profiles,
            all,
            radius_mm,
            figures,
        }
    }

    /// How wide and how high they are one over the other at a scale, mm; nothing where there is none.
    pub(super) fn room_mm(&self, scale: f64) -> Xy {
        if self.all.is_empty() {
            return Xy::default();
        }
        let dia = 2.0 * self.radius_mm * scale;
        let each = dia + WORDS_MM.0 + WORDS_MM.1;
        Xy::new((dia + BESIDE_MM).max(30.0), each * self.all.len() as f64)
    }

    /// Draws them one below the other within a room at the right of the view, and marks on the view
    /// where it is cut.
    pub(super) fn draw(&self, scene: &mut Scene, view: ViewTransform, low: Xy, high: Xy) {
        let room = self.room_mm(view.scale);
        let radius = self.radius_mm * view.scale;
        let x = high.x - room.x / 2.0;
        let mut top = (low.y + high.y + room.y) / 2.0;
        for (nth, shown) in self.all.iter().enumerate() {
            let letter = char::from(b'A' + (nth % 26) as u8);
            let z = shown.at_mm();
            self.mark(scene, view, z, letter);
            let centre = Xy::new(x, top - WORDS_MM.0 - radius);
            self.section(scene, view.scale, z, centre);
            let name = format!("{letter}–{letter}");
            let title = Text::new(Xy::new(x, top - 4.8), 3.5, name).anchored(Anchor::Middle);
            scene.text(title);
            for (line, words) in self.words(shown).into_iter().enumerate() {
                let place = Xy::new(x, centre.y - radius - 5.0 - 3.2 * line as f64);
                scene.text(Text::new(place, 2.2, words).anchored(Anchor::Middle));
            }
            top -= 2.0 * radius + WORDS_MM.0 + WORDS_MM.1;
        }
    }

    /// Where the part is cut: two short lines with the direction of sight and the letter (ISO 128-3).
    fn mark(&self, scene: &mut Scene, view: ViewTransform, z_mm: f64, letter: char) {
        let reach = self.radius_mm * view.scale;
        for sign in [1.0, -1.0] {
            let foot = view.axis(z_mm).moved(0.0, sign * (reach + 0.6));
            let top = foot.moved(0.0, sign * 3.0);
            scene.line(Layer::Outline, foot, top);
            let tip = top.moved(2.6, 0.0);
            scene.line(Layer::Dimension, top, tip);
            let barb = |up: f64| tip.moved(-1.2, up);
            scene.fill(
                Layer::Dimension,
                vec![Path::polygon(&[tip, barb(0.4), barb(-0.4)])],
            );
            let words = top.moved(-0.8, if sign > 0.0 { -2.2 } else { 0.0 });
            scene.text(Text::new(words, 2.5, letter.to_string()).anchored(Anchor::End));
        }
    }

    /// The section at a station: outline, bore, hatch, centre lines; up as the view has it.
    fn section(&self, scene: &mut Scene, scale: f64, z_mm: f64, centre: Xy) {
        let turned = self.profiles.turned();
        let Some(round) = turned.least_at(z_mm) else {
            return;
        };
        let sets: Vec<Flats> = self
            .profiles
            .not_round
            .flats
            .iter()
            .map(|it| it.1)
            .collect();
        let up = up_deg(&self.profiles.not_round);
        let outside = match sets.is_empty() {
            true => Some(Path::circle(centre, round * scale)),
            false => section_at(Point::new(z_mm, round), &sets)
                .map(|cut| outline(&cut, up, centre, scale)),
        };
        let Some(outside) = outside else { return };
        let mut region = vec![outside];
        let bores = self.profiles.crest.inner.iter();
        let bores = bores.filter_map(|it| it.least_at(z_mm));
        region.extend(bores.map(|radius| Path::circle(centre, radius * scale)));
        let circles = self.profiles.not_round.circles.iter();
        for holes in circles.filter(|it| it.from_mm < z_mm && z_mm < it.to_mm) {
            region.extend(discs(holes, up, centre, scale));
            let pitch = Path::circle(centre, holes.on_mm / 2.0 * scale);
            scene.stroke(Layer::Axis, pitch);
        }
        scene.lines(Layer::Hatch, hatch(&region, None, &[], Hatch::numbered(0)));
        for path in region {
            scene.stroke(Layer::Outline, path);
        }
        let past = self.radius_mm * scale + 2.0;
        scene.line(
            Layer::Axis,
            centre.moved(-past, 0.0),
            centre.moved(past, 0.0),
        );
        scene.line(
            Layer::Axis,
            centre.moved(0.0, -past),
            centre.moved(0.0, past),
        );
    }

    /// `8 flats`, `13.2 across`, `14 across corners`; `6× ⌀2 on ⌀9`.
    fn words(&self, shown: &Shown) -> Vec<String> {
        let set = match shown {
            Shown::Flats(set) => set,
            Shown::Holes(holes, _) => return vec![beside::words(holes, self.figures)],
        };
        let span = |mm: [f64; 2]| {
            let [one, two] = mm.map(|it| self.figures.number(it));
            match one == two {
                true => one,
                false => format!("{one} to {two}"),
            }
        };
        let calipers = span(set.calipers_mm());
        match set.count {
            1 => vec![
                "one flat".into(),
                format!("{calipers} from it to the round"),
            ],
            2 => vec!["2 flats".into(), format!("{calipers} across")],
            _ => {
                let flats = format!("{} flats", set.count);
                let across = format!("{} across", span(set.across_mm));
                vec![
                    flats,
                    across,
                    format!("{} across corners", span(set.corners_mm)),
                ]
            }
        }
    }
}

/// The holes on a pitch circle, `up_deg` at the top.
fn discs(holes: &Circle, up_deg: f64, centre: Xy, scale: f64) -> impl Iterator<Item = Path> {
    let apart = 360.0 / f64::from(holes.count);
    let (on, radius) = (holes.on_mm / 2.0 * scale, holes.hole_mm / 2.0 * scale);
    let start = holes.clock_deg - up_deg;
    (0..holes.count).map(move |nth| {
        let (sin, cos) = (start + apart * f64::from(nth)).to_radians().sin_cos();
        Path::circle(centre.moved(on * sin, on * cos), radius)
    })
}

/// The outline of a section, chords and arcs, `up_deg` at the top; clockwise as seen.
fn outline(cut: &Section, up_deg: f64, centre: Xy, scale: f64) -> Path {
    let corners = cut.corners_deg();
    let Some(first) = corners.first() else {
        return Path::circle(centre, cut.high_mm() * scale);
    };
    let place = |deg: f64| {
        let (sin, cos) = (deg - up_deg).to_radians().sin_cos();
        let radius = cut.radius_at_mm(deg) * scale;
        centre.moved(radius * sin, radius * cos)
    };
    let next = corners.iter().skip(1).copied().chain([first + 360.0]);
    let mut path = Path::open(place(*first));
    for (from, to) in corners.iter().zip(next) {
        let round = cut.radius_at_mm(*from) * scale;
        let middle = cut.radius_at_mm((from + to) / 2.0) * scale;
        path = match (middle - round).abs() < 1e-9 {
            true => path.then(PathElement::Arc {
                centre,
                semi: Xy::new(round, round),
                from_rad: (90.0 - (from - up_deg)).to_radians(),
                sweep_rad: (from - to).to_radians(),
                to: place(to),
            }),
            false => path.line(place(to)),
        };
    }
    path.close()
}
