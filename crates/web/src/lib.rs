//! The checker for a page in a browser: a question goes in, its answer comes out, both JSON.
//!
//! A [`Bench`] holds the files of the page and answers one question (`question.rs`) after the
//! other. Places are counted in UTF-16 units from the beginning of a file, as a browser counts; line
//! ends are `\n`. What `ide` gives nothing for is `null`; what cannot be answered is `{"error": …}`, a
//! sentence for the maker.
//!
//! Nothing here has answers of its own, or knows the disk, a clock or the network.

mod answers;
mod files;
mod offsets;
mod opened;
mod question;

use files::Files;
use serde_json::json;
use wasm_bindgen::prelude::wasm_bindgen;

/// The files of a page, and the checker that answers for them.
#[wasm_bindgen]
#[derive(Debug, Default)]
pub struct Bench {
    files: Files,
}

#[wasm_bindgen]
impl Bench {
    /// With no files yet.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Bench {
        Bench::default()
    }

    /// Answers a question: `{"ask": "findings", "file": "heron.quillet"}`.
    pub fn ask(&mut self, question: &str) -> String {
        let answer = serde_json::from_str(question)
            .map_err(|why| format!("this question cannot be read: {why}"))
            .and_then(|question| answers::answer(&mut self.files, question));
        match answer {
            Ok(answer) => answer,
            Err(why) => json!({ "error": why }).to_string(),
        }
    }
}
