//! The table of rules: one file a rule beside its page, one line each here.

mod beyond_reach;
mod blank_too_short;
mod blank_too_thin;
mod blocked_start;
mod broken_through;
mod crumbling_thread;
mod cuts_nothing;
mod die_wont_pass;
mod drill_wander;
mod dry_nib;
mod faces;
mod finish_closes_fit;
mod fitted;
pub(crate) mod follows;
mod glue_gap;
mod ink_attacks;
mod joined_twice;
mod joint_threads;
mod kinds;
mod kinked_outside;
mod land;
mod leaky_reservoir;
mod lettered_out_of_line;
mod loose_part;
mod mandrels;
mod missing_thread;
mod mouth_splits;
mod narrow_bearing;
mod nib_strikes_cap;
mod no_order_works;
mod no_room_for_tap;
mod no_runout;
mod no_such_bushing;
mod no_such_collet;
mod no_such_cutter;
mod no_such_die;
mod no_such_drill;
mod no_such_index;
mod no_such_reamer;
mod no_such_speed;
mod no_such_tap;
mod nothing_holds;
mod odd_thread;
pub(crate) mod off_drawing;
mod off_tap_drill;
mod off_tenon;
mod out_of_proportion;
mod poor_fit;
mod press_cracks;
mod pressed;
mod proud_joint;
mod pumps_ink;
mod rolls_away;
mod short_engagement;
mod short_grip;
mod side_cuts_joint;
mod slender_mandrel;
mod sliver;
mod slow_cap;
mod snaps_at_joint;
mod solid_between;
mod spring_bound;
mod spring_slack;
mod step_under_fingers;
mod stiff_cap;
mod stops_early;
mod tap_wont_reach;
mod thin_end;
mod thin_wall;
mod thread_cut_away;
mod thread_mismatch;
mod tips_over;
mod too_close_to_call;
mod trapped_air;
mod unused_item;
pub(crate) mod want_unmet;
mod weak_hold;
mod wont_pass;
mod wont_post;
mod wrong_way_round;

use crate::Rule;
use crate::rule::elsewhere;
pub use kinds::{asks_for_a_tool, is_mended_in_fitting, is_of_making};
use quillet_syntax::Severity::{Error, Note, Warning};

/// Every rule, in the order of the manual: the language, walls, threads, assembly, the bench.
pub static RULES: &[&Rule] = &[
    // Language
    &elsewhere("syntax", Error, include_str!("rules/syntax.md")),
    &elsewhere(
        "unfinished-merge",
        Error,
        include_str!("rules/unfinished-merge.md"),
    ),
    &elsewhere("unknown-name", Error, include_str!("rules/unknown-name.md")),
    &elsewhere(
        "duplicate-name",
        Error,
        include_str!("rules/duplicate-name.md"),
    ),
    &elsewhere(
        "unit-mismatch",
        Error,
        include_str!("rules/unit-mismatch.md"),
    ),
    &elsewhere("mixed-units", Warning, include_str!("rules/mixed-units.md")),
    &elsewhere("use-cycle", Error, include_str!("rules/use-cycle.md")),
    &elsewhere("missing-file", Error, include_str!("rules/missing-file.md")),
    &elsewhere("out-of-range", Error, include_str!("rules/out-of-range.md")),
    &elsewhere("incomplete", Error, include_str!("rules/incomplete.md")),
    &elsewhere(
        "not-reckoned",
        Warning,
        include_str!("rules/not-reckoned.md"),
    ),
    &elsewhere("said-twice", Error, include_str!("rules/said-twice.md")),
    &elsewhere(
        "bad-designation",
        Error,
        include_str!("rules/bad-designation.md"),
    ),
    &elsewhere("bad-colour", Error, include_str!("rules/bad-colour.md")),
    &elsewhere(
        "duplicate-station",
        Error,
        include_str!("rules/duplicate-station.md"),
    ),
    &elsewhere(
        "unordered-stations",
        Note,
        include_str!("rules/unordered-stations.md"),
    ),
    &STALE_ACCEPTANCE,
    &unused_item::RULE,
    &want_unmet::RULE,
    // Walls
    &elsewhere(
        "unshaped-outside",
        Error,
        include_str!("rules/unshaped-outside.md"),
    ),
    &out_of_proportion::RULE,
    &thin_wall::RULE,
    &broken_through::RULE,
    &thin_end::RULE,
    &mouth_splits::RULE,
    &drill_wander::RULE,
    &snaps_at_joint::RULE,
    &crumbling_thread::RULE,
    &kinked_outside::RULE,
    &cuts_nothing::RULE,
    &sliver::RULE,
    &side_cuts_joint::RULE,
    // Threads
    &wrong_way_round::RULE,
    &thread_mismatch::RULE,
    &thread_cut_away::RULE,
    &missing_thread::RULE,
    &blocked_start::RULE,
    &die_wont_pass::RULE,
    &tap_wont_reach::RULE,
    &no_room_for_tap::RULE,
    &no_runout::RULE,
    &off_tap_drill::RULE,
    &off_tenon::RULE,
    &odd_thread::RULE,
    &slow_cap::RULE,
    &short_engagement::RULE,
    // Assembly
    &stops_early::RULE,
    &wont_pass::RULE,
    &narrow_bearing::RULE,
    &spring_bound::RULE,
    &spring_slack::RULE,
    &nib_strikes_cap::RULE,
    &nothing_holds::RULE,
    &weak_hold::RULE,
    &stiff_cap::RULE,
    &too_close_to_call::RULE,
    &proud_joint::RULE,
    &poor_fit::RULE,
    &glue_gap::RULE,
    &press_cracks::RULE,
    &trapped_air::RULE,
    &dry_nib::RULE,
    &pumps_ink::RULE,
    &leaky_reservoir::RULE,
    &solid_between::RULE,
    &ink_attacks::RULE,
    &loose_part::RULE,
    &joined_twice::RULE,
    &wont_post::RULE,
    &finish_closes_fit::RULE,
    &lettered_out_of_line::RULE,
    &step_under_fingers::RULE,
    &rolls_away::RULE,
    &tips_over::RULE,
    // What was made
    &off_drawing::RULE,
    &elsewhere(
        "not-in-drawing",
        Error,
        include_str!("rules/not-in-drawing.md"),
    ),
    // Bench
    &no_such_drill::RULE,
    &no_such_reamer::RULE,
    &no_such_tap::RULE,
    &no_such_die::RULE,
    &no_such_index::RULE,
    &no_such_cutter::RULE,
    &no_such_collet::RULE,
    &no_such_bushing::RULE,
    &beyond_reach::RULE,
    &blank_too_thin::RULE,
    &blank_too_short::RULE,
    &no_such_speed::RULE,
    &no_order_works::RULE,
    &slender_mandrel::RULE,
    &short_grip::RULE,
];

/// Told by the checker itself, when all rules have run.
pub(crate) static STALE_ACCEPTANCE: Rule = elsewhere(
    "stale-acceptance",
    Warning,
    include_str!("rules/stale-acceptance.md"),
);

/// The rule of a code.
pub fn rule(code: &str) -> Option<&'static Rule> {
    RULES.iter().find(|rule| rule.code == code).copied()
}
