//! Sublime Text's syntax.

use crate::WRITTEN;
use crate::rule::{Rule, rules};
use std::fmt::Write;

/// The whole file.
pub(crate) fn file() -> String {
    let mut file = format!(
        "%YAML 1.2\n---\n# {WRITTEN}\nname: Quillet\nscope: source.quillet\nversion: 2\nfile_extensions:\n  - quillet\ncontexts:\n  main:\n"
    );
    for rule in rules() {
        write(&mut file, &rule).unwrap();
    }
    file
}

fn write(file: &mut String, rule: &Rule) -> std::fmt::Result {
    // In a single-quoted scalar only the quote itself is doubled.
    writeln!(file, "    - match: '{}'", rule.matches.replace('\'', "''"))?;
    writeln!(file, "      captures:")?;
    for (scope, group) in rule.scopes.iter().zip(1..) {
        writeln!(file, "        {group}: {scope}")?;
    }
    Ok(())
}
