" One step in for each block that is open.
if exists('b:did_indent') | finish | endif
let b:did_indent = 1

setlocal indentexpr=QuilletIndent(v:lnum) indentkeys=0},!^F,o,O
let b:undo_indent = 'setlocal indentexpr< indentkeys<'

if exists('*QuilletIndent') | finish | endif

function QuilletIndent(line) abort
  let before = prevnonblank(a:line - 1)
  if before == 0
    return 0
  endif
  let indent = indent(before)
  if s:bare(before) =~# '{\s*$'
    let indent += shiftwidth()
  endif
  if getline(a:line) =~# '^\s*}'
    let indent -= shiftwidth()
  endif
  return indent
endfunction

" The line without its comment, and with nothing in its strings.
function s:bare(line) abort
  return substitute(substitute(getline(a:line), '"[^"]*"', '""', 'g'), '--.*$', '', '')
endfunction
