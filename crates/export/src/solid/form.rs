//! The forms that solids are written in.

/// A form that solids are written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SolidForm {
    /// STEP, with analytic surfaces.
    Step,
    /// 3MF, a mesh with colours.
    ThreeMf,
    /// STL, a mesh alone.
    Stl,
}

impl SolidForm {
    /// The form of a file's ending, without its dot, in small letters.
    pub fn named(ending: &str) -> Option<SolidForm> {
        match ending {
            "step" | "stp" => Some(SolidForm::Step),
            "3mf" => Some(SolidForm::ThreeMf),
            "stl" => Some(SolidForm::Stl),
            _ => None,
        }
    }
}
