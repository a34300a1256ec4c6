//! Names, units and `use` resolved into one [`Design`]; parts, joints, where everything
//! comes to rest.
//!
//! Nothing here reads files (they come through a [`Source`]), judges a design or words a
//! finding beyond what resolution itself must say.

mod across;
mod bench;
mod configured;
mod design;
mod end;
mod feature;
mod hand;
mod id;
mod limits;
mod load;
mod made;
mod made_faces;
mod mass;
mod material;
mod names;
mod not_round;
mod outline;
mod part;
mod pen;
mod pen_face;
mod planes;
mod profiles;
mod resolve;
mod shelf;
mod side;
mod side_shape;
mod source;
mod stack;
mod thread;
mod value;
mod want;
pub mod words;
mod zone;

pub use across::AcrossFlats;
pub use bench::{Bench, BenchDrill, BenchThreading, BoringBar, Lathe};
pub use configured::Configured;
pub use design::Design;
pub use end::End;
pub use feature::{Cut, DrillName, Feature};
pub use hand::Hand;
pub use id::{
    ById, CircleId, CutId, DefinitionId, Id, JointId, PartId, PieceId, RingId, SideId, StationId,
};
pub use limits::{Acceptance, LimitLine, Limits};
pub use load::{Loaded, load, tidy};
pub use made::{Made, MadeSize, MadeStatement, Measured};
pub use made_faces::MadeFaces;
pub use material::Material;
pub use names::{Definition, DefinitionKind, Names, Reference};
pub use not_round::NotRound;
pub use part::kind::{BoughtPart, CutPart, PartKind, RingPart};
pub use part::missing::MissingData;
pub use part::{BlankDef, BlankPiece, GivenMass, Part, PartFace, Ring, Spigot, Station, Stock};
pub use pen::as_one::{AsOne, AsOneMember, Whose};
pub use pen::assembly::{
    Air, Assembly, AtRest, Blocked, Clearance, ClearanceKind, Closing, Configuration, Engagement,
    FREE_MM, GLUE_GAP, GLUE_MM, HeldBy, Ink, InkIn, MagnetPair, MatedThreads, PUSH, Piston,
    Placement, PlainFit, PocketCut, Pocketed, PostedContact, RingSeal, RingShape, SeatedRing,
    SnapFit, StoppedBy, SurfacePoint, TEN_DEGREES, TOUCHING_MM, Touch, Trapped, Unknown, Vent,
    Verdict,
};
pub use pen::assembly::{Link, Size, WorstCase};
pub use pen::doubt::Doubts;
pub use pen::lining::Lining;
pub use pen::sampled::{Distribution, HandSize, HandSizes};
pub use pen::{FitRequest, Joint, JointEnd, Parts, Pen, Seat, Weights};
pub use pen_face::PenFace;
pub use profiles::{Origin, Profiles, Solid};
pub use quillet_standards::Units;
pub use resolve::{Redraw, resolve};
pub use shelf::{OnShelf, Priced, Shelf, Ware};
pub use side::{
    Around, CircleHoles, Coat, SideCut, SideCutKind, SideDepth, SideSize, SideStretch, Throw,
};
pub use source::{LONGEST, ReadError, Source, SourceFile, Texts};
pub use stack::{Body, Filling};
pub use thread::ThreadDef;
pub use value::{Amount, Dimension, DimensionMismatch, Quantity, Value};
pub use want::{MEASURES, Measure, Sum, SumKind, Test, Want};
