//! `quillet watch`: a page on this machine that follows the file as it is saved.

mod http;
mod page;

use crate::terminal;
use page::WatchedFiles;
use std::net::{Ipv4Addr, TcpListener};
use std::path::PathBuf;
use std::process::ExitCode;
use std::sync::{Arc, Mutex};

/// What `quillet watch` may be asked.
#[derive(clap::Args)]
pub(crate) struct WatchArgs {
    /// The file
    file: PathBuf,
    /// The port to serve on; a free one is found where none is said
    #[arg(long, default_value_t = 0)]
    port: u16,
}

/// Serves until it is stopped; 2 with the reason where it could not begin.
pub(crate) fn run(args: &WatchArgs) -> ExitCode {
    terminal::ended(serve(args))
}

fn serve(args: &WatchArgs) -> Result<(), String> {
    let watched = WatchedFiles::new(&args.file)?;
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, args.port))
        .map_err(|error| format!("cannot serve on port {}: {error}", args.port))?;
    let port = listener
        .local_addr()
        .map_err(|error| error.to_string())?
        .port();
    terminal::out(&format!(
        "watching {}: http://127.0.0.1:{port}/\n",
        args.file.display()
    ))?;
    let watched = Arc::new(Mutex::new(watched));
    for connection in listener.incoming().flatten() {
        let watched = watched.clone();
        std::thread::spawn(move || http::answer(connection, port, &watched));
    }
    Ok(())
}
