//! Threads by the simplified convention of ISO 6410-1.

use super::seen::Occluders;
use super::view::{Half, ViewTransform};
use crate::scene::{Layer, Scene};
use quillet_geometry::Point;
use quillet_model::{Feature, Part, Solid};
use quillet_syntax::ast::Side;

/// Crest and root lines are at least this far apart on paper, mm (ISO 6410-1: 0.7 or twice the
/// thick line).
pub(super) const LEAST_MM: f64 = 0.7;

/// What of a part's threads one half shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum ThreadView {
    /// Those outside.
    Outside,
    /// Those inside too.
    Cut,
}

/// Root lines thin, ends of full form thick. The crests are the outline itself.
pub(super) fn threads(
    scene: &mut Scene,
    view: ViewTransform,
    half: Half,
    part: &Part,
    solid: &Solid,
    shown: ThreadView,
    before: &Occluders,
) {
    for feature in &part.features {
        let Some((thread, side)) = feature.thread() else {
            continue;
        };
        if side == Side::Inside && shown == ThreadView::Outside {
            continue;
        }
        let [from, to] = span(part, feature);
        let form = &thread.thread;
        let major = form.major().to_mm() / 2.0;
        let minor = match side {
            Side::Inside => form.minor_diameter(),
            Side::Outside => form.root_diameter(),
        };
        let minor = minor.to_mm() / 2.0;
        // Drawn wider than it is where the lines would run together.
        let apart = (major - minor).max(LEAST_MM / view.scale);
        let (crest, root, last) = match side {
            Side::Outside => (major, major - apart, 0.0_f64),
            Side::Inside => (minor, minor + apart, minor),
        };
        let [a, b] = [from, to].map(|z| Point::new(z, root));
        before.line(scene, Layer::Thread, view, half, a, b);
        for z in [from, to] {
            // Where the thread runs out at an edge, the outline is there already.
            let edge =
                |radii: Option<(f64, f64)>| radii.is_none_or(|(one, two)| (one - two).abs() > 1e-9);
            let at_edge = match side {
                Side::Outside => edge(solid.outer.radii_at(z)),
                Side::Inside => solid.inner.iter().all(|bore| edge(bore.radii_at(z))),
            };
            let at_end = z < 1e-9 || z > part.length.to_mm() - 1e-9;
            if at_edge || at_end {
                continue;
            }
            let low = match (side, shown) {
                (Side::Outside, ThreadView::Cut) => root,
                _ => last,
            };
            let [a, b] = [low, crest.max(root)].map(|r| Point::new(z, r));
            before.line(scene, before.outline, view, half, a, b);
        }
    }
}

/// True where some thread of the part is drawn wider than it is.
pub(super) fn any_widened(part: &Part, scale: f64) -> bool {
    part.features
        .iter()
        .filter_map(Feature::thread)
        .any(|(thread, side)| {
            let form = &thread.thread;
            let minor = if side == Side::Inside {
                form.minor_diameter()
            } else {
                form.root_diameter()
            };
            (form.major() - minor).to_mm() / 2.0 * scale < LEAST_MM
        })
}

/// The stations between which a thread has its full form, within the part.
pub(super) fn span(part: &Part, feature: &Feature) -> [f64; 2] {
    let (from, to) = feature.stations(part.length);
    [from, to].map(|z| z.to_mm().clamp(0.0, part.length.to_mm()))
}
