; A file is one scope, and so is each item: what a part or pen defines stays in it.
[(file) (item_part) (bought) (pen) (made)] @local.scope

(let name: (name) @local.definition)
(item_thread name: (name) @local.definition)
(item_blank name: (name) @local.definition)
(material name: (name) @local.definition)

(name) @local.reference
