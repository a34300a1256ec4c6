//! The colours of bodies in STEP (ISO 10303-46, presentation; colours as shares of red, green and blue).

use super::entities::{EntityId, StepFile, real};
use quillet_standards::Colour;

impl StepFile<'_> {
    /// A body's colour on all its faces, to be shown by [`StepFile::presented`].
    pub(super) fn styled(&mut self, solid: EntityId, colour: Colour) -> EntityId {
        let [red, green, blue] = colour.parts().map(real);
        let colour = self.put(format_args!("COLOUR_RGB('{colour}',{red},{green},{blue})"));
        let fill = self.put(format_args!("FILL_AREA_STYLE_COLOUR('',{colour})"));
        let fill = self.put(format_args!("FILL_AREA_STYLE('',({fill}))"));
        let fill = self.put(format_args!("SURFACE_STYLE_FILL_AREA({fill})"));
        let side = self.put(format_args!("SURFACE_SIDE_STYLE('',({fill}))"));
        let usage = self.put(format_args!("SURFACE_STYLE_USAGE(.BOTH.,{side})"));
        let style = self.put(format_args!("PRESENTATION_STYLE_ASSIGNMENT(({usage}))"));
        self.put(format_args!("STYLED_ITEM('colour',({style}),{solid})"))
    }

    /// Shows what was styled.
    pub(super) fn presented(&mut self, styled: &[EntityId], shape: EntityId) {
        if styled.is_empty() {
            return;
        }
        let styled: Vec<String> = styled.iter().map(ToString::to_string).collect();
        self.put(format_args!(
            "MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',({}),{shape})",
            styled.join(",")
        ));
    }
}
