//! Starts Quillet's language server in Zed.

use zed_extension_api::{self as zed, Command, LanguageServerId, Result, Worktree};

struct Quillet;

impl zed::Extension for Quillet {
    fn new() -> Self {
        Quillet
    }

    fn language_server_command(
        &mut self,
        _: &LanguageServerId,
        worktree: &Worktree,
    ) -> Result<Command> {
        let command = worktree
            .which("quillet")
            .ok_or("there is no program quillet on your PATH; build it with cargo install --path crates/cli")?;
        Ok(Command {
            command,
            args: vec!["lsp".into()],
            env: worktree.shell_env(),
        })
    }
}

zed::register_extension!(Quillet);
