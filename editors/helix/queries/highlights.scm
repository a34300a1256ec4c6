; Written from the statements by crates/syntax/tests/grammar; do not edit.

[
  "accept"
  "across"
  "angle"
  "arm"
  "as"
  "at"
  "bead"
  "because"
  "before"
  "bench"
  "blank"
  "bore"
  "boring"
  "bought"
  "bushings"
  "by"
  "caliper"
  "centres"
  "chamfer"
  "clearance"
  "clock"
  "close"
  "coat"
  "collets"
  "colour"
  "countersink"
  "cove"
  "cutters"
  "deep"
  "density"
  "depth"
  "dia"
  "dies"
  "dimensions"
  "dome"
  "drill"
  "drills"
  "fill"
  "finish"
  "fit"
  "flat"
  "flats"
  (flush)
  "for"
  "from"
  "gap"
  "glue"
  "grips"
  "groove"
  "have"
  "holds"
  "hours"
  "inches"
  "index"
  "indexed"
  "inside"
  "interference"
  "into"
  "keeps"
  "kerf"
  "kind"
  "lathe"
  "lead"
  "length"
  "let"
  "letter"
  "like"
  "limit"
  "made"
  "mandrels"
  "mass"
  "matched"
  "material"
  "measured"
  "mix"
  "modulus"
  "nib"
  "of"
  "on"
  "onto"
  "outside"
  "part"
  "pattern"
  "pen"
  "pigment"
  "pilot"
  "point"
  "post"
  "press"
  "price"
  "pulls"
  "push"
  "rate"
  "reach"
  "ream"
  "reamers"
  "recess"
  "relief"
  "rest"
  "ring"
  "rod"
  "round"
  "saw"
  "screw"
  "screwcutting"
  "seat"
  "share"
  "sharp"
  "shelf"
  "shoulder"
  "side"
  "slip"
  "slot"
  "smooth"
  "snap"
  "speed"
  "spigot"
  "square"
  "starts"
  "step"
  "strain"
  "takes"
  "taper"
  "taps"
  "tenon"
  "thread"
  "through"
  "throw"
  "to"
  "travel"
  "tube"
  "turning"
  "use"
  "volume"
  "wall"
  "want"
  "weight"
  "with"
  "within"
] @keyword

(comment) @comment
(text) @string
[(quantity) (gauge) (capital)] @constant.numeric
[(designation) (fit)] @constant
["=" "+-" "+" "-" "*" "/" "<" "<=" ">" ">=" ".."] @operator
["{" "}" "(" ")"] @punctuation.bracket
["," ";" "."] @punctuation.delimiter

; What a statement defines.
(item_part name: (name) @type)
(bought name: (name) @type)
(pen name: (name) @type)
(made name: (name) @type)
(item_bench name: (name) @type)
(material name: (name) @type)
(item_thread name: (name) @type)
(item_blank name: (name) @type)
(let name: (name) @variable)

; Rules, faces, measures of a pen and the states it is measured in.
(limit rule: (name) @attribute)
(accept rule: (name) @attribute)
(face part: (name) @variable face: (name) @variable.other.member)
(call measure: (name) @function)
((want . "want" . (name) @function)
  (#any-of? @function "across" "balance" "clearance" "diameter" "distance" "hold" "ink" "length" "mass" "max" "min" "overlap" "travel" "turns" "wall"))
((call measure: (_) "(" (name) @constant.builtin)
  (#any-of? @constant.builtin "capped" "posted" "resting" "retracted" "uncapped"))
