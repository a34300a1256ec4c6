//! A line as it was and as it is, in one: `drill 12.2 -> 12.9 to 54`.

use super::statement::{Statement, Word, line};

/// Both in one, what they share told once.
pub(crate) fn told(old: &[Word], new: &[Word]) -> String {
    let common = common(&texts(old), &texts(new));
    let (mut from, mut to) = (0, 0);
    let mut pieces: Vec<String> = Vec::new();
    for (a, b) in common.into_iter().chain([(old.len(), new.len())]) {
        match (line(&old[from..a]), line(&new[to..b])) {
            (was, is) if was.is_empty() && is.is_empty() => {}
            (was, is) if was.is_empty() => pieces.push(format!("(new {is})")),
            (was, is) if is.is_empty() => pieces.push(format!("(without {was})")),
            (was, is) => pieces.push(format!("{was} -> {is}")),
        }
        if let Some(word) = new.get(b) {
            match pieces.last_mut() {
                Some(last) if !word.apart && !last.contains("->") => last.push_str(&word.text),
                _ => pieces.push(word.text.clone()),
            }
        }
        (from, to) = (a + 1, b + 1);
    }
    pieces.join(" ")
}

/// The same of an item's line, without what names it: `11.4 -> 11.0` of `let grip = 11.4`.
pub(crate) fn told_of_value(old: &Statement, new: &Statement) -> String {
    let named = old.tokens.iter().zip(&new.tokens).take(2);
    let same = named.filter(|(was, is)| was.text == is.text).count();
    let skip = |it: &Statement| {
        let equals = it.tokens.get(same).is_some_and(|it| it.text == "=");
        if equals { same + 1 } else { same }
    };
    told(&old.tokens[skip(old)..], &new.tokens[skip(new)..])
}

/// The same of texts, word by word.
pub(crate) fn told_of_texts(old: &str, new: &str) -> String {
    let (old, new): (Vec<&str>, Vec<&str>) = (old.split(' ').collect(), new.split(' ').collect());
    let (mut from, mut to) = (0, 0);
    let mut pieces: Vec<String> = Vec::new();
    let ends = common(&old, &new).into_iter();
    for (a, b) in ends.chain([(old.len(), new.len())]) {
        match (old[from..a].join(" "), new[to..b].join(" ")) {
            (was, is) if was.is_empty() && is.is_empty() => {}
            (was, is) if was.is_empty() => pieces.push(format!("(new {is})")),
            (was, is) if is.is_empty() => pieces.push(format!("(without {was})")),
            (was, is) => pieces.push(format!("{was} -> {is}")),
        }
        pieces.extend(new.get(b).map(|it| (*it).to_owned()));
        (from, to) = (a + 1, b + 1);
    }
    pieces.join(" ")
}

fn texts(words: &[Word]) -> Vec<&str> {
    words.iter().map(|it| it.text.as_str()).collect()
}

/// The longest run that two lists share, as places in both, in order.
pub(crate) fn common<T: PartialEq>(old: &[T], new: &[T]) -> Vec<(usize, usize)> {
    let mut length = vec![vec![0_usize; new.len() + 1]; old.len() + 1];
    for a in (0..old.len()).rev() {
        for b in (0..new.len()).rev() {
            length[a][b] = match old[a] == new[b] {
                true => length[a + 1][b + 1] + 1,
                false => length[a + 1][b].max(length[a][b + 1]),
            };
        }
    }
    let (mut a, mut b, mut shared) = (0, 0, Vec::new());
    while a < old.len() && b < new.len() {
        if old[a] == new[b] {
            shared.push((a, b));
            (a, b) = (a + 1, b + 1);
        } else if length[a + 1][b] >= length[a][b + 1] {
            a += 1;
        } else {
            b += 1;
        }
    }
    shared
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_shared_is_told_once() {
        assert_eq!(
            told_of_texts("point at 9.0", "point at 9.6"),
            "point at 9.0 -> 9.6"
        );
        assert_eq!(
            told_of_texts("DRILL ⌀8 to 5", "DRILL ⌀8 to 5 flat"),
            "DRILL ⌀8 to 5 (new flat)"
        );
        assert_eq!(told_of_texts("a b", "b"), "(without a) b");
    }
}
