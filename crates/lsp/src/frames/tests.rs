use super::*;
use tokio::io::AsyncReadExt;

async fn through(raw: &[u8]) -> String {
    let mut out = String::new();
    Frames::of(raw).read_to_string(&mut out).await.unwrap();
    out
}

#[tokio::test]
async fn what_is_sound_goes_through_as_it_is() {
    let body = r#"{"jsonrpc":"2.0","id":"a","method":"b","params":[1.5]}"#;
    let answer = r#"{"jsonrpc":"2.0","id":1,"result":null}"#;
    let raw = format!(
        "content-type: application/vscode-jsonrpc; charset=latin-1\r\ncontent-LENGTH:{}\r\n\r\n{body}\
         Content-Length: {}\r\n\r\n{answer}",
        body.len(),
        answer.len()
    );
    let expected = format!(
        "Content-Length: {}\r\n\r\n{body}Content-Length: {}\r\n\r\n{answer}",
        body.len(),
        answer.len()
    );
    assert_eq!(through(raw.as_bytes()).await, expected);
}

#[tokio::test]
async fn headers_without_a_length_do_not_hide_what_follows() {
    let body = r#"{"jsonrpc":"2.0","method":"b"}"#;
    let frame = format!("Content-Length: {}\r\n\r\n{body}", body.len());
    for rubbish in [
        "rubbish",
        "rubbish\r\n\r\n",
        "Content-Length: many\r\n\r\n",
        "Content-Length: 99999999999\r\n\r\n",
    ] {
        let out = through(format!("{rubbish}{frame}").as_bytes()).await;
        assert!(out.ends_with(&frame), "{rubbish:?}: {out:?}");
        assert!(out.contains("-32700"), "{rubbish:?}: {out:?}");
    }
    let long = "x".repeat(3 * LONGEST_HEAD) + &frame;
    assert!(through(long.as_bytes()).await.ends_with(&frame));
}
