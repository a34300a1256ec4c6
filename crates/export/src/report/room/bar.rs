//! A range as a small picture in text.

/// So many letters wide.
const WIDTH: usize = 24;

/// What was looked over, from the least to the greatest: `━` where values pass, `·` where they do not,
/// `┃` the value as drawn.
pub(super) fn bar([least, most]: [f64; 2], drawn: f64, passing: &[[f64; 2]]) -> String {
    let each = (most - least) / WIDTH as f64;
    let drawn_at = (((drawn - least) / each) as usize).min(WIDTH - 1);
    let letter = |at: usize| {
        let (from, to) = (least + each * at as f64, least + each * (at + 1) as f64);
        match passing.iter().any(|it| it[0] <= to && from <= it[1]) {
            _ if at == drawn_at => '┃',
            true => '━',
            false => '·',
        }
    };
    (0..WIDTH).map(letter).collect()
}

/// How many lie in each of equal stretches, a letter each: blank where none does, then as high as its
/// share of the greatest.
pub(super) fn histogram(bins: &[u32]) -> String {
    const HEIGHTS: [char; 8] = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];
    let most = bins.iter().copied().max().unwrap_or(0).max(1);
    let letter = |count: &u32| match count {
        0 => ' ',
        count => HEIGHTS[(((count * 8).div_ceil(most)) as usize - 1).min(7)],
    };
    bins.iter().map(letter).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_histogram_is_as_high_as_its_counts() {
        assert_eq!(histogram(&[0, 1, 50, 100, 51, 13]), " ▁▄█▅▂");
        assert_eq!(histogram(&[0, 0]), "  ");
    }

    #[test]
    fn what_passes_is_drawn_through() {
        let drawn = bar([0.0, 24.0], 12.5, &[[6.5, 14.5], [20.2, 20.8]]);
        assert_eq!(drawn, "······━━━━━━┃━━·····━···");
        assert_eq!(bar([5.0, 5.0], 5.0, &[[5.0, 5.0]]).chars().count(), WIDTH);
    }
}
