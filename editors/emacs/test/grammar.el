;;; grammar.el --- Emacs by the compiled grammar  -*- lexical-binding: t; -*-

;; Run in batch, from 29 on, in a folder that holds a copy of the examples.

;;; Code:

(require 'quillet-ts-mode)

(load (expand-file-name "tally" (file-name-directory load-file-name)) nil t)

(let ((folder (make-temp-file "quillet-" t)))
  (add-to-list 'treesit-extra-load-path folder)
  (treesit-install-language-grammar 'quillet folder)
  (find-file "heron.quillet")
  (quillet-ts-mode)
  (font-lock-ensure)
  (check "the buffer is read by the grammar" (treesit-parser-list))
  (check "nothing in Heron is refused" (not (treesit-node-check (treesit-buffer-root-node) 'has-error)))
  (dolist (it '(("part cap" 0 font-lock-keyword-face)
                ("part cap" 5 font-lock-type-face)
                ("thread closing" 7 font-lock-type-face)
                ("M13x0.8" 0 font-lock-constant-face)
                ("15.2" 0 font-lock-number-face)
                ("want balance" 5 font-lock-function-call-face)
                ("length(capped)" 0 font-lock-function-call-face)
                ("length(capped)" 7 font-lock-constant-face)
                ("cap.mouth" 0 font-lock-variable-name-face)
                ("cap.mouth" 4 font-lock-property-use-face)))
    (goto-char (point-min))
    (search-forward (car it))
    (let* ((at (+ (match-beginning 0) (nth 1 it))) (face (get-text-property at 'face)))
      (check (format "%s from %d is %s" (car it) (nth 1 it) (nth 2 it)) (eq face (nth 2 it)) face)))
  (let ((names (mapcar #'car (funcall imenu-create-index-function))))
    (check "what it defines is listed" (equal names '("closing" "joint" "cap" "barrel" "section" "heron" "heron-ida"))
           names))
  (goto-char (point-min))
  (beginning-of-defun -1)
  (check "point steps to a definition" (looking-at "\\(thread\\|part\\|pen\\)\\_>")
         (buffer-substring (point) (line-end-position)))
  (search-forward "from mouth {")
  (newline-and-indent)
  (check "a line within two blocks is four in" (= (current-indentation) 4) (current-indentation))
  (set-buffer-modified-p nil)
  (delete-directory folder t))

(princ (format "Emacs %s by the grammar: %d passed, 0 failed\n" emacs-version passed))
;;; grammar.el ends here
