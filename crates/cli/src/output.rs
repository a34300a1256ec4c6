//! Where results go: written whole or not at all, and never over what is not ours.

use crate::{files, terminal, whole};
use quillet_export::mark;
use std::path::{Path, PathBuf};
use std::{fs, io, io::Write};

/// What stands for standard output where a file is named.
const STANDARD_OUTPUT: &str = "-";

/// Where a result is to be written.
#[derive(clap::Args)]
pub(crate) struct Output {
    /// Where to write, - for standard output; the ending says the form [default: beside the file, named after it]
    #[arg(short, long, value_name = "OUT")]
    output: Option<PathBuf>,
    /// Write over a file even though it was not written by quillet
    #[arg(long)]
    force: bool,
}

impl Output {
    /// The file to write: as asked, else `NAME` beside the file it is made from.
    pub(crate) fn path(&self, from: &Path, name: &str) -> PathBuf {
        self.output
            .clone()
            .unwrap_or_else(|| from.with_file_name(name))
    }

    /// The sheet to write of a pen: `PEN-sheet.html` beside the file it is made from, or in the
    /// folder that was named; a file that is named for several pens gets the name of each.
    ///
    /// # Errors
    ///
    /// A sentence that says why the folder cannot be made, or that several do not go into one.
    pub(crate) fn path_of(&self, from: &Path, pen: &str, several: bool) -> Result<PathBuf, String> {
        let name = format!("{pen}-sheet.html");
        let Some(named) = &self.output else {
            return Ok(from.with_file_name(name));
        };
        if whole::is_stream(named) || named.as_os_str() == STANDARD_OUTPUT {
            return match several {
                true => Err("several sheets do not go into one stream; say --pen NAME".into()),
                false => Ok(named.clone()),
            };
        }
        let form = ending(named);
        if named.is_dir() || (several && form.is_empty()) {
            fs::create_dir_all(named).map_err(|error| files::cannot(named, &error))?;
            return Ok(named.join(name));
        }
        Ok(match several {
            true => named.with_file_name(format!("{}-{pen}.{form}", stem(named))),
            false => named.clone(),
        })
    }

    /// Whether a file was named.
    pub(crate) fn is_named(&self) -> bool {
        self.output.is_some()
    }

    /// Writes a result and says where.
    ///
    /// # Errors
    ///
    /// A sentence that names the file and why it is not written; what was there is as it was.
    pub(crate) fn write(&self, path: &Path, bytes: &[u8]) -> Result<(), String> {
        self.write_with(path, |out| out.write_all(bytes))
    }

    /// Writes a result that is too long to be held whole, and says where, as [`Output::write`] does.
    ///
    /// # Errors
    ///
    /// As there.
    pub(crate) fn write_with(
        &self,
        path: &Path,
        result: impl FnOnce(&mut dyn Write) -> io::Result<()>,
    ) -> Result<(), String> {
        if path.as_os_str() == STANDARD_OUTPUT {
            let mut bytes = Vec::new();
            result(&mut bytes).map_err(|error| files::cannot(path, &error))?;
            return terminal::bytes(&bytes);
        }
        if whole::is_stream(path) {
            // What is read from it is to be the result alone.
            return files::put_with(path, result);
        }
        if !self.force {
            guard(path)?;
        }
        files::put_with(path, result)?;
        terminal::out(&format!("{} written\n", path.display()))
    }
}

/// The ending of a file's name, in small letters.
pub(crate) fn ending(path: &Path) -> String {
    path.extension()
        .map(|ending| ending.to_string_lossy().to_lowercase())
        .unwrap_or_default()
}

/// What is wrong with an ending (lower case, without its dot) that is none of `forms`.
pub(crate) fn wrong_ending(what: &str, forms: &str, ending: &str) -> String {
    match ending {
        "" => format!("{what} is written as {forms}; the name of its file must end so"),
        _ => format!("{what} is written as {forms}, not .{ending}"),
    }
}

/// What is written of a file is called after it, and after the part where it is of one alone.
pub(crate) fn called(file: &Path, part: Option<&str>) -> String {
    let part = part.map_or_else(String::new, |part| format!("-{part}"));
    format!("{}{part}", stem(file))
}

/// A file's name without its ending.
pub(crate) fn stem(path: &Path) -> String {
    path.file_stem().map_or_else(
        || "pen".to_owned(),
        |stem| stem.to_string_lossy().into_owned(),
    )
}

/// Refuses to write over what was not written here.
fn guard(path: &Path) -> Result<(), String> {
    let ours = fs::File::open(path).and_then(|file| {
        let empty = file.metadata()?.len() == 0;
        Ok(empty || mark::is_ours(file)?)
    });
    match ours {
        Ok(false) => Err(format!(
            "{} is there already and was not written by quillet; name another file, or add --force",
            path.display()
        )),
        Ok(true) => Ok(()),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
        Err(error) => Err(files::cannot(path, &error)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_ours_is_kept() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("barrel.svg");
        let output = |force| Output {
            output: None,
            force,
        };
        output(false)
            .write(&path, format!("<!-- {} -->one", mark::MARK).as_bytes())
            .unwrap();
        output(false).write(&path, b"two").unwrap();
        let kept = output(false).write(&path, b"three").unwrap_err();
        assert!(kept.contains("was not written by quillet"), "{kept}");
        assert_eq!(fs::read(&path).unwrap(), b"two");
        output(true).write(&path, b"three").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"three");
        assert_eq!(
            fs::read_dir(folder.path()).unwrap().count(),
            1,
            "nothing is left beside it"
        );
    }

    #[test]
    fn a_folder_that_is_not_there_is_told_of() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("no").join("barrel.svg");
        let output = Output {
            output: None,
            force: true,
        };
        assert!(
            output
                .write(&path, b"x")
                .unwrap_err()
                .contains("no such file or folder")
        );
    }
}
