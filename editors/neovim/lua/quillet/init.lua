-- The language server in Neovim before 0.11.

local M = {}
local clients = {}

--- The project's folder, else the file's own.
local function root(file)
  local folder = vim.fn.fnamemodify(file, ":p:h")
  local marker = vim.fn.finddir(".git", vim.fn.escape(folder, " ") .. ";")
  return marker ~= "" and vim.fn.fnamemodify(marker, ":p:h:h") or folder
end

--- What the server is started with, for those who start it themselves.
function M.config(buffer)
  return {
    name = "quillet",
    cmd = { vim.g.quillet_program or "quillet", "lsp" },
    root_dir = root(vim.api.nvim_buf_get_name(buffer)),
  }
end

--- Attaches the server to a buffer; one server a project.
function M.attach(buffer)
  local config = M.config(buffer)
  if vim.fn.executable(config.cmd[1]) == 0 then
    local missing = "quillet: there is no program %s; build it, or set g:quillet_program"
    vim.notify(missing:format(config.cmd[1]), vim.log.levels.ERROR)
    return
  end
  local id = clients[config.root_dir]
  if not id or not vim.lsp.get_client_by_id(id) then
    id = vim.lsp.start_client(config)
    clients[config.root_dir] = id
  end
  vim.lsp.buf_attach_client(buffer, id)
end

return M
