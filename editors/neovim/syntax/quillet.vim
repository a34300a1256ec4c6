" Written from the table of words by crates/syntax/tests/editors; do not edit.
if exists('b:current_syntax') | finish | endif
syn case match
syn iskeyword @,48-57,-
syn sync minlines=1

syn match quilletName /\v[a-z][A-Za-z0-9]*(-[A-Za-z0-9]+)*/
syn match quilletOperator /\v\+-|\.\.|[<>]\=?|[-+*\/=]/
syn match quilletNumber /\v<[0-9]+(\.[0-9]+)?(mm|ml|in|g|deg|N)?>/
syn match quilletNumber /\v<([0-9]+-)?[0-9]+\/[0-9]+(in)?>/
syn match quilletDrill /\v#[0-9]+|<[A-Z]>/
syn match quilletFit /\v<[A-Z]{1,2}[0-9]+\/[a-z]{1,2}[0-9]+>/
syn match quilletThread /\v<M[0-9]+(\.[0-9]+)?(x(Ph)?[0-9]+(\.[0-9]+)?(P[0-9]+(\.[0-9]+)?)?)?(-[0-9A-Za-z]+(\/[0-9A-Za-z]+)?)?(-LH)?>/
syn match quilletThread /\v(<([0-9]+-)?[0-9]+\/[0-9]+|<[0-9]+|#[0-9]+)-[0-9]+UN(C|F|EF|S)?(-[0-9][A-Za-z]+)?(-LH)?>/
syn match quilletWord /\v<(within|with|weight|wall|volume|turning|tube|travel|to|through|takes|step|starts|square|spigot|snap|shoulder|sharp|share|screwcutting|round|rod|reach|point|pilot|outside|onto|on|of|nib|matched|like|letter|length|lead|kerf|into|interference|inside|indexed|inches|gap|from|for|fit|drill|dia|depth|deep|coat|clock|clearance|chamfer|centres|by|bore|before|because|at|as|angle|across)>/
syn match quilletShape /\v<(smooth|dome|cove|bead)>/
syn match quilletWord /\v<(within|with|wall|tube|travel|to|takes|step|starts|square|spigot|snap|shoulder|share|round|rod|reach|point|pilot|onto|on|of|nib|like|letter|length|lead|kerf|into|interference|indexed|gap|from|for|fit|drill|dia|depth|deep|cove|coat|clock|clearance|chamfer|centres|by|bore|before|because|bead|at|as|angle|across)>\ze\s+[a-z]/ nextgroup=quilletOperand skipwhite
syn match quilletOperand /\v[a-z][A-Za-z0-9]*(-[A-Za-z0-9]+)*/ contained
syn match quilletMeasure /\v<(wall|turns|travel|overlap|min|max|mass|length|ink|hold|distance|diameter|clearance|balance|across)>\ze\s*\(/
syn match quilletConfiguration /\v[(,]\s*\zs(uncapped|retracted|resting|posted|capped)>/
syn match quilletFace /\v<[a-z][A-Za-z0-9]*(-[A-Za-z0-9]+)*\.[a-z][A-Za-z0-9]*(-[A-Za-z0-9]+)*>/
syn match quilletHead /\v(^|[{;])\s*\zs(want|wall|use|throw|thread|tenon|taps|taper|strain|speed|slot|slip|side|shelf|seat|screw|saw|round|ring|rest|relief|recess|reamers|ream|rate|push|pulls|price|press|post|pigment|pen|pattern|part|outside|modulus|mix|measured|material|mass|mandrels|made|limit|let|length|lathe|kind|keeps|index|hours|holds|have|groove|grips|glue|from|flush|flats|flat|finish|fill|drills|drill|dimensions|dies|density|cutters|countersink|colour|collets|close|chamfer|caliper|bushings|bought|boring|bore|blank|bench|at|arm|accept)>/
syn match quilletHead /\v(^|[{;])\s*\zsfrom>\ze\s+[a-z]/ nextgroup=quilletOperand skipwhite
syn match quilletHead /\v(^|[{;])\s*\zswant>/ nextgroup=quilletMeasured skipwhite
syn match quilletMeasured /\v(wall|turns|travel|overlap|min|max|mass|length|ink|hold|distance|diameter|clearance|balance|across)>/ contained
syn match quilletHead /\v(^|[{;])\s*\zs(limit|accept)>/ nextgroup=quilletRule skipwhite
syn match quilletRule /\v[a-z][A-Za-z0-9]*(-[A-Za-z0-9]+)*/ contained
syn match quilletHead /\v(^|[{;])\s*\zs(thread|shelf|pen|part|material|made|let|bought|blank|bench)>\ze\s+[a-z][A-Za-z0-9]*(-[A-Za-z0-9]+)*\s*([={"]|<(from|like|of)>)/ nextgroup=quilletDefined skipwhite
syn match quilletDefined /\v[a-z][A-Za-z0-9]*(-[A-Za-z0-9]+)*/ contained
syn match quilletHead /\v^\s*dimensions\s+in\s+inches>/
syn match quilletString /"[^"]*\("\|$\)/
syn match quilletComment /--.*$/ contains=@Spell

hi def link quilletHead Statement
hi def link quilletWord Keyword
hi def link quilletShape StorageClass
hi def link quilletDefined Type
hi def link quilletRule PreProc
hi def link quilletName Identifier
hi def link quilletOperand Identifier
hi def link quilletFace Identifier
hi def link quilletMeasure Function
hi def link quilletMeasured Function
hi def link quilletConfiguration Constant
hi def link quilletNumber Number
hi def link quilletDrill Number
hi def link quilletThread Constant
hi def link quilletFit Constant
hi def link quilletOperator Operator
hi def link quilletString String
hi def link quilletComment Comment

let b:current_syntax = 'quillet'
