//! Lengths, profiles and solids of revolution in the meridian plane.
