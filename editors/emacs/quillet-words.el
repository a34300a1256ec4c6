;;; quillet-words.el --- Words of Quillet  -*- lexical-binding: t; -*-

;; Written from the table of words by crates/syntax/tests/editors; do not edit.

;;; Code:

(defconst quillet-words-heads
  '("accept" "arm" "at" "bench" "blank" "bore" "boring" "bought" "bushings" "caliper" "chamfer" "close" "collets" "colour" "countersink" "density" "dies" "dimensions" "drill" "drills" "fill" "flats" "flush" "from" "glue" "groove" "holds" "keeps" "kind" "lathe" "length" "let" "limit" "mandrels" "mass" "material" "outside" "part" "pen" "post" "press" "push" "ream" "reamers" "recess" "relief" "ring" "round" "saw" "screw" "seat" "slip" "speed" "taper" "taps" "tenon" "thread" "use" "wall" "want")
  "Words that begin a statement.")

(defconst quillet-words-definers
  '("bench" "blank" "bought" "let" "material" "part" "pen" "thread")
  "Words that begin a statement which names something.")

(defconst quillet-words-joints
  '("close" "fill" "glue" "post" "press" "push" "screw" "slip")
  "Words that begin a joint.")

(defconst quillet-words-tails
  '("angle" "as" "at" "because" "bore" "by" "centres" "chamfer" "clearance" "clock" "depth" "dia" "drill" "fit" "for" "from" "gap" "inches" "inside" "interference" "into" "kerf" "lead" "length" "letter" "like" "matched" "nib" "of" "on" "onto" "outside" "pilot" "point" "reach" "rod" "round" "screwcutting" "shoulder" "spigot" "square" "starts" "step" "takes" "through" "to" "travel" "with" "within")
  "Words within a statement.")

(defconst quillet-words-leading
  '("angle" "as" "at" "bead" "because" "bore" "by" "centres" "chamfer" "clearance" "clock" "cove" "depth" "dia" "drill" "fit" "for" "from" "gap" "interference" "into" "kerf" "lead" "length" "letter" "like" "nib" "of" "on" "onto" "pilot" "point" "reach" "rod" "round" "shoulder" "spigot" "square" "starts" "step" "takes" "to" "travel" "with" "within")
  "Words within a statement before a value or a name.")

(defconst quillet-words-shapes
  '("bead" "cove" "dome" "smooth")
  "How a surface comes to a station.")

(defconst quillet-words-units
  '("deg" "g" "in" "ml" "mm")
  "What touches a number.")

(defconst quillet-words-measures
  '("balance" "clearance" "diameter" "distance" "ink" "length" "mass" "max" "min" "overlap" "travel" "turns" "wall")
  "Measures of a pen and functions of sums.")

(defconst quillet-words-configurations
  '("capped" "posted" "uncapped")
  "The states of a pen.")

(provide 'quillet-words)
;;; quillet-words.el ends here
