;;; tally.el --- What the tests here count by  -*- lexical-binding: t; -*-

;;; Code:

(defvar passed 0)

(defun check (what holds &optional seen)
  "Count WHAT as passed where it HOLDS, else stop and show what was SEEN."
  (unless holds
    (princ (format "not ok - %s: %S\n" what seen))
    (kill-emacs 1))
  (setq passed (1+ passed))
  (princ (format "ok - %s\n" what)))

(provide 'tally)
;;; tally.el ends here
