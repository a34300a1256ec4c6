" Settings and commands of a pen's buffer; for Vim and Neovim alike.
if exists('b:did_ftplugin') | finish | endif
let b:did_ftplugin = 1

setlocal comments=:-- commentstring=--\ %s formatoptions-=t formatoptions+=croql
setlocal expandtab shiftwidth=2 softtabstop=2 tabstop=2
" A name may hold a minus: nib-unit.
setlocal iskeyword=@,48-57,-
setlocal suffixesadd=.quillet include=^\\s*use\\s\\+"\\zs[^"]*

command! -buffer -bar QuilletSheet call quillet#sheet()
command! -buffer -bar -nargs=? QuilletCompare call quillet#compare(<q-args>)
command! -buffer -bar QuilletWatch call quillet#watch()

let b:undo_ftplugin = 'setlocal comments< commentstring< formatoptions< expandtab< shiftwidth<'
      \ . ' softtabstop< tabstop< iskeyword< suffixesadd< include<'
      \ . ' | delcommand -buffer QuilletSheet | delcommand -buffer QuilletCompare | delcommand -buffer QuilletWatch'
