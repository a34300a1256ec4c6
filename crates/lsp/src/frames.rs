//! Bytes to messages, before the protocol library reads them: it ends at the first that is not
//! sound. What is sound goes on as it is; in the place of what is not goes a request that the
//! gate answers with the protocol's error, so that an editor with a fault keeps its server.

use serde::{Deserialize, Deserializer};
use serde_json::{Value, json};
use std::pin::Pin;
use std::task::{Context, Poll, ready};
use tokio::io::{AsyncRead, ReadBuf};
use tower_lsp::jsonrpc::{Error, ErrorCode, Id, Request, Response};

/// Stands for a message that was not sound; its parameters are the error.
const UNSOUND: &str = "quillet/unsound";

/// The longest headers and the longest message that are read, bytes.
const LONGEST_HEAD: usize = 16 * 1024;
const LONGEST_BODY: usize = 256 * 1024 * 1024;

/// An input of which only sound messages come out.
pub(crate) struct Frames<I> {
    inner: I,
    raw: Vec<u8>,
    /// How long the body is that comes next; none while headers come.
    body: Option<usize>,
    sound: Vec<u8>,
    given: usize,
}

impl<I> Frames<I> {
    pub(crate) fn of(inner: I) -> Self {
        Self {
            inner,
            raw: Vec::new(),
            body: None,
            sound: Vec::new(),
            given: 0,
        }
    }

    /// Takes from what was read all that is whole.
    fn sort(&mut self) {
        loop {
            let taken = match self.body {
                Some(length) if self.raw.len() < length => return,
                Some(length) => {
                    if let Some(body) = checked(&self.raw[..length]) {
                        put(&mut self.sound, body.as_ref());
                    }
                    self.body = None;
                    length
                }
                None => match head(&self.raw) {
                    Head::Open => return,
                    Head::Of { length, end } => {
                        self.body = Some(length);
                        end
                    }
                    Head::Unsound { end } => {
                        let error = error(ErrorCode::ParseError, "a header was expected");
                        put(&mut self.sound, unsound(&Value::Null, &error).as_ref());
                        end
                    }
                },
            };
            self.raw.drain(..taken);
        }
    }
}

impl<I: AsyncRead + Unpin> AsyncRead for Frames<I> {
    fn poll_read(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        buffer: &mut ReadBuf<'_>,
    ) -> Poll<std::io::Result<()>> {
        let this = &mut *self;
        loop {
            if this.given < this.sound.len() {
                let left = &this.sound[this.given..];
                let count = left.len().min(buffer.remaining());
                buffer.put_slice(&left[..count]);
                this.given += count;
                return Poll::Ready(Ok(()));
            }
            (this.sound, this.given) = (Vec::new(), 0);
            let mut piece = [0; 16 * 1024];
            let mut piece = ReadBuf::new(&mut piece);
            // An input that breaks has ended.
            if ready!(Pin::new(&mut this.inner).poll_read(cx, &mut piece)).is_err()
                || piece.filled().is_empty()
            {
                return Poll::Ready(Ok(()));
            }
            this.raw.extend_from_slice(piece.filled());
            this.sort();
        }
    }
}

/// What the gate answers to a message that was not sound.
pub(crate) fn answer(request: &Request) -> Option<Response> {
    if request.method() != UNSOUND {
        return None;
    }
    let error = request
        .params()
        .cloned()
        .and_then(|it| serde_json::from_value(it).ok());
    let id = request.id().cloned().unwrap_or(Id::Null);
    Some(Response::from_error(
        id,
        error.unwrap_or_else(Error::invalid_request),
    ))
}

/// What stands before a body.
enum Head {
    /// Its end has not come.
    Open,
    Of {
        length: usize,
        end: usize,
    },
    /// It tells no length.
    Unsound {
        end: usize,
    },
}

fn head(raw: &[u8]) -> Head {
    let upto = raw.len().min(LONGEST_HEAD);
    let Some(end) = raw[..upto].windows(4).position(|it| it == b"\r\n\r\n") else {
        return match upto {
            // A message may begin after what is none.
            LONGEST_HEAD => Head::Unsound {
                end: next_head(raw).unwrap_or(upto),
            },
            _ => Head::Open,
        };
    };
    // The last counts, where it is said twice.
    let lines = raw[..end].split(|byte| *byte == b'\n');
    let mut lengths = lines.rev().filter_map(|line| {
        let (name, value) = std::str::from_utf8(line).ok()?.split_once(':')?;
        let named = name.trim().eq_ignore_ascii_case("content-length");
        named.then(|| value.trim().parse().ok())?
    });
    match lengths.next().filter(|length| *length <= LONGEST_BODY) {
        Some(length) => Head::Of {
            length,
            end: end + 4,
        },
        None => Head::Unsound {
            end: next_head(&raw[..end]).unwrap_or(end + 4),
        },
    }
}

/// Where, past the first bytes, headers seem to begin.
fn next_head(raw: &[u8]) -> Option<usize> {
    let name = b"content-length:";
    let begins = |it: &[u8]| it.eq_ignore_ascii_case(name);
    raw.windows(name.len())
        .skip(1)
        .position(begins)
        .map(|at| at + 1)
}

/// What a message says of itself.
#[derive(Deserialize)]
struct Envelope {
    #[serde(default)]
    jsonrpc: Value,
    #[serde(default, deserialize_with = "there")]
    id: Option<Value>,
    #[serde(default, deserialize_with = "there")]
    method: Option<Value>,
    #[serde(default, deserialize_with = "there")]
    result: Option<serde::de::IgnoredAny>,
    #[serde(default, deserialize_with = "there")]
    error: Option<Value>,
}

/// `null` is something too.
fn there<'de, T: Deserialize<'de>, D: Deserializer<'de>>(from: D) -> Result<Option<T>, D::Error> {
    T::deserialize(from).map(Some)
}

/// The body where it is sound, else what stands for it; none for an answer that nothing can be
/// made of, since answers are not answered.
fn checked(body: &[u8]) -> Option<Body<'_>> {
    let unread = |why: &str| Some(unsound(&Value::Null, &error(ErrorCode::ParseError, why)));
    let Ok(text) = std::str::from_utf8(body) else {
        return unread("the message is not UTF-8");
    };
    if !text.trim_start().starts_with('{') {
        return match serde_json::from_str::<Value>(text) {
            Ok(_) => Some(refused(&Value::Null, "a message is one object")),
            Err(_) => unread("the message is not JSON"),
        };
    }
    let Envelope {
        jsonrpc,
        id,
        method,
        result,
        error,
    } = match serde_json::from_str(text) {
        Ok(envelope) => envelope,
        Err(wrong) if wrong.is_data() => return Some(refused(&Value::Null, &wrong.to_string())),
        Err(_) => return unread("the message is not JSON"),
    };
    let is_id = |id: &Value| id.is_i64() || id.is_string();
    let answered = id.clone().filter(is_id).unwrap_or(Value::Null);
    if jsonrpc != "2.0" {
        return Some(refused(&answered, "jsonrpc is to be \"2.0\""));
    }
    if method.is_none() && (result.is_some() || error.is_some()) {
        let reported = |error: &Value| error["code"].is_i64() && error["message"].is_string();
        let sound = id.as_ref().is_some_and(is_id) && error.as_ref().is_none_or(reported);
        return (sound && serde_json::from_str::<Response>(text).is_ok()).then_some(Body::As(body));
    }
    if id.is_some_and(|id| !is_id(&id)) {
        return Some(refused(&Value::Null, "an id is a whole number or a string"));
    }
    if !method.is_some_and(|method| method.is_string()) {
        return Some(refused(&answered, "a method was expected"));
    }
    match serde_json::from_str::<Request>(text) {
        Ok(request) if request.params().is_none_or(is_structured) => Some(Body::As(body)),
        Ok(_) => Some(refused(&answered, "params are an object or a list")),
        Err(_) => unread("the message lies too deep in itself"),
    }
}

fn is_structured(params: &Value) -> bool {
    params.is_object() || params.is_array() || params.is_null()
}

/// A body as it came, or one in its place.
enum Body<'a> {
    As(&'a [u8]),
    Instead(Vec<u8>),
}

impl AsRef<[u8]> for Body<'_> {
    fn as_ref(&self) -> &[u8] {
        match self {
            Body::As(body) => body,
            Body::Instead(body) => body,
        }
    }
}

fn refused(id: &Value, why: &str) -> Body<'static> {
    unsound(id, &error(ErrorCode::InvalidRequest, why))
}

fn error(code: ErrorCode, why: &str) -> Error {
    Error {
        code,
        message: why.to_owned().into(),
        data: None,
    }
}

fn unsound(id: &Value, error: &Error) -> Body<'static> {
    let request = json!({"jsonrpc": "2.0", "id": id, "method": UNSOUND, "params": error});
    Body::Instead(request.to_string().into_bytes())
}

fn put(sound: &mut Vec<u8>, body: &[u8]) {
    sound.extend_from_slice(format!("Content-Length: {}\r\n\r\n", body.len()).as_bytes());
    sound.extend_from_slice(body);
}

#[cfg(test)]
mod tests;
