//! `quillet manual`: the language, every rule and the trade's tables as one page.

mod pictures;

use crate::output::Output;
use crate::terminal;
use pictures::Drawn;
use quillet_check::RULES;
use quillet_export::book::{self, Chapter, Volume};
use quillet_export::report;
use quillet_standards::material;
use std::path::Path;
use std::process::ExitCode;

const LANGUAGE: &str = include_str!("../manual/language.md");

/// What `quillet manual` may be asked.
#[derive(clap::Args)]
pub(crate) struct ManualArgs {
    #[command(flatten)]
    output: Output,
}

/// Writes the page; 0, or 2 with the reason where it is not written.
pub(crate) fn run(args: &ManualArgs) -> ExitCode {
    let path = args.output.path(Path::new("manual"), "manual.html");
    terminal::ended(args.output.write(&path, page().as_bytes()))
}

fn page() -> String {
    let language = [
        ("language", LANGUAGE),
        ("statements", include_str!("../manual/statements.md")),
    ];
    let rules = RULES.iter().map(|it| (it.code, it.page));
    let materials = materials();
    let volumes = [
        volume("The language", true, language),
        volume("The rules", false, rules),
        volume("Tables", true, [("materials", materials.as_str())]),
    ];
    let drawn = Drawn::of(LANGUAGE);
    book::manual("Quillet", &volumes, &mut |wanted| drawn.svg(&wanted))
}

fn volume<'t>(
    title: &'t str,
    in_detail: bool,
    chapters: impl IntoIterator<Item = (&'t str, &'t str)>,
) -> Volume<'t> {
    let chapters = chapters.into_iter();
    Volume {
        title,
        in_detail,
        chapters: chapters
            .map(|(stem, text)| Chapter { stem, text })
            .collect(),
    }
}

/// What is known of every built-in kind of material.
fn materials() -> String {
    let each = material::all().map(|kind| {
        let page = report::material(kind).page.text(true);
        format!(
            "\n## {}\n\n```text\n{}\n```\n",
            kind.title(),
            page.trim_end()
        )
    });
    format!("# Materials\n{}", each.collect::<String>())
}
