//! What makes the bindings has the version of what is bound; another could not read it.

/// The version of what both sides of the bindings share.
fn shared(lock: &str) -> &str {
    let own = lock.split_once("name = \"wasm-bindgen-shared\"\nversion = \"");
    let rest = own.expect("it is locked").1;
    rest.split_once('"').expect("a version").0
}

#[test]
fn the_bindings_are_made_by_the_version_that_they_are_for() {
    let bind = include_str!("../../../editors/web/bind/Cargo.lock");
    let own = include_str!("../../../Cargo.lock");
    assert_eq!(shared(own), shared(bind));
}
