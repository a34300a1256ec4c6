-- Starts the language server for every pen, unless g:quillet_no_server is set.

if vim.g.quillet_no_server then
  return
end
local group = vim.api.nvim_create_augroup("quillet", {})
local function each_pen(run)
  vim.api.nvim_create_autocmd("FileType", { group = group, pattern = "quillet", callback = run })
end
if vim.lsp.enable then
  -- From 0.11 on the editor starts it by itself, as `lsp/quillet.lua` says; where it cannot, that is said.
  each_pen(function()
    require("quillet").program()
  end)
  vim.lsp.enable("quillet")
  return
end
each_pen(function(event)
  require("quillet").attach(event.buf or vim.api.nvim_get_current_buf())
end)
