; What a file defines, with the word that defines it.
(item_part "part" @context name: (name) @name) @item
(bought "bought" @context name: (name) @name) @item
(pen "pen" @context name: (name) @name) @item
(made "made" @context name: (name) @name) @item
(item_bench "bench" @context name: (name) @name) @item
(material "material" @context name: (name) @name) @item
(item_thread "thread" @context name: (name) @name) @item
(item_blank "blank" @context name: (name) @name) @item
(let "let" @context name: (name) @name) @item
