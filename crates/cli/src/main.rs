//! The `quillet` command.
//!
//! One line a command here, one file a command beside it: `Args` says what may be
//! asked, `run` does it and says how the process ends.

mod aim;
mod answer;
mod at;
mod batch;
mod buy;
mod cast;
mod check;
mod choice;
mod compare;
mod completions;
mod cut;
mod disk;
mod draw;
mod drill;
mod explain;
mod files;
mod fit;
mod format;
mod gallery;
mod git;
mod listing;
mod lists;
mod lsp;
mod made;
mod manual;
mod material;
mod measure;
mod merge_file;
mod new;
mod output;
mod plans;
mod progress;
mod room;
mod rooted;
mod sheet;
mod solid;
mod spread;
mod temp_file;
mod terminal;
mod thread;
mod tools;
mod vary;
mod warn;
mod watch;
mod whole;

use clap::{Parser, Subcommand};
use std::process::ExitCode;

/// A check allocates much and frees it all at once; this allocator is quick at that.
#[cfg(not(target_os = "macos"))]
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// Designs pens made without a kit: written as parts, threads and fits, checked before cutting.
#[derive(Parser)]
#[command(name = "quillet", version, propagate_version = true)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Point at what would go wrong before a blank is cut.
    Check(check::CheckArgs),
    /// Say what every part holds, weighs and leaves of wall.
    Measure(measure::MeasureArgs),
    /// Explain a rule: what it says, why, how it is worked out; or list the rules.
    Explain(explain::ExplainArgs),
    /// Say what a change does to a pen: two revisions, files or folders side by side.
    Compare(compare::CompareArgs),
    /// Say how far each number can move before something is found, and what stops it.
    Room(room::RoomArgs),
    /// Move one number or two through a range: what is found and measured at each value.
    Vary(vary::VaryArgs),
    /// Find the value of a number at which a measure comes to what is wanted.
    Aim(aim::AimArgs),
    /// Make a pen many times by the maker's own hand: how many pass, and what they come to.
    Spread(spread::SpreadArgs),
    /// Bring files into their one canonical form.
    Format(format::FormatArgs),
    /// Tell git, in this clone, how designs are compared, merged and checked.
    Git(git::GitArgs),
    /// Merge two texts of a design; git calls it once `quillet git install` has said so.
    MergeFile(merge_file::MergeFileArgs),
    /// Write a pen to begin from, with comments that explain.
    New(new::NewArgs),
    /// Show a page that follows the file as it is saved: drawing, findings, weight.
    Watch(watch::WatchArgs),
    /// Draw the parts: half sections with running dimensions, on A4 or Letter, at true scale.
    Draw(draw::DrawArgs),
    /// Write all that is taken to the lathe: route, tools, blanks, drawings, cautions.
    Sheet(sheet::SheetArgs),
    /// List every tool, where it is used, and what of it is to be had.
    Tools(lists::ListArgs),
    /// List what to saw off which stock, packed to waste least.
    Cut(lists::ListArgs),
    /// Say what to buy for pens made together, with what is on the shelf, and what they cost.
    Buy(buy::BuyArgs),
    /// Write a file for what the caliper reads of one that is made, every size ready to be filled in.
    Made(made::MadeArgs),
    /// Write the parts as solids: .step (exact surfaces), .stl or .3mf (meshes).
    Solid(solid::SolidArgs),
    /// Write the manual as one page: the language, every rule, the materials.
    Manual(manual::ManualArgs),
    /// Show the pens of a folder on one page, a card each.
    Gallery(gallery::GalleryArgs),
    /// Serve an editor over standard input and output (language server protocol).
    Lsp(lsp::LspArgs),
    /// Sizes, limits, tap drill, tenon and wires of a thread.
    Thread(thread::ThreadArgs),
    /// Limits, clearance and kind of a fit: "10 H7/g6".
    Fit(fit::FitArgs),
    /// A drill's size, the drills either side of it, its point.
    Drill(drill::DrillArgs),
    /// Resin, hardener and pigment for moulds, or for the blanks of a design.
    Cast(cast::CastArgs),
    /// Density, speeds, walls and cautions of a material.
    Material(material::MaterialArgs),
    /// Print what a shell completes `quillet` by.
    Completions(completions::CompletionsArgs),
    /// Write a manual page for each command into a folder.
    #[command(hide = true)]
    Manpages(completions::ManpagesArgs),
}

fn main() -> ExitCode {
    let asked = match Cli::try_parse() {
        Ok(asked) => asked,
        // Help and version, printed as all else is.
        Err(message) if !message.use_stderr() => {
            return terminal::ended(terminal::help(&message.render()));
        }
        Err(wrong) => wrong.exit(),
    };
    match asked.command {
        Command::Check(args) => check::run(&args),
        Command::Measure(args) => measure::run(&args),
        Command::Explain(args) => explain::run(&args),
        Command::Compare(args) => compare::run(&args),
        Command::Room(args) => room::run(&args),
        Command::Vary(args) => vary::run(&args),
        Command::Aim(args) => aim::run(&args),
        Command::Spread(args) => spread::run(&args),
        Command::Format(args) => format::run(&args),
        Command::Git(args) => git::run(&args),
        Command::MergeFile(args) => merge_file::run(&args),
        Command::New(args) => new::run(&args),
        Command::Watch(args) => watch::run(&args),
        Command::Draw(args) => draw::run(&args),
        Command::Sheet(args) => sheet::run(&args),
        Command::Tools(args) => tools::run(&args),
        Command::Cut(args) => cut::run(&args),
        Command::Buy(args) => buy::run(&args),
        Command::Made(args) => made::run(&args),
        Command::Manual(args) => manual::run(&args),
        Command::Gallery(args) => gallery::run(&args),
        Command::Completions(args) => completions::run(&args),
        Command::Manpages(args) => completions::run_manpages(&args),
        Command::Solid(args) => solid::run(&args),
        Command::Lsp(args) => lsp::run(&args),
        Command::Thread(args) => thread::run(&args),
        Command::Fit(args) => fit::run(&args),
        Command::Drill(args) => drill::run(&args),
        Command::Cast(args) => cast::run(&args),
        Command::Material(args) => material::run(&args),
    }
}
