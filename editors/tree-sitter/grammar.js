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
    global: _ => ['of', 'for', 'letter'],
  },

  rules: {
    file: $ => seq(optional($._separators), optional(seq(choice($.inches, $._item), repeat(seq($._separators, $._item)), optional($._separators)))),
    inches: _ => seq('dimensions', 'in', 'inches'),
    _separators: _ => repeat1(choice(/\n|\r\n?/, ';')),

    // Item
    _item: $ => choice($.use, $.let, $.limit, $.material, $.item_thread, $.item_blank, $.part, $.bought, $.item_bench, $.pen),
    use: $ => seq('use', field('path', $.text)),
    let: $ => seq('let', field('name', $.name), '=', $._sum),
    limit: $ => seq('limit', field('rule', $.name), '=', $._sum),
    material: $ => seq('material', field('name', $.name), optional(field('title', $.text)), $.material_line_block),
    item_thread: $ => seq('thread', field('name', $.name), '=', $.designation, optional(seq('starts', $._sum))),
    item_blank: $ => seq('blank', field('name', $.name), 'of', field('material', $.name), choice(seq('rod', $._sum), seq('square', $._sum), seq('tube', $._sum, 'wall', $._sum)), optional(seq('by', $._sum)), optional('matched')),
    part: $ => seq('part', field('name', $.name), choice(seq('from', field('first', $.name), 'to', field('second', $.name), $.part_line_block), seq('like', field('part', $.name), optional($.part_line_block)))),
    bought: $ => seq('bought', field('name', $.name), optional(field('title', $.text)), choice(seq(optional(seq('from', field('first', $.name), 'to', field('second', $.name))), $.part_line_block), seq('like', field('part', $.name), optional($.part_line_block)))),
    item_bench: $ => seq('bench', field('name', $.name), optional(field('title', $.text)), $.bench_line_block),
    pen: $ => seq('pen', field('name', $.name), optional(field('title', $.text)), optional(seq('like', field('pen', $.name))), $.pen_line_block),

    // Line of a material
    _material_line: $ => choice($.kind, $.density, $.wall, $.speed, $.modulus, $.strain, $.colour),
    kind: $ => seq('kind', field('kind', $.name)),
    density: $ => seq('density', $._sum),
    wall: $ => seq('wall', $._sum),
    speed: $ => seq('speed', $._span),
    modulus: $ => seq('modulus', $._sum),
    strain: $ => seq('strain', $._sum),
    colour: $ => seq('colour', field('colour', $.text)),
    material_line_block: $ => block($, $._material_line),

    // Line of a part
    _part_line: $ => choice($.let, $.limit, $.want, $.accept, $.part_line_bench, $.part_line_blank, $.length, $.outside, $.from, $.side, $.finish, $.mass, $.holds, $.ring, $.arm, $.throw, $.pulls, $.grips),
    want: $ => seq('want', $._sum, choice(seq('<', $._sum), seq('<=', $._sum), seq('>', $._sum), seq('>=', $._sum), seq('=', $._sum, '+-', $._sum), seq('within', $._range))),
    accept: $ => seq('accept', field('rule', $.name), optional(seq('at', $._range)), 'because', field('reason', $.text)),
    part_line_bench: $ => seq('bench', field('bench', $.name)),
    part_line_blank: $ => seq('blank', choice(field('name', $.name), seq('of', field('material', $.name), choice(seq('rod', $._sum), seq('square', $._sum), seq('tube', $._sum, 'wall', $._sum)), optional(seq('by', $._sum)), optional(seq('to', $._sum)), optional(seq('spigot', $._sum, 'for', $._sum, optional(seq('gap', $._sum))))))),
    length: $ => seq('length', $._span),
    outside: $ => seq('outside', choice($.station_block, seq('dia', $._sum))),
    from: $ => seq('from', field('end', $.name), $.cut_block),
    side: $ => seq('side', $.side_line_block),
    finish: $ => seq('finish', field('finish', $.text), 'coat', $._sum),
    mass: $ => seq('mass', $._sum, optional(seq('at', $._sum))),
    holds: $ => seq('holds', $._sum),
    ring: $ => seq('ring', $._sum, 'by', $._sum),
    arm: $ => seq('arm', $._sum),
    throw: $ => seq('throw', $._sum, 'from', field('end', $.name)),
    pulls: $ => seq('pulls', $._sum),
    grips: $ => seq('grips', $._range),
    part_line_block: $ => block($, $._part_line),

    // Station
    _station: $ => choice($.at),
    at: $ => seq('at', $._sum, optional(seq('from', field('end', $.name))), 'dia', $._sum, optional(choice('smooth', 'dome', seq('bead', $._sum), seq('cove', $._sum))), optional(seq('step', $._sum)), optional(choice(seq('round', $._sum), seq('chamfer', $._sum))), optional(seq('as', field('face', $.name)))),
    station_block: $ => block($, $._station),

    // Cut
    _cut: $ => choice($.accept, $.tenon, $.cut_drill, $.bore, $.ream, $.cut_thread, $.relief, $.groove, $.recess, $.taper, $.countersink, $.chamfer, $.round),
    tenon: $ => seq('tenon', optional($._sum), 'for', $._sum, optional(seq('as', field('face', $.name)))),
    cut_drill: $ => seq('drill', $._size, choice(seq('to', $._sum), seq('for', $._sum), 'through'), optional(seq('at', $._sum)), optional(seq('point', $._sum)), optional(seq('on', $._sum, optional(seq('indexed', $._sum)), optional(seq('clock', $._sum)), optional(seq('takes', field('part', $.name))))), optional(seq('as', field('face', $.name)))),
    bore: $ => seq('bore', $._size, choice(seq('to', $._sum), seq('for', $._sum), 'through'), optional(seq('at', $._sum)), optional(seq('on', $._sum, optional(seq('indexed', $._sum)), optional(seq('clock', $._sum)), optional(seq('takes', field('part', $.name))))), optional(seq('as', field('face', $.name)))),
    ream: $ => seq('ream', $._size, choice(seq('to', $._sum), seq('for', $._sum), 'through'), optional(seq('at', $._sum)), optional(seq('as', field('face', $.name)))),
    cut_thread: $ => seq('thread', $._thread_said, choice('inside', 'outside'), choice(seq('to', $._sum), seq('for', $._sum), 'through'), optional(seq('at', $._sum)), optional(seq('clock', $._sum)), optional(seq('as', field('face', $.name)))),
    relief: $ => seq('relief', $._sum, choice(seq('for', $._sum), seq('to', $._sum), 'through'), optional(seq('at', $._sum)), optional(seq('as', field('face', $.name)))),
    groove: $ => seq('groove', $._sum, choice(seq('for', $._sum), seq('to', $._sum), 'through'), optional(seq('at', $._sum)), optional(seq('takes', field('part', $.name))), optional(seq('as', field('face', $.name)))),
    recess: $ => seq('recess', $._sum, choice(seq('for', $._sum), seq('to', $._sum), 'through'), optional(seq('at', $._sum)), optional(seq('takes', field('part', $.name))), optional(seq('as', field('face', $.name)))),
    taper: $ => seq('taper', $._sum, 'to', $._sum, choice(seq('for', $._sum), seq('to', $._sum), 'through'), optional(seq('at', $._sum)), optional(seq('as', field('face', $.name)))),
    countersink: $ => seq('countersink', $._sum, optional(seq('angle', $._sum)), optional(seq('as', field('face', $.name)))),
    chamfer: $ => seq('chamfer', $._sum, optional(seq('as', field('face', $.name)))),
    round: $ => seq('round', $._sum, optional(seq('as', field('face', $.name)))),
    cut_block: $ => block($, $._cut),

    // Cut from the side
    _side_line: $ => choice($.accept, $.flat, $.side_line_drill, $.slot, $.pattern),
    flat: $ => seq('flat', choice(seq('across', $._sum, optional(seq('to', $._sum))), seq('deep', $._sum), 'sharp'), 'at', $._sum, optional(seq('from', field('end', $.name))), optional(seq('..', $._sum, optional(seq('from', field('end', $.name))))), optional(seq('indexed', $._sum)), optional(seq('clock', $._sum)), optional(seq('takes', field('part', $.name))), optional(seq('as', field('face', $.name)))),
    side_line_drill: $ => seq('drill', $._size, optional(choice(seq('to', $._sum), 'through')), 'at', $._sum, optional(seq('from', field('end', $.name))), optional(seq('..', $._sum, optional(seq('from', field('end', $.name))))), optional(seq('indexed', $._sum)), optional(seq('clock', $._sum)), optional(seq('takes', field('part', $.name))), optional(seq('as', field('face', $.name)))),
    slot: $ => seq('slot', $._sum, optional(choice(seq('to', $._sum), 'through')), 'at', $._sum, optional(seq('from', field('end', $.name))), optional(seq('..', $._sum, optional(seq('from', field('end', $.name))))), optional(seq('indexed', $._sum)), optional(seq('clock', $._sum)), optional(seq('takes', field('part', $.name))), optional(seq('as', field('face', $.name)))),
    pattern: $ => seq('pattern', field('pattern', $.text), 'deep', $._sum, optional(seq('share', $._sum)), 'at', $._sum, optional(seq('from', field('end', $.name))), optional(seq('..', $._sum, optional(seq('from', field('end', $.name))))), optional(seq('indexed', $._sum)), optional(seq('clock', $._sum)), optional(seq('takes', field('part', $.name))), optional(seq('as', field('face', $.name)))),
    side_line_block: $ => block($, $._side_line),

    // Line of a pen
    _pen_line: $ => choice($.let, $.limit, $.want, $.accept, $.part_line_bench, $.screw, $.close, $.post, $.slip, $.press, $.glue, $.push, $.rest, $.fill),
    screw: $ => seq('screw', $.face, choice('into', 'onto'), $.face, repeat(choice(seq('with', field('thread', $.name)), seq('through', commas(field('part', $.name))), seq('by', $._sum), seq('fit', $.fit), seq('clearance', $._sum), seq('interference', $._sum), seq('gap', $._sum), seq('snap', $._sum), seq('before', 'turning'))), optional($.joint_line_block)),
    close: $ => seq('close', $.face, choice('into', 'onto'), $.face, repeat(choice(seq('with', field('thread', $.name)), seq('through', commas(field('part', $.name))), seq('by', $._sum), seq('fit', $.fit), seq('clearance', $._sum), seq('interference', $._sum), seq('gap', $._sum), seq('snap', $._sum), seq('before', 'turning'))), optional($.joint_line_block)),
    post: $ => seq('post', $.face, choice('into', 'onto'), $.face, repeat(choice(seq('with', field('thread', $.name)), seq('through', commas(field('part', $.name))), seq('by', $._sum), seq('fit', $.fit), seq('clearance', $._sum), seq('interference', $._sum), seq('gap', $._sum), seq('snap', $._sum), seq('before', 'turning'))), optional($.joint_line_block)),
    slip: $ => seq('slip', $.face, choice('into', 'onto'), $.face, repeat(choice(seq('with', field('thread', $.name)), seq('through', commas(field('part', $.name))), seq('by', $._sum), seq('fit', $.fit), seq('clearance', $._sum), seq('interference', $._sum), seq('gap', $._sum), seq('snap', $._sum), seq('before', 'turning'))), optional($.joint_line_block)),
    press: $ => seq('press', $.face, choice('into', 'onto'), $.face, repeat(choice(seq('with', field('thread', $.name)), seq('through', commas(field('part', $.name))), seq('by', $._sum), seq('fit', $.fit), seq('clearance', $._sum), seq('interference', $._sum), seq('gap', $._sum), seq('snap', $._sum), seq('before', 'turning'))), optional($.joint_line_block)),
    glue: $ => seq('glue', $.face, choice('into', 'onto'), $.face, repeat(choice(seq('with', field('thread', $.name)), seq('through', commas(field('part', $.name))), seq('by', $._sum), seq('fit', $.fit), seq('clearance', $._sum), seq('interference', $._sum), seq('gap', $._sum), seq('snap', $._sum), seq('before', 'turning'))), optional($.joint_line_block)),
    push: $ => seq('push', $.face, choice('into', 'onto'), $.face, repeat(choice(seq('with', field('thread', $.name)), seq('through', commas(field('part', $.name))), seq('by', $._sum), seq('fit', $.fit), seq('clearance', $._sum), seq('interference', $._sum), seq('gap', $._sum), seq('snap', $._sum), seq('before', 'turning'))), optional($.joint_line_block)),
    rest: $ => seq('rest', $.face, choice('into', 'onto'), $.face, repeat(choice(seq('with', field('thread', $.name)), seq('through', commas(field('part', $.name))), seq('by', $._sum), seq('fit', $.fit), seq('clearance', $._sum), seq('interference', $._sum), seq('gap', $._sum), seq('snap', $._sum), seq('before', 'turning'))), optional($.joint_line_block)),
    fill: $ => seq('fill', field('part', $.name)),
    pen_line_block: $ => block($, $._pen_line),

    // Line of a joint
    _joint_line: $ => choice($.limit, $.want, $.accept, $.seat, $.flush),
    seat: $ => seq('seat', $.face, 'on', $.face),
    flush: $ => 'flush',
    joint_line_block: $ => block($, $._joint_line),

    // Line of a bench
    _bench_line: $ => choice($.limit, $.drills, $.flats, $.boring, $.reamers, $.collets, $.bushings, $.mandrels, $.index, $.cutters, $.taps, $.dies, $.saw, $.lathe, $.keeps, $.caliper),
    drills: $ => seq('drills', $._sizes, optional(seq('reach', $._sum))),
    flats: $ => seq('flats', $._sizes),
    boring: $ => seq('boring', $._sizes, optional(seq('reach', $._sum))),
    reamers: $ => seq('reamers', $._sizes),
    collets: $ => seq('collets', $._sizes),
    bushings: $ => seq('bushings', $._sizes, optional(seq('pilot', $._sum))),
    mandrels: $ => seq('mandrels', $._sizes),
    index: $ => seq('index', $._sizes),
    cutters: $ => seq('cutters', $._sizes),
    taps: $ => seq('taps', $._threads, optional(seq('lead', $._lead))),
    dies: $ => seq('dies', $._threads, optional(seq('lead', $._lead))),
    saw: $ => seq('saw', 'kerf', $._sum),
    lathe: $ => seq('lathe', $._spans, repeat(choice(seq('bore', $._sum), seq('centres', $._sum), seq('travel', $._sum), 'screwcutting'))),
    keeps: $ => seq('keeps', choice('depth', 'shoulder', 'length', 'dia', 'bore', 'drill', 'nib'), $._sum),
    caliper: $ => seq('caliper', $._sum),
    bench_line_block: $ => block($, $._bench_line),

    // What is filled in
    _sum: $ => choice($.binary, $.negative, $.parenthesized, $.call, $.quantity, $.name),
    binary: $ => choice(
      prec.left(1, seq($._sum, choice('+', '-'), $._sum)),
      prec.left(2, seq($._sum, choice('*', '/'), $._sum)),
    ),
    negative: $ => prec(3, seq('-', $._sum)),
    parenthesized: $ => seq('(', $._sum, ')'),
    call: $ => seq(field('measure', $.name), '(', commas(choice($.face, $._sum)), ')'),
    face: $ => seq(field('part', $.name), '.', field('face', $.name)),
    range: $ => seq($._sum, '..', $._sum),
    _range: $ => $.range,
    _span: $ => choice($._sum, $.range),
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
