//! The grammar as a list of rules, for the editors that read Oniguruma's expressions.
//!
//! Words are read by place, so a rule takes a word together with what stands around it;
//! the first rule that matches leftmost wins.

use crate::sets;
use std::collections::BTreeSet;

/// What is matched, and the scopes of its groups from the first on.
pub(crate) struct Rule {
    pub(crate) matches: String,
    pub(crate) scopes: Vec<&'static str>,
}

const KEYWORD: &str = "keyword.control.quillet";
const WITHIN: &str = "keyword.other.quillet";
const DEFINED: &str = "entity.name.type.quillet";
const NAME: &str = "variable.other.quillet";
const MEASURE: &str = "support.function.quillet";

/// A name as the lexer reads it.
const NAMED: &str = "[a-z][A-Za-z0-9]*(?:-[A-Za-z0-9]+)*";
/// The start of a statement.
const STARTS: &str = r"(?:^|(?<=[{;]))\s*";
/// No name runs on here.
const ENDS: &str = "(?![A-Za-z0-9_-])";
/// No name, and no face, comes up to here.
const BEGINS: &str = "(?<![A-Za-z0-9_.-])";
/// A class of tolerance and a left hand, after a thread's designation.
const CLASS: &str =
    "(?:-[0-9][A-Za-z]+(?:[0-9][A-Za-z]+)?(?:/[0-9][A-Za-z]+(?:[0-9][A-Za-z]+)?)?)?(?:-LH)?";

/// Every rule, the first to win first.
#[expect(clippy::too_many_lines, reason = "one list")]
pub(crate) fn rules() -> Vec<Rule> {
    let heads = any(&sets::heads());
    let definers = any(&sets::definers());
    let measures = any(&sets::measures());
    let leading = any(&sets::leading());
    let metric =
        r"M[0-9]+(?:\.[0-9]+)?(?:xPh[0-9]+(?:\.[0-9]+)?P[0-9]+(?:\.[0-9]+)?|x[0-9]+(?:\.[0-9]+)?)?";
    let inch = "(?:(?:[0-9]+-)?[0-9]+/[0-9]+|#?[0-9]+)-[0-9]+UN(?:EF|C|F|S)?";
    let number = r"[0-9]+-[0-9]+/[0-9]+|[0-9]+/[0-9]+(?=in)|[0-9]+(?:\.[0-9]+)?";
    let units = any(&sets::units());
    vec![
        rule(r"(--.*)$", &["comment.line.double-dash.quillet"]),
        rule("(\"[^\"]*(?:\"|$))", &["string.quoted.double.quillet"]),
        rule(
            format!("{STARTS}(dimensions)\\s+(in)\\s+(inches){ENDS}"),
            &[KEYWORD, WITHIN, WITHIN],
        ),
        rule(
            format!(r#"{STARTS}({definers})\s+({NAMED})(?=\s*(?:[={{"]|(?:from|like|of){ENDS}))"#),
            &[KEYWORD, DEFINED],
        ),
        rule(
            format!(r"{STARTS}(limit|accept)\s+({NAMED})"),
            &[KEYWORD, "entity.other.attribute-name.quillet"],
        ),
        rule(
            format!(r"{STARTS}(want)\s+({measures}){ENDS}"),
            &[KEYWORD, MEASURE],
        ),
        rule(format!(r"{STARTS}(from)\s+({NAMED})"), &[KEYWORD, NAME]),
        rule(format!("{STARTS}({heads}){ENDS}"), &[KEYWORD]),
        rule(
            format!(r"{BEGINS}(as)\s+({NAMED})"),
            &[WITHIN, "entity.name.label.quillet"],
        ),
        rule(
            format!(r"({NAMED})(\.)(?!\.)({NAMED})"),
            &[
                NAME,
                "punctuation.accessor.quillet",
                "variable.other.member.quillet",
            ],
        ),
        rule(format!(r"{BEGINS}({measures})(?=\s*\()"), &[MEASURE]),
        rule(
            format!(r"(?<=[(,])\s*({}){ENDS}", any(&sets::configurations())),
            &["constant.language.quillet"],
        ),
        rule(
            format!(r"{BEGINS}({leading})\s+({NAMED})(?!\s*[.(]|[A-Za-z0-9-])"),
            &[WITHIN, NAME],
        ),
        rule(
            format!("{BEGINS}({}){ENDS}", any(&sets::shapes())),
            &["storage.modifier.quillet"],
        ),
        rule(
            format!("{BEGINS}({}){ENDS}", any(&sets::tails())),
            &[WITHIN],
        ),
        rule(
            format!("(?<![A-Za-z0-9_-])((?:{metric}|{inch}){CLASS}){ENDS}"),
            &["constant.other.thread.quillet"],
        ),
        rule(
            format!("{BEGINS}([A-Z]{{1,2}}[0-9]+/[a-z]{{1,2}}[0-9]+){ENDS}"),
            &["constant.other.fit.quillet"],
        ),
        rule(
            format!("(#[0-9]+|(?<![A-Za-z0-9_])[A-Z]{ENDS})"),
            &["constant.numeric.drill.quillet"],
        ),
        rule(
            format!("(?<![A-Za-z0-9_])({number})({units})?(?![A-Za-z0-9_])"),
            &["constant.numeric.quillet", "keyword.other.unit.quillet"],
        ),
        rule(format!("({NAMED})"), &[NAME]),
        rule(r"(\+-|\.\.|<=|>=|[-+*/<>=])", &["keyword.operator.quillet"]),
    ]
}

fn rule(matches: impl Into<String>, scopes: &[&'static str]) -> Rule {
    Rule {
        matches: matches.into(),
        scopes: scopes.to_vec(),
    }
}

/// One of the words; the longer first, so that none is cut short.
fn any(words: &BTreeSet<&'static str>) -> String {
    let words: Vec<_> = words.iter().rev().copied().collect();
    format!("(?:{})", words.join("|"))
}
