//! How a design is made: route, tools, mandrels, cut list.
