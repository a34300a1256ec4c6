//! Text to tokens, a spanned tree and findings; the formatter; the line index.
