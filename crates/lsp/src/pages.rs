//! What editors open by its address: the rules' pages, so that the link of a finding works in any
//! of them, and pictures.
//!
//! They are written once into the user's cache, whole or not at all; where that cannot be
//! done a finding has no link and all else goes on.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{LazyLock, Mutex, PoisonError};
use tower_lsp::lsp_types::Url;

/// The address of a rule's page; none where there is no such rule, or no place to write it.
pub(crate) fn address(rule: &str) -> Option<Url> {
    static KNOWN: LazyLock<Mutex<BTreeMap<String, Option<Url>>>> = LazyLock::new(Mutex::default);
    let mut known = KNOWN.lock().unwrap_or_else(PoisonError::into_inner);
    let written = || {
        let page = quillet_ide::rules::page(rule)?;
        kept(&Path::new("rules").join(format!("{rule}.md")), page)
    };
    known.entry(rule.to_owned()).or_insert_with(written).clone()
}

/// Writes a text into the cache, whole or not at all, and gives its address.
pub(crate) fn kept(name: &Path, text: &str) -> Option<Url> {
    let path = cache()?.join(name);
    write_whole(&path, text).ok()?;
    Url::from_file_path(path).ok()
}

/// Where this version keeps what it writes.
fn cache() -> Option<PathBuf> {
    let set = |name| {
        std::env::var_os(name)
            .filter(|value| !value.is_empty())
            .map(PathBuf::from)
    };
    let base = set("XDG_CACHE_HOME")
        .or_else(|| set("LOCALAPPDATA"))
        .or_else(|| set("HOME").map(|home| home.join(".cache")))?;
    let folder = base.join("quillet").join(env!("CARGO_PKG_VERSION"));
    base.is_absolute().then_some(folder)
}

fn write_whole(path: &Path, text: &str) -> std::io::Result<()> {
    if std::fs::read_to_string(path).is_ok_and(|old| old == text) {
        return Ok(());
    }
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder)?;
    }
    let new = path.with_extension(format!("{}.new", std::process::id()));
    std::fs::write(&new, text)?;
    std::fs::rename(&new, path)
}
