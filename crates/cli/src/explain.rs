//! `quillet explain`: a rule's page, or the list of rules.

use crate::terminal;
use quillet_check::{RULES, rule};
use std::process::ExitCode;

/// What `quillet explain` may be asked.
#[derive(clap::Args)]
pub(crate) struct ExplainArgs {
    /// The rule; all are listed where none is named
    rule: Option<String>,
}

/// Prints; 0, or 2 where no rule goes by the name.
pub(crate) fn run(args: &ExplainArgs) -> ExitCode {
    let text = match &args.rule {
        None => list(),
        Some(name) => match rule(name) {
            Some(rule) => rule.page.to_owned(),
            None => {
                let near = quillet_syntax::nearest(name, RULES.iter().map(|rule| rule.code));
                let or = near.map_or_else(String::new, |near| format!("; did you mean {near}?"));
                terminal::aside(format!("no rule is called {name}{or}"));
                return ExitCode::from(2);
            }
        },
    };
    terminal::ended(terminal::out(&text))
}

fn list() -> String {
    let widest = RULES
        .iter()
        .map(|rule| rule.code.len())
        .max()
        .unwrap_or_default();
    let line = |rule: &&quillet_check::Rule| {
        let summary = rule.summary().replace('\n', " ");
        format!(
            "{:widest$}  {:7}  {summary}\n",
            rule.code,
            rule.severity.word()
        )
    };
    RULES.iter().map(line).collect()
}
