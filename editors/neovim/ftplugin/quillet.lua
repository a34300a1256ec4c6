-- Colours by the compiled grammar, where Neovim is new enough and :QuilletGrammar has put one there;
-- else the syntax of `syntax/quillet.vim` stays.
if vim.fn.has("nvim-0.10") == 1 then
  pcall(vim.treesitter.start)
  vim.api.nvim_buf_create_user_command(0, "QuilletGrammar", function()
    require("quillet.grammar").install()
  end, { desc = "Compile Quillet's grammar and colour by it" })
end
