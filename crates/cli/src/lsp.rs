//! `quillet lsp`: the language server on standard input and output.

use crate::terminal;
use std::process::ExitCode;

/// What `quillet lsp` may be asked.
#[derive(clap::Args)]
pub(crate) struct LspArgs {
    /// Use standard input and output; always so, accepted because many editors add it.
    #[arg(long)]
    stdio: bool,
}

/// Serves until the editor says `exit`: 0 after a `shutdown`, else 1; 2 where it could not start.
pub(crate) fn run(args: &LspArgs) -> ExitCode {
    // Standard streams are the only transport there is, so the flag changes nothing.
    let _ = args.stdio;
    match quillet_lsp::serve_stdio() {
        Ok(ended) => ExitCode::from(ended.code()),
        Err(error) => {
            terminal::aside(format!("the server could not start: {error}"));
            ExitCode::from(2)
        }
    }
}
