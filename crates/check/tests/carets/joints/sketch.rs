//! A closed pen of four parts, some of whose sizes a test may set.

/// A closed pen whose section, converter, barrel and cap a test may set.
#[expect(clippy::too_many_lines, reason = "one text")]
pub(super) fn pen(section: &str, barrel: &str, cap: &str) -> String {
    format!(
        "\
thread closing = M13x0.8 starts 3
thread joint   = M10x0.75
thread housing = M7.4x0.5

bought nib-unit from point to heel {{
  length 41.5
  mass 2.6 at 26
  outside {{
    at 0           dia 4
    at 10          dia 10
    at 22.5        dia 8   step 8.4
    at 23.7        dia 8.4 step 7.4 as collar
    at 30.7        dia 7.4 step 6.2
    at 5 from heel dia 6.2 step 4.2
    at heel        dia 4.2
  }}
  from heel {{
    thread housing outside for 7 at 10.8
  }}
}}

bought converter from mouth to end {{
  length 73
  mass 2.8
  holds 0.8
  outside dia 7.4
  from mouth {{
    bore 4.2 to 6
  }}
}}

bought clip from under to over {{
  length 1
  mass 2
  outside dia 12
  from under {{
    bore 9.2 through
  }}
  arm 38
}}

part cap from mouth to crown {{
  blank of acrylic rod 18
  length 64
  outside {{
    at 0            dia 15.2
    at 6 from crown dia 14.4 smooth
    at crown        dia 0    dome
  }}
  from mouth {{
    bore 13.1             to 2.5
    thread closing inside to 7.5 at 2.5
    drill 12.2            to {cap}
  }}
}}

part barrel from mouth to tail {{
  blank of acrylic rod 18
  length 82
  outside {{
    at 8           dia 14.4 as shoulder
    at 6 from tail dia 12   smooth
    at tail        dia 0    dome
  }}
  from mouth {{
    tenon                  for 8
    relief 12.0            for 1.5
    thread closing outside for 4 at 1.5
    relief 12.0            for 2.5 at 5.5
    drill 9.3              to 12
    thread joint inside    to 9
    countersink 10.4
    drill 8.0              to {barrel}
  }}
}}

part section from tip to shank {{
  blank of acrylic rod 14
  length 30
  outside {{
    at 0  dia 10.4
    at 3  dia 10   smooth
    at 22 dia 11.2 smooth as shoulder
  }}
  from tip {{
    bore 8.6                to 1.2
    drill 6.9               to 10.5
    thread housing inside   to 9
    drill 6.3               through
  }}
  from shank {{
    tenon                for 8
    thread joint outside for 6
    {section}
    drill 8.0            to 17
  }}
}}

pen sketch {{
  screw nib-unit.heel into section.tip
  push  converter.mouth onto nib-unit.heel by 5
  screw section.shank into barrel.mouth
  close cap.mouth onto barrel.mouth {{
    seat cap.mouth on barrel.shoulder
  }}
  accept rolls-away because \"a sketch\"
}}
"
    )
}

pub(super) const RELIEF: &str = "relief 9.0            for 2 at 6";
