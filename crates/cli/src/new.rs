//! `quillet new`: a pen to begin from, or the file by which a forge checks every change.

mod ci;

use crate::{files, terminal};
use quillet_model::Texts;
use quillet_pen::Analysis;
use quillet_syntax::Severity;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What `quillet new` may be asked.
#[derive(clap::Args)]
pub(crate) struct NewArgs {
    /// The pen's name, as curlew or little-owl; NAME.quillet is written
    #[arg(required_unless_present = "ci")]
    name: Option<String>,
    /// Write, in place of a pen, the file by which a forge checks and compares every change
    #[arg(long, value_enum, value_name = "FORGE", conflicts_with_all = ["name", "kind"])]
    ci: Option<ci::Forge>,
    /// What it is to be
    #[arg(long, value_enum, default_value_t)]
    kind: Kind,
    /// The folder to write in
    #[arg(long, value_name = "FOLDER", default_value = ".")]
    folder: PathBuf,
}

/// A kind of pen to begin from.
#[derive(Clone, Copy, Debug, Default, clap::ValueEnum)]
enum Kind {
    /// Closed ends, nib unit and converter
    #[default]
    Fountain,
    /// A bought refill
    Rollerball,
    /// Short; the barrel holds the ink
    Pocket,
}

impl Kind {
    /// The file, and the pen's name and title in it.
    fn text(self) -> (&'static str, &'static str, &'static str) {
        match self {
            Kind::Fountain => (
                include_str!("starting/fountain.quillet"),
                "my-pen",
                "My pen",
            ),
            Kind::Rollerball => (
                include_str!("starting/rollerball.quillet"),
                "my-rollerball",
                "My rollerball",
            ),
            Kind::Pocket => (
                include_str!("starting/pocket.quillet"),
                "my-pocket-pen",
                "My pocket pen",
            ),
        }
    }

    fn named(self, name: &str) -> String {
        let (text, stands, title) = self.text();
        text.replace(
            &format!("pen {stands} \"{title}\""),
            &format!("pen {name} \"{}\"", titled(name)),
        )
    }
}

/// Writes a starting pen; 0, or 2 with the reason where there is none.
pub(crate) fn run(args: &NewArgs) -> ExitCode {
    terminal::ended(write(args))
}

fn write(args: &NewArgs) -> Result<(), String> {
    if let Some(forge) = args.ci {
        return ci::write(forge, &args.folder);
    }
    let name = args.name.as_deref().unwrap_or_default();
    let name = name.strip_suffix(".quillet").unwrap_or(name);
    let text = args.kind.named(name);
    if !files::is_plain(name) || !is_sound(&text) {
        return Err(format!(
            "{name:?} cannot name this pen; use small letters, figures and hyphens, and no name of a part, as little-owl"
        ));
    }
    let path = args.folder.join(format!("{name}.quillet"));
    files::put_new(&path, text.as_bytes())?;
    terminal::out(&format!(
        "{0} written; next: quillet check {0}\n",
        path.display()
    ))
}

/// Whether the file resolves without an error under this name.
fn is_sound(text: &str) -> bool {
    let path = Path::new("new.quillet");
    let analysis = Analysis::of(path, &Texts::default().with(path, text), None);
    analysis.is_ok_and(|analysis| {
        analysis
            .design
            .findings
            .iter()
            .all(|finding| finding.severity != Severity::Error)
    })
}

/// `little-owl` as `Little owl`.
fn titled(name: &str) -> String {
    let spaced = name.replace('-', " ");
    let mut letters = spaced.chars();
    let first = letters.next().map(|it| it.to_ascii_uppercase());
    first.into_iter().chain(letters).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::ValueEnum;

    #[test]
    fn every_starting_pen_checks_clean_and_is_in_form() {
        for kind in Kind::value_variants() {
            let text = kind.named("little-owl");
            assert!(text.contains("pen little-owl \"Little owl\""), "{kind:?}");
            let path = Path::new("new.quillet");
            let source = Texts::default().with(path, &text);
            let analysis = Analysis::of(path, &source, None).unwrap();
            let found = &analysis.examined().findings;
            let findings: Vec<_> = found.iter().map(|it| (it.rule, &it.message)).collect();
            assert!(findings.is_empty(), "{kind:?}: {findings:#?}");
            assert_eq!(quillet_syntax::format(&text), text, "{kind:?}");
        }
    }

    #[test]
    fn names_that_cannot_stand_are_refused() {
        for name in ["", "My pen", "2b", "for", "cap", "../owl"] {
            let fine = files::is_plain(name) && is_sound(&Kind::Fountain.named(name));
            assert!(!fine, "{name:?}");
        }
    }

    #[test]
    fn a_design_is_never_written_over() {
        let folder = tempfile::tempdir().unwrap();
        let args = NewArgs {
            name: Some("owl".into()),
            ci: None,
            kind: Kind::Pocket,
            folder: folder.path().into(),
        };
        write(&args).unwrap();
        assert!(write(&args).unwrap_err().contains("there already"));
    }
}
