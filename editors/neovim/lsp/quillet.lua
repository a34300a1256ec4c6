-- For `vim.lsp.enable("quillet")` of Neovim 0.11 and later.

return {
  cmd = { vim.g.quillet_program or "quillet", "lsp" },
  filetypes = { "quillet" },
  root_markers = { ".git" },
}
