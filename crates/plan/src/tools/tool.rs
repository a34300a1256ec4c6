//! Tools, as an operation asks for them.

use crate::MandrelId;
use quillet_geometry::Length;
use quillet_model::DrillName;
use quillet_standards::thread::ThreadForm;

/// A tool.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tool {
    /// A saw.
    Saw,
    /// A centre drill.
    CentreDrill,
    /// A twist drill.
    Drill {
        /// Diameter.
        dia: Length,
        /// How the design names it.
        name: DrillName,
    },
    /// A flat-bottomed drill or counterbore.
    FlatDrill {
        /// Diameter.
        dia: Length,
    },
    /// A boring bar that enters a hole of this size.
    BoringBar {
        /// The hole.
        enters: Length,
    },
    /// A reamer.
    Reamer {
        /// Diameter.
        dia: Length,
    },
    /// A countersink.
    Countersink {
        /// Included angle, in thousandths of a degree.
        angle_mdeg: i64,
    },
    /// A hooked tool that widens behind a mouth.
    RecessingTool,
    /// A tap.
    Tap {
        /// Its thread.
        thread: ThreadForm,
    },
    /// A die.
    Die {
        /// Its thread.
        thread: ThreadForm,
    },
    /// A single-point threading tool.
    ThreadingTool {
        /// For inside threads.
        inside: bool,
    },
    /// A tenon cutter with its bushing.
    TenonCutter {
        /// The tenon.
        bushing: Length,
    },
    /// A parting tool.
    PartingTool,
    /// A turning tool: gouge, skew or scraper, or a bit in a toolpost.
    TurningTool,
    /// A milling cutter or slot drill.
    Cutter {
        /// Its width.
        width: Length,
    },
    /// A file, on a roller rest beside the work.
    File,
    /// A cutting knurl, a graver, or what else cuts a pattern.
    PatternTool,
    /// Abrasives and polish.
    Abrasives,
    /// Glue.
    Glue,
    /// A collet, or a chuck that grips this size.
    Collet {
        /// Diameter.
        dia: Length,
    },
    /// A mandrel or plug, made for the job.
    Mandrel {
        /// Which of the plan's.
        which: MandrelId,
    },
}
