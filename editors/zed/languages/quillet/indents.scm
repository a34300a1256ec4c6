; Written from the statements by crates/syntax/tests/grammar; do not edit.
(_ "{" "}" @end) @indent
