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
    _item: $ => choice($.use, $.let, $.limit, $.material, $.item_thread, $.item_blank, $.item_part, $.bought, $.item_bench, $.shelf, $.pen, $.made),
    use: $ => seq('use', field('path', $.text)),
    let: $ => seq('let', field('name', $.name), '=', $._sum),
    limit: $ => seq('limit', field('rule', $.name), '=', $._sum),
    material: $ => seq('material', field('name', $.name), optional(field('title', $.text)), $.material_line_block),
    item_thread: $ => seq('thread', field('name', $.name), '=', $.designation, optional($._starts_1)),
    item_blank: $ => seq('blank', field('name', $.name), 'of', field('material', $.name), choice($._rod_1, $._square_1, $._tube_1), optional($._by_1), optional('matched')),
    item_part: $ => seq('part', field('name', $.name), choice($._from_1, $._like_1)),
    bought: $ => seq('bought', field('name', $.name), optional(field('title', $.text)), choice(seq(optional($._from_2), $.part_line_block), $._like_1)),
    item_bench: $ => seq('bench', field('name', $.name), optional(field('title', $.text)), $.bench_line_block),
    shelf: $ => seq('shelf', field('name', $.name), $.shelf_line_block),
    pen: $ => seq('pen', field('name', $.name), optional(field('title', $.text)), optional($._like_2), $.pen_line_block),
    made: $ => seq('made', field('name', $.name), optional($._on_1), 'of', field('pen', $.name), $.made_line_block),

    // Line of a material
    _material_line: $ => choice($.kind, $.density, $.wall, $.speed, $.modulus, $.strain, $.mix, $.pigment, $.colour),
    kind: $ => seq('kind', field('kind', $.name)),
    density: $ => seq('density', $._sum),
    wall: $ => seq('wall', $._sum),
    speed: $ => seq('speed', $._span),
    modulus: $ => seq('modulus', $._sum),
    strain: $ => seq('strain', $._sum),
    mix: $ => seq('mix', $._sum, ':', $._sum, 'by', choice('weight', 'volume')),
    pigment: $ => seq('pigment', $._sum),
    colour: $ => seq('colour', field('colour', $.text)),
    material_line_block: $ => block($, $._material_line),

    // Line of a part
    _part_line: $ => choice($.let, $.limit, $.want, $.accept, $.part_line_bench, $.part_line_blank, $.length, $.outside, $.from, $.side, $.finish, $.mass, $.holds, $.ring, $.arm, $.throw, $.pulls, $.grips),
    want: $ => seq('want', $._sum, choice(seq('<', $._sum), seq('<=', $._sum), seq('>', $._sum), seq('>=', $._sum), seq('=', $._sum, '+-', $._sum), $._within_1)),
    accept: $ => seq('accept', field('rule', $.name), optional($._at_1), 'because', field('reason', $.text)),
    part_line_bench: $ => seq('bench', field('bench', $.name)),
    part_line_blank: $ => seq('blank', choice(field('name', $.name), $._of_1)),
    length: $ => seq('length', $._span),
    outside: $ => seq('outside', choice($.station_block, $._dia_1)),
    from: $ => seq('from', field('end', $.name), $.cut_block),
    side: $ => seq('side', $.side_line_block),
    finish: $ => seq('finish', field('finish', $.text), 'coat', $._sum),
    mass: $ => seq('mass', $._sum, optional($._at_2)),
    holds: $ => seq('holds', $._sum),
    ring: $ => seq('ring', $._sum, 'by', $._sum),
    arm: $ => seq('arm', $._sum),
    throw: $ => seq('throw', $._sum, 'from', field('end', $.name)),
    pulls: $ => seq('pulls', $._sum),
    grips: $ => seq('grips', $._range),
    part_line_block: $ => block($, $._part_line),

    // Station
    _station: $ => choice($.at),
    at: $ => seq('at', $._sum, optional($._from_3), 'dia', $._sum, optional(choice('smooth', 'dome', $._bead_1, $._cove_1)), optional($._step_1), optional(choice($._round_1, $._chamfer_1)), optional($._as_1)),
    station_block: $ => block($, $._station),

    // Cut
    _cut: $ => choice($.accept, $.tenon, $.cut_drill, $.bore, $.ream, $.cut_thread, $.relief, $.groove, $.recess, $.taper, $.countersink, $.chamfer, $.round),
    tenon: $ => seq('tenon', optional($._sum), 'for', $._sum, optional($._as_1)),
    cut_drill: $ => seq('drill', $._size, choice($._to_1, $._for_1, 'through'), optional($._at_2), optional($._point_1), optional($._on_2), optional($._as_1)),
    bore: $ => seq('bore', $._size, choice($._to_1, $._for_1, 'through'), optional($._at_2), optional($._on_2), optional($._as_1)),
    ream: $ => seq('ream', $._size, choice($._to_1, $._for_1, 'through'), optional($._at_2), optional($._as_1)),
    cut_thread: $ => seq('thread', $._thread_said, choice('inside', 'outside'), choice($._to_1, $._for_1, 'through'), optional($._at_2), optional($._clock_1), optional($._as_1)),
    relief: $ => seq('relief', $._sum, choice($._for_1, $._to_1, 'through'), optional($._at_2), optional($._as_1)),
    groove: $ => seq('groove', $._sum, choice($._for_1, $._to_1, 'through'), optional($._at_2), optional($._takes_1), optional($._as_1)),
    recess: $ => seq('recess', $._sum, choice($._for_1, $._to_1, 'through'), optional($._at_2), optional($._takes_1), optional($._as_1)),
    taper: $ => seq('taper', $._sum, 'to', $._sum, choice($._for_1, $._to_1, 'through'), optional($._at_2), optional($._as_1)),
    countersink: $ => seq('countersink', $._sum, optional($._angle_1), optional($._as_1)),
    chamfer: $ => seq('chamfer', $._sum, optional($._as_1)),
    round: $ => seq('round', $._sum, optional($._as_1)),
    cut_block: $ => block($, $._cut),

    // Cut from the side
    _side_line: $ => choice($.accept, $.flat, $.side_line_drill, $.slot, $.pattern),
    flat: $ => seq('flat', choice($._across_1, $._deep_1, 'sharp'), 'at', $._sum, optional($._from_3), optional(seq('..', $._sum, optional($._from_3))), optional($._indexed_1), optional($._clock_1), optional($._takes_1), optional($._as_1)),
    side_line_drill: $ => seq('drill', $._size, optional(choice($._to_1, 'through')), 'at', $._sum, optional($._from_3), optional(seq('..', $._sum, optional($._from_3))), optional($._indexed_1), optional($._clock_1), optional($._takes_1), optional($._as_1)),
    slot: $ => seq('slot', $._sum, optional(choice($._to_1, 'through')), 'at', $._sum, optional($._from_3), optional(seq('..', $._sum, optional($._from_3))), optional($._indexed_1), optional($._clock_1), optional($._takes_1), optional($._as_1)),
    pattern: $ => seq('pattern', field('pattern', $.text), 'deep', $._sum, optional($._share_1), 'at', $._sum, optional($._from_3), optional(seq('..', $._sum, optional($._from_3))), optional($._indexed_1), optional($._clock_1), optional($._takes_1), optional($._as_1)),
    side_line_block: $ => block($, $._side_line),

    // Line of a pen
    _pen_line: $ => choice($.let, $.limit, $.want, $.accept, $.part_line_bench, $.screw, $.close, $.post, $.slip, $.press, $.glue, $.push, $.rest, $.fill),
    screw: $ => seq('screw', $.face, choice('into', 'onto'), $.face, repeat(choice($._with_1, $._through_1, $._by_1, $._fit_1, $._clearance_1, $._interference_1, $._gap_1, $._snap_1, $._before_1)), optional($.joint_line_block)),
    close: $ => seq('close', $.face, choice('into', 'onto'), $.face, repeat(choice($._with_1, $._through_1, $._by_1, $._fit_1, $._clearance_1, $._interference_1, $._gap_1, $._snap_1, $._before_1)), optional($.joint_line_block)),
    post: $ => seq('post', $.face, choice('into', 'onto'), $.face, repeat(choice($._with_1, $._through_1, $._by_1, $._fit_1, $._clearance_1, $._interference_1, $._gap_1, $._snap_1, $._before_1)), optional($.joint_line_block)),
    slip: $ => seq('slip', $.face, choice('into', 'onto'), $.face, repeat(choice($._with_1, $._through_1, $._by_1, $._fit_1, $._clearance_1, $._interference_1, $._gap_1, $._snap_1, $._before_1)), optional($.joint_line_block)),
    press: $ => seq('press', $.face, choice('into', 'onto'), $.face, repeat(choice($._with_1, $._through_1, $._by_1, $._fit_1, $._clearance_1, $._interference_1, $._gap_1, $._snap_1, $._before_1)), optional($.joint_line_block)),
    glue: $ => seq('glue', $.face, choice('into', 'onto'), $.face, repeat(choice($._with_1, $._through_1, $._by_1, $._fit_1, $._clearance_1, $._interference_1, $._gap_1, $._snap_1, $._before_1)), optional($.joint_line_block)),
    push: $ => seq('push', $.face, choice('into', 'onto'), $.face, repeat(choice($._with_1, $._through_1, $._by_1, $._fit_1, $._clearance_1, $._interference_1, $._gap_1, $._snap_1, $._before_1)), optional($.joint_line_block)),
    rest: $ => seq('rest', $.face, choice('into', 'onto'), $.face, repeat(choice($._with_1, $._through_1, $._by_1, $._fit_1, $._clearance_1, $._interference_1, $._gap_1, $._snap_1, $._before_1)), optional($.joint_line_block)),
    fill: $ => seq('fill', field('part', $.name)),
    pen_line_block: $ => block($, $._pen_line),

    // Line of a joint
    _joint_line: $ => choice($.limit, $.want, $.accept, $.seat, $.flush),
    seat: $ => seq('seat', $.face, 'on', $.face),
    flush: $ => 'flush',
    joint_line_block: $ => block($, $._joint_line),

    // Line of a bench
    _bench_line: $ => choice($.limit, $.drills, $.flats, $.boring, $.reamers, $.collets, $.bushings, $.mandrels, $.index, $.cutters, $.taps, $.dies, $.saw, $.lathe, $.keeps, $.caliper),
    drills: $ => seq('drills', $._sizes, optional($._reach_1)),
    flats: $ => seq('flats', $._sizes),
    boring: $ => seq('boring', $._sizes, optional($._reach_1)),
    reamers: $ => seq('reamers', $._sizes),
    collets: $ => seq('collets', $._sizes),
    bushings: $ => seq('bushings', $._sizes, optional($._pilot_1)),
    mandrels: $ => seq('mandrels', $._sizes),
    index: $ => seq('index', $._sizes),
    cutters: $ => seq('cutters', $._sizes),
    taps: $ => seq('taps', $._threads, optional($._lead_1)),
    dies: $ => seq('dies', $._threads, optional($._lead_1)),
    saw: $ => seq('saw', 'kerf', $._sum),
    lathe: $ => seq('lathe', $._spans, repeat(choice($._bore_1, $._centres_1, $._travel_1, 'screwcutting'))),
    keeps: $ => seq('keeps', choice('depth', 'shoulder', 'length', 'dia', 'bore', 'drill', 'nib'), $._sum),
    caliper: $ => seq('caliper', $._sum),
    bench_line_block: $ => block($, $._bench_line),

    // Line of a shelf
    _shelf_line: $ => choice($.have, $.price, $.hours, $.rate),
    have: $ => seq('have', field('ware', $.name), optional(seq(choice($._rod_1, $._square_1), 'by', $._sums)), optional($._sum)),
    price: $ => seq('price', field('ware', $.name), optional(seq(choice($._rod_1, $._square_1), 'by', $._sums)), '=', $._sum),
    hours: $ => seq('hours', field('pen', $.name), $._sum),
    rate: $ => seq('rate', $._sum),
    shelf_line_block: $ => block($, $._shelf_line),

    // Line of what was made
    _made_line: $ => choice($.accept, $.made_line_part, $.measured),
    made_line_part: $ => seq('part', field('part', $.name), $.part_line_block),
    measured: $ => seq('measured', $.call, $._sum),
    made_line_block: $ => block($, $._made_line),

    // Phrases
    _starts_1: $ => seq('starts', $._sum),
    _rod_1: $ => seq('rod', $._sum),
    _square_1: $ => seq('square', $._sum),
    _tube_1: $ => seq('tube', $._sum, 'wall', $._sum),
    _by_1: $ => seq('by', $._sum),
    _from_1: $ => seq('from', field('first', $.name), 'to', field('second', $.name), $.part_line_block),
    _like_1: $ => seq('like', field('part', $.name), optional($.part_line_block)),
    _from_2: $ => seq('from', field('first', $.name), 'to', field('second', $.name)),
    _like_2: $ => seq('like', field('pen', $.name)),
    _on_1: $ => seq('on', field('date', $.text)),
    _within_1: $ => seq('within', $._range),
    _at_1: $ => seq('at', $._range),
    _to_1: $ => seq('to', $._sum),
    _gap_1: $ => seq('gap', $._sum),
    _spigot_1: $ => seq('spigot', $._sum, 'for', $._sum, optional($._gap_1)),
    _of_1: $ => seq('of', field('material', $.name), choice($._rod_1, $._square_1, $._tube_1), optional($._by_1), optional($._to_1), optional($._spigot_1)),
    _dia_1: $ => seq('dia', $._sum),
    _at_2: $ => seq('at', $._sum),
    _from_3: $ => seq('from', field('end', $.name)),
    _bead_1: $ => seq('bead', $._sum),
    _cove_1: $ => seq('cove', $._sum),
    _step_1: $ => seq('step', $._sum),
    _round_1: $ => seq('round', $._sum),
    _chamfer_1: $ => seq('chamfer', $._sum),
    _as_1: $ => seq('as', field('face', $.name)),
    _for_1: $ => seq('for', $._sum),
    _point_1: $ => seq('point', $._sum),
    _indexed_1: $ => seq('indexed', $._sum),
    _clock_1: $ => seq('clock', $._sum),
    _takes_1: $ => seq('takes', field('part', $.name)),
    _on_2: $ => seq('on', $._sum, optional($._indexed_1), optional($._clock_1), optional($._takes_1)),
    _angle_1: $ => seq('angle', $._sum),
    _across_1: $ => seq('across', $._sum, optional($._to_1)),
    _deep_1: $ => seq('deep', $._sum),
    _share_1: $ => seq('share', $._sum),
    _with_1: $ => seq('with', field('thread', $.name)),
    _through_1: $ => seq('through', commas(field('part', $.name))),
    _fit_1: $ => seq('fit', $.fit),
    _clearance_1: $ => seq('clearance', $._sum),
    _interference_1: $ => seq('interference', $._sum),
    _snap_1: $ => seq('snap', $._sum),
    _before_1: $ => seq('before', 'turning'),
    _reach_1: $ => seq('reach', $._sum),
    _pilot_1: $ => seq('pilot', $._sum),
    _lead_1: $ => seq('lead', $._lead),
    _bore_1: $ => seq('bore', $._sum),
    _centres_1: $ => seq('centres', $._sum),
    _travel_1: $ => seq('travel', $._sum),

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
