" What the quillet program does for a buffer: the sheet for the lathe, and the live page.

" The sheet is written beside nothing of yours, and opened.
function quillet#sheet() abort
  if s:saved()
    let out = tempname() . '.html'
    let pen = s:pen()
    let asked = ['sheet', expand('%:p'), '-o', out] + (pen ==# '' ? [] : ['--pen', pen])
    call s:start(asked, {'ended': {failed -> failed ? 0 : s:open(out)}})
  endif
endfunction

" What has changed since a revision, HEAD where none is named: a page with pictures, opened. It is
" written whatever has changed, so it is opened however the program ends.
function quillet#compare(revision) abort
  if s:saved()
    let out = tempname() . '.html'
    let revision = a:revision ==# '' ? 'HEAD' : a:revision
    let asked = ['compare', revision, '--format', 'html', '-o', out, '--', expand('%:p')]
    call s:start(asked, {'ended': {_failed -> filereadable(out) ? s:open(out) : 0}},
          \ expand('%:p:h'))
  endif
endfunction

" The pen that begins at or above the cursor, else the first: a sheet is of one pen.
function s:pen() abort
  let begins = '^\s*pen\s\+[a-z]'
  let line = search(begins, 'bcnW')
  return matchstr(getline(line > 0 ? line : search(begins, 'nW')), '^\s*pen\s\+\zs[a-z][A-Za-z0-9-]*')
endfunction

" The live page is served until Vim ends or the command is given again.
let s:watched = {}
function quillet#watch() abort
  let file = expand('%:p')
  if has_key(s:watched, file)
    call s:stop(remove(s:watched, file))
    echo 'quillet: no longer watching'
    return
  endif
  if !s:saved()
    return
  endif
  let job = s:start(['watch', file], {
        \ 'said': function('s:found_page', [file]),
        \ 'ended': {_failed -> s:forget(file)}})
  if type(job) != v:t_number || job > 0
    let s:watched[file] = job
  endif
endfunction

" A page that is served no more is opened anew the next time.
function s:forget(file) abort
  call filter(s:watched, {watched -> watched !=# a:file})
  call filter(s:opened, {opened -> opened !=# a:file})
endfunction

" The program: g:quillet_program, else the one on PATH, else the one that cargo installed.
function quillet#program() abort
  if has_key(g:, 'quillet_program')
    return g:quillet_program
  endif
  let cargo = s:cargo()
  return !executable('quillet') && executable(cargo) ? cargo : 'quillet'
endfunction

" What is said where it is in none of these.
function quillet#missing() abort
  let looked = has_key(g:, 'quillet_program') ? 'g:quillet_program says ' . g:quillet_program
        \ : 'g:quillet_program is not set, and it is not on the PATH, nor is it ' . s:cargo()
  return 'quillet: there is no program: ' . looked
        \ . '. Put that of a release on the PATH, or build it in Quillet''s folder by "cargo install --path crates/cli"'
endfunction

function s:cargo() abort
  return $HOME . '/.cargo/bin/quillet'
endfunction

let s:opened = {}
function s:found_page(file, line) abort
  let page = matchstr(a:line, 'http://[^ ]*')
  if page !=# '' && get(s:opened, a:file, '') !=# page
    let s:opened[a:file] = page
    call s:open(page)
  endif
endfunction

function s:saved() abort
  silent! update
  if &modified || expand('%') ==# ''
    echohl ErrorMsg | echomsg 'quillet: save the pen first' | echohl None
    return 0
  endif
  return 1
endfunction

" Starts the program; tells each line it says and how it ended.
function s:start(asked, tell, folder = getcwd()) abort
  let command = [quillet#program()] + a:asked
  if !executable(command[0])
    echohl ErrorMsg
    echomsg quillet#missing()
    echohl None
    return -1
  endif
  if has('nvim')
    let Heard = {_job, lines, _event -> s:hear(a:tell, lines)}
    return jobstart(command, {
          \ 'cwd': a:folder,
          \ 'on_stdout': Heard, 'on_stderr': Heard,
          \ 'on_exit': {_job, code, _event -> s:end(a:tell, code)}})
  endif
  return job_start(command, {
        \ 'cwd': a:folder,
        \ 'callback': {_channel, line -> s:hear(a:tell, [line])},
        \ 'exit_cb': {_job, code -> s:end(a:tell, code)}})
endfunction

let s:last_said = ''
function s:hear(tell, lines) abort
  for line in a:lines
    if line =~# '\S'
      let s:last_said = line
      if has_key(a:tell, 'said')
        call a:tell.said(line)
      endif
    endif
  endfor
endfunction

function s:end(tell, code) abort
  if a:code > 0 && a:code < 128
    echohl ErrorMsg | echomsg 'quillet: ' . s:last_said | echohl None
  endif
  if has_key(a:tell, 'ended')
    call a:tell.ended(a:code != 0)
  endif
endfunction

function s:stop(job) abort
  if has('nvim')
    call jobstop(a:job)
  else
    call job_stop(a:job)
  endif
endfunction

" Opens a page or a file as the desktop does; g:quillet_opener says otherwise.
function s:open(what) abort
  let openers = [get(g:, 'quillet_opener', ''), 'xdg-open', 'open', 'explorer.exe']
  for opener in filter(openers, {_, opener -> opener !=# '' && executable(opener)})
    if has('nvim')
      call jobstart([opener, a:what], {'detach': v:true})
    else
      call job_start([opener, a:what], {'stoponexit': ''})
    endif
    return
  endfor
  echomsg 'quillet: open ' . a:what
endfunction
