//! The files of the page.

use quillet_ide::{Settings, Snapshot, Units, Workspace, is_design};
use std::path::Path;

/// So long may the text of a file be, in bytes.
const LONGEST: usize = 16 << 20;
/// So long may its name be before its ending.
const LONGEST_NAME: usize = 51;

/// The files of the page; all are open, none lies on a disk.
#[derive(Debug, Default)]
pub(crate) struct Files {
    workspace: Workspace,
}

impl Files {
    /// A file comes, or its text is another.
    ///
    /// # Errors
    ///
    /// Where that is no name of a file here, or its text is too long.
    pub(crate) fn set(&mut self, name: &str, text: &str) -> Result<(), String> {
        if !is_name(name) {
            return Err(format!(
                "{name:?} is no name for a file here: letters, digits, dots and hyphens, up to {LONGEST_NAME}, then .quillet"
            ));
        }
        if text.len() > LONGEST {
            return Err(format!("{name} is over 16 MB"));
        }
        let path = Path::new(name);
        self.workspace.set(path, text.into());
        self.workspace.add_member(path);
        Ok(())
    }

    /// A file goes.
    pub(crate) fn drop(&mut self, name: &str) {
        let path = Path::new(name);
        self.workspace.unset(path);
        self.workspace.remove_member(path);
    }

    /// The unit that sizes are told in: `mm`, `in`, `both`, or that of the file.
    pub(crate) fn tell_in(&mut self, units: Option<&str>) {
        let units = match units {
            Some("mm") => Units::Millimetres,
            Some("in") => Units::Inches,
            Some("both") => Units::Both,
            _ => Units::File,
        };
        self.workspace.set_settings(Settings {
            units,
            ..Settings::default()
        });
    }

    /// Everything as it is now.
    pub(crate) fn now(&self) -> Snapshot {
        self.workspace.snapshot()
    }
}

fn is_name(name: &str) -> bool {
    let known = |it: u8| it.is_ascii_alphanumeric() || b"._-".contains(&it);
    let stem = name.strip_suffix(".quillet").unwrap_or_default();
    is_design(Path::new(name))
        && stem.len() <= LONGEST_NAME
        && stem
            .bytes()
            .next()
            .is_some_and(|it| it.is_ascii_alphanumeric())
        && stem.bytes().all(known)
}
