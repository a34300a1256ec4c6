//! Questions asked at `|` of small texts; one helper, one string each.

use quillet_ide::{Analysis, Cursor, Snapshot, Workspace};
use quillet_syntax::{Span, edited};
use std::path::{Path, PathBuf};
use std::sync::Arc;

const SHARED: &str = "\
material reed \"Reed\" {
  kind acrylic
}
thread closing = M13x0.8 starts 3
bought unit from point to heel {
  length 40
  outside dia 8
}
";

pub(crate) const PEN: &str = "\
use \"shared.quillet\"

let grip = 11.4

-- the cap
part cap from mouth to crown {
  blank of reed rod 18
  length 64
  outside {
    at 0     dia 15.2
    at 40    dia 15.6
    at crown dia 14
  }
  from mouth {
    bore 13.1 to 2.5
    thread closing inside to 7.5 at 2.5
    drill 12.2 to 54
  }
}
";

/// The part that the cap of [`PEN`] is closed onto.
pub(crate) const BARREL: &str = "\
part barrel from mouth to tail {
  blank of reed rod 18
  length 40
  outside {
    at 8    dia 15 as shoulder
    at tail dia 15
  }
  from mouth {
    tenon for 8
    relief 12 for 1.5
    thread closing outside for 4 at 1.5
  }
}
";

/// The texts of two files, one using the other, and a place in the second.
pub(crate) struct Asked {
    pub(crate) snapshot: Snapshot,
    pub(crate) analysis: Arc<Analysis>,
    pub(crate) offset: usize,
}

pub(crate) fn path() -> PathBuf {
    PathBuf::from("/bench/pen.quillet")
}

/// A text with `|` at the place asked about.
pub(crate) fn at(text: &str) -> Asked {
    let offset = text.find('|').unwrap_or(0);
    with_shared(&text.replacen('|', "", 1), offset)
}

/// The pen with `after` (which holds the `|`) written after `before`.
pub(crate) fn in_pen(before: &str, after: &str) -> Asked {
    let place = PEN.find(before).unwrap() + before.len();
    let text = format!("{}{after}{}", &PEN[..place], &PEN[place..]);
    at(&text)
}

/// The pen, asked at the start of `needle`.
pub(crate) fn at_pen(needle: &str) -> Asked {
    with_shared(PEN, PEN.find(needle).unwrap())
}

pub(crate) fn with_shared(text: &str, offset: usize) -> Asked {
    with_settings(text, offset, quillet_ide::Settings::default())
}

fn with_settings(text: &str, offset: usize, settings: quillet_ide::Settings) -> Asked {
    let mut workspace = Workspace::default();
    workspace.set_settings(settings);
    workspace.set(Path::new("/bench/shared.quillet"), SHARED.into());
    workspace.set(&path(), text.into());
    let snapshot = workspace.snapshot();
    let analysis = snapshot.analysis(&path(), &|| false).unwrap();
    Asked {
        snapshot,
        analysis,
        offset,
    }
}

impl Asked {
    pub(crate) fn cursor(&self) -> Cursor<'_> {
        Cursor::at(&self.analysis, self.offset).unwrap()
    }

    /// The same, of a maker who chose these units.
    pub(crate) fn rendered_in(self, units: quillet_ide::Units) -> Self {
        let settings = quillet_ide::Settings {
            units,
            ..quillet_ide::Settings::default()
        };
        with_settings(&self.cursor().file.text, self.offset, settings)
    }

    pub(crate) fn text(&self, span: Span) -> &str {
        self.analysis.design.text(span)
    }

    pub(crate) fn choices(&self) -> Vec<quillet_ide::Choice> {
        let completion = quillet_ide::complete(&self.snapshot, self.cursor());
        completion
            .map(|completion| completion.choices)
            .unwrap_or_default()
    }

    pub(crate) fn labels(&self) -> Vec<String> {
        let choices = self.choices().into_iter();
        choices.map(|choice| choice.label).collect()
    }

    pub(crate) fn hover(&self) -> String {
        quillet_ide::hover(&self.snapshot, self.cursor())
            .map(|hover| hover.text)
            .unwrap_or_default()
    }

    /// The text after the action of this title, which must be there.
    pub(crate) fn after(&self, title: &str) -> String {
        let place = self.cursor().place();
        let actions =
            quillet_ide::actions(&self.snapshot, &self.analysis, place, &|| false).unwrap();
        let titles: Vec<_> = actions.iter().map(|action| action.title.clone()).collect();
        let action = actions
            .into_iter()
            .find(|action| action.title.starts_with(title));
        let action = action.unwrap_or_else(|| panic!("no {title:?} in {titles:?}"));
        edited(&self.cursor().file.text, &action.edits).unwrap()
    }
}
