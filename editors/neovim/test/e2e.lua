-- Neovim attached to the real server through this folder's own plugin, from 0.7 to 0.11.
--
-- Run headless in a folder that holds a copy of the examples, with the program in $QUILLET.

local program = assert(os.getenv("QUILLET"), "set QUILLET to the program")
vim.g.quillet_program = program
local modern = vim.fn.has("nvim-0.11") == 1
local passed = 0

local function check(what, holds, seen)
  if not holds then
    error(what .. (seen ~= nil and (": " .. vim.inspect(seen)) or ""), 0)
  end
  passed = passed + 1
  io.stdout:write("ok - " .. what .. "\n")
end

local shown
local function wait(what, fn)
  check(what, vim.wait(10000, fn, 20), shown())
end

local function lines()
  return vim.api.nvim_buf_get_lines(0, 0, -1, true)
end

local function text()
  return table.concat(lines(), "\n") .. "\n"
end

local function open(name)
  vim.cmd("silent edit " .. name)
  check(name .. " is a pen", vim.bo.filetype == "quillet", vim.bo.filetype)
end

local function client()
  local get = vim.lsp.get_clients or vim.lsp.get_active_clients
  for _, one in ipairs(get()) do
    if one.name == "quillet" then
      return one
    end
  end
end

--- What a request answers; an error fails.
local function ask(method, params)
  local answers, failed = vim.lsp.buf_request_sync(0, method, params, 10000)
  assert(not failed, failed)
  for _, answer in pairs(answers) do
    assert(not answer.err, vim.inspect(answer.err))
    return answer.result
  end
end

--- Puts the cursor on the first place of a word.
local function go(word, back)
  vim.api.nvim_win_set_cursor(0, { 1, 0 })
  assert(vim.fn.search("\\V" .. word, "cW") > 0, "no " .. word)
  if back then
    vim.fn.search("\\V" .. back, "cW")
  end
end

local function here()
  if modern then
    return vim.lsp.util.make_position_params(0, client().offset_encoding)
  end
  return vim.lsp.util.make_position_params()
end

--- The page at an address of this machine; nil where nobody answers.
local function fetched(page)
  local port, path = page:match("^http://127%.0%.0%.1:(%d+)(/.*)$")
  assert(port, page)
  local said, over = {}, false
  local socket = vim.loop.new_tcp()
  socket:connect("127.0.0.1", tonumber(port), function(failed)
    if failed then
      said, over = nil, true
      return
    end
    socket:read_start(function(_, data)
      if data then
        table.insert(said, data)
      else
        over = true
      end
    end)
    socket:write(("GET %s HTTP/1.1\r\nHost: 127.0.0.1:%s\r\nConnection: close\r\n\r\n"):format(path, port))
  end)
  vim.wait(5000, function()
    return over
  end, 20)
  socket:close()
  return said and table.concat(said)
end

--- Findings of the buffer as "line:column rule".
function shown()
  local all = {}
  for _, it in ipairs(vim.diagnostic.get(0)) do
    local code = it.code or it.user_data.lsp.code
    table.insert(all, ("%d:%d %s"):format(it.lnum + 1, it.col + 1, code))
  end
  table.sort(all)
  return all
end

--- The same from `quillet check`, whose columns count characters.
local function checked(name)
  local json = vim.fn.system({ program, "check", "--format", "json", name })
  local all, names = {}, {}
  local source = vim.fn.readfile(name)
  for _, it in ipairs(vim.json.decode(json).findings) do
    if vim.fn.fnamemodify(it.file, ":t") == name then
      local line = source[it.start.line]
      local column = vim.fn.byteidx(line, it.start.column - 1) + 1
      table.insert(all, ("%d:%d %s"):format(it.start.line, column, it.rule))
      names[it.rule] = true
    end
  end
  table.sort(all)
  return all, vim.tbl_count(names)
end

local function run()
  -- Knot's findings, all of them, where the terminal says they are.
  open("knot.quillet")
  local expected, rules = checked("knot.quillet")
  check("the terminal finds eight rules in Knot", rules >= 8, rules)
  wait("Knot's findings appear as the terminal tells them", function()
    return vim.deep_equal(shown(), expected)
  end)
  check("the server says who it is", client().server_capabilities ~= nil)

  -- A bad line, with characters of two, three and four bytes before what is wrong in it.
  open("heron.quillet")
  local clean = checked("heron.quillet")
  wait("Heron shows what the terminal tells of it", function()
    return vim.deep_equal(shown(), clean)
  end)
  local before = text()
  local bad = 'pen tern "Tërn ⌀ 🐦" { close cap.mouth onto barel.mouth }'
  vim.api.nvim_buf_set_lines(0, -1, -1, true, { "", bad })
  local at = ("%d:%d unknown-name"):format(#lines(), bad:find("barel", 1, true))
  wait("a wrong name is found where it stands, past an emoji", function()
    return vim.tbl_contains(shown(), at)
  end)

  -- The quick fix, chosen as a maker chooses it.
  go("barel")
  vim.ui.select = function(choices, _, chosen)
    for index, choice in ipairs(choices) do
      local action = choice.action or choice[2]
      if action.kind == "quickfix" then
        return chosen(choices[index], index)
      end
    end
    error("no quick fix: " .. vim.inspect(choices))
  end
  vim.lsp.buf.code_action()
  wait("the fix is applied", function()
    return lines()[#lines()] == bad:gsub("barel", "barrel")
  end)
  wait("the wrong name is no longer shown", function()
    return not vim.tbl_contains(shown(), at)
  end)
  vim.api.nvim_buf_set_lines(0, -3, -1, true, {})
  check("the text is as it was", text() == before)
  wait("the findings clear", function()
    return vim.deep_equal(shown(), clean)
  end)

  -- Hover.
  go("thread closing inside", "closing")
  local hover = ask("textDocument/hover", here())
  local told = hover and (hover.contents.value or hover.contents)
  check("hover tells of the thread", tostring(told):find("M13", 1, true), hover)

  -- Completion.
  go("drill 12.2")
  vim.api.nvim_set_current_line("    dr")
  vim.api.nvim_win_set_cursor(0, { vim.fn.line("."), 6 })
  local offered = ask("textDocument/completion", here())
  local drill
  for _, item in ipairs(offered.items or offered) do
    drill = drill or (item.label:find("^drill") and item)
  end
  check("completion offers drill", drill, offered)
  check("and says what it replaces", drill.textEdit, drill)
  vim.cmd("silent edit!")

  -- Formatting.
  local wanted = text()
  local untidy = wanted:gsub("  length 64", "length      64"):gsub("at 30 +dia", "at 30 dia")
  vim.api.nvim_buf_set_lines(0, 0, -1, true, vim.split(untidy:gsub("\n$", ""), "\n"))
  check("the text is untidy", text() ~= wanted)
  wait("the server has the text that was read again", function()
    local attached = modern and vim.lsp.get_clients({ bufnr = 0 }) or vim.lsp.buf_get_clients(0)
    return next(attached) ~= nil
  end)
  if vim.lsp.buf.format then
    vim.lsp.buf.format({ timeout_ms = 10000 })
  else
    vim.lsp.buf.formatting_sync(nil, 10000)
  end
  check("formatting brings it into form", text() == wanted, text())

  -- Rename across files.
  go("thread housing inside", "housing")
  vim.lsp.buf.rename("collar-thread")
  wait("the name changes here", function()
    return text():find("thread collar%-thread inside")
  end)
  check("and not the old one left", not text():find("housing"))
  open("bought.quillet")
  check("and where it is defined", text():find("thread collar%-thread = M7.4x0.5"), text())
  check("and not the old one left there", not text():find("thread housing"))

  -- Colours, from this folder's own syntax.
  local function colour(word)
    go(word)
    return vim.fn.synIDattr(vim.fn.synID(vim.fn.line("."), vim.fn.col("."), 1), "name")
  end
  vim.cmd("syntax on")
  vim.cmd("set filetype=quillet")
  for word, group in pairs({
    ["-- What"] = "quilletComment",
    ["thread coll"] = "quilletHead",
    ["M7.4"] = "quilletThread",
    ['"No. 6'] = "quilletString",
    ["41.5"] = "quilletNumber",
    ["dia 4"] = "quilletWord",
    ["nib-unit"] = "quilletDefined",
    ["point to"] = "quilletOperand",
  }) do
    check(word .. " is " .. group, colour(word) == group, colour(word))
  end

  -- Indentation.
  vim.cmd("enew! | setlocal filetype=quillet")
  vim.api.nvim_buf_set_lines(0, 0, -1, true, { "part cap from a to b {", "length 3", "from a {", "drill 3 to 2", "}", "}" })
  vim.cmd("silent normal! gg=G")
  check("blocks are indented", vim.deep_equal(lines(), {
    "part cap from a to b {", "  length 3", "  from a {", "    drill 3 to 2", "  }", "}",
  }), lines())

  -- The sheet, opened by a stand-in that says what it was given.
  local opener = vim.fn.tempname()
  vim.fn.writefile({
    "#!/bin/sh",
    'case "$1" in',
    'http*) echo "$1" >' .. opener .. ".page ;;",
    '*) cp "$1" ' .. opener .. ".seen ;;",
    "esac",
  }, opener)
  vim.fn.setfperm(opener, "rwx------")
  vim.g.quillet_opener = opener
  vim.cmd("bwipeout! | silent! wall | silent edit heron.quillet")
  go("pen heron-ida")
  vim.cmd("QuilletSheet")
  wait("the sheet is made and opened, of the pen at the cursor", function()
    local made = vim.fn.filereadable(opener .. ".seen") == 1 and vim.fn.readfile(opener .. ".seen") or {}
    return table.concat(made):find("Heron for Ida", 1, true)
  end)

  -- What has changed since the last commit, old under new.
  for _, words in ipairs({ { "init", "--quiet" }, { "add", "--all" }, {
    "-c", "user.name=Bench", "-c", "user.email=bench@example.invalid", "commit", "--quiet", "-m", "pens",
  } }) do
    vim.fn.system(vim.list_extend({ "git" }, words))
    check("git " .. words[1], vim.v.shell_error == 0)
  end
  os.remove(opener .. ".seen")
  go("let grip = 11.4")
  vim.api.nvim_set_current_line("let grip = 11.0")
  vim.cmd("QuilletCompare")
  wait("what has changed is opened", function()
    local made = vim.fn.filereadable(opener .. ".seen") == 1 and vim.fn.readfile(opener .. ".seen") or {}
    return table.concat(made):find("section of heron, old under new", 1, true)
  end)
  local compared = ask("quillet/compare", { textDocument = { uri = vim.uri_from_bufnr(0) } })
  check("the server tells the same", compared.markdown:find("most %-0.40 mm at 22.0"), compared)
  local since
  for _, lens in ipairs(ask("textDocument/codeLens", { textDocument = { uri = vim.uri_from_bufnr(0) } })) do
    since = since or (lens.command.title:find("^since HEAD: ") and lens.command.title)
  end
  check("a lens tells of it above the pen", since == "since HEAD: +0.01 g", since)
  vim.cmd("silent undo | silent write")

  -- The live page: served while it is watched, and no longer.
  local seen = opener .. ".page"
  vim.cmd("QuilletWatch")
  wait("a page is opened", function()
    return vim.fn.filereadable(seen) == 1 and #vim.fn.readfile(seen) == 1
  end)
  local page = vim.fn.readfile(seen)[1]
  check("it shows the pen", (fetched(page) or ""):find("Heron for Ida", 1, true), page)
  vim.cmd("QuilletWatch")
  wait("and is gone when the command is given again", function()
    return fetched(page) == nil
  end)
  -- A program that is not there is said, and leaves nothing to stop.
  vim.g.quillet_program = "/no/such/program"
  vim.cmd("silent! QuilletWatch | silent! QuilletWatch")
  local told = {}
  local notify = vim.notify
  vim.notify = function(says)
    table.insert(told, says)
  end
  for _, name in ipairs({ "avocet.quillet", "curlew.quillet" }) do
    open(name)
  end
  vim.notify = notify
  check("a program that is missing is said once", #told == 1 and told[1]:find("/no/such/program", 1, true), told)
  vim.g.quillet_program = nil
  local path, home = vim.env.PATH, vim.env.HOME
  vim.env.PATH, vim.env.HOME = "/nowhere", opener .. ".home"
  local missing = vim.fn["quillet#missing"]()
  for _, place in ipairs({ "g:quillet_program", "PATH", opener .. ".home/.cargo/bin/quillet", "release" }) do
    check("and where it was looked for: " .. place, missing:find(place, 1, true), missing)
  end
  vim.fn.mkdir(opener .. ".home/.cargo/bin", "p")
  vim.fn.writefile({ "#!/bin/sh" }, opener .. ".home/.cargo/bin/quillet")
  vim.fn.setfperm(opener .. ".home/.cargo/bin/quillet", "rwx------")
  check("cargo's folder is looked in", vim.fn["quillet#program"]() == opener .. ".home/.cargo/bin/quillet")
  vim.env.PATH, vim.env.HOME = path, home
  vim.cmd("silent edit heron.quillet")
  go("pen heron-ida")
  vim.g.quillet_program = program
  os.remove(seen)
  vim.cmd("QuilletWatch")
  wait("and comes again", function()
    return vim.fn.filereadable(seen) == 1 and #vim.fn.readfile(seen) == 1
  end)
  vim.cmd("QuilletWatch")
end

--- The server ends by itself, in order, when it is told to.
local function stop()
  local one = client()
  -- Since the folder is a repository, it has a server of its own.
  for _, other in ipairs((vim.lsp.get_clients or vim.lsp.get_active_clients)()) do
    if other.name == "quillet" and other.id ~= one.id then
      other.stop()
    end
  end
  local code
  if modern then
    vim.api.nvim_create_autocmd("LspDetach", { callback = function() code = code or 0 end })
  end
  local old = one.config.on_exit
  one.config.on_exit = function(ended, ...)
    code = ended
    return old and old(ended, ...)
  end
  one.stop()
  return vim.wait(10000, function()
    return client() == nil and code ~= nil
  end, 20) and code
end

local fine, why = xpcall(run, debug.traceback)
if fine then
  fine, why = pcall(function()
    local code = stop()
    check("the server ends with 0 after shutdown", code == 0, code)
  end)
end
if not fine then
  io.stdout:write("not ok - " .. tostring(why) .. "\n")
  vim.cmd("cq!")
end
io.stdout:write(("Neovim %s: %d passed, 0 failed\n"):format(tostring(vim.version().major .. "." .. vim.version().minor), passed))
vim.cmd("qa!")
