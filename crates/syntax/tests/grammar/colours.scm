(comment) @comment
(text) @string
[(quantity) (gauge) (capital)] @number
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
(face part: (name) @variable face: (name) @property)
(call measure: (name) @function)
((want . "want" . (name) @function)
  (#any-of? @function MEASURES))
((call measure: (_) "(" (name) @constant.builtin)
  (#any-of? @constant.builtin STATES))
