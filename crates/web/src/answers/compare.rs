//! What a file does beside what it was.

use crate::files::Files;
use crate::opened::name_of;
use quillet_ide::Past;
use std::collections::BTreeMap;
use std::path::Path;

/// A file beside what it was when its texts were those of `old`: as `compare --format json`, and as a
/// page with pictures.
///
/// # Errors
///
/// Where one of the files cannot be read.
pub(super) fn compare(
    files: &Files,
    file: &str,
    old: &BTreeMap<String, String>,
) -> Result<String, String> {
    let mut was = Files::default();
    for (name, text) in old {
        was.set(name, text)?;
    }
    let name = Box::new(|it: &quillet_model::SourceFile| name_of(&it.path));
    let past = Past::of("kept", Box::new(was.now()), name);
    let found = quillet_ide::compared(&files.now(), Path::new(file), &past);
    let found = found.ok_or("a file of this pen cannot be read")?;
    let json: serde_json::Value = serde_json::from_str(&found.json)
        .map_err(|why| format!("this comparison cannot be written: {why}"))?;
    Ok(serde_json::json!({ "html": found.html, "comparison": json }).to_string())
}
