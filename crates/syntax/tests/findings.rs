//! Where findings point, with carets under the places.

use quillet_fixture::check;
use quillet_syntax::{FileId, Finding, parse};

fn syntax(source: &str) -> Vec<Finding> {
    parse(FileId(0), source).findings
}

#[test]
fn a_slip_in_one_line_leaves_the_others_be() {
    check(
        "\
part cap from mouth to crown {
  blank of reed 18
                ^^ syntax: rod, square or tube is expected after reed
  length
  ^^^^^^ syntax: a length is expected after length
  outside {
    at 0 dia
         ^^^ syntax: a diameter is expected after dia
    at crown dia 0 doem
                   ^^^^ syntax: doem is no word that may stand here
  }
  from mouth {
    dril 8 to 54
    ^^^^ syntax: dril begins no cut
    thread closing to 7.5
                   ^^ syntax: outside or inside is expected after closing
  }
}
",
        syntax,
    );
}

#[test]
fn a_missing_brace_is_found_where_its_block_opens() {
    check(
        "\
part cap from mouth to crown {
  outside {
          ^ syntax: this { is never closed
    at 0 dia 12
  from mouth {
    drill 8 to 54
  }
}
pen heron {
  fill cap
}
",
        syntax,
    );
}

/// A statement that may stand without a block has one all the same, and its brace lacks.
#[test]
fn a_block_that_may_be_left_out_is_opened_where_it_is_not() {
    check(
        "\
part ferrule-rear like ferrule
                       ^^^^^^^ syntax: '{' is expected after ferrule
  length 8
}
bought refill-short like refill
                         ^^^^^^ syntax: '{' is expected after refill
  length 80
}
part ferrule-spare like ferrule
",
        syntax,
    );
}

#[test]
fn lines_that_have_lost_their_block_are_told_once() {
    check(
        "\
part cap from mouth to crown {
  length 3
}
}
^ syntax: this } closes nothing
  outside dia 3
  ^^^^^^^ syntax: outside begins a line of a part and this is no place for one
  mass 3
let b = 2
",
        syntax,
    );
}
