;;; quillet-ts-mode.el --- Pens, coloured by their grammar  -*- lexical-binding: t; -*-

;; Version: 0.1.0
;; Package-Requires: ((emacs "29.1"))
;; Keywords: languages

;;; Commentary:

;; `quillet-mode' with the colours, the list of definitions and the steps from item to item of the
;; compiled grammar.  M-x treesit-install-language-grammar RET quillet compiles it once.

;;; Code:

(require 'quillet-mode)
(require 'treesit)

(defconst quillet-ts--source
  (expand-file-name "../.." (file-name-directory (or load-file-name buffer-file-name default-directory)))
  "Quillet's folder, which holds the grammar.")

(add-to-list 'treesit-language-source-alist
             `(quillet ,quillet-ts--source nil "editors/tree-sitter/src"))

(defconst quillet-ts--items
  '("item_part" "bought" "pen" "made" "item_bench" "material" "item_thread" "item_blank")
  "Nodes that define something under a name.")

(defun quillet-ts--one-of (words)
  "An expression for one of WORDS and nothing beside."
  (concat "\\`" (regexp-opt words) "\\'"))

(defun quillet-ts--colours ()
  "What the mode colours.
Made when it begins, for only then must the grammar be there."
  (treesit-font-lock-rules
   :language 'quillet
   :feature 'comment
   '((comment) @font-lock-comment-face)
   :language 'quillet
   :feature 'string
   '((text) @font-lock-string-face)
   :language 'quillet
   :feature 'keyword
   `([,@quillet-words-keywords (flush)] @font-lock-keyword-face)
   :language 'quillet
   :feature 'definition
   `(,@(mapcar (lambda (it) `(,(intern it) name: (name) @font-lock-type-face)) quillet-ts--items)
     (let name: (name) @font-lock-variable-name-face))
   :language 'quillet
   :feature 'rule
   '((limit rule: (name) @font-lock-preprocessor-face)
     (accept rule: (name) @font-lock-preprocessor-face))
   :language 'quillet
   :feature 'constant
   '([(designation) (fit)] @font-lock-constant-face)
   :language 'quillet
   :feature 'number
   '([(quantity) (gauge) (capital)] @font-lock-number-face)
   :language 'quillet
   :feature 'face
   '((face part: (name) @font-lock-variable-name-face face: (name) @font-lock-property-use-face))
   :language 'quillet
   :feature 'measure
   `((call measure: (name) @font-lock-function-call-face)
     ((want "want" :anchor (name) @font-lock-function-call-face)
      (:match ,(quillet-ts--one-of quillet-words-measures) @font-lock-function-call-face))
     ((call "(" :anchor (name) @font-lock-constant-face)
      (:match ,(quillet-ts--one-of quillet-words-configurations) @font-lock-constant-face)))))

(defun quillet-ts--name (node)
  "The name that NODE defines."
  (treesit-node-text (treesit-node-child-by-field-name node "name") t))

;;;###autoload
(define-derived-mode quillet-ts-mode quillet-mode "Quillet"
  "Pens written as parts, threads and fits, coloured by their grammar."
  (when (treesit-ready-p 'quillet)
    (treesit-parser-create 'quillet)
    (setq-local treesit-font-lock-settings (quillet-ts--colours)
                treesit-font-lock-feature-list
                '((comment definition) (keyword string) (constant number rule face measure))
                treesit-defun-type-regexp (quillet-ts--one-of quillet-ts--items)
                treesit-defun-name-function #'quillet-ts--name
                treesit-simple-imenu-settings
                `((nil ,(quillet-ts--one-of quillet-ts--items) nil nil)))
    (treesit-major-mode-setup)
    ;; The blocks that are open say how far a line is in; the grammar need not be asked.
    (setq-local indent-line-function #'quillet-indent-line)))

(provide 'quillet-ts-mode)
;;; quillet-ts-mode.el ends here
