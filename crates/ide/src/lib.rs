//! One file a question an editor asks; plain data in, plain data out.
