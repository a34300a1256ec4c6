; What a file defines, for a list of its symbols.
(item_part name: (name) @name) @definition.class
(bought name: (name) @name) @definition.class
(pen name: (name) @name) @definition.class
(made name: (name) @name) @definition.class
(item_bench name: (name) @name) @definition.class
(material name: (name) @name) @definition.class
(item_thread name: (name) @name) @definition.constant
(item_blank name: (name) @name) @definition.constant
(let name: (name) @name) @definition.constant
