//! How long an editor waits: through the in-memory pipe, with the real server.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench, not a library")]
#![allow(dead_code, reason = "the editor can more than is measured")]

#[path = "../tests/protocol/editor.rs"]
mod editor;

use criterion::{Criterion, criterion_group, criterion_main};
use editor::{Editor, uri};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use tokio::runtime::Runtime;

/// The allocator of the command that serves.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn runtime() -> Runtime {
    Runtime::new().unwrap()
}

fn examples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../examples")
        .canonicalize()
        .unwrap()
}

/// Heron, open in an editor.
struct Session {
    editor: Editor,
    uri: String,
    text: String,
    version: i64,
}

impl Session {
    async fn open() -> Self {
        let path = examples().join("heron.quillet");
        let (uri, text) = (uri(&path), std::fs::read_to_string(path).unwrap());
        let mut editor = Editor::start().await;
        editor.open(&uri, &text).await;
        editor.diagnostics(&uri, 1).await;
        Self {
            editor,
            uri,
            text,
            version: 1,
        }
    }

    /// One keystroke: the barrel's bore gets a digit more, or loses it again.
    async fn edit(&mut self) -> Duration {
        let offset = self.text.find("drill 8.0").unwrap() + "drill 8.0".len();
        let before = &self.text[..offset];
        let line = before.matches('\n').count();
        let column = offset - before.rfind('\n').map_or(0, |at| at + 1);
        self.version += 1;
        let grows = self.version % 2 == 0;
        let range = json!({
            "start": {"line": line, "character": column},
            "end": {"line": line, "character": column + usize::from(!grows)},
        });
        let change = json!([{"range": range, "text": if grows { "5" } else { "" }}]);
        let begun = Instant::now();
        self.editor.change(&self.uri, self.version, change).await;
        self.editor.diagnostics(&self.uri, self.version).await;
        begun.elapsed()
    }

    async fn ask(&mut self, method: &str, needle: &str, into: usize) -> Value {
        let offset = self.text.find(needle).unwrap() + into;
        let before = &self.text[..offset];
        let line = before.matches('\n').count();
        let column = offset - before.rfind('\n').map_or(0, |at| at + 1);
        let params = json!({
            "textDocument": {"uri": self.uri},
            "position": {"line": line, "character": column},
        });
        self.editor.ask(method, params).await
    }
}

fn heron(c: &mut Criterion) {
    let runtime = runtime();
    let mut session = runtime.block_on(Session::open());
    report_percentiles(&runtime, &mut session);
    c.bench_function("heron: edit to diagnostics", |b| {
        b.iter_custom(|times| {
            runtime.block_on(async {
                let mut total = Duration::ZERO;
                for _ in 0..times {
                    total += session.edit().await;
                }
                total
            })
        });
    });
    c.bench_function("heron: hover", |b| {
        b.iter(|| runtime.block_on(session.ask("textDocument/hover", "drill 12.2", 2)));
    });
    c.bench_function("heron: completion", |b| {
        b.iter(|| runtime.block_on(session.ask("textDocument/completion", "drill 12.2", 6)));
    });
}

/// The median and the 99th percentile, which the bench's own report leaves out.
#[allow(clippy::print_stderr, reason = "a bench speaks to the terminal")]
fn report_percentiles(runtime: &Runtime, session: &mut Session) {
    let mut times = Vec::new();
    for _ in 0..1000 {
        times.push(runtime.block_on(session.edit()));
    }
    times.sort();
    let (median, late) = (times[times.len() / 2], times[times.len() * 99 / 100]);
    eprintln!("heron: edit to diagnostics, median {median:?}, 99 % within {late:?}");
}

/// A folder of pens that all use one bench and one file of bought parts.
fn folder(count: usize) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    for shared in ["saltings.quillet", "bought.quillet"] {
        std::fs::copy(examples().join(shared), folder.path().join(shared)).unwrap();
    }
    let pen = std::fs::read_to_string(examples().join("heron.quillet")).unwrap();
    for number in 0..count {
        std::fs::write(folder.path().join(format!("pen-{number:03}.quillet")), &pen).unwrap();
    }
    folder
}

async fn all(editor: &mut Editor) -> usize {
    let report = editor
        .ask("workspace/diagnostic", json!({"previousResultIds": []}))
        .await;
    report["items"].as_array().map_or(0, Vec::len)
}

fn workspace(c: &mut Criterion) {
    let runtime = runtime();
    let folder = folder(500);
    let pulls = json!({"textDocument": {"diagnostic": {}}});
    let mut group = c.benchmark_group("500 pens");
    group.sample_size(10);
    group.bench_function("open to all diagnostics", |b| {
        b.iter(|| {
            runtime.block_on(async {
                let mut editor = Editor::start_with(pulls.clone(), Some(folder.path())).await;
                assert_eq!(all(&mut editor).await, 502);
            });
        });
    });
    let bought = folder.path().join("bought.quillet");
    let text = std::fs::read_to_string(&bought).unwrap();
    let uri = uri(&bought);
    let mut editor = runtime.block_on(async {
        let mut editor = Editor::start_with(pulls.clone(), Some(folder.path())).await;
        all(&mut editor).await;
        editor.open(&uri, &text).await;
        all(&mut editor).await;
        editor
    });
    let mut version = 1;
    let mut edited = || {
        version += 1;
        (
            version,
            json!([{"text": format!("{text}\n-- {version}\n")}]),
        )
    };
    group.bench_function("edit of the shared file, itself", |b| {
        b.iter(|| {
            let (version, change) = edited();
            runtime.block_on(async {
                editor.change(&uri, version, change).await;
                editor
                    .ask(
                        "textDocument/diagnostic",
                        json!({"textDocument": {"uri": uri}}),
                    )
                    .await;
            });
        });
    });
    runtime.block_on(all(&mut editor));
    group.bench_function("edit of the shared file, all pens", |b| {
        b.iter(|| {
            let (version, change) = edited();
            runtime.block_on(async {
                editor.change(&uri, version, change).await;
                all(&mut editor).await;
            });
        });
    });
}

criterion_group!(benches, heron, workspace);
criterion_main!(benches);
