; A comment is read as one where the editor has a grammar for comments.
((comment) @injection.content
  (#set! injection.language "comment"))
