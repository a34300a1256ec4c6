//! Rules of one kind: of tools, of fitting, of the making.

use super::*;
use crate::Rule;
use quillet_syntax::RuleId;

/// The rules that speak of a tool that is not to be had.
static OF_TOOLS: [&Rule; 9] = [
    &no_such_drill::RULE,
    &no_such_reamer::RULE,
    &no_such_tap::RULE,
    &no_such_die::RULE,
    &no_such_index::RULE,
    &no_such_cutter::RULE,
    &no_such_collet::RULE,
    &no_such_bushing::RULE,
    &no_such_speed::RULE,
];

/// Whether a rule speaks of a tool that is not to be had.
pub fn asks_for_a_tool(rule: RuleId) -> bool {
    OF_TOOLS.iter().any(|it| it.code == rule.code())
}

/// The rules of joints that speak of what is mended while the parts are fitted to each other: a relief that
/// a thread runs out into, a step where two outsides are to be flush, a plain fit that is turned to suit.
static OF_FITTING: [&Rule; 3] = [&no_runout::RULE, &proud_joint::RULE, &poor_fit::RULE];

/// Whether a rule speaks of what is mended while parts are fitted to each other.
pub fn is_mended_in_fitting(rule: RuleId) -> bool {
    OF_FITTING.iter().any(|it| it.code == rule.code())
}

/// The rules of the making itself: tools, holding, blanks, the route, and the sizes that taps and dies
/// want.
static OF_MAKING: [&Rule; 11] = [
    &beyond_reach::RULE,
    &blank_too_thin::RULE,
    &blank_too_short::RULE,
    &no_order_works::RULE,
    &slender_mandrel::RULE,
    &short_grip::RULE,
    &drill_wander::RULE,
    &tap_wont_reach::RULE,
    &die_wont_pass::RULE,
    &off_tap_drill::RULE,
    &off_tenon::RULE,
];

/// Whether a rule speaks of how a part is made, so that it says nothing of one that is made.
pub fn is_of_making(rule: RuleId) -> bool {
    asks_for_a_tool(rule) || OF_MAKING.iter().any(|it| it.code == rule.code())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_rule_of_a_tool_that_is_not_to_be_had_is_known_as_one() {
        for rule in RULES {
            let named = rule.code.starts_with("no-such-");
            assert_eq!(
                asks_for_a_tool(RuleId::new(rule.code)),
                named,
                "{}",
                rule.code
            );
        }
    }
}
