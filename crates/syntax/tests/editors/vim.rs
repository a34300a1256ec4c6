//! Vim's and Neovim's syntax.

use crate::{WRITTEN, sets};
use std::collections::BTreeSet;

const NAME: &str = r"[a-z][A-Za-z0-9]*(-[A-Za-z0-9]+)*";
const STARTS: &str = r"(^|[{;])\s*\zs";

/// The whole file.
#[expect(clippy::too_many_lines, reason = "one list")]
pub(crate) fn file() -> String {
    let mut lines = vec![
        format!("\" {WRITTEN}"),
        "if exists('b:current_syntax') | finish | endif".to_owned(),
        "syn case match".to_owned(),
        "syn iskeyword @,48-57,-".to_owned(),
        "syn sync minlines=1".to_owned(),
        String::new(),
        // Vim takes the last that matches at a place, so the general comes first.
        matching("quilletName", NAME, ""),
        matching("quilletOperator", r"\+-|\.\.|[<>]\=?|[-+*/=]", ""),
        matching(
            "quilletNumber",
            &format!(r"<[0-9]+(\.[0-9]+)?({})?>", any(&sets::units())),
            "",
        ),
        matching("quilletNumber", r"<([0-9]+-)?[0-9]+/[0-9]+(in)?>", ""),
        matching("quilletDrill", r"#[0-9]+|<[A-Z]>", ""),
        matching("quilletFit", r"<[A-Z]{1,2}[0-9]+/[a-z]{1,2}[0-9]+>", ""),
        matching(
            "quilletThread",
            r"<M[0-9]+(\.[0-9]+)?(x(Ph)?[0-9]+(\.[0-9]+)?(P[0-9]+(\.[0-9]+)?)?)?(-[0-9A-Za-z]+(/[0-9A-Za-z]+)?)?(-LH)?>",
            "",
        ),
        matching(
            "quilletThread",
            r"(<([0-9]+-)?[0-9]+/[0-9]+|<[0-9]+|#[0-9]+)-[0-9]+UN(C|F|EF|S)?(-[0-9][A-Za-z]+)?(-LH)?>",
            "",
        ),
        matching("quilletWord", &format!("<({})>", any(&sets::tails())), ""),
        matching("quilletShape", &format!("<({})>", any(&sets::shapes())), ""),
        matching(
            "quilletWord",
            &format!("<({})>\\ze\\s+[a-z]", any(&sets::leading())),
            " nextgroup=quilletOperand skipwhite",
        ),
        matching("quilletOperand", NAME, " contained"),
        matching(
            "quilletMeasure",
            &format!(r"<({})>\ze\s*\(", any(&sets::measures())),
            "",
        ),
        matching(
            "quilletConfiguration",
            &format!(r"[(,]\s*\zs({})>", any(&sets::configurations())),
            "",
        ),
        matching("quilletFace", &format!(r"<{NAME}\.{NAME}>"), ""),
        matching(
            "quilletHead",
            &format!("{STARTS}({})>", any(&sets::heads())),
            "",
        ),
        matching(
            "quilletHead",
            &format!(r"{STARTS}from>\ze\s+[a-z]"),
            " nextgroup=quilletOperand skipwhite",
        ),
        matching(
            "quilletHead",
            &format!("{STARTS}want>"),
            " nextgroup=quilletMeasured skipwhite",
        ),
        matching(
            "quilletMeasured",
            &format!("({})>", any(&sets::measures())),
            " contained",
        ),
        matching(
            "quilletHead",
            &format!(r"{STARTS}(limit|accept)>"),
            " nextgroup=quilletRule skipwhite",
        ),
        matching("quilletRule", NAME, " contained"),
        matching(
            "quilletHead",
            &format!(
                r#"{STARTS}({})>\ze\s+{NAME}\s*([={{"]|<(from|like|of)>)"#,
                any(&sets::definers())
            ),
            " nextgroup=quilletDefined skipwhite",
        ),
        matching("quilletDefined", NAME, " contained"),
        matching("quilletHead", r"^\s*dimensions\s+in\s+inches>", ""),
        "syn match quilletString /\"[^\"]*\\(\"\\|$\\)/".to_owned(),
        "syn match quilletComment /--.*$/ contains=@Spell".to_owned(),
        String::new(),
    ];
    for (group, like) in LINKS {
        lines.push(format!("hi def link {group} {like}"));
    }
    lines.push("\nlet b:current_syntax = 'quillet'\n".to_owned());
    lines.join("\n")
}

const LINKS: [(&str, &str); 18] = [
    ("quilletHead", "Statement"),
    ("quilletWord", "Keyword"),
    ("quilletShape", "StorageClass"),
    ("quilletDefined", "Type"),
    ("quilletRule", "PreProc"),
    ("quilletName", "Identifier"),
    ("quilletOperand", "Identifier"),
    ("quilletFace", "Identifier"),
    ("quilletMeasure", "Function"),
    ("quilletMeasured", "Function"),
    ("quilletConfiguration", "Constant"),
    ("quilletNumber", "Number"),
    ("quilletDrill", "Number"),
    ("quilletThread", "Constant"),
    ("quilletFit", "Constant"),
    ("quilletOperator", "Operator"),
    ("quilletString", "String"),
    ("quilletComment", "Comment"),
];

/// A match in Vim's "very magic" expressions; `/` bounds them.
fn matching(group: &str, expression: &str, options: &str) -> String {
    let expression = expression.replace('/', r"\/");
    format!(r"syn match {group} /\v{expression}/{options}")
}

fn any(words: &BTreeSet<&'static str>) -> String {
    let words: Vec<_> = words.iter().rev().copied().collect();
    words.join("|")
}
