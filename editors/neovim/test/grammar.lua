-- Neovim by the compiled grammar, from 0.10 on; run headless in a folder that holds a copy of the
-- examples, with g:quillet_no_server set.

local passed = 0

local function check(what, holds, seen)
  if not holds then
    error(what .. ": " .. vim.inspect(seen), 0)
  end
  passed = passed + 1
  io.stdout:write("ok - " .. what .. "\n")
end

local function run()
  vim.cmd("silent edit heron.quillet")
  check("without a grammar the syntax stays", vim.bo.syntax == "quillet", vim.bo.syntax)

  local site = vim.fn.tempname()
  vim.opt.runtimepath:prepend(site)
  local failed = require("quillet.grammar").put(site)
  check("the grammar is compiled", failed == nil, failed)
  check("nothing unfinished is left", vim.fn.glob(site .. "/parser/*.new") == "")

  vim.cmd("silent edit!")
  local parser = vim.treesitter.get_parser(0, "quillet")
  local tree = parser:parse()[1]
  check("the buffer is coloured by it", vim.treesitter.highlighter.active[vim.api.nvim_get_current_buf()] ~= nil)
  check("nothing in Heron is refused", not tree:root():has_error())

  --- The captures at a place in the first line that holds a text.
  local function captures(text, within)
    for row, line in ipairs(vim.api.nvim_buf_get_lines(0, 0, -1, true)) do
      local column = line:find(text, 1, true)
      if column then
        local found = vim.treesitter.get_captures_at_pos(0, row - 1, column - 1 + within)
        return vim.tbl_map(function(it)
          return it.capture
        end, found)
      end
    end
  end
  for _, it in ipairs({
    { "part cap", 0, "keyword" },
    { "part cap", 5, "type" },
    { "M13x0.8", 0, "constant" },
    { "15.2", 0, "number" },
    { "want balance", 5, "function" },
    { "length(capped)", 7, "constant.builtin" },
    { "cap.mouth", 0, "variable" },
    { "cap.mouth", 4, "property" },
  }) do
    local found = captures(it[1], it[2])
    check(it[1] .. " from " .. it[2] .. " is " .. it[3], vim.tbl_contains(found, it[3]), found)
  end

  for _, name in ipairs({ "highlights", "folds", "indents", "injections", "locals" }) do
    local fine, why = pcall(vim.treesitter.query.get, "quillet", name)
    check(name .. " is a query that it reads", fine and why ~= nil, why)
  end

  vim.wo.foldmethod = "expr"
  vim.wo.foldexpr = "v:lua.vim.treesitter.foldexpr()"
  vim.cmd("normal! zx")
  local row = vim.fn.search("^part cap")
  check("a part folds", vim.fn.foldlevel(row) == 1, vim.fn.foldlevel(row))

  -- A compiler that refuses is told of, and the parser that was there stays.
  vim.env.CC = "false"
  failed = require("quillet.grammar").put(site)
  check("a compiler that fails is told of", failed and failed:find("false says", 1, true), failed)
  check("the parser stays", vim.fn.filereadable(site .. "/parser/quillet.so") == 1)
end

local fine, why = xpcall(run, debug.traceback)
if not fine then
  io.stdout:write("not ok - " .. tostring(why) .. "\n")
  vim.cmd("cq!")
end
local version = vim.version()
io.stdout:write(("Neovim %d.%d by the grammar: %d passed, 0 failed\n"):format(version.major, version.minor, passed))
vim.cmd("qa!")
