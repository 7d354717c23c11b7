-- What somebody does in Neovim with a scene open: waits for the findings, formats, renames, asks, saves. Prints one line
-- of JSON that says what was seen. Usage: nvim --headless -u docs/editors/nvim.lua -c 'luafile session.lua' SCENE
local seen = {}

local function wait_for(what, done)
  if not vim.wait(60000, done, 20) then
    error('waited for ' .. what .. ' in vain')
  end
end

local function ask(method, params)
  local answers = assert(vim.lsp.buf_request_sync(0, method, params, 60000))
  for _, answer in pairs(answers) do
    if answer.error then
      return { error = answer.error.message }
    end
    return answer.result
  end
end

local function run()
  wait_for('the server', function() return #vim.lsp.get_active_clients() > 0 end)
  wait_for('findings', function() return #vim.diagnostic.get(0) > 0 end)
  -- A first list may come ahead of the rest; hover comes when all is worked out.
  ask('textDocument/hover', vim.lsp.util.make_position_params())
  wait_for('all findings', function() return #vim.diagnostic.get(0) > 0 end)
  vim.wait(300)
  for _, one in ipairs(vim.diagnostic.get(0)) do
    table.insert(seen, { line = one.lnum + 1, column = one.col + 1, code = one.code, message = one.message })
  end

  vim.fn.search('^  Oda  to')
  if vim.lsp.buf.format then
    vim.lsp.buf.format({ timeout_ms = 60000 })
  else
    vim.lsp.buf.formatting_sync(nil, 60000)
  end
  local formatted = table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, true), '\n') .. '\n'

  vim.fn.search('^people Oda')
  vim.fn.search('Oda')
  local params = vim.lsp.util.make_position_params()
  params.newName = 'Tobias'
  local refused = ask('textDocument/rename', params).error
  vim.lsp.buf.rename('Åsa')
  wait_for('the new name', function() return vim.fn.search('^people Åsa', 'nw') > 0 end)

  vim.fn.search('favour')
  local hover = ask('textDocument/hover', vim.lsp.util.make_position_params()).contents.value
  local symbols = ask('textDocument/documentSymbol', { textDocument = vim.lsp.util.make_text_document_params() })
  vim.cmd('write')
  return { findings = seen, formatted = formatted, refused = refused, hover = hover, scene = symbols[1].name,
           filetype = vim.bo.filetype }
end

local good, result = pcall(run)
io.stdout:write(vim.json.encode(good and result or { fault = tostring(result) }) .. '\n')
vim.cmd('qall!')
