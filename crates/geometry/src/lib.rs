//! Lengths, profiles and solids of revolution in the meridian plane.
//!
//! `z` runs along the axis of the part, `r` away from it. What a caller says and compares is a
//! [`Length`] or an [`Angle`], exact integers; inside a curve everything is `f64` in millimetres,
//! and every field says so in its name. Nothing here panics on any finite number.

mod angle;
#[cfg(test)]
mod any_curve;
mod approach;
mod arc;
mod bernstein;
mod chain;
mod circle;
mod crossing;
mod cubic;
mod curve;
mod decimal;
mod edge;
pub mod envelope;
mod gauss;
mod homogeneous;
mod length;
mod limits;
mod mass;
mod meeting;
mod moments;
mod order;
mod outside;
pub mod overlap;
mod pattern;
mod point;
mod properties;
mod radii;
pub mod section;
pub mod side;
mod smooth;
pub mod walls;

pub use angle::Angle;
pub use approach::Approach;
pub use arc::Arc;
pub use chain::{Chain, Kink, Segment, Tag};
pub use circle::Circle;
pub use cubic::Cubic;
pub use curve::{Bounds, Curve, Line};
pub use decimal::number;
pub use edge::{Edge, EdgeFlaw, MetalSide};
pub use gauss::integral;
pub use length::{InchFraction, Length};
pub use limits::Limits;
pub use mass::Mass;
pub use meeting::Meeting;
pub use moments::Moments;
pub use order::put_in_order;
pub use outside::{Flaw, Outside, Shape, Station, StationFlaw, outside};
pub use pattern::Pattern;
pub use point::Point;
pub use properties::{Properties, Surface};
