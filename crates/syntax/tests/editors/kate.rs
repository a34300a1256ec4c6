//! Kate's syntax definition.

use crate::{WRITTEN, sets};
use std::collections::BTreeSet;
use std::fmt::Write;

const NAME: &str = "[a-z][A-Za-z0-9]*(?:-[A-Za-z0-9]+)*";
const NUMBER: &str = r"[0-9]+-[0-9]+/[0-9]+|[0-9]+/[0-9]+(?=in)|[0-9]+(?:\.[0-9]+)?";
const THREAD: &str = r"(?:\bM[0-9]+(?:\.[0-9]+)?(?:x(?:Ph)?[0-9]+(?:\.[0-9]+)?(?:P[0-9]+(?:\.[0-9]+)?)?)?|(?:\b(?:[0-9]+-)?[0-9]+/[0-9]+|#?[0-9]+)-[0-9]+UN(?:EF|C|F|S)?)(?:-[0-9][A-Za-z]+(?:/[0-9][A-Za-z]+)?)?(?:-LH)?\b";

/// The whole file.
pub(crate) fn file() -> String {
    let mut file = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!DOCTYPE language>\n<!-- {WRITTEN} -->\n<language name=\"Quillet\" version=\"1\" kateversion=\"5.79\" section=\"Other\" extensions=\"*.quillet\" mimetype=\"\" license=\"MIT\">\n  <highlighting>\n"
    );
    for (name, words) in [
        ("heads", sets::heads()),
        ("tails", sets::tails()),
        ("shapes", sets::shapes()),
        ("measures", sets::measures()),
        ("configurations", sets::configurations()),
    ] {
        list(&mut file, name, &words).unwrap();
    }
    file += "    <contexts>\n";
    context(&mut file, "Statement", "#stay", &statement());
    context(&mut file, "Within", "#pop", &within());
    context(&mut file, "Defines", "#pop", &one("Defined", "#pop!Within"));
    context(&mut file, "Ruled", "#pop", &one("Rule", "#pop!Within"));
    context(&mut file, "Names", "#pop", &one("Name", "#pop"));
    context(&mut file, "Comment", "#pop", &[]);
    file += "    </contexts>\n    <itemDatas>\n";
    for (name, style) in STYLES {
        writeln!(
            file,
            "      <itemData name=\"{name}\" defStyleNum=\"{style}\"/>"
        )
        .unwrap();
    }
    file + "    </itemDatas>\n  </highlighting>\n  <general>\n    <comments>\n      <comment name=\"singleLine\" start=\"--\"/>\n    </comments>\n    <keywords casesensitive=\"true\" weakDeliminator=\"-\"/>\n  </general>\n</language>\n"
}

const STYLES: [(&str, &str); 12] = [
    ("Normal", "dsNormal"),
    ("Comment", "dsComment"),
    ("Head", "dsControlFlow"),
    ("Word", "dsKeyword"),
    ("Shape", "dsAttribute"),
    ("Defined", "dsDataType"),
    ("Rule", "dsAnnotation"),
    ("Name", "dsVariable"),
    ("Measure", "dsFunction"),
    ("Constant", "dsConstant"),
    ("Number", "dsDecVal"),
    ("String", "dsString"),
];

/// At the start of a statement.
fn statement() -> Vec<String> {
    let definers = any(&sets::definers());
    let defines = format!(r#"(?:{definers})(?=\s+{NAME}\s*(?:[={{"]|(?:from|like|of)\b))"#);
    let mut rules = common();
    rules.extend([
        "<DetectSpaces/>".to_owned(),
        expression("Head", r"dimensions\s+in\s+inches\b", "#stay"),
        expression("Head", &defines, "Defines"),
        expression("Head", r"(?:limit|accept)(?=\s)", "Ruled"),
        expression("Head", r"from(?=\s+[a-z])", "Names"),
        keyword("Head", "heads", "Within"),
        character('{', "#stay", "beginRegion"),
        character('}', "#stay", "endRegion"),
        "<RegExpr String=\"\\S\" lookAhead=\"true\" context=\"Within\"/>".to_owned(),
    ]);
    rules
}

/// After the first word of a statement.
fn within() -> Vec<String> {
    let leading = any(&sets::leading());
    let measures = any(&sets::measures());
    let configurations = any(&sets::configurations());
    let numbers = format!(
        r"(?:#[0-9]+|\b(?:{NUMBER})(?:{})?|\b[A-Z])\b",
        any(&sets::units())
    );
    let mut rules = common();
    rules.extend([
        character('{', "#pop", "beginRegion"),
        character('}', "#pop", "endRegion"),
        "<DetectChar attribute=\"Normal\" char=\";\" context=\"#pop\"/>".to_owned(),
        expression("Constant", THREAD, "#stay"),
        expression(
            "Constant",
            r"\b[A-Z]{1,2}[0-9]+/[a-z]{1,2}[0-9]+\b",
            "#stay",
        ),
        expression("Number", &numbers, "#stay"),
        expression("Name", &format!(r"\b{NAME}\.{NAME}"), "#stay"),
        expression("Measure", &format!(r"\b(?:{measures})(?=\s*\()"), "#stay"),
        expression(
            "Constant",
            &format!(r"\b(?:{configurations})(?=\s*[,)])"),
            "#stay",
        ),
        expression(
            "Word",
            &format!(r"\b(?:{leading})(?=\s+{NAME}(?!\s*[.(]|[A-Za-z0-9-]))"),
            "Names",
        ),
        keyword("Shape", "shapes", "#stay"),
        keyword("Word", "tails", "#stay"),
        keyword("Measure", "measures", "#stay"),
        expression("Name", NAME, "#stay"),
    ]);
    rules
}

/// A name, and where to go after it.
fn one(attribute: &str, then: &str) -> Vec<String> {
    vec![
        "<DetectSpaces/>".to_owned(),
        expression(attribute, NAME, then),
    ]
}

fn common() -> Vec<String> {
    vec![
        "<Detect2Chars attribute=\"Comment\" char=\"-\" char1=\"-\" context=\"Comment\"/>"
            .to_owned(),
        expression("String", r#""[^"]*(?:"|$)"#, "#stay"),
    ]
}

fn context(file: &mut String, name: &str, line_end: &str, rules: &[String]) {
    let attribute = if name == "Comment" { name } else { "Normal" };
    writeln!(
        file,
        "      <context name=\"{name}\" attribute=\"{attribute}\" lineEndContext=\"{line_end}\">"
    )
    .unwrap();
    for rule in rules {
        writeln!(file, "        {rule}").unwrap();
    }
    *file += "      </context>\n";
}

fn character(character: char, context: &str, region: &str) -> String {
    format!(
        "<DetectChar attribute=\"Normal\" char=\"{character}\" context=\"{context}\" {region}=\"block\"/>"
    )
}

fn keyword(attribute: &str, list: &str, context: &str) -> String {
    format!("<keyword attribute=\"{attribute}\" String=\"{list}\" context=\"{context}\"/>")
}

fn expression(attribute: &str, expression: &str, context: &str) -> String {
    let expression = expression
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('"', "&quot;");
    format!("<RegExpr attribute=\"{attribute}\" String=\"{expression}\" context=\"{context}\"/>")
}

fn list(file: &mut String, name: &str, words: &BTreeSet<&'static str>) -> std::fmt::Result {
    writeln!(file, "    <list name=\"{name}\">")?;
    for word in words {
        writeln!(file, "      <item>{word}</item>")?;
    }
    writeln!(file, "    </list>")
}

fn any(words: &BTreeSet<&'static str>) -> String {
    let words: Vec<_> = words.iter().rev().copied().collect();
    words.join("|")
}
