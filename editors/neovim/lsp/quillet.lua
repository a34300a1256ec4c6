-- For `vim.lsp.enable("quillet")` of Neovim 0.11 and later.

return {
  cmd = { vim.fn["quillet#program"](), "lsp" },
  filetypes = { "quillet" },
  -- The project's folder, else the pen's own; nothing is started where there is no program.
  root_dir = function(buffer, start)
    if require("quillet").program() then
      start(vim.fs.root(buffer, ".git") or vim.fs.dirname(vim.api.nvim_buf_get_name(buffer)))
    end
  end,
}
