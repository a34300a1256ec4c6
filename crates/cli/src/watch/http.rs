//! As much of HTTP/1.1 as one page needs; nothing but that page is served.

use super::page::WatchedFiles;
use quillet_export::live;
use std::hash::{BuildHasher, Hasher, RandomState};
use std::io::{self, Read, Write};
use std::net::TcpStream;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

/// The longest request that is read.
const LONGEST: usize = 16 * 1024;
/// How long an answer is held back for a reader that has all there is, and between two looks at the files.
const HELD: Duration = Duration::from_secs(20);
const PAUSE: Duration = Duration::from_millis(10);

/// Answers the one request of a connection; a client that says nothing is left after two seconds.
pub(super) fn answer(mut connection: TcpStream, port: u16, watched: &Mutex<WatchedFiles>) {
    let limit = Some(Duration::from_secs(2));
    let timed = connection
        .set_read_timeout(limit)
        .and_then(|()| connection.set_write_timeout(limit));
    let Some(request) = timed.ok().and_then(|()| read_head(&mut connection).ok()) else {
        return;
    };
    let reply = reply(&request, port, watched, HELD);
    // A page that was closed meanwhile needs no answer.
    connection.write_all(reply.as_bytes()).ok();
}

fn read_head(connection: &mut impl Read) -> io::Result<String> {
    let (mut head, mut piece) = (Vec::new(), [0; 1024]);
    while !head.windows(4).any(|end| end == b"\r\n\r\n") && head.len() < LONGEST {
        match connection.read(&mut piece)? {
            0 => break,
            count => head.extend_from_slice(&piece[..count]),
        }
    }
    Ok(String::from_utf8_lossy(&head).into_owned())
}

/// The whole answer to a request.
fn reply(request: &str, port: u16, watched: &Mutex<WatchedFiles>, held: Duration) -> String {
    let mut lines = request.split("\r\n");
    let mut words = lines.next().unwrap_or_default().split(' ');
    let (method, target) = (
        words.next().unwrap_or_default(),
        words.next().unwrap_or_default(),
    );
    let hosts: Vec<&str> = lines
        .take_while(|line| !line.is_empty())
        .filter_map(|line| line.split_once(':'))
        .filter(|(name, _)| name.eq_ignore_ascii_case("host"))
        .map(|(_, value)| value.trim())
        .collect();
    // A page of another site that has its own name point here must get nothing.
    let ours = [format!("127.0.0.1:{port}"), format!("localhost:{port}")];
    let [host] = hosts[..] else {
        return refusal("400 Bad Request");
    };
    if !ours.iter().any(|name| name.eq_ignore_ascii_case(host)) {
        return refusal("403 Forbidden");
    }
    if method != "GET" {
        return refusal("405 Method Not Allowed");
    }
    let since = target.strip_prefix("/?since=");
    if target != "/" && since.is_none() {
        return refusal("404 Not Found");
    }
    let watched = newer(watched, since, held);
    let version = watched.version();
    match since {
        Some(since) if since == version => head("204 No Content", 0, "", &version),
        Some(_) => {
            let body = watched.body();
            head("200 OK", body.len(), "default-src 'none'", &version) + body
        }
        None => {
            let nonce = format!("{:016x}", RandomState::new().build_hasher().finish());
            let page = live::page(&watched.title(), watched.body(), &version, &nonce);
            let policy = format!(
                "default-src 'none'; script-src 'nonce-{nonce}'; style-src 'unsafe-inline'; \
                 img-src data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
            );
            head("200 OK", page.len(), &policy, &version) + &page
        }
    }
}

/// The page when it is other than a reader has it; as it is where nothing changes for long, and at once
/// for one that has none.
fn newer<'a>(
    watched: &'a Mutex<WatchedFiles>,
    since: Option<&str>,
    held: Duration,
) -> MutexGuard<'a, WatchedFiles> {
    let begun = Instant::now();
    loop {
        let mut now = watched.lock().unwrap_or_else(PoisonError::into_inner);
        now.look();
        let is_known = since.is_some_and(|it| it == now.version());
        if !is_known || begun.elapsed() >= held {
            return now;
        }
        drop(now);
        std::thread::sleep(PAUSE);
    }
}

fn head(status: &str, length: usize, policy: &str, version: &str) -> String {
    let policy = if policy.is_empty() {
        "default-src 'none'"
    } else {
        policy
    };
    format!(
        "HTTP/1.1 {status}\r\nContent-Type: text/html; charset=utf-8\r\nContent-Length: {length}\r\n\
         Content-Security-Policy: {policy}\r\nX-Content-Type-Options: nosniff\r\nReferrer-Policy: no-referrer\r\n\
         Cross-Origin-Resource-Policy: same-origin\r\nCache-Control: no-store\r\nETag: \"{version}\"\r\n\
         Connection: close\r\n\r\n"
    )
}

fn refusal(status: &str) -> String {
    format!("HTTP/1.1 {status}\r\nContent-Length: 0\r\nConnection: close\r\n\r\n")
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    fn ask(watched: &Mutex<WatchedFiles>, line: &str, host: &str) -> String {
        reply(
            &format!("{line} HTTP/1.1\r\nHost: {host}\r\n\r\n"),
            4000,
            watched,
            Duration::ZERO,
        )
    }

    fn begin(folder: &std::path::Path) -> (std::path::PathBuf, Mutex<WatchedFiles>) {
        let path = folder.join("pen.quillet");
        fs::write(&path, include_str!("../starting/fountain.quillet")).unwrap();
        let watched = Mutex::new(WatchedFiles::new(&path).unwrap());
        (path, watched)
    }

    #[test]
    fn the_page_is_served_and_nothing_else() {
        let folder = tempfile::tempdir().unwrap();
        let (_, watched) = begin(folder.path());
        let page = ask(&watched, "GET /", "127.0.0.1:4000");
        assert!(page.starts_with("HTTP/1.1 200 OK"), "{page:.200}");
        assert!(page.contains("<svg") && page.contains("Nothing found."));
        for (line, host, status) in [
            ("GET /pen.quillet", "localhost:4000", "404"),
            ("GET //etc/passwd", "localhost:4000", "404"),
            ("POST /", "localhost:4000", "405"),
            ("GET /", "pens.example:4000", "403"),
            ("GET /", "127.0.0.1:4001", "403"),
            ("GET /", "127.0.0.1:4000.pens.example", "403"),
        ] {
            let reply = ask(&watched, line, host);
            assert!(
                reply.starts_with(&format!("HTTP/1.1 {status}")),
                "{line} {host}: {reply:.60}"
            );
        }
        let two = "GET / HTTP/1.1\r\nHost: localhost:4000\r\nHost: pens.example\r\n\r\n";
        assert!(reply(two, 4000, &watched, Duration::ZERO).starts_with("HTTP/1.1 400"));
    }

    #[test]
    fn a_saved_file_gives_a_new_body() {
        let folder = tempfile::tempdir().unwrap();
        let (path, watched) = begin(folder.path());
        let version = watched.lock().unwrap().version();
        let since = format!("GET /?since={version}");
        assert!(ask(&watched, &since, "localhost:4000").starts_with("HTTP/1.1 204"));
        let text = fs::read_to_string(&path)
            .unwrap()
            .replace("drill 12.2", "drill 15.0");
        fs::write(&path, text).unwrap();
        // Files written within one tick of the disk's clock look alike.
        let later = std::time::SystemTime::now() + Duration::from_secs(2);
        fs::File::options()
            .write(true)
            .open(&path)
            .unwrap()
            .set_modified(later)
            .unwrap();
        let body = ask(&watched, &since, "localhost:4000");
        assert!(
            body.starts_with("HTTP/1.1 200") && body.contains("class=\"error\""),
            "{body:.300}"
        );
        assert!(!body.contains("<script"), "the body is no page");
    }
}
