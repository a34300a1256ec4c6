//! Cuts from the side and beside the axis, made up at random.

use proptest::prelude::*;

/// What is cut while the spindle is locked.
#[derive(Clone, Debug)]
pub(super) struct Sides {
    flats: u8,
    opening: u8,
    count: u32,
    clock: u32,
    beside: u8,
}

pub(super) fn sides() -> impl Strategy<Value = Sides> {
    let kinds = (0..6_u8, 0..6_u8, 1..9_u32, 0..72_u32, 0..3_u8);
    kinds.prop_map(|(flats, opening, count, clock, beside)| Sides {
        flats,
        opening,
        count,
        clock: 5 * clock,
        beside,
    })
}

impl Sides {
    /// The block, on a part so long: flats before its middle, holes and slots behind that.
    pub(super) fn text(&self, length: f64) -> String {
        let middle = length / 2.0;
        let (from, to) = (middle - 5.0, middle - 1.5);
        let around = format!("indexed {} clock {}", self.count, self.clock);
        let many = self.count.max(3);
        let flats = match self.flats {
            0 => format!("    flat across 14 at {from}..{to} {around}\n"),
            1 => format!("    flat across 14.2 to 13.6 at {from}..{to} {around}\n"),
            2 => format!("    flat deep 0.4 at {from}..{to} {around}\n"),
            3 => format!(
                "    flat sharp at {from}..{to} indexed {} clock {}\n",
                many + 9,
                self.clock
            ),
            4 => format!("    pattern \"straight knurl\" deep 0.2 at {from}..{to}\n"),
            _ => String::new(),
        };
        let (at, end) = (middle + 2.5, middle + 4.5);
        let opening = match self.opening {
            0 => format!("    drill 1 to 0.6 at {at} {around}\n"),
            1 => format!("    drill 1 through at {at} {around}\n"),
            2 => format!("    slot 1.2 to 0.5 at {at}..{end} {around}\n"),
            3 => format!("    slot 1 through at {at}..{end} clock {}\n", self.clock),
            4 => format!("    drill 1 at {at} {around}\n"),
            _ => String::new(),
        };
        match flats.is_empty() && opening.is_empty() {
            true => String::new(),
            false => format!("  side {{\n{flats}{opening}  }}\n"),
        }
    }

    /// Holes on a pitch circle, from an end that is solid.
    pub(super) fn beside(&self) -> &'static str {
        match self.beside {
            0 => "    drill 1.5 to 4 on 8 indexed 5 clock 10\n",
            1 => "    bore 3.1 to 2.1 on 9 indexed 3\n",
            _ => "",
        }
    }
}
