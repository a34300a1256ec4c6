//! Files that are written: whole or not at all, and as they were but for their text.

use crate::temp_file::{self, TempFile};
use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, Read, Seek, Write};
use std::path::{Path, PathBuf};

/// Writes a file, there already or not. What is there keeps its mode and its owner; of a link it
/// is the file behind it; a file of several names keeps them all. Into a device or a pipe the
/// bytes are written, and it stays what it is.
///
/// # Errors
///
/// Where it cannot be written; what was there is as it was.
pub(crate) fn write(
    path: &Path,
    content: impl FnOnce(&mut dyn Write) -> io::Result<()>,
) -> io::Result<()> {
    if is_stream(path) {
        // As it is named: what a shell hands over lies behind no path of its own.
        return pour(path, content);
    }
    let path = behind_links(path);
    let about = match fs::metadata(&path) {
        Ok(about) => about,
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            let mut scrap = TempFile::in_folder(folder_of(&path), false)?;
            scrap.fill(content)?;
            return scrap.replace(&path);
        }
        Err(error) => return Err(error),
    };
    if about.is_dir() {
        return Err(io::ErrorKind::IsADirectory.into());
    }
    if about.permissions().readonly() {
        return Err(io::ErrorKind::PermissionDenied.into());
    }
    let mut scrap = TempFile::in_folder(folder_of(&path), true)?;
    let alike = keeps(scrap.file(), &about);
    scrap.fill(content)?;
    // Now there is room for it, and all of it lies beside should the rest fail.
    match alike {
        true => scrap.replace(&path),
        false => temp_file::undisturbed(|| in_place(&path, scrap.path())),
    }
}

/// Whether a path is that of a device or a pipe, which holds nothing to keep.
pub(crate) fn is_stream(path: &Path) -> bool {
    fs::metadata(path).is_ok_and(|about| !about.is_file() && !about.is_dir())
}

/// Where a path leads, there already or not.
fn behind_links(path: &Path) -> PathBuf {
    if let Ok(real) = fs::canonicalize(path) {
        return real;
    }
    let mut path = path.to_owned();
    // As many as the system follows.
    for _ in 0..40 {
        match fs::read_link(&path) {
            Ok(next) => path = folder_of(&path).join(next),
            Err(_) => break,
        }
    }
    path
}

fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// Gives a new file the owner and mode of another; whether it can stand for it, which it cannot
/// where the other has further names or an owner that cannot be given.
#[cfg(unix)]
fn keeps(file: &File, about: &Metadata) -> bool {
    use rustix::fs::{Gid, Uid};
    use std::os::unix::fs::MetadataExt;
    let owned = || match file.metadata() {
        Ok(new) if (new.uid(), new.gid()) == (about.uid(), about.gid()) => true,
        _ => {
            let (owner, group) = (Uid::from_raw(about.uid()), Gid::from_raw(about.gid()));
            rustix::fs::fchown(file, Some(owner), Some(group)).is_ok()
        }
    };
    // In this order: a change of owner takes some modes away.
    about.nlink() == 1 && owned() && file.set_permissions(about.permissions()).is_ok()
}

#[cfg(not(unix))]
fn keeps(file: &File, about: &Metadata) -> bool {
    file.set_permissions(about.permissions()).is_ok()
}

/// Writes over a file what another holds; where that fails it is given back what it held.
fn in_place(path: &Path, new: &Path) -> io::Result<()> {
    let before = fs::read(path)?;
    let mut file = OpenOptions::new().write(true).open(path)?;
    let mut over = |mut from: &mut dyn Read| -> io::Result<()> {
        file.rewind()?;
        let length = io::copy(&mut from, &mut file)?;
        file.set_len(length)?;
        file.sync_all()
    };
    over(&mut File::open(new)?).inspect_err(|_| drop(over(&mut before.as_slice())))
}

/// Writes into what is no file.
fn pour(path: &Path, content: impl FnOnce(&mut dyn Write) -> io::Result<()>) -> io::Result<()> {
    if is_disk(&fs::metadata(path)?) {
        return Err(io::Error::other("a disk, not a file"));
    }
    match content(&mut OpenOptions::new().write(true).open(path)?) {
        // Its reader had enough, as `| head` does.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        poured => poured,
    }
}

#[cfg(unix)]
fn is_disk(about: &Metadata) -> bool {
    use std::os::unix::fs::FileTypeExt;
    about.file_type().is_block_device()
}

#[cfg(not(unix))]
fn is_disk(_: &Metadata) -> bool {
    false
}

#[cfg(all(test, unix))]
mod tests {
    use super::*;
    use std::os::unix::fs::{MetadataExt, PermissionsExt, symlink};

    fn put(path: &Path, bytes: &[u8]) -> io::Result<()> {
        write(path, |out| out.write_all(bytes))
    }

    #[test]
    fn a_file_keeps_its_mode_and_all_its_names() {
        let folder = tempfile::tempdir().unwrap();
        let (one, other) = (folder.path().join("one"), folder.path().join("other"));
        fs::write(&one, "a long text before").unwrap();
        fs::set_permissions(&one, fs::Permissions::from_mode(0o640)).unwrap();
        let number = |path: &Path| fs::metadata(path).unwrap().ino();
        let first = number(&one);
        put(&one, b"alone").unwrap();
        assert_ne!(number(&one), first, "a file of one name is replaced");
        fs::hard_link(&one, &other).unwrap();
        put(&other, b"both").unwrap();
        assert_eq!(number(&one), number(&other));
        assert_eq!(fs::read(&one).unwrap(), b"both");
        assert_eq!(fs::metadata(&one).unwrap().mode() & 0o777, 0o640);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 2);
    }

    #[test]
    fn a_link_stays_a_link_whether_or_not_it_leads_anywhere() {
        let folder = tempfile::tempdir().unwrap();
        let (link, there) = (folder.path().join("link"), folder.path().join("there"));
        symlink("there", &link).unwrap();
        for text in ["new", "newer"] {
            put(&link, text.as_bytes()).unwrap();
            assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
            assert_eq!(fs::read_to_string(&there).unwrap(), text);
        }
    }

    #[test]
    fn what_breaks_off_leaves_what_was_there_and_nothing_beside_it() {
        let folder = tempfile::tempdir().unwrap();
        let (one, new) = (folder.path().join("one"), folder.path().join("new"));
        fs::write(&one, "before").unwrap();
        for path in [&one, &new] {
            let broken = write(path, |out| {
                out.write_all(&[b'x'; 1 << 20])?;
                Err(io::ErrorKind::StorageFull.into())
            });
            assert_eq!(broken.unwrap_err().kind(), io::ErrorKind::StorageFull);
        }
        assert_eq!(fs::read_to_string(&one).unwrap(), "before");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn a_device_stays_a_device() {
        let null = Path::new("/dev/null");
        let before = fs::metadata(null).unwrap();
        put(null, b"nothing").unwrap();
        let after = fs::metadata(null).unwrap();
        assert!(!after.is_file());
        assert_eq!(after.ino(), before.ino());
    }
}
