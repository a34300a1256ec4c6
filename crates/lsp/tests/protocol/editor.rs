//! An editor at the other end of an in-memory pipe, speaking to the real server.

use quillet_lsp::{Ended, Session};
use serde_json::{Value, json};
use std::collections::VecDeque;
use std::path::Path;
use std::sync::{Arc, Mutex};
use std::time::Duration;
use tokio::io::{AsyncReadExt, AsyncWriteExt, DuplexStream, ReadHalf, WriteHalf};
use tokio::sync::mpsc;
use tokio::task::JoinHandle;

/// No test waits longer than this for one message.
const PATIENCE: Duration = Duration::from_secs(20);

pub(crate) struct Editor {
    to: Arc<tokio::sync::Mutex<WriteHalf<DuplexStream>>>,
    from: mpsc::UnboundedReceiver<Value>,
    /// Messages read while waiting for another.
    kept: VecDeque<Value>,
    next_id: i64,
    replies: Arc<Mutex<Replies>>,
    server: JoinHandle<Ended>,
    /// What the server says it can do; nothing before `initialize`.
    pub(crate) capabilities: Value,
}

/// What the editor answers to the server's requests.
#[derive(Default)]
struct Replies {
    settings: Value,
    /// The method it does not answer.
    withheld: Option<&'static str>,
}

impl Editor {
    /// An editor with no special gifts, `initialize`d, without a folder.
    pub(crate) async fn start() -> Self {
        Self::start_with(json!({}), None).await
    }

    /// An editor with these capabilities, and a folder where given.
    pub(crate) async fn start_with(capabilities: Value, folder: Option<&Path>) -> Self {
        let mut editor = Self::connect(Session::new().with_probes());
        let folders = folder.map(|path| json!([{"uri": uri(path), "name": "folder"}]));
        let params =
            json!({"processId": null, "capabilities": capabilities, "workspaceFolders": folders});
        let answer = editor.ask("initialize", params).await;
        editor.capabilities = answer["capabilities"].clone();
        assert!(editor.capabilities.is_object(), "{answer}");
        editor.notify("initialized", json!({})).await;
        editor
    }

    /// A connection on which nothing has been said yet.
    pub(crate) fn connect(session: Session) -> Self {
        let (here, there) = tokio::io::duplex(1 << 16);
        let (input, output) = tokio::io::split(there);
        let (mut read, write) = tokio::io::split(here);
        let to = Arc::new(tokio::sync::Mutex::new(write));
        let replies = Arc::new(Mutex::new(Replies::default()));
        let (seen, from) = mpsc::unbounded_channel();
        let (back, replying) = (to.clone(), replies.clone());
        tokio::spawn(async move {
            while let Some(message) = receive(&mut read).await {
                if let Some(answer) = reply(&message, &replying) {
                    write_frame(&back, &answer).await;
                }
                if seen.send(message).is_err() {
                    break;
                }
            }
        });
        let server = tokio::spawn(session.serve(input, output));
        Self {
            to,
            from,
            kept: VecDeque::new(),
            capabilities: Value::Null,
            next_id: 0,
            replies,
            server,
        }
    }

    /// What the editor answers to `workspace/configuration`.
    pub(crate) fn configure(&self, settings: Value) {
        self.replies.lock().unwrap().settings = settings;
    }

    /// Answers no request of this method from now on.
    pub(crate) fn withhold(&self, method: &'static str) {
        self.replies.lock().unwrap().withheld = Some(method);
    }

    /// Sends a notification.
    pub(crate) async fn notify(&mut self, method: &str, params: Value) {
        let message = json!({"jsonrpc": "2.0", "method": method, "params": params});
        write_frame(&self.to, &message).await;
    }

    /// Sends a request and gives its number.
    pub(crate) async fn request(&mut self, method: &str, params: Value) -> i64 {
        self.next_id += 1;
        let message =
            json!({"jsonrpc": "2.0", "id": self.next_id, "method": method, "params": params});
        write_frame(&self.to, &message).await;
        self.next_id
    }

    /// Sends bytes as they are.
    pub(crate) async fn send(&mut self, bytes: &[u8]) {
        self.to.lock().await.write_all(bytes).await.unwrap();
    }

    /// The next error that answers a request, or with null what could not be read.
    pub(crate) async fn error(&mut self, id: Value) -> Value {
        let is_it = |message: &Value| message.get("error").is_some() && message["id"] == id;
        self.wait(is_it).await["error"].take()
    }

    /// The whole answer to a request, result or error.
    pub(crate) async fn answer(&mut self, id: i64) -> Value {
        self.wait(|message| message.get("method").is_none() && message["id"] == id)
            .await
    }

    /// The result of a request; an error fails the test.
    pub(crate) async fn ask(&mut self, method: &str, params: Value) -> Value {
        let id = self.request(method, params).await;
        let mut answer = self.answer(id).await;
        assert!(answer.get("error").is_none(), "{method}: {answer}");
        answer["result"].take()
    }

    /// The parameters of the next message of this method from the server.
    pub(crate) async fn heard(&mut self, method: &str) -> Value {
        let mut message = self.wait(|message| message["method"] == method).await;
        message["params"].take()
    }

    /// The number of the next request of this method from the server.
    pub(crate) async fn asked(&mut self, method: &str) -> Value {
        let mut message = self.wait(|message| message["method"] == method).await;
        message["id"].take()
    }

    /// Answers a request of the server that was withheld, with nothing.
    pub(crate) async fn answer_late(&mut self, id: Value) {
        write_frame(
            &self.to,
            &json!({"jsonrpc": "2.0", "id": id, "result": null}),
        )
        .await;
    }

    /// The diagnostics published for a version of a document.
    pub(crate) async fn diagnostics(&mut self, uri: &str, version: i64) -> Vec<Value> {
        let mut message = self
            .wait(|message| {
                message["method"] == "textDocument/publishDiagnostics"
                    && message["params"]["uri"] == uri
                    && message["params"]["version"] == version
            })
            .await;
        match message["params"]["diagnostics"].take() {
            Value::Array(all) => all,
            other => panic!("no list: {other}"),
        }
    }

    /// Everything received and not yet asked for, once the server has nothing left to say.
    pub(crate) async fn everything(&mut self) -> Vec<Value> {
        let quiet = Duration::from_millis(150);
        while let Ok(Some(message)) = tokio::time::timeout(quiet, self.from.recv()).await {
            self.kept.push_back(message);
        }
        self.kept.drain(..).collect()
    }

    /// Forgets what was received and not asked for.
    pub(crate) fn forget_heard(&mut self) {
        self.kept.clear();
    }

    /// Opens a document, version 1.
    pub(crate) async fn open(&mut self, uri: &str, text: &str) {
        let document = json!({"uri": uri, "languageId": "quillet", "version": 1, "text": text});
        self.notify("textDocument/didOpen", json!({"textDocument": document}))
            .await;
    }

    /// Changes a document; `changes` as the protocol has them.
    pub(crate) async fn change(&mut self, uri: &str, version: i64, changes: Value) {
        let params =
            json!({"textDocument": {"uri": uri, "version": version}, "contentChanges": changes});
        self.notify("textDocument/didChange", params).await;
    }

    /// The server's own copy of a document.
    pub(crate) async fn text(&mut self, uri: &str) -> String {
        let text = self.ask("quillet/probe/text", json!({"uri": uri})).await;
        text.as_str()
            .unwrap_or_else(|| panic!("no text: {text}"))
            .to_owned()
    }

    /// Waits for the server to end by itself.
    pub(crate) async fn ended(self) -> Ended {
        let ended = tokio::time::timeout(PATIENCE, self.server).await;
        drop(self.to);
        ended
            .expect("the server goes on")
            .expect("the server panicked")
    }

    async fn wait(&mut self, wanted: impl Fn(&Value) -> bool) -> Value {
        if let Some(at) = self.kept.iter().position(&wanted) {
            return self.kept.remove(at).unwrap();
        }
        let search = async {
            loop {
                let message = self.from.recv().await.expect("the server closed the pipe");
                if wanted(&message) {
                    return message;
                }
                self.kept.push_back(message);
            }
        };
        tokio::time::timeout(PATIENCE, search)
            .await
            .expect("no such message came")
    }
}

/// The URI of a path.
pub(crate) fn uri(path: &Path) -> String {
    tower_lsp::lsp_types::Url::from_file_path(path)
        .unwrap()
        .to_string()
}

/// What the editor answers by itself to the server's requests.
fn reply(message: &Value, replies: &Mutex<Replies>) -> Option<Value> {
    let id = message.get("id")?;
    let method = message.get("method")?.as_str()?;
    let replies = replies.lock().unwrap();
    let result = match method {
        _ if replies.withheld == Some(method) => return None,
        "workspace/configuration" => json!([replies.settings.clone()]),
        "workspace/applyEdit" => json!({"applied": true}),
        _ => Value::Null,
    };
    Some(json!({"jsonrpc": "2.0", "id": id, "result": result}))
}

async fn write_frame(to: &tokio::sync::Mutex<WriteHalf<DuplexStream>>, message: &Value) {
    let body = message.to_string();
    let frame = format!("Content-Length: {}\r\n\r\n{body}", body.len());
    // A closed pipe shows where the answer is missed.
    let _ = to.lock().await.write_all(frame.as_bytes()).await;
}

async fn receive(from: &mut ReadHalf<DuplexStream>) -> Option<Value> {
    let mut head = Vec::new();
    while !head.ends_with(b"\r\n\r\n") {
        head.push(from.read_u8().await.ok()?);
    }
    let head = String::from_utf8(head).expect("a header in ASCII");
    let length = head
        .lines()
        .find_map(|line| line.strip_prefix("Content-Length: "))
        .expect("a length")
        .parse()
        .expect("a number");
    let mut body = vec![0; length];
    from.read_exact(&mut body).await.ok()?;
    Some(serde_json::from_slice(&body).expect("JSON"))
}
