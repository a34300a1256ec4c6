;;; e2e.el --- Emacs with eglot against the real server  -*- lexical-binding: t; -*-

;; Run in batch in a folder that holds a copy of the examples, with the program in $QUILLET.

;;; Code:

(let ((elpa "/usr/share/emacs/site-lisp/elpa"))
  (when (file-directory-p elpa)
    (dolist (folder (directory-files elpa t "\\`[^.]"))
      (add-to-list 'load-path folder))))
(require 'cl-lib)
(require 'eglot)
(require 'flymake)
(require 'url)
(require 'quillet-mode)

(load (expand-file-name "tally" (file-name-directory load-file-name)) nil t)

(defun wait (what fn &optional seen)
  "Wait until FN holds; WHAT says for what, SEEN gives what is seen instead."
  (let ((until (+ (float-time) 10)) holds)
    (while (and (not (setq holds (funcall fn))) (< (float-time) until))
      (accept-process-output nil 0.02)
      ;; In batch nobody is idle, so nothing is sent or looked at by itself.
      (when eglot--recent-changes
        (eglot--signal-textDocument/didChange))
      (flymake-start))
    (check what holds (and seen (funcall seen)))))

(defun shown ()
  "The lines and texts that are flagged in this buffer, in order."
  (let ((all (mapcar (lambda (it)
                       (list (line-number-at-pos (flymake-diagnostic-beg it))
                             (flymake-diagnostic-text it)))
                     (flymake-diagnostics))))
    (sort all (lambda (a b) (< (car a) (car b))))))

(defun checked (name)
  "The lines and messages of `quillet check' in the file NAME, in order."
  (with-temp-buffer
    (call-process quillet-program nil '(t nil) nil "check" "--format" "json" name)
    (goto-char (point-min))
    (let* ((json (json-parse-buffer :array-type 'list :object-type 'plist))
           (all (mapcar (lambda (it) (list (plist-get (plist-get it :start) :line)
                                           (plist-get it :message)))
                        (cl-remove-if-not
                         (lambda (it) (equal (file-name-nondirectory (plist-get it :file)) name))
                         (plist-get json :findings)))))
      (sort all (lambda (a b) (< (car a) (car b)))))))

(defun as-checked (name)
  "Whether this buffer flags what `quillet check' finds in NAME, line by line."
  (let ((shown (shown)) (checked (checked name)))
    (and (= (length shown) (length checked))
         (cl-every (lambda (finding)
                     (cl-some (lambda (it) (and (= (car it) (car finding))
                                                (string-match-p (regexp-quote (cadr finding)) (cadr it))))
                              shown))
                   checked))))

(defun ask (method &rest more)
  "What the server answers to METHOD here, with MORE params."
  (jsonrpc-request (eglot-current-server) method
                   (append (eglot--TextDocumentPositionParams) more) :timeout 10))

(defun go (text &optional within)
  "Go to the first TEXT, or to WITHIN in it."
  (goto-char (point-min))
  (search-forward text)
  (goto-char (match-beginning 0))
  (when within
    (search-forward within)
    (goto-char (match-beginning 0))))

(defun faces (text)
  "The face of the first TEXT."
  (go text)
  (get-text-property (point) 'face))

(setq quillet-program (getenv "QUILLET")
      eglot-sync-connect 10
      eglot-autoshutdown nil
      eglot-autoreconnect nil
      eglot-events-buffer-size 0
      inhibit-message t)

(let* ((folder default-directory)
       (project-find-functions (list (lambda (_) (cons 'transient folder)))))
  (find-file "knot.quillet")
  (check "a pen is opened in its mode" (eq major-mode 'quillet-mode) major-mode)
  (call-interactively #'eglot)
  (wait "Knot's findings appear as the terminal tells them"
        (lambda () (as-checked "knot.quillet")) #'shown)

  (find-file "heron.quillet")
  (eglot--maybe-activate-editing-mode)
  (let ((before (buffer-string))
        (bad "\npen tern \"Tërn ⌀ 🐦\" { close cap.mouth onto barel.mouth }\n"))
    (wait "Heron shows what the terminal tells of it" (lambda () (as-checked "heron.quillet")) #'shown)
    (goto-char (point-max))
    (insert bad)
    (cl-flet ((flagged () (cl-find "barel" (flymake-diagnostics)
                                   :test #'string-match-p :key #'flymake-diagnostic-text)))
      (wait "a wrong name is found where it stands, past an emoji"
            (lambda () (let ((it (flagged)))
                         (and it (equal (buffer-substring (flymake-diagnostic-beg it) (flymake-diagnostic-end it))
                                        "barel"))))
            #'shown)
      (go "barel")
      (let* ((it (flagged))
             (range (list :start (eglot--pos-to-lsp-position (flymake-diagnostic-beg it))
                          :end (eglot--pos-to-lsp-position (flymake-diagnostic-end it))))
             (told (cdr (assoc 'eglot-lsp-diag (flymake-diagnostic-data it))))
             (actions (jsonrpc-request
                       (eglot-current-server) :textDocument/codeAction
                       (list :textDocument (eglot--TextDocumentIdentifier) :range range
                             :context (list :diagnostics (vector told) :only ["quickfix"]))
                       :timeout 10))
             (fix (cl-find-if (lambda (action) (plist-get action :edit)) (append actions nil))))
        (check "a fix is offered" fix actions)
        (eglot--apply-workspace-edit (plist-get fix :edit) nil)
        (check "the fix is applied" (string-suffix-p (string-replace "barel" "barrel" bad) (buffer-string))
               (buffer-string)))
      (wait "the wrong name is no longer flagged" (lambda () (not (flagged))) #'shown))
    (delete-region (- (point-max) (length bad) 1) (point-max))
    (check "the text is as it was" (equal before (buffer-string)))
    (wait "the findings clear" (lambda () (as-checked "heron.quillet")) #'shown)

    (go "thread closing inside" "closing")
    (let ((hover (ask :textDocument/hover)))
      (check "hover tells of the thread" (string-match-p "M13" (format "%S" hover)) hover))

    ;; Both the form of the statement and what was worked out, one not in place of the other.
    (check "what is told of a place is put together" (eq eldoc-documentation-strategy #'eldoc-documentation-compose)
           eldoc-documentation-strategy)
    (let ((form (ask :textDocument/signatureHelp)))
      (check "a statement that is whole leaves the line to what is worked out" (null form) form))

    (go "drill 12.2")
    (delete-region (point) (line-end-position))
    (insert "dr")
    (let* ((answer (ask :textDocument/completion))
           (items (append (if (vectorp answer) answer (plist-get answer :items)) nil)))
      (check "completion offers drill"
             (cl-find "drill" items :test #'string-prefix-p :key (lambda (it) (plist-get it :label)))
             items))
    (let ((offered (all-completions "dr" (nth 2 (eglot-completion-at-point)))))
      (check "and in Emacs' own list" (cl-find "drill" offered :test #'string-prefix-p) offered))
    (revert-buffer t t)

    (go "length 64")
    (replace-match "length       64")
    (eglot-format-buffer)
    (check "formatting brings it into form" (equal before (buffer-string)) (buffer-string))

    (go "thread housing inside" "housing")
    ;; An edit of an older text is refused, so the server has to have this one.
    (when eglot--recent-changes
      (eglot--signal-textDocument/didChange))
    (cl-letf (((symbol-function 'y-or-n-p) #'always))
      (eglot-rename "collar-thread"))
    (check "the name changes here" (string-match-p "thread collar-thread inside" (buffer-string)))
    (with-current-buffer (find-file-noselect "bought.quillet")
      (check "and where it is defined" (string-match-p "thread collar-thread = M7.4x0.5" (buffer-string))
             (buffer-string)))
    (set-buffer-modified-p nil)

    (font-lock-ensure)
    (dolist (it '(("-- A closed" font-lock-comment-delimiter-face) ("\"saltings" font-lock-string-face)
                  ("part cap" font-lock-keyword-face) ("cap from" font-lock-type-face)
                  ("M13x0.8" font-lock-constant-face) ("smooth" font-lock-builtin-face)
                  ("cap.mouth" font-lock-variable-name-face) ("uncapped" font-lock-constant-face)
                  ("turns" font-lock-function-name-face)))
      (check (format "%s is %s" (car it) (cadr it)) (eq (faces (car it)) (cadr it)) (faces (car it)))))

  (with-temp-buffer
    (quillet-mode)
    (insert "part cap from a to b {\nlength 3\nfrom a { -- {\ndrill 3 to 2\n}\n}\n")
    (indent-region (point-min) (point-max))
    (check "blocks are indented"
           (equal (buffer-string) "part cap from a to b {\n  length 3\n  from a { -- {\n    drill 3 to 2\n  }\n}\n")
           (buffer-string)))

  (find-file "heron.quillet")
  (revert-buffer t t)
  (let (opened)
    (cl-letf (((symbol-function 'browse-url-of-file) (lambda (file) (setq opened file))))
      (go "pen heron-ida")
      (quillet-sheet))
    (check "the sheet is made and opened, of the pen at the cursor"
           (with-temp-buffer (insert-file-contents opened) (search-forward "Heron for Ida" nil t))
           opened))

  (let (opened)
    (call-process "git" nil nil nil "init" "--quiet")
    (call-process "git" nil nil nil "add" "--all")
    (call-process "git" nil nil nil "-c" "user.name=Bench" "-c" "user.email=bench@example.invalid"
                  "commit" "--quiet" "-m" "the pens of this bench")
    (go "let grip = 11.4")
    (replace-match "let grip = 11.0")
    (cl-letf (((symbol-function 'browse-url-of-file) (lambda (file) (setq opened file))))
      (quillet-compare-with "HEAD"))
    (check "what has changed is opened, old under new"
           (with-temp-buffer (insert-file-contents opened) (search-forward "section of heron, old under new" nil t))
           opened)
    (go "let grip = 11.0")
    (replace-match "let grip = 11.4")
    (save-buffer))

  (let (page)
    (cl-letf (((symbol-function 'browse-url) (lambda (url &rest _) (setq page url))))
      (quillet-watch)
      (wait "the live page is opened" (lambda () page)))
    (check "it shows the pen"
           (with-current-buffer (url-retrieve-synchronously page t t 10)
             (goto-char (point-min))
             (search-forward "Heron for Ida" nil t))
           page)
    (quillet-watch)
    (let ((port (url-port (url-generic-parse-url page))))
      (wait "and is gone when the command is given again"
            (lambda ()
              (condition-case nil
                  (progn (delete-process (make-network-process :name "gone" :host "127.0.0.1" :service port))
                         nil)
                (file-error t))))))

  (let* ((home (make-temp-file "quillet-home" t))
         (process-environment (cons (concat "HOME=" home) process-environment))
         (cargo (expand-file-name "~/.cargo/bin/quillet"))
         (exec-path '("/nowhere"))
         (quillet-program "quillet")
         (said (condition-case it (quillet--program) (user-error (cadr it)))))
    (dolist (place (list "quillet-program" "exec-path" cargo "release"))
      (check (concat "a program that is missing is said, and where it was looked for: " place)
             (string-match-p (regexp-quote place) said) said))
    (make-directory (file-name-directory cargo) t)
    (write-region "#!/bin/sh\n" nil cargo)
    (set-file-modes cargo #o700)
    (check "cargo's folder is looked in" (equal (quillet--program) cargo) (quillet--program))
    (delete-directory home t))

  (find-file "knot.quillet")
  (let* ((server (eglot-current-server))
         (process (jsonrpc--process server)))
;; `eglot-shutdown' says the same and then kills the process without waiting for it.
    (jsonrpc-request server :shutdown nil :timeout 10)
    (jsonrpc-notify server :exit nil)
    (with-timeout (10) (while (process-live-p process) (accept-process-output nil 0.02)))
    (check "the server ends with 0 after shutdown" (eq 0 (process-exit-status process))
           (process-exit-status process))))

(princ (format "Emacs %s: %d passed, 0 failed\n" emacs-version passed))
;;; e2e.el ends here
