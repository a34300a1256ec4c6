//! A curve as a quotient of polynomials.

use crate::bernstein::Poly;

/// The place as `z / w`, `r / w` of three polynomials of the parameter.
pub(crate) struct Homogeneous {
    pub(crate) z: Poly,
    pub(crate) r: Poly,
    pub(crate) w: Poly,
}
