-- The language server in Neovim before 0.11.

local M = {}
local clients = {}

--- The project's folder, else the file's own.
local function root(file)
  local folder = vim.fn.fnamemodify(file, ":p:h")
  local marker = vim.fn.finddir(".git", vim.fn.escape(folder, " ") .. ";")
  return marker ~= "" and vim.fn.fnamemodify(marker, ":p:h:h") or folder
end

local said = false

--- The program that serves; where there is none that is said, once, with each place it was looked for.
function M.program()
  local program = vim.fn["quillet#program"]()
  if vim.fn.executable(program) == 1 then
    return program
  end
  if not said then
    said = true
    vim.notify(vim.fn["quillet#missing"](), vim.log.levels.ERROR)
  end
end

--- What the server is started with, for those who start it themselves.
function M.config(buffer)
  return {
    name = "quillet",
    cmd = { vim.fn["quillet#program"](), "lsp" },
    root_dir = root(vim.api.nvim_buf_get_name(buffer)),
  }
end

--- Attaches the server to a buffer; one server a project.
function M.attach(buffer)
  if not M.program() then
    return
  end
  local config = M.config(buffer)
  local id = clients[config.root_dir]
  if not id or not vim.lsp.get_client_by_id(id) then
    id = vim.lsp.start_client(config)
    clients[config.root_dir] = id
  end
  vim.lsp.buf_attach_client(buffer, id)
end

return M
