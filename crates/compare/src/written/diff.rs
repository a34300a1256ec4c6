//! A line as it was and as it is, in one: `drill 12.2 -> 12.9 to 54`.

use super::word::Word;

/// A word, and whether a blank stands before it.
#[derive(Clone, Copy)]
struct Piece<'a> {
    text: &'a str,
    apart: bool,
}

/// The words of a statement's line in one, blanks where they stood apart.
pub(crate) fn line(words: &[Word]) -> String {
    joined(&pieces(words))
}

/// Both in one, what they share said once.
pub(crate) fn diff(old: &[Word], new: &[Word]) -> String {
    diff_of(&pieces(old), &pieces(new))
}

/// The same of texts, word by word.
pub(crate) fn diff_of_texts(old: &str, new: &str) -> String {
    let [old, new] = [old, new].map(|text| -> Vec<Piece> {
        let words = text.split(' ');
        words.map(|text| Piece { text, apart: true }).collect()
    });
    diff_of(&old, &new)
}

fn pieces(words: &[Word]) -> Vec<Piece<'_>> {
    let each = words.iter().map(|it| Piece {
        text: &it.text,
        apart: it.apart,
    });
    each.collect()
}

fn joined(pieces: &[Piece]) -> String {
    let mut line = String::new();
    for (at, piece) in pieces.iter().enumerate() {
        if piece.apart && at > 0 {
            line.push(' ');
        }
        line.push_str(piece.text);
    }
    line
}

fn diff_of(old: &[Piece], new: &[Piece]) -> String {
    let [was, is] = [old, new].map(|it| it.iter().map(|it| it.text).collect::<Vec<_>>());
    let ends = common(&was, &is).into_iter();
    let (mut from, mut to) = (0, 0);
    let mut said: Vec<String> = Vec::new();
    for (a, b) in ends.chain([(old.len(), new.len())]) {
        match (joined(&old[from..a]), joined(&new[to..b])) {
            (was, is) if was.is_empty() && is.is_empty() => {}
            (was, is) if was.is_empty() => said.push(format!("(new {is})")),
            (was, is) if is.is_empty() => said.push(format!("(without {was})")),
            (was, is) => said.push(format!("{was} -> {is}")),
        }
        if let Some(piece) = new.get(b) {
            match said.last_mut() {
                Some(last) if !piece.apart && !last.contains("->") => last.push_str(piece.text),
                _ => said.push(piece.text.to_owned()),
            }
        }
        (from, to) = (a + 1, b + 1);
    }
    said.join(" ")
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
    fn what_is_shared_is_said_once() {
        assert_eq!(
            diff_of_texts("point at 9.0", "point at 9.6"),
            "point at 9.0 -> 9.6"
        );
        assert_eq!(
            diff_of_texts("DRILL ⌀8 to 5", "DRILL ⌀8 to 5 flat"),
            "DRILL ⌀8 to 5 (new flat)"
        );
        assert_eq!(diff_of_texts("a b", "b"), "(without a) b");
    }
}
