autocmd BufNewFile,BufRead *.quillet setfiletype quillet
