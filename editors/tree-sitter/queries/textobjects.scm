; An item is a class, its blocks are functions, so that an editor steps by them.
[(item_part) (bought) (pen) (made) (item_bench) (material)] @class.around
[(material_line_block) (part_line_block) (station_block) (cut_block) (side_line_block) (pen_line_block) (joint_line_block) (bench_line_block) (made_line_block)] @function.around
(comment) @comment.around
