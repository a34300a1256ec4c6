//! Kinds of numbers for a plan's lists.

quillet_model::ids! {
    /// Which mandrel or plug of a plan: its place in `Plan::mandrels`.
    pub MandrelId;
    /// Which part's route: its place in `Plan::routes`.
    pub RouteId;
    /// Which task of a part: its place in its `Tasks`.
    pub(crate) TaskId;
}
