--- The grammar of `editors/tree-sitter`, compiled and put where Neovim looks for it.
local M = {}

--- `editors/tree-sitter`, beside this plugin in Quillet's folder.
local function source()
  local here = vim.fs.normalize(debug.getinfo(1, "S").source:sub(2))
  return vim.fs.dirname(here):gsub("/neovim/lua/quillet$", "/tree-sitter")
end

local function compiler()
  for _, name in ipairs({ vim.env.CC or "cc", "gcc", "clang" }) do
    if vim.fn.executable(name) == 1 then
      return name
    end
  end
end

--- Compiles the parser into FOLDER/parser and copies the queries to FOLDER/queries; each file comes whole
--- or not at all. FOLDER is the user's own `site`, unless another is given. Returns what went wrong.
function M.put(folder)
  local from = source()
  local cc = compiler()
  if not vim.uv.fs_stat(from .. "/src/parser.c") then
    return "there is no grammar at " .. from .. "; keep the plugin in Quillet's folder"
  elseif not cc then
    return "there is no C compiler; install one, or set CC"
  end
  vim.fn.mkdir(folder .. "/parser", "p")
  vim.fn.mkdir(folder .. "/queries/quillet", "p")
  local parser = folder .. "/parser/quillet.so"
  local new = parser .. ".new"
  local built = vim.system({ cc, "-shared", "-fPIC", "-Os", "-I", from .. "/src", from .. "/src/parser.c", "-o", new }):wait()
  if built.code ~= 0 then
    vim.uv.fs_unlink(new)
    return cc .. " says: " .. vim.trim(built.stderr or "")
  end
  local _, failed = vim.uv.fs_rename(new, parser)
  for name in vim.fs.dir(from .. "/queries") do
    local _, copied = vim.uv.fs_copyfile(from .. "/queries/" .. name, folder .. "/queries/quillet/" .. name)
    failed = failed or copied
  end
  -- A folder that was not there when the editor began is looked for again.
  vim.o.runtimepath = vim.o.runtimepath
  return failed
end

--- Puts the grammar into the user's own folder and colours the pens that are open by it.
function M.install()
  local failed = M.put(vim.fn.stdpath("data") .. "/site")
  if failed then
    vim.notify("No grammar: " .. failed, vim.log.levels.ERROR)
    return
  end
  for _, buffer in ipairs(vim.api.nvim_list_bufs()) do
    if vim.bo[buffer].filetype == "quillet" then
      vim.treesitter.start(buffer, "quillet")
    end
  end
  vim.notify("Pens are coloured by their grammar from now on")
end

return M
