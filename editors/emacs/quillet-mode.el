;;; quillet-mode.el --- Pens written as parts, threads and fits  -*- lexical-binding: t; -*-

;; Version: 0.1.0
;; Package-Requires: ((emacs "26.1"))
;; Keywords: languages

;;; Commentary:

;; A major mode for .quillet files: colours, indentation, comments, and the language server
;; through eglot.  M-x quillet-sheet makes the sheet for the lathe, M-x quillet-watch serves
;; the live page.

;;; Code:

(require 'quillet-words)
(require 'browse-url)

(defgroup quillet nil
  "Pens written as parts, threads and fits."
  :group 'languages)

(defcustom quillet-program "quillet"
  "The quillet program: a name on the path, or where it is."
  :type 'string)

(defcustom quillet-indent-offset 2
  "How far a block is indented."
  :type 'integer
  :safe #'integerp)

(defvar quillet-mode-syntax-table
  (let ((table (make-syntax-table)))
    ;; Two dashes begin a comment; one within a name belongs to it.
    (modify-syntax-entry ?- "_ 12" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?\" "\"" table)
    (modify-syntax-entry ?. "." table)
    (modify-syntax-entry ?# "_" table)
    (dolist (sign '(?+ ?* ?/ ?= ?< ?>))
      (modify-syntax-entry sign "." table))
    table))

(defconst quillet--name "[a-z][A-Za-z0-9]*\\(?:-[A-Za-z0-9]+\\)*"
  "A name.")

(defun quillet--statement (words)
  "An expression for a statement that begins with one of WORDS, its group 1."
  (concat "\\(?:^\\|[{;]\\)[ \t]*" (regexp-opt words "\\(") "\\_>"))

(defconst quillet-font-lock-keywords
  `((,(concat (quillet--statement quillet-words-definers)
              "[ \t]+\\(" quillet--name "\\)[ \t]*\\(?:[={\"]\\|\\(?:from\\|like\\|of\\)\\_>\\)")
     (1 font-lock-keyword-face) (2 font-lock-type-face))
    (,(concat (quillet--statement '("limit" "accept")) "[ \t]+\\(" quillet--name "\\)")
     (1 font-lock-keyword-face) (2 font-lock-preprocessor-face))
    (,(concat (quillet--statement '("want")) "[ \t]+" (regexp-opt quillet-words-measures "\\(") "\\_>")
     (1 font-lock-keyword-face) (2 font-lock-function-name-face))
    (,(concat (quillet--statement '("from")) "[ \t]+\\(" quillet--name "\\)")
     (1 font-lock-keyword-face) (2 font-lock-variable-name-face))
    (,(concat (quillet--statement quillet-words-heads)) 1 font-lock-keyword-face)
    (,(concat "\\_<" quillet--name "\\." quillet--name) . font-lock-variable-name-face)
    (,(concat (regexp-opt quillet-words-measures "\\_<\\(") "\\_>[ \t]*(")
     1 font-lock-function-name-face)
    (,(concat "[(,][ \t]*" (regexp-opt quillet-words-configurations "\\(") "\\_>")
     1 font-lock-constant-face)
    ;; After these words a name stands, whatever word of the language it looks like.
    (,(concat (regexp-opt quillet-words-leading "\\_<\\(") "\\_>[ \t]+\\(" quillet--name "\\)\\_>[ \t]*\\(?:[^.( \t]\\|$\\)")
     (1 font-lock-builtin-face) (2 font-lock-variable-name-face))
    (,(regexp-opt quillet-words-shapes 'symbols) . font-lock-builtin-face)
    (,(regexp-opt quillet-words-tails 'symbols) . font-lock-builtin-face)
    ("\\_<\\(?:M[0-9][0-9.]*\\(?:x[PhP0-9.]+\\)?\\|#?[0-9][0-9/-]*-[0-9]+UN[CEFS]*\\)\\(?:-[0-9][A-Za-z0-9/]*\\)?\\(?:-LH\\)?\\_>"
     . font-lock-constant-face))
  "What `quillet-mode' colours, beyond comments and strings.")

(defun quillet-indent-line ()
  "Indent the line by the blocks that are open at its start."
  (let ((indent (save-excursion
                  (beginning-of-line)
                  (let ((depth (car (syntax-ppss))))
                    (skip-chars-forward " \t")
                    (when (eq (char-after) ?})
                      (setq depth (1- depth)))
                    (* quillet-indent-offset (max 0 depth)))))
        (back (- (point-max) (point))))
    (indent-line-to indent)
    ;; The cursor keeps its place in the text of the line.
    (when (> (- (point-max) back) (point))
      (goto-char (- (point-max) back)))))

(defvar quillet-mode-map
  (let ((map (make-sparse-keymap)))
    (define-key map (kbd "C-c C-s") #'quillet-sheet)
    (define-key map (kbd "C-c C-w") #'quillet-watch)
    map))

;;;###autoload
(define-derived-mode quillet-mode prog-mode "Quillet"
  "Pens written as parts, threads and fits.
\\{quillet-mode-map}"
  (setq-local comment-start "-- "
              comment-start-skip "--+[ \t]*"
              comment-end ""
              indent-tabs-mode nil
              indent-line-function #'quillet-indent-line
              electric-indent-chars (cons ?} electric-indent-chars)
              font-lock-defaults '(quillet-font-lock-keywords)
              imenu-generic-expression
              `((nil ,(concat "^[ \t]*\\(?:part\\|bought\\|pen\\|bench\\|thread\\|material\\)[ \t]+\\("
                              quillet--name "\\)[ \t]*[={\"fl]")
                     1))))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.quillet\\'" . quillet-mode))

(defvar eglot-server-programs)
;;;###autoload
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs
               '(quillet-mode . (lambda (&rest _) (list (quillet--program) "lsp")))))

(defun quillet--program ()
  "The program, or an error that says what to do."
  (let ((cargo (expand-file-name "~/.cargo/bin/quillet")))
    (cond ((executable-find quillet-program))
          ((and (equal quillet-program "quillet") (file-executable-p cargo)) cargo)
          (t (user-error (concat "There is no program: quillet-program is %s, not on the `exec-path', nor is there %s.  "
                                 "Put that of a release on the path, or build it in Quillet's folder by "
                                 "\"cargo install --path crates/cli\"")
                         quillet-program cargo)))))

(defun quillet--managed ()
  "Show both the form of a statement and what was worked out of it."
  (when (derived-mode-p 'quillet-mode)
    (setq-local eldoc-documentation-strategy #'eldoc-documentation-compose)))

;; After eglot's own choice, which shows the form alone.
(add-hook 'eglot-managed-mode-hook #'quillet--managed t)

(defun quillet-sheet ()
  "Make the sheet for the lathe of this pen, and open it."
  (interactive)
  (save-buffer)
  (let* ((out (make-temp-file "quillet-" nil ".html"))
         (pen (quillet--pen))
         (said (generate-new-buffer " *quillet*"))
         (asked (append (list "sheet" buffer-file-name "-o" out "--force")
                        (and pen (list "--pen" pen)))))
    (unwind-protect
        (if (eq 0 (apply #'call-process (quillet--program) nil said nil asked))
            (browse-url-of-file out)
          (user-error "No sheet: %s" (with-current-buffer said (string-trim (buffer-string)))))
      (kill-buffer said))))

(defun quillet-compare-with (revision)
  "Open what has changed in this file since REVISION, old under new."
  (interactive (list (read-string "Compare with: " nil nil "HEAD")))
  (save-buffer)
  (let ((out (make-temp-name (expand-file-name "quillet-" temporary-file-directory)))
        (said (generate-new-buffer " *quillet*")))
    (setq out (concat out ".html"))
    (unwind-protect
        (progn
          (call-process (quillet--program) nil said nil "compare" revision
                        "--format" "html" "-o" out "--" buffer-file-name)
          ;; It ends with 1 where something new is wrong, and is written all the same.
          (if (file-exists-p out)
              (browse-url-of-file out)
            (user-error "Not compared: %s"
                        (with-current-buffer said (string-trim (buffer-string))))))
      (kill-buffer said))))

(defun quillet--pen ()
  "The pen that begins at or above point, else the first; a sheet is of one pen."
  (let ((begins (concat "^[ \t]*pen[ \t]+\\(" quillet--name "\\)")))
    (save-excursion
      (end-of-line)
      (when (or (re-search-backward begins nil t)
                (re-search-forward begins nil t))
        (match-string-no-properties 1)))))

(defun quillet-watch ()
  "Serve the live page of this pen and open it; again, stop."
  (interactive)
  (save-buffer)
  (let* ((file buffer-file-name)
         (name (format "quillet watch %s" file))
         (running (get-process name)))
    (if running
        (delete-process running)
      (let ((process (start-process name nil (quillet--program) "watch" file)))
        (set-process-query-on-exit-flag process nil)
        (set-process-filter process #'quillet--open-page)))))

(defun quillet--open-page (process said)
  "Open the page that PROCESS has SAID it serves, once."
  (when (and (not (process-get process 'opened))
             (string-match "http://[^ \n]+" said))
    (process-put process 'opened t)
    (browse-url (match-string 0 said))))

(provide 'quillet-mode)
;;; quillet-mode.el ends here
