-- Starts the language server for every pen, unless g:quillet_no_server is set.

if vim.g.quillet_no_server then
  return
end
if vim.lsp.enable then
  -- From 0.11 on the editor starts it by itself, as `lsp/quillet.lua` says.
  vim.lsp.enable("quillet")
  return
end
vim.api.nvim_create_autocmd("FileType", {
  group = vim.api.nvim_create_augroup("quillet", {}),
  pattern = "quillet",
  callback = function(event)
    require("quillet").attach(event.buf or vim.api.nvim_get_current_buf())
  end,
})
