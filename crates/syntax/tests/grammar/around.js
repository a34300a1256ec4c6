// Written from crates/syntax/src/grammar by crates/syntax/tests/grammar; do not edit.
//
// A word is a word by its place: `word` leaves it a name wherever a name stands. Newlines end
// statements, so they are tokens; blanks and comments may stand anywhere. Where two tokens begin at
// one place the higher of `FIT`, `DESIGNATION` and `QUANTITY` is taken, as far as it goes.
//
// The committed parser is of ABI 14, which every editor reads; it leaves `reserved` out, and so
// forgives a name that the checker refuses.

const FIT = 3;
const DESIGNATION = 2;
const QUANTITY = 1;

const commas = (rule) => seq(rule, repeat(seq(',', rule)));

const lines = ($, line) => seq(line, repeat(seq($._separators, line)), optional($._separators));

const block = ($, line) => seq('{', optional($._separators), optional(lines($, line)), '}');

module.exports = grammar({
  name: 'quillet',

  extras: $ => [/[ \t]+/, $.comment],

  word: $ => $.name,

  reserved: {
    global: _ => [RESERVED],
  },

  rules: {
    file: $ => seq(optional($._separators), optional(seq(choice($.inches, $._item), repeat(seq($._separators, $._item)), optional($._separators)))),
    inches: _ => seq('dimensions', 'in', 'inches'),
    _separators: _ => repeat1(choice(/\n|\r\n?/, ';')),

    // statements
    // What is filled in
    _sum: $ => choice($.binary, $.negative, $.parenthesized, $.call, $.quantity, $.name),
    binary: $ => choice(
      prec.left(1, seq($._sum, choice('+', '-'), $._sum)),
      prec.left(2, seq($._sum, choice('*', '/'), $._sum)),
    ),
    negative: $ => prec(3, seq('-', $._sum)),
    parenthesized: $ => seq('(', $._sum, ')'),
    call: $ => prec(1, seq(field('measure', $.name), '(', commas(choice($.face, $._sum)), ')')),
    face: $ => seq(field('part', $.name), '.', field('face', $.name)),
    range: $ => seq($._sum, '..', $._sum),
    _range: $ => $.range,
    _span: $ => choice($._sum, $.range),
    _sums: $ => commas($._sum),
    _spans: $ => commas($._span),
    _size: $ => choice($._sum, $.gauge, $.letter),
    letter: $ => seq('letter', $.capital),
    _sizes: $ => commas(choice($._size, $.run)),
    run: $ => seq($._size, '..', choice($._size, $.capital), optional(seq('step', $._sum))),
    _thread_said: $ => choice(field('thread', $.name), seq($.designation, optional(seq('starts', $._sum)))),
    _threads: $ => commas($._thread_said),
    _lead: $ => choice($._sum, $.capital),

    // Tokens
    name: _ => /[a-z][A-Za-z0-9]*(-[A-Za-z0-9]+)*/,
    quantity: _ => token(prec(QUANTITY, /([0-9]+-)?[0-9]+\/[0-9]+in|[0-9]+-[0-9]+\/[0-9]+|[0-9]+(\.[0-9]+)?(mm|in|g|ml|deg|N)?/)),
    gauge: _ => /#[0-9]+/,
    capital: _ => /[A-Z]/,
    designation: _ => token(prec(DESIGNATION, choice(
      /M[0-9]+(\.[0-9]+)?(x[0-9]+(\.[0-9]+)?|xPh[0-9]+(\.[0-9]+)?P[0-9]+(\.[0-9]+)?)?(-[0-9][A-Za-z]+([0-9][A-Za-z]+)?(\/[0-9][A-Za-z]+([0-9][A-Za-z]+)?)?)?(-LH)?/,
      /(([0-9]+-)?[0-9]+\/[0-9]+|[0-9]+(\.[0-9]+)?|#[0-9]+)-[0-9]+(UN(C|F|EF|S)?)?(-[0-9][A-Za-z]+(\/[0-9][A-Za-z]+)?)?(-LH)?/,
    ))),
    fit: _ => token(prec(FIT, /[A-Z][A-Z]?[0-9]+\/[a-z][a-z]?[0-9]+/)),
    text: _ => /"[^"\r\n]*"/,
    comment: _ => /--[^\r\n]*/,
  },
});
