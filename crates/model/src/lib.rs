//! Names, units and use resolved into one design; parts, joints, where everything comes to rest.
