//! What things are called: pens, benches, materials, cuts.

use crate::{
    Bench, Cut, DrillName, End, Feature, Material, Origin, Part, PartFace, Pen, SideCut,
    SideCutKind, SurfacePoint,
};
use quillet_syntax::ast::Side;

impl Pen {
    /// Its title; its name where it has none.
    pub fn title_or_name(&self) -> &str {
        self.title.as_ref().map_or(&self.name.text, |it| &it.text)
    }
}

impl Bench {
    /// Its title; its name where it has none.
    pub fn title_or_name(&self) -> &str {
        self.title.as_ref().map_or(&self.name.text, |it| &it.text)
    }
}

impl Material {
    /// Its title; its name where it has none.
    pub fn title_or_name(&self) -> &str {
        self.title.as_ref().map_or(&self.name, |it| &it.text)
    }
}

impl Cut {
    /// The word that begins its statement.
    pub fn word(&self) -> &'static str {
        match self {
            Cut::Tenon { .. } => "tenon",
            Cut::Drill { .. } => "drill",
            Cut::Bore { .. } => "bore",
            Cut::Ream { .. } => "ream",
            Cut::Thread { .. } => "thread",
            Cut::Relief { .. } => "relief",
            Cut::Groove { .. } => "groove",
            Cut::Recess { .. } => "recess",
            Cut::Taper { .. } => "taper",
            Cut::Countersink { .. } => "countersink",
            Cut::Edge(_) => "edge",
        }
    }
}

impl DrillName {
    /// The name a drill goes by: `#7`, `letter F`; none where it goes by its diameter.
    pub fn name(self) -> Option<String> {
        match self {
            DrillName::Diameter => None,
            DrillName::Number(number) => Some(format!("#{number}")),
            DrillName::Letter(letter) => Some(format!("letter {letter}")),
        }
    }
}

impl Feature {
    /// What it is called once it is cut: as its statement, but for what a verb or one word does not
    /// say.
    pub fn called(&self) -> &'static str {
        match &self.cut {
            Cut::Ream { .. } => "reamed hole",
            Cut::Thread { side, .. } => match side {
                Side::Inside => "inside thread",
                Side::Outside => "outside thread",
            },
            Cut::Edge(_) => "broken corner",
            cut => cut.word(),
        }
    }
}

/// By what a place on a part's surface is called, so that a finding and a hover call it alike.
#[derive(Clone, Copy, Debug)]
pub enum SpotName<'a> {
    /// A flat that has a name.
    Face(&'a PartFace),
    /// An end of the part.
    End(End),
    /// The cone that a drill leaves.
    DrillPoint(&'a Feature),
    /// A cut.
    Cut(&'a Feature),
    /// The outside, between its stations.
    Outside,
}

impl Part {
    /// What a place on its surface is called.
    pub fn spot_name(&self, spot: &SurfacePoint) -> SpotName<'_> {
        let cut = spot.origin.feature().and_then(|it| self.features.get(it));
        match (self.face_at(spot), spot.origin, cut) {
            (Some(face), ..) => SpotName::Face(face),
            (None, Origin::Face(end), _) => SpotName::End(end),
            (None, Origin::DrillPoint(_), Some(cut)) => SpotName::DrillPoint(cut),
            (None, _, Some(cut)) => SpotName::Cut(cut),
            _ => SpotName::Outside,
        }
    }

    /// The face named there, where the place is flat: the outside of a part, or the end of a cut. One of the
    /// outside does not name the bottom of a bore that ends in its plane, nor the other way round.
    pub fn face_at(&self, spot: &SurfacePoint) -> Option<&PartFace> {
        if matches!(spot.origin, Origin::DrillPoint(_)) {
            return None;
        }
        let cut = spot.origin.feature().and_then(|it| self.features.get(it));
        let inside = cut.is_some_and(Feature::is_inside);
        let at = |face: &&PartFace| (face.at.to_mm() - spot.station_mm).abs() < 1e-6;
        let own = |face: &&PartFace| face.end.is_some() || self.is_inside(face) == inside;
        self.faces.iter().filter(at).find(own)
    }

    /// Whether a named face is where a cut inside the part ends.
    pub(crate) fn is_inside(&self, face: &PartFace) -> bool {
        let named = |cut: &&Feature| {
            cut.face
                .as_ref()
                .is_some_and(|it| it.text == face.name.text)
        };
        let cut = self.features.iter().find(named);
        cut.is_some_and(Feature::is_inside)
    }
}

impl SideCut {
    /// What it is called once it is cut.
    pub fn called(&self) -> &'static str {
        match self.kind {
            SideCutKind::Across { .. } | SideCutKind::Deep(_) | SideCutKind::Sharp => "flat",
            SideCutKind::Drill { .. } => "side hole",
            SideCutKind::Slot { .. } => "slot",
            SideCutKind::Pattern { .. } => "pattern",
        }
    }
}

/// `no errors`, `an error`, `3 errors`.
pub fn errors(count: usize) -> String {
    match count {
        0 => "no errors".to_owned(),
        1 => "an error".to_owned(),
        _ => format!("{count} errors"),
    }
}
