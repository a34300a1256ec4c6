; Written from the statements by crates/syntax/tests/grammar; do not edit.
[
  (material_line_block)
  (part_line_block)
  (station_block)
  (cut_block)
  (side_line_block)
  (pen_line_block)
  (joint_line_block)
  (bench_line_block)
  (shelf_line_block)
  (made_line_block)
] @indent.begin

"}" @indent.branch @indent.end
