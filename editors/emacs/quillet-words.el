;;; quillet-words.el --- Words of Quillet  -*- lexical-binding: t; -*-

;; Written from the table of words by crates/syntax/tests/editors; do not edit.

;;; Code:

(defconst quillet-words-keywords
  '("accept" "across" "angle" "arm" "as" "at" "bead" "because" "before" "bench" "blank" "bore" "boring" "bought" "bushings" "by" "caliper" "centres" "chamfer" "clearance" "clock" "close" "coat" "collets" "colour" "countersink" "cove" "cutters" "deep" "density" "depth" "dia" "dies" "dimensions" "dome" "drill" "drills" "fill" "finish" "fit" "flat" "flats" "for" "from" "gap" "glue" "grips" "groove" "have" "holds" "hours" "inches" "index" "indexed" "inside" "interference" "into" "keeps" "kerf" "kind" "lathe" "lead" "length" "let" "letter" "like" "limit" "made" "mandrels" "mass" "matched" "material" "measured" "mix" "modulus" "nib" "of" "on" "onto" "outside" "part" "pattern" "pen" "pigment" "pilot" "point" "post" "press" "price" "pulls" "push" "rate" "reach" "ream" "reamers" "recess" "relief" "rest" "ring" "rod" "round" "saw" "screw" "screwcutting" "seat" "share" "sharp" "shelf" "shoulder" "side" "slip" "slot" "smooth" "snap" "speed" "spigot" "square" "starts" "step" "strain" "takes" "taper" "taps" "tenon" "thread" "through" "throw" "to" "travel" "tube" "turning" "use" "volume" "wall" "want" "weight" "with" "within")
  "Words that stand as such in the compiled grammar.")

(defconst quillet-words-heads
  '("accept" "arm" "at" "bench" "blank" "bore" "boring" "bought" "bushings" "caliper" "chamfer" "close" "collets" "colour" "countersink" "cutters" "density" "dies" "dimensions" "drill" "drills" "fill" "finish" "flat" "flats" "flush" "from" "glue" "grips" "groove" "have" "holds" "hours" "index" "keeps" "kind" "lathe" "length" "let" "limit" "made" "mandrels" "mass" "material" "measured" "mix" "modulus" "outside" "part" "pattern" "pen" "pigment" "post" "press" "price" "pulls" "push" "rate" "ream" "reamers" "recess" "relief" "rest" "ring" "round" "saw" "screw" "seat" "shelf" "side" "slip" "slot" "speed" "strain" "taper" "taps" "tenon" "thread" "throw" "use" "wall" "want")
  "Words that begin a statement.")

(defconst quillet-words-definers
  '("bench" "blank" "bought" "let" "made" "material" "part" "pen" "shelf" "thread")
  "Words that begin a statement which names something.")

(defconst quillet-words-joints
  '("close" "fill" "glue" "post" "press" "push" "rest" "screw" "slip")
  "Words that begin a joint.")

(defconst quillet-words-tails
  '("across" "angle" "as" "at" "because" "before" "bore" "by" "centres" "chamfer" "clearance" "clock" "coat" "deep" "depth" "dia" "drill" "fit" "for" "from" "gap" "inches" "indexed" "inside" "interference" "into" "kerf" "lead" "length" "letter" "like" "matched" "nib" "of" "on" "onto" "outside" "pilot" "point" "reach" "rod" "round" "screwcutting" "share" "sharp" "shoulder" "snap" "spigot" "square" "starts" "step" "takes" "through" "to" "travel" "tube" "turning" "volume" "wall" "weight" "with" "within")
  "Words within a statement.")

(defconst quillet-words-leading
  '("across" "angle" "as" "at" "bead" "because" "before" "bore" "by" "centres" "chamfer" "clearance" "clock" "coat" "cove" "deep" "depth" "dia" "drill" "fit" "for" "from" "gap" "indexed" "interference" "into" "kerf" "lead" "length" "letter" "like" "nib" "of" "on" "onto" "pilot" "point" "reach" "rod" "round" "share" "shoulder" "snap" "spigot" "square" "starts" "step" "takes" "to" "travel" "tube" "wall" "with" "within")
  "Words within a statement before a value or a name.")

(defconst quillet-words-shapes
  '("bead" "cove" "dome" "smooth")
  "How a surface comes to a station.")

(defconst quillet-words-units
  '("N" "deg" "g" "in" "ml" "mm")
  "What touches a number.")

(defconst quillet-words-measures
  '("across" "balance" "clearance" "diameter" "distance" "hold" "ink" "length" "mass" "max" "min" "overlap" "travel" "turns" "wall")
  "Measures of a pen and functions of sums.")

(defconst quillet-words-configurations
  '("capped" "posted" "resting" "retracted" "uncapped")
  "The states of a pen.")

(provide 'quillet-words)
;;; quillet-words.el ends here
