//! Kinds of numbers for a plan's lists.

quillet_model::ids! {
    /// Which mandrel or plug of a plan: its place in `Plan::mandrels`.
    pub MandrelId;
}
