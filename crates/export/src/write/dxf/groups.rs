//! What a DXF file is made of: codes, each with its value.

use super::super::number;
use super::layer_name;
use crate::scene::{Layer, Xy};

pub(super) struct Groups {
    pub(super) text: String,
    /// Millimetres of what is drawn for one on the paper.
    pub(super) true_size: f64,
}

impl Groups {
    pub(super) fn put(&mut self, code: u16, value: &str) {
        self.text.push_str(&format!("{code:>3}\n{value}\n"));
    }

    pub(super) fn real(&mut self, code: u16, value: f64) {
        self.put(code, &number(value, 6));
    }

    /// A length on the paper.
    pub(super) fn length(&mut self, code: u16, mm: f64) {
        self.real(code, mm * self.true_size);
    }

    pub(super) fn place(&mut self, at: Xy, nth: u16) {
        self.length(10 + nth, at.x);
        self.length(20 + nth, at.y);
        self.real(30 + nth, 0.0);
    }

    pub(super) fn section(&mut self, name: &str) {
        self.put(0, "SECTION");
        self.put(2, name);
    }

    pub(super) fn entity(&mut self, kind: &str, layer: Layer) {
        self.put(0, kind);
        self.put(8, &layer_name(layer));
    }
}
