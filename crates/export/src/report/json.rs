//! JSON with no more digits than a figure deserves.

use serde::Serialize;
use serde_json::Serializer;
use serde_json::ser::{CompactFormatter, Formatter, PrettyFormatter};
use std::io::{self, Write};

/// Numbers whose name says mm, g, ml or degrees (or a power of them) to the millionth, others to
/// the thousand-millionth, of a place a thousandth of the nanometre that lengths are counted in; what is
/// no number is null, and nothing is less than nothing by rounding.
pub fn rounded(value: &impl Serialize) -> String {
    let mut bytes = Vec::new();
    let mut writer = Serializer::with_formatter(&mut bytes, Rounded::default());
    match value.serialize(&mut writer) {
        Ok(()) => String::from_utf8_lossy(&bytes).into_owned() + "\n",
        Err(error) => error.to_string(),
    }
}

/// Units at the end of a name, in which a millionth is less than anyone can measure.
const UNITS: [&str; 8] = ["_mm", "_mm2", "_mm3", "_g", "_ml", "_deg", "_in", "_cm3"];

/// Lays out as usual, and rounds.
#[derive(Default)]
struct Rounded {
    pretty: PrettyFormatter<'static>,
    /// The name of what is being written.
    key: Vec<u8>,
    in_key: bool,
}

impl Rounded {
    fn round(&self, value: f64) -> f64 {
        let key = String::from_utf8_lossy(&self.key);
        let to = match UNITS.iter().any(|unit| key.ends_with(unit)) {
            true => 1e6,
            false => 1e9,
        };
        let rounded = (value * to).round() / to;
        // What is too large to have such digits has none to lose; a zero has no sign.
        if rounded.is_finite() {
            rounded + 0.0
        } else {
            value
        }
    }
}

impl Formatter for Rounded {
    fn write_f64<W: ?Sized + Write>(&mut self, writer: &mut W, value: f64) -> io::Result<()> {
        let value = self.round(value);
        CompactFormatter.write_f64(writer, value)
    }

    fn write_string_fragment<W: ?Sized + Write>(
        &mut self,
        writer: &mut W,
        fragment: &str,
    ) -> io::Result<()> {
        if self.in_key {
            self.key.extend(fragment.bytes());
        }
        self.pretty.write_string_fragment(writer, fragment)
    }

    fn begin_object_key<W: ?Sized + Write>(
        &mut self,
        writer: &mut W,
        first: bool,
    ) -> io::Result<()> {
        self.key.clear();
        self.in_key = true;
        self.pretty.begin_object_key(writer, first)
    }

    fn end_object_key<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.in_key = false;
        self.pretty.end_object_key(writer)
    }

    fn begin_array<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.pretty.begin_array(writer)
    }

    fn end_array<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.pretty.end_array(writer)
    }

    fn begin_array_value<W: ?Sized + Write>(
        &mut self,
        writer: &mut W,
        first: bool,
    ) -> io::Result<()> {
        self.pretty.begin_array_value(writer, first)
    }

    fn end_array_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.pretty.end_array_value(writer)
    }

    fn begin_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.pretty.begin_object(writer)
    }

    fn end_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.pretty.end_object(writer)
    }

    fn begin_object_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.pretty.begin_object_value(writer)
    }

    fn end_object_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.pretty.end_object_value(writer)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn a_figure_has_the_digits_it_deserves() {
        let value = json!({
            "mass_g": 2.800_000_000_000_000_3,
            "balance_share": 0.481_234_567_891_23,
            "places_mm": [1.000_000_4, -1e-9],
            "deep": { "turns": 14.000_000_000_000_2, "none": f64::NAN },
        });
        let text: String = rounded(&value).split_whitespace().collect();
        let wanted = "\"balance_share\":0.481234568,\"deep\":{\"none\":null,\"turns\":14.0},\
                      \"mass_g\":2.8,\"places_mm\":[1.0,0.0]";
        assert_eq!(text, format!("{{{wanted}}}"));
    }

    #[test]
    fn what_has_no_such_digits_is_left_as_it_is() {
        let text: String = rounded(&json!({ "far_mm": 1e300 }))
            .split_whitespace()
            .collect();
        assert_eq!(text, "{\"far_mm\":1e+300}");
    }
}
