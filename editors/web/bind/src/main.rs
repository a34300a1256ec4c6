//! `quillet-web-bind IN.wasm FOLDER`: the checker as a module that a page's worker loads.

use wasm_bindgen_cli_support::Bindgen;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let given: Vec<String> = std::env::args().skip(1).collect();
    let [wasm, folder] = given.as_slice() else {
        return Err("usage: quillet-web-bind IN.wasm FOLDER".into());
    };
    let mut bindgen = Bindgen::new();
    bindgen.input_path(wasm).web(true)?.typescript(true);
    // The names of functions would be a quarter of what is loaded.
    bindgen
        .omit_default_module_path(false)
        .remove_name_section(true)
        .remove_producers_section(true);
    bindgen.generate(folder)?;
    Ok(())
}
