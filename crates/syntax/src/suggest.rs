//! The nearest word to one that is not known.

/// The candidate that `word` was most likely meant to be, if any is near: one slip in a short
/// word, two in a longer one. Of equally near ones the first wins.
pub fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let word = word.to_lowercase();
    let length = word.chars().count();
    let most = match length {
        0 | 1 => return None,
        2..=4 => 1,
        _ => 2,
    };
    candidates
        .into_iter()
        .filter(|candidate| candidate.chars().count().abs_diff(length) <= most)
        .map(|candidate| (strsim::damerau_levenshtein(&word, candidate), candidate))
        .filter(|&(distance, candidate)| distance <= most && distance < candidate.len())
        .min_by_key(|&(distance, _)| distance)
        .map(|(_, candidate)| candidate)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_is_seen_through_and_another_word_is_not() {
        let words = ["tenon", "drill", "bore", "ream", "thread", "for", "to"];
        assert_eq!(nearest("dril", words), Some("drill"));
        assert_eq!(nearest("Drill", words), Some("drill"));
        assert_eq!(nearest("theard", words), Some("thread"));
        assert_eq!(nearest("boer", words), Some("bore"));
        assert_eq!(nearest("mill", words), None);
        assert_eq!(nearest("x", words), None);
        assert_eq!(nearest("ot", words), Some("to"));
    }
}
