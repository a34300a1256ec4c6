-- For `vim.lsp.enable("quillet")` of Neovim 0.11 and later.

return {
  cmd = { vim.fn["quillet#program"](), "lsp" },
  filetypes = { "quillet" },
  root_markers = { ".git" },
}
