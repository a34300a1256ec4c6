//! What of a drawing lies within a rectangle.

use super::{Item, Path, PathElement, Scene, Shaded, Shape, Strip, TextBox, Xy};

/// How far a curve cut into straight lines may stray, mm on paper.
const STRAYS_MM: f64 = 0.01;

impl Scene {
    /// What lies within a rectangle: lines cut at its edge, curves as straight lines; filled shapes
    /// and texts only where they lie in it whole.
    #[must_use]
    pub fn within(&self, frame: &TextBox) -> Scene {
        let items = self.items.iter().flat_map(|item| {
            let shapes: Vec<Shape> = match &item.shape {
                Shape::Stroke(path) => strokes(path, frame),
                Shape::Lines(lines) => {
                    let seen = lines.iter().filter_map(|[a, b]| frame.stretch(*a, *b));
                    vec![Shape::Lines(seen.collect())]
                }
                Shape::Fill(paths) => {
                    let mut places = paths.iter().flat_map(|path| path.flattened(STRAYS_MM));
                    let whole = places.all(|at| holds(frame, at));
                    whole.then(|| item.shape.clone()).into_iter().collect()
                }
                Shape::Shaded(shaded) => {
                    let whole = |strip: &&Strip| {
                        let outline = shaded.outline(strip);
                        outline
                            .flattened(STRAYS_MM)
                            .iter()
                            .all(|at| holds(frame, *at))
                    };
                    let strips = shaded.strips.iter().filter(whole).copied();
                    vec![Shape::Shaded(Shaded {
                        strips: strips.collect(),
                        ..*shaded
                    })]
                }
                Shape::Paint(paint) => {
                    let mut places = paint.paths.iter().flat_map(|it| it.flattened(STRAYS_MM));
                    let whole = places.all(|at| holds(frame, at));
                    whole.then(|| item.shape.clone()).into_iter().collect()
                }
                Shape::Text(text) => {
                    let at = text.frame();
                    let whole = holds(frame, at.min) && holds(frame, at.max);
                    whole.then(|| item.shape.clone()).into_iter().collect()
                }
            };
            let layer = item.layer;
            shapes.into_iter().map(move |shape| Item { layer, shape })
        });
        Scene {
            title: self.title.clone(),
            width_mm: self.width_mm,
            height_mm: self.height_mm,
            scale: self.scale,
            items: items.collect(),
        }
    }
}

impl TextBox {
    /// The stretch of a straight line within the rectangle (Liang and Barsky, 1984).
    pub fn stretch(&self, from: Xy, to: Xy) -> Option<[Xy; 2]> {
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let sides = [
            (-dx, from.x - self.min.x),
            (dx, self.max.x - from.x),
            (-dy, from.y - self.min.y),
            (dy, self.max.y - from.y),
        ];
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        for (way, room) in sides {
            match way {
                0.0 if room < 0.0 => return None,
                0.0 => {}
                way if way < 0.0 => enters = enters.max(room / way),
                way => leaves = leaves.min(room / way),
            }
        }
        let at = |t: f64| match t {
            0.0 => from,
            1.0 => to,
            t => from.towards(to, t),
        };
        (enters < leaves).then(|| [at(enters), at(leaves)])
    }
}

/// A path's stretches within, each a path.
fn strokes(path: &Path, frame: &TextBox) -> Vec<Shape> {
    let places = path.flattened(STRAYS_MM);
    let mut found: Vec<Path> = Vec::new();
    for pair in places.windows(2) {
        let Some([from, to]) = frame.stretch(pair[0], pair[1]) else {
            continue;
        };
        match found.last_mut().filter(|last| last.end() == from) {
            Some(last) => last.steps.push(PathElement::Line(to)),
            None => found.push(Path::open(from).line(to)),
        }
    }
    found.into_iter().map(Shape::Stroke).collect()
}

fn holds(frame: &TextBox, at: Xy) -> bool {
    (frame.min.x..=frame.max.x).contains(&at.x) && (frame.min.y..=frame.max.y).contains(&at.y)
}

#[cfg(test)]
mod tests {
    use super::super::Layer;
    use super::*;

    #[test]
    fn what_lies_outside_is_cut_off() {
        let mut scene = Scene::new("", 20.0, 20.0);
        scene.stroke(Layer::Outline, Path::circle(Xy::new(5.0, 5.0), 3.0));
        scene.line(Layer::Axis, Xy::new(0.0, 5.0), Xy::new(20.0, 5.0));
        scene.fill(Layer::Fine, vec![Path::circle(Xy::new(5.0, 5.0), 1.0)]);
        let frame = TextBox {
            min: Xy::new(5.0, 0.0),
            max: Xy::new(10.0, 10.0),
        };
        let seen = scene.within(&frame);
        let mut length = 0.0;
        for item in &seen.items {
            let Shape::Stroke(path) = &item.shape else {
                panic!("the dot lies across the edge");
            };
            for pair in path.flattened(0.01).windows(2) {
                assert!(holds(&frame, pair[0]) && holds(&frame, pair[1]));
                length += (pair[1].x - pair[0].x).hypot(pair[1].y - pair[0].y);
            }
        }
        // Half the circle, and five of the line.
        let wanted = std::f64::consts::PI * 3.0 + 5.0;
        assert!((length - wanted).abs() < 0.02, "{length}");
    }
}
