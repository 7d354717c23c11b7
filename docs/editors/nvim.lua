-- Settings for Neovim 0.7 or later: put this into init.lua.
vim.api.nvim_create_autocmd({ 'BufRead', 'BufNewFile' }, {
  pattern = '*.staging',
  command = 'setfiletype staging',
})

vim.api.nvim_create_autocmd('FileType', {
  pattern = 'staging',
  callback = function(event)
    vim.bo[event.buf].commentstring = '-- %s'
    local settings = { name = 'lensward', cmd = { 'lensward', 'editor' } }
    if vim.lsp.start then
      vim.lsp.start(settings)
    else
      vim.lsp.buf_attach_client(event.buf, vim.lsp.start_client(settings))
    end
  end,
})
