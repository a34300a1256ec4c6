" Vim with this folder's files: colours, indentation, the sheet and the live page.
"
" Run in a folder that holds a copy of the examples, with the program in $QUILLET.

let g:quillet_program = $QUILLET
let s:passed = 0

function s:check(what, holds, ...) abort
  if !a:holds
    call s:say('not ok - ' . a:what . (a:0 ? ': ' . string(a:1) : ''))
    cquit!
  endif
  let s:passed += 1
  call s:say('ok - ' . a:what)
endfunction

function s:say(line) abort
  call writefile([a:line], '/dev/stdout', 'a')
endfunction

function s:wait(what, holds) abort
  let tries = 0
  while !a:holds() && tries < 500
    let tries += 1
    sleep 20m
  endwhile
  call s:check(a:what, a:holds())
endfunction

function s:go(word) abort
  call cursor(1, 1)
  call s:check(a:word . ' is there', search('\V' . a:word, 'cW') > 0)
endfunction

function s:colour(word) abort
  call cursor(1, 1)
  call search('\V' . a:word, 'cW')
  return synIDattr(synID(line('.'), col('.'), 1), 'name')
endfunction

" The page at an address of this machine; nothing where nobody answers.
function s:fetched(page) abort
  let said = []
  let Hear = {_channel, line -> add(said, line)}
  try
    let channel = ch_open(matchstr(a:page, '//\zs[^/]*'), {'mode': 'raw', 'waittime': 500, 'callback': Hear})
  catch
    return ''
  endtry
  if ch_status(channel) !=# 'open'
    return ''
  endif
  call ch_sendraw(channel, "GET / HTTP/1.1\r\nHost: " . matchstr(a:page, '//\zs[^/]*') . "\r\nConnection: close\r\n\r\n")
  let tries = 0
  while ch_status(channel) ==# 'open' && tries < 250
    let tries += 1
    sleep 20m
  endwhile
  return join(said, '')
endfunction

edit heron.quillet
call s:check('a pen is known by its name', &filetype ==# 'quillet', &filetype)
for [word, group] in items({
      \ '-- A closed': 'quilletComment', 'thread closing': 'quilletHead', 'M13x0.8': 'quilletThread',
      \ '"saltings': 'quilletString', '11.4': 'quilletNumber', 'smooth': 'quilletShape'})
  call s:check(word . ' is ' . group, s:colour(word) ==# group, s:colour(word))
endfor

enew | setlocal filetype=quillet
call setline(1, ['part cap from a to b {', 'length 3', 'from a {', 'drill 3 to 2', '}', '}'])
silent normal! gg=G
call s:check('blocks are indented', getline(1, '$') ==#
      \ ['part cap from a to b {', '  length 3', '  from a {', '    drill 3 to 2', '  }', '}'], getline(1, '$'))

" Opened by a stand-in that keeps what it was given.
let s:opener = tempname()
call writefile(['#!/bin/sh', 'case "$1" in', 'http*) echo "$1" >' . s:opener . '.page ;;',
      \ '*) cp "$1" ' . s:opener . '.seen ;;', 'esac'], s:opener)
call setfperm(s:opener, 'rwx------')
let g:quillet_opener = s:opener

edit! heron.quillet
call s:go('pen heron-ida')
QuilletSheet
call s:wait('the sheet is made and opened', {-> filereadable(s:opener . '.seen')})
call s:check('of the pen at the cursor', join(readfile(s:opener . '.seen')) =~# 'Heron for Ida')

QuilletWatch
call s:wait('the live page is opened', {-> len(filereadable(s:opener . '.page') ? readfile(s:opener . '.page') : [])})
let s:page = readfile(s:opener . '.page')[0]
call s:check('it shows the pen', s:fetched(s:page) =~# 'Heron for Ida', s:page)
silent QuilletWatch
call s:wait('and is gone when the command is given again', {-> s:fetched(s:page) ==# ''})

call s:say('Vim ' . v:version . ': ' . s:passed . ' passed, 0 failed')
qall!
