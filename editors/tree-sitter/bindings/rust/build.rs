//! Compiles the committed parser.

fn main() {
    println!("cargo:rerun-if-changed=src/parser.c");
    cc::Build::new()
        .std("c11")
        .include("src")
        .file("src/parser.c")
        .warnings(false)
        .compile("tree-sitter-quillet");
}
